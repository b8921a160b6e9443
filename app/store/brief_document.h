/* The tree inside a brief file, for its edits. Private to the store. */
#ifndef WB_BRIEF_DOCUMENT_H
#define WB_BRIEF_DOCUMENT_H

#include "brief_file.h"
#include "json.h"

/* An edited tree of `before`, which it takes whether it is a valid brief or not. (transfer full),
 * NULL and error */
WbBriefFile *wb_brief_document_take(cJSON *tree, const WbBriefFile *before, GError **error);
const cJSON *wb_brief_document_tree(const WbBriefFile *file);
const char *wb_brief_document_name(const WbBriefFile *file);

#endif
