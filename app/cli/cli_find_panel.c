#include "cli_find_panel.h"

#include "cli.h"
#include "edit_distance.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* Ids have at most 64 characters. */
#define TOLD_MOST 64

const WbPanel *wb_cli_find_panel(const WbCatalogue *catalogue, const char *id)
{
    for (size_t i = 0; i < catalogue->n_panels; i++)
        if (strcmp(catalogue->panels[i].part.id, id) == 0)
            return &catalogue->panels[i];
    return NULL;
}

const char *wb_cli_nearest_panel(const WbCatalogue *catalogue, const char *text)
{
    const char *nearest = NULL;
    guint least = (guint)MIN(strlen(text), 15) / 3 + 1;
    for (size_t i = 0; i < catalogue->n_panels; i++) {
        guint changes = wb_edit_distance(text, catalogue->panels[i].part.id, least);
        if (changes < least) {
            least = changes;
            nearest = catalogue->panels[i].part.id;
        }
    }
    for (size_t i = 0; nearest == NULL && strlen(text) > 2 && i < catalogue->n_panels; i++)
        if (strstr(catalogue->panels[i].part.id, text) != NULL)
            nearest = catalogue->panels[i].part.id;
    return nearest;
}

char *wb_cli_told(const char *text)
{
    g_autofree char *start = g_strndup(text, TOLD_MOST);
    return g_utf8_make_valid(start, -1);
}

int wb_cli_fail_panel(const WbCatalogue *catalogue, const char *id)
{
    g_autofree char *text = wb_cli_told(id);
    const char *nearest = wb_cli_nearest_panel(catalogue, text);
    if (nearest != NULL)
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("The catalogue has no panel “%s” (did you mean %s?)."), text, nearest);
    return wb_cli_fail(WB_EXIT_WRONG_USE,
                       _("The catalogue has no panel “%s”; wattberth catalogue export - prints the "
                         "ids of all panels."),
                       text);
}
