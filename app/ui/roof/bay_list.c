#include "bay_list.h"

#include "figures_text.h"
#include <glib/gi18n-lib.h>

struct _WbBayList {
    GtkBox parent_instance;
    GtkLabel *status;
    GtkGrid *grid;
    WbResult *shown; /* what the grid shows, NULL nothing */
};

G_DEFINE_FINAL_TYPE(WbBayList, wb_bay_list, GTK_TYPE_BOX)

char *wb_bay_words(int stand, int bound, int asked)
{
    if (stand == bound && stand == asked)
        return g_strdup_printf(_("%d stand; no bank has more"), stand);
    if (stand == bound && stand == 0)
        return g_strdup(_("does not stand in it: proved"));
    if (stand == bound)
        return g_strdup_printf(_("%d stand, %d do not: proved"), stand, stand + 1);
    return g_strdup_printf(_("%d stand; up to %d are not decided"), stand, bound);
}

static gboolean same_bay(const WbBay *a, const WbBay *b)
{
    return a->length_mm == b->length_mm && a->width_mm == b->width_mm &&
           a->height_mm == b->height_mm && a->gap_mm == b->gap_mm;
}

static void add_cell(WbBayList *self, const char *text, int column, int row, gboolean head)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), column == 1 ? 1 : 0);
    gtk_label_set_wrap(GTK_LABEL(label), column != 1);
    gtk_widget_add_css_class(label, head ? "small" : "numeric");
    if (head)
        gtk_widget_add_css_class(label, "quiet");
    gtk_grid_attach(self->grid, label, column, row, 1, 1);
}

static void add_row(WbBayList *self, const WbStorageChoice *choice, int asked, int row)
{
    const WbStorage *storage = choice->storage;
    g_autofree char *name =
        g_strstrip(g_strdup_printf("%s %s", storage->part.maker, storage->part.model));
    g_autofree char *length = wb_text_number((double)storage->length_mm, 0);
    g_autofree char *width = wb_text_number((double)storage->width_mm, 0);
    g_autofree char *height = wb_text_number((double)storage->height_mm, 0);
    g_autofree char *size = g_strdup_printf("%s \303\227 %s \303\227 %s", length, width, height);
    g_autofree char *words = wb_bay_words(choice->bay_fits, choice->bay_bound, asked);
    add_cell(self, name, 0, row, FALSE);
    add_cell(self, size, 1, row, FALSE);
    add_cell(self, words, 2, row, FALSE);
}

static void fill(WbBayList *self, WbResult *result)
{
    GtkWidget *old;
    while ((old = gtk_widget_get_first_child(GTK_WIDGET(self->grid))) != NULL)
        gtk_grid_remove(self->grid, old);
    g_clear_pointer(&self->shown, wb_result_unref);
    if (result == NULL)
        return;
    const WbProblem *problem = wb_result_get_problem(result);
    const WbLargest *largest = &problem->brief->largest;
    int asked = largest->bank_series * largest->bank_parallel;
    add_cell(self, _("Battery"), 0, 0, TRUE);
    add_cell(self, _("Size, mm"), 1, 0, TRUE);
    add_cell(self, _("Upright in the bay"), 2, 0, TRUE);
    for (gsize i = 0; i < problem->n_storage; i++)
        add_row(self, &problem->storage[i], asked, (int)i + 1);
    self->shown = wb_result_ref(result);
}

void wb_bay_list_show(WbBayList *self, const WbBrief *brief, WbResult *result)
{
    g_return_if_fail(WB_IS_BAY_LIST(self));
    gboolean given = brief->bay.length_mm > 0;
    gboolean holds =
        given && result != NULL && same_bay(&wb_result_get_brief(result)->bay, &brief->bay);
    gtk_label_set_text(self->status, !given
                                         ? _("Without a bay the room for the bank is not checked.")
                                     : !holds ? _("Working out what stands in this bay")
                                              : "");
    gtk_widget_set_visible(GTK_WIDGET(self->status), !holds);
    if (!holds)
        fill(self, NULL);
    else if (result != self->shown)
        fill(self, result);
    gtk_widget_set_visible(GTK_WIDGET(self->grid), holds);
}

GtkWidget *wb_bay_list_new(void)
{
    return g_object_new(WB_TYPE_BAY_LIST, "orientation", GTK_ORIENTATION_VERTICAL, "spacing", 6,
                        NULL);
}

static void wb_bay_list_finalize(GObject *object)
{
    g_clear_pointer(&WB_BAY_LIST(object)->shown, wb_result_unref);
    G_OBJECT_CLASS(wb_bay_list_parent_class)->finalize(object);
}

static void wb_bay_list_class_init(WbBayListClass *klass)
{
    G_OBJECT_CLASS(klass)->finalize = wb_bay_list_finalize;
}

static void wb_bay_list_init(WbBayList *self)
{
    self->status = GTK_LABEL(gtk_label_new(NULL));
    gtk_label_set_xalign(self->status, 0);
    gtk_label_set_wrap(self->status, TRUE);
    gtk_widget_add_css_class(GTK_WIDGET(self->status), "quiet");
    self->grid = GTK_GRID(gtk_grid_new());
    gtk_grid_set_column_spacing(self->grid, 12);
    gtk_grid_set_row_spacing(self->grid, 3);
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(self->status));
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(self->grid));
}
