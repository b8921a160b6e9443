/* What a brief asks of the wiring, as fields of a form. */
#ifndef WB_WIRING_FIELDS_H
#define WB_WIRING_FIELDS_H

#include "brief_field.h"

typedef enum {
    WB_WIRING_ON,
    WB_WIRING_RULES,
    WB_WIRING_SIZES,
    WB_WIRING_TERMINALS,
    WB_WIRING_INSIDE,
    WB_WIRING_ROOF,
    WB_WIRING_BUNDLED,
    WB_N_WIRING_FIELDS,
} WbWiringFieldId;

const WbBriefField *wb_wiring_field(WbWiringFieldId id);
/* The length of a kind of circuit; empty while it is assumed. */
const WbBriefField *wb_wiring_length_field(WbCircuitKind kind);

#endif
