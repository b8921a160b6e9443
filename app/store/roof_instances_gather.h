/* What the two forms of packing instances share. Private to the store. */
#ifndef WB_ROOF_INSTANCES_GATHER_H
#define WB_ROOF_INSTANCES_GATHER_H

#include "hours_text.h"
#include "roof_instances.h"

struct WbRoofInstances {
    GPtrArray *each;     /* of WbRoofInstance * */
    GPtrArray *not_read; /* of char * */
};

/* The next line that holds something and is no comment (#), without spaces around; FALSE: none. */
gboolean wb_instances_next(WbHoursText *text, WbCell *line);
/* An empty instance that begins in the line just taken; NULL and error where there are too many. */
WbRoofInstance *wb_instances_add(WbRoofInstances *to, const WbHoursText *text, char *name,
                                 GError **error);

/* name W H n_obstacles n_sizes most turns, then the obstacles, then the sizes. */
gboolean wb_instances_read_plain(WbHoursText *text, WbRoofInstances *to, GError **error);
/* The columns L, W, l, w; a row an instance. */
gboolean wb_instances_read_pallets(WbHoursText *text, WbRoofInstances *to, GError **error);

#endif
