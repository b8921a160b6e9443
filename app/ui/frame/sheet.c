#include "sheet.h"
#include "children.h"
#include "resources.h"

struct _WbSheet {
    GtkWidget parent_instance;
    WbContext context;
    WbSheetFill fill;
    GtkLabel *title;
    GtkBox *head, *picture, *body;
    GtkBox *into; /* head or body: where the next row goes */
    GtkWidget *picture_widget;
    GtkWidget *rows; /* grid that takes further wb_sheet_row, NULL: begin one */
    int n_rows;
    gboolean dirty;
};

G_DEFINE_FINAL_TYPE(WbSheet, wb_sheet, GTK_TYPE_WIDGET)

static void empty(GtkBox *box)
{
    GtkWidget *child;
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(box))))
        gtk_box_remove(box, child);
}

static void refill(WbSheet *self)
{
    g_autofree WbVerdict *verdict = g_new(WbVerdict, 1);
    WbResult *result = wb_ranking_job_get_result(self->context.job);
    gboolean judged =
        result && wb_result_judge(result, wb_session_get_kit(self->context.session), verdict);
    empty(self->head);
    empty(self->body);
    self->into = self->picture_widget ? self->head : self->body;
    self->rows = NULL;
    self->dirty = FALSE;
    self->fill(self, &self->context, result, judged ? verdict : NULL, self->picture_widget);
    gtk_widget_set_visible(GTK_WIDGET(self->head),
                           gtk_widget_get_first_child(GTK_WIDGET(self->head)) != NULL);
}

static void on_change(WbSheet *self)
{
    if (gtk_widget_get_mapped(GTK_WIDGET(self)))
        refill(self);
    else
        self->dirty = TRUE;
}

static void show_stale(WbSheet *self)
{
    GtkBox *const parts[] = {self->head, self->picture, self->body};
    for (gsize i = 0; i < G_N_ELEMENTS(parts); i++) {
        if (wb_ranking_job_get_stale(self->context.job))
            gtk_widget_add_css_class(GTK_WIDGET(parts[i]), "stale");
        else
            gtk_widget_remove_css_class(GTK_WIDGET(parts[i]), "stale");
    }
}

GtkWidget *wb_sheet_new(const WbContext *context, const char *title, WbSheetFill fill,
                        GtkWidget *picture)
{
    WbSheet *self = g_object_new(WB_TYPE_SHEET, NULL);
    self->context = *context;
    self->fill = fill;
    self->dirty = TRUE;
    gtk_label_set_text(self->title, title);
    gtk_widget_set_visible(GTK_WIDGET(self->title), title[0] != '\0');
    if (picture)
        gtk_box_append(self->picture, picture);
    gtk_widget_set_visible(GTK_WIDGET(self->picture), picture != NULL);
    gtk_widget_set_visible(GTK_WIDGET(self->head), picture != NULL);
    self->picture_widget = picture;
    g_signal_connect_object(context->document, "changed", G_CALLBACK(on_change), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->job, "result", G_CALLBACK(on_change), self, G_CONNECT_SWAPPED);
    g_signal_connect_object(context->session, "notify::kit", G_CALLBACK(on_change), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->job, "notify::stale", G_CALLBACK(show_stale), self,
                            G_CONNECT_SWAPPED);
    return GTK_WIDGET(self);
}

/* ---- what a fill may add ---- */

static GtkWidget *label_new(const char *text, double xalign, const char *css_class)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), (float)xalign);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_label_set_natural_wrap_mode(GTK_LABEL(label), GTK_NATURAL_WRAP_NONE);
    if (css_class)
        gtk_widget_add_css_class(label, css_class);
    return label;
}

void wb_sheet_section(WbSheet *self, const char *title)
{
    GtkWidget *label = label_new(title, 0, "section");
    gtk_widget_set_margin_top(label, 12);
    gtk_box_append(self->into, label);
    self->rows = NULL;
}

void wb_sheet_text(WbSheet *self, const char *text, const char *css_class)
{
    GtkWidget *label = label_new(text, 0, css_class);
    gtk_label_set_max_width_chars(GTK_LABEL(label), 90);
    gtk_label_set_selectable(GTK_LABEL(label), TRUE);
    gtk_widget_set_halign(label, GTK_ALIGN_START);
    gtk_box_append(self->into, label);
    self->rows = NULL;
}

static GtkWidget *grid_new(WbSheet *self, int spacing)
{
    GtkWidget *grid = gtk_grid_new();
    gtk_grid_set_column_spacing(GTK_GRID(grid), (guint)spacing);
    gtk_grid_set_row_spacing(GTK_GRID(grid), 6);
    gtk_widget_set_halign(grid, GTK_ALIGN_START);
    gtk_box_append(self->into, grid);
    return grid;
}

void wb_sheet_row(WbSheet *self, const char *label, const char *value, const char *note)
{
    if (!self->rows) {
        self->rows = grid_new(self, 18);
        self->n_rows = 0;
    }
    GtkWidget *name = label_new(label, 0, "quiet");
    GtkWidget *figure = label_new(value, 0, "numeric");
    gtk_label_set_selectable(GTK_LABEL(figure), TRUE);
    gtk_widget_set_size_request(name, 168, -1);
    gtk_grid_attach(GTK_GRID(self->rows), name, 0, self->n_rows, 1, 1);
    gtk_grid_attach(GTK_GRID(self->rows), figure, 1, self->n_rows, 1, 1);
    if (note) {
        GtkWidget *words = label_new(note, 0, "quiet");
        gtk_label_set_max_width_chars(GTK_LABEL(words), 60);
        gtk_grid_attach(GTK_GRID(self->rows), words, 2, self->n_rows, 1, 1);
    }
    self->n_rows++;
}

static void attach_cells(WbSheetTable *table, const char *const *cells, const char *css_class)
{
    for (int i = 0; i < table->n_columns; i++) {
        GtkWidget *label = label_new(cells[i], i == 0 ? 0 : 1, "numeric");
        if (css_class)
            gtk_widget_add_css_class(label, css_class);
        if (i == 0)
            gtk_label_set_max_width_chars(GTK_LABEL(label), 48);
        gtk_grid_attach(GTK_GRID(table->grid), label, i, table->n_rows, 1, 1);
    }
    table->n_rows++;
}

void wb_sheet_below_picture(WbSheet *self)
{
    self->into = self->body;
    self->rows = NULL;
}

void wb_sheet_widget(WbSheet *self, GtkWidget *widget)
{
    gtk_box_append(self->into, widget);
    self->rows = NULL;
}

WbSheetTable wb_sheet_table(WbSheet *self, const char *const *heads, int n_columns)
{
    WbSheetTable table = {grid_new(self, 18), n_columns, 0};
    self->rows = NULL;
    attach_cells(&table, heads, "quiet");
    return table;
}

void wb_sheet_table_row(WbSheetTable *table, const char *const *cells, const char *css_class)
{
    attach_cells(table, cells, css_class);
}

/* ---- GObject ---- */

static void wb_sheet_map(GtkWidget *widget)
{
    WbSheet *self = WB_SHEET(widget);
    if (self->dirty)
        refill(self);
    GTK_WIDGET_CLASS(wb_sheet_parent_class)->map(widget);
}

static void wb_sheet_dispose(GObject *object)
{
    wb_drop_children(GTK_WIDGET(object), WB_TYPE_SHEET);
    G_OBJECT_CLASS(wb_sheet_parent_class)->dispose(object);
}

static void wb_sheet_class_init(WbSheetClass *klass)
{
    GtkWidgetClass *widget_class = GTK_WIDGET_CLASS(klass);
    G_OBJECT_CLASS(klass)->dispose = wb_sheet_dispose;
    widget_class->map = wb_sheet_map;
    gtk_widget_class_set_template_from_resource(widget_class, WB_RESOURCE_PREFIX "/frame/sheet.ui");
    gtk_widget_class_bind_template_child(widget_class, WbSheet, title);
    gtk_widget_class_bind_template_child(widget_class, WbSheet, head);
    gtk_widget_class_bind_template_child(widget_class, WbSheet, picture);
    gtk_widget_class_bind_template_child(widget_class, WbSheet, body);
}

static void wb_sheet_init(WbSheet *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}
