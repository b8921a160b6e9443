/* From the JSON tree of a brief to the record core works with. Texts are borrowed from the tree,
 * lists are owned by the record. Private to the store. */
#ifndef WB_BRIEF_READ_H
#define WB_BRIEF_READ_H

#include "brief.h"
#include "json_read.h"

#define WB_BRIEF_VERSION 1
#define WB_MOST_MM 100000
#define WB_LEAST_LENGTH_M 0.05 /* of a circuit, one way */
#define WB_MOST_LENGTH_M 100.0

/* FALSE and an error; the brief is then all zero. *not_read: of WbNotRead (transfer full). */
gboolean wb_brief_read(const cJSON *tree, const char *name, WbBrief *brief, GPtrArray **not_read,
                       GError **error);
void wb_brief_clear(WbBrief *brief);

/* Its parts, each in a file of its own; errors stick in the reader. */
void wb_read_loads(const WbJson *root, WbBrief *brief);   /* brief_read_loads.c */
void wb_read_site(const WbJson *root, WbBrief *brief);    /* brief_read_site.c */
void wb_read_space(const WbJson *root, WbBrief *brief);   /* brief_read_space.c: roof, bay */
void wb_read_wishes(const WbJson *root, WbBrief *brief);  /* brief_read_wishes.c: limits, anchors */
void wb_read_rank_by(const WbJson *root, WbBrief *brief); /* brief_read_rank_by.c */
void wb_read_wiring(const WbJson *root, WbBrief *brief);  /* brief_read_wiring.c */
void wb_read_picks(const WbJson *root, WbBrief *brief);   /* brief_read_picks.c: parts named */

/* A list of months 1..12 as bits 0..11; absent: all. */
uint32_t wb_read_months(const WbJson *at, int least);
/* Adds a bit to a set; refuses the item where the bit is there already. */
void wb_read_bit(const WbJson *at, unsigned bit, uint32_t *set);
/* Parts of the roof; its length and width are read already. */
void wb_read_obstacles(const WbJson *roof, WbRoof *to); /* brief_read_obstacles.c */
void wb_read_outline(const WbJson *roof, WbRoof *to);   /* brief_read_outline.c */
void wb_read_pins(const WbJson *roof, WbRoof *to);
void wb_read_gland(const WbJson *roof, WbRoof *to);
/* Whole millimetres, at most WB_MOST_MM. */
int64_t wb_read_mm(const WbJson *object, const char *key, int64_t least);
int64_t wb_read_mm_or_0(const WbJson *object, const char *key);
/* Degrees clockwise from north; "any", absent and, where it may be, null: NaN. */
double wb_read_azimuth(const WbJson *object, const char *key, bool may_be_null);
/* One way, of a circuit; absent or null: absent_m. */
double wb_read_length_m(const WbJson *object, const char *key, double absent_m);
/* An id of a part or shop. */
const char *wb_read_id(const WbJson *at);

#endif
