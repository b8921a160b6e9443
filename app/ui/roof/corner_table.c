#include "corner_table.h"

#include "brief_entry.h"
#include "roof_fields.h"
#include "roof_shape_edit.h"
#include "row_pager.h"
#include <glib/gi18n-lib.h>

struct _WbCornerTable {
    GtkBox parent_instance;
    GtkWidget *given, *grid, *pager, *problem;
    WbDocument *document;
    int n, first, rows; /* corners; the first in sight, and how many rows there are */
    gboolean filling;
};

G_DEFINE_FINAL_TYPE(WbCornerTable, wb_corner_table, GTK_TYPE_BOX)

static const WbRoof *roof_of(WbCornerTable *self)
{
    return &wb_document_get_brief(self->document)->roof;
}

static void tell(WbCornerTable *self, const char *sentence)
{
    gtk_label_set_text(GTK_LABEL(self->problem), sentence != NULL ? sentence : "");
    gtk_widget_set_visible(self->problem, sentence != NULL);
}

static void on_message(WbBriefEntry *entry, const char *sentence, WbCornerTable *self)
{
    tell(self, sentence);
}

static void report(WbCornerTable *self, gboolean done, GError *error)
{
    tell(self, done ? NULL : error->message);
    g_clear_error(&error);
}

/* ---- edits ---- */

static int corner_of(GtkWidget *button)
{
    return GPOINTER_TO_INT(g_object_get_data(G_OBJECT(button), "corner"));
}

/* Into the middle of the edge to the next corner. */
static void on_add(GtkWidget *button, WbCornerTable *self)
{
    GError *error = NULL;
    const WbRoof *roof = roof_of(self);
    guint edge = (guint)corner_of(button);
    g_return_if_fail(edge < roof->n_corners);
    const WbCorner *a = &roof->corners[edge], *b = &roof->corners[(edge + 1) % roof->n_corners];
    gboolean done = wb_corner_add(self->document, edge, (a->x_mm + b->x_mm) / 2,
                                  (a->y_mm + b->y_mm) / 2, &error);
    report(self, done, error);
}

static void on_remove(GtkWidget *button, WbCornerTable *self)
{
    GError *error = NULL;
    gboolean done = wb_corner_remove(self->document, (guint)corner_of(button), &error);
    report(self, done, error);
}

static void on_given(WbCornerTable *self)
{
    GError *error = NULL;
    if (self->filling)
        return;
    gboolean on = gtk_check_button_get_active(GTK_CHECK_BUTTON(self->given));
    gboolean done = wb_corners_set_given(self->document, on, &error);
    report(self, done, error);
}

/* ---- rows ---- */

static void add_text(WbCornerTable *self, const char *text, int column, int row, gboolean right)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), right ? 1 : 0);
    gtk_widget_add_css_class(label, "quiet");
    gtk_widget_add_css_class(label, "small");
    gtk_grid_attach(GTK_GRID(self->grid), label, column, row, 1, 1);
}

static void add_button(WbCornerTable *self, const char *icon, const char *name, GCallback clicked,
                       int corner, int column, int row)
{
    GtkWidget *button = gtk_button_new_from_icon_name(icon);
    gtk_widget_add_css_class(button, "flat");
    gtk_widget_set_tooltip_text(button, name);
    gtk_accessible_update_property(GTK_ACCESSIBLE(button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
    g_object_set_data(G_OBJECT(button), "corner", GINT_TO_POINTER(corner));
    g_signal_connect_object(button, "clicked", clicked, self, 0);
    gtk_grid_attach(GTK_GRID(self->grid), button, column, row, 1, 1);
}

static void add_row(WbCornerTable *self, int corner, int row)
{
    g_autofree char *number = g_strdup_printf("%d", corner + 1);
    g_autofree char *add = g_strdup_printf(_("Add a corner after corner %d"), corner + 1);
    g_autofree char *remove = g_strdup_printf(_("Remove corner %d"), corner + 1);
    add_text(self, number, 0, row, TRUE);
    for (int field = 0; field < WB_N_CORNER_FIELDS; field++) {
        const WbBriefField *about = wb_corner_field(field);
        /* Translators: a figure of a corner, for a screen reader: "From the left, corner 2". */
        g_autofree char *name = g_strdup_printf(_("%s, corner %d"), _(about->title), corner + 1);
        GtkWidget *cell = wb_brief_entry_new(self->document, about, corner, 6);
        wb_brief_entry_set_name(WB_BRIEF_ENTRY(cell), name);
        g_signal_connect_object(cell, "message", G_CALLBACK(on_message), self, 0);
        gtk_grid_attach(GTK_GRID(self->grid), cell, 1 + field, row, 1, 1);
    }
    add_button(self, "list-add-symbolic", add, G_CALLBACK(on_add), corner, 3, row);
    add_button(self, "list-remove-symbolic", remove, G_CALLBACK(on_remove), corner, 4, row);
}

static void add_heads(WbCornerTable *self)
{
    add_text(self, _("Corner"), 0, 0, TRUE);
    for (int field = 0; field < WB_N_CORNER_FIELDS; field++) {
        const WbBriefField *about = wb_corner_field(field);
        g_autofree char *text = g_strdup_printf("%s, %s", _(about->title), about->unit);
        add_text(self, text, 1 + field, 0, TRUE);
    }
}

/* Rows come and go at the end, so that a cell being typed in keeps the keyboard. */
static void build_rows(WbCornerTable *self)
{
    WbRowPager *pager = WB_ROW_PAGER(self->pager);
    self->rows = wb_row_pager_trim(pager, self->n, GTK_GRID(self->grid), self->rows);
    self->first = wb_row_pager_get_first(pager);
    if (gtk_widget_get_first_child(self->grid) == NULL)
        add_heads(self);
    while (self->rows < wb_row_pager_get_count(pager)) {
        add_row(self, self->first + self->rows, 1 + self->rows);
        self->rows++;
    }
    gtk_widget_set_visible(self->grid, self->n > 0);
}

static void on_changed(WbCornerTable *self)
{
    int n = (int)roof_of(self)->n_corners;
    self->filling = TRUE;
    gtk_check_button_set_active(GTK_CHECK_BUTTON(self->given), n > 0);
    self->filling = FALSE;
    if (n == self->n)
        return;
    self->n = n;
    build_rows(self);
}

/* ---- GObject ---- */

GtkWidget *wb_corner_table_new(WbDocument *document)
{
    WbCornerTable *self = g_object_new(WB_TYPE_CORNER_TABLE, NULL);
    self->document = g_object_ref(document);
    g_signal_connect_object(document, "changed", G_CALLBACK(on_changed), self, G_CONNECT_SWAPPED);
    self->n = -1;
    on_changed(self);
    return GTK_WIDGET(self);
}

static void wb_corner_table_dispose(GObject *object)
{
    g_clear_object(&WB_CORNER_TABLE(object)->document);
    G_OBJECT_CLASS(wb_corner_table_parent_class)->dispose(object);
}

static void wb_corner_table_class_init(WbCornerTableClass *klass)
{
    G_OBJECT_CLASS(klass)->dispose = wb_corner_table_dispose;
}

static void add_problem(WbCornerTable *self)
{
    self->problem =
        g_object_new(GTK_TYPE_LABEL, "visible", FALSE, "xalign", 0.0, "wrap", TRUE, "wrap-mode",
                     PANGO_WRAP_WORD_CHAR, "accessible-role", GTK_ACCESSIBLE_ROLE_STATUS, NULL);
    gtk_widget_add_css_class(self->problem, "stop");
    gtk_widget_add_css_class(self->problem, "small");
    gtk_box_append(GTK_BOX(self), self->problem);
}

static void wb_corner_table_init(WbCornerTable *self)
{
    GtkBox *box = GTK_BOX(self);
    gtk_orientable_set_orientation(GTK_ORIENTABLE(self), GTK_ORIENTATION_VERTICAL);
    gtk_box_set_spacing(box, 6);
    self->given = gtk_check_button_new_with_label(_("The outline is no rectangle"));
    gtk_widget_set_tooltip_text(self->given, _("Give it corners, to be dragged or typed"));
    self->grid = gtk_grid_new();
    gtk_grid_set_column_spacing(GTK_GRID(self->grid), 6);
    gtk_grid_set_row_spacing(GTK_GRID(self->grid), 3);
    self->pager = wb_row_pager_new();
    g_signal_connect_object(self->given, "toggled", G_CALLBACK(on_given), self, G_CONNECT_SWAPPED);
    g_signal_connect_object(self->pager, "turned", G_CALLBACK(build_rows), self, G_CONNECT_SWAPPED);
    gtk_box_append(box, self->given);
    gtk_box_append(box, self->grid);
    gtk_box_append(box, self->pager);
    add_problem(self);
}
