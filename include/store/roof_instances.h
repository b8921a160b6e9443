/* Packing instances from outside, for the same code as the brief's own roof: a plain text form, and
 * rows of a CSV of pallet loading; both described in data/FORMATS.md. Read whole or refused whole,
 * with a sentence that names file, line, value and what is accepted. */
#ifndef WB_ROOF_INSTANCES_H
#define WB_ROOF_INSTANCES_H

#include "mix.h"
#include <glib.h>

enum {
    WB_ROOF_INSTANCES_MOST = 10000, /* of one file */
    WB_ROOF_INSTANCE_OBSTACLES = 1000,
    WB_ROOF_INSTANCE_COUNT = 100000, /* "how many fit, so many at most" */
};

typedef struct {
    char *name;
    int line;    /* of the file where it begins, from 1 */
    WbRoof roof; /* a rectangle with obstacles; no margin, gap or clearance */
    WbMixItem *items;
    size_t n_items;
    bool most; /* how many of the one item fit, its count at most; else: do all of them together */
} WbRoofInstance;

typedef struct WbRoofInstances WbRoofInstances; /* immutable */

/* (transfer full), NULL and error. `name` stands for the file in messages; length -1:
 * NUL-terminated. */
WbRoofInstances *wb_roof_instances_read(const char *path, GError **error);
WbRoofInstances *wb_roof_instances_parse(const char *text, gssize length, const char *name,
                                         GError **error);
void wb_roof_instances_free(WbRoofInstances *instances);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbRoofInstances, wb_roof_instances_free)

/* At least 1, in the order of the file; borrowed. */
guint wb_roof_instances_count(const WbRoofInstances *instances);
const WbRoofInstance *wb_roof_instances_get(const WbRoofInstances *instances, guint i);
/* Names of columns (char *) that were passed over. Borrowed. */
const GPtrArray *wb_roof_instances_not_read(const WbRoofInstances *instances);

#endif
