#include "obstacle_table.h"

#include "brief_entry.h"
#include "kind_cell.h"
#include "resources.h"
#include "roof_edit.h"
#include "roof_fields.h"
#include "row_pager.h"
#include <glib/gi18n-lib.h>

struct _WbObstacleTable {
    GtkBox parent_instance;
    GtkGrid *grid;
    GtkLabel *none, *problem;
    WbDocument *document;
    GtkWidget *pager;
    GPtrArray *marks; /* GtkLabel of each row in sight, counted: an arrow at the chosen one */
    int n, first;     /* obstacles; the first row in sight */
    int chosen;       /* -1 none */
};

G_DEFINE_FINAL_TYPE(WbObstacleTable, wb_obstacle_table, GTK_TYPE_BOX)

static guint chosen_signal;

void wb_obstacle_table_tell(WbObstacleTable *self, const char *sentence)
{
    g_return_if_fail(WB_IS_OBSTACLE_TABLE(self));
    gtk_label_set_text(self->problem, sentence != NULL ? sentence : "");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), sentence != NULL);
}

static void build_rows(WbObstacleTable *self);

static void on_message(GtkWidget *cell, const char *sentence, WbObstacleTable *self)
{
    wb_obstacle_table_tell(self, sentence);
}

void wb_obstacle_table_choose(WbObstacleTable *self, int index)
{
    g_return_if_fail(WB_IS_OBSTACLE_TABLE(self));
    self->chosen = index >= 0 && index < self->n ? index : -1;
    if (self->chosen >= 0 && wb_row_pager_turn_to(WB_ROW_PAGER(self->pager), self->chosen))
        build_rows(self);
    for (int i = 0; i < (int)self->marks->len; i++)
        gtk_label_set_text(self->marks->pdata[i],
                           self->first + i == self->chosen ? "\342\226\270" : "");
    gtk_widget_action_set_enabled(GTK_WIDGET(self), "obstacles.duplicate", self->chosen >= 0);
    gtk_widget_action_set_enabled(GTK_WIDGET(self), "obstacles.remove", self->chosen >= 0);
}

static void choose(WbObstacleTable *self, int index)
{
    wb_obstacle_table_choose(self, index);
    g_signal_emit(self, chosen_signal, 0, self->chosen);
}

/* Of an obstacle's cell; -1: of the head. */
static int index_of(GtkWidget *cell)
{
    return WB_IS_BRIEF_ENTRY(cell) ? wb_brief_entry_get_index(WB_BRIEF_ENTRY(cell))
           : WB_IS_KIND_CELL(cell) ? wb_kind_cell_get_index(WB_KIND_CELL(cell))
                                   : -1;
}

static void on_entered(GtkWidget *cell, WbObstacleTable *self)
{
    choose(self, index_of(cell));
}

/* ---- rows ---- */

static void name_cell(GtkWidget *cell, const char *obstacle)
{
    int field = GPOINTER_TO_INT(g_object_get_data(G_OBJECT(cell), "field"));
    const char *title = WB_IS_KIND_CELL(cell) ? _("Kind") : _(wb_obstacle_field(field)->title);
    /* Translators: a figure of an obstacle, for a screen reader: "Width of Roof fan". */
    g_autofree char *name = g_strdup_printf(_("%s of %s"), title, obstacle);
    if (WB_IS_KIND_CELL(cell)) {
        wb_kind_cell_set_name(WB_KIND_CELL(cell), name);
        wb_kind_cell_refresh(WB_KIND_CELL(cell));
    } else {
        wb_brief_entry_set_name(WB_BRIEF_ENTRY(cell), name);
    }
}

static void name_cells(WbObstacleTable *self)
{
    const WbRoof *roof = &wb_document_get_brief(self->document)->roof;
    GtkWidget *child = gtk_widget_get_first_child(GTK_WIDGET(self->grid));
    for (; child != NULL; child = gtk_widget_get_next_sibling(child)) {
        int index = index_of(child);
        if (index >= 0 && index < (int)roof->n_obstacles)
            name_cell(child, roof->obstacles[index].name);
    }
}

static void add_head(WbObstacleTable *self, const char *title, const char *unit, int column)
{
    g_autofree char *text = unit != NULL ? g_strdup_printf("%s, %s", title, unit) : g_strdup(title);
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), unit == NULL ? 0 : 1);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_widget_add_css_class(label, "quiet");
    gtk_widget_add_css_class(label, "small");
    gtk_grid_attach(self->grid, label, column, 0, 1, 1);
}

/* The mark, the name, the kind, then the figures. */
static int column_of(int field)
{
    return field == WB_OBSTACLE_NAME ? 1 : 2 + field;
}

static void add_cell(WbObstacleTable *self, GtkWidget *cell, int field, int column, int row)
{
    g_object_set_data(G_OBJECT(cell), "field", GINT_TO_POINTER(field));
    g_signal_connect_object(cell, "message", G_CALLBACK(on_message), self, 0);
    g_signal_connect_object(cell, "entered", G_CALLBACK(on_entered), self, 0);
    gtk_grid_attach(self->grid, cell, column, 1 + row, 1, 1);
}

static void add_row(WbObstacleTable *self, int row)
{
    int index = self->first + row;
    GtkWidget *mark = gtk_label_new(NULL);
    gtk_label_set_width_chars(GTK_LABEL(mark), 1);
    gtk_widget_add_css_class(mark, "accent-text");
    gtk_grid_attach(self->grid, mark, 0, 1 + row, 1, 1);
    g_ptr_array_add(self->marks, g_object_ref(mark));
    for (int field = 0; field < WB_N_OBSTACLE_FIELDS; field++) {
        gboolean wide = field == WB_OBSTACLE_NAME;
        GtkWidget *cell =
            wb_brief_entry_new(self->document, wb_obstacle_field(field), index, wide ? 12 : 5);
        gtk_widget_set_hexpand(cell, wide);
        add_cell(self, cell, field, column_of(field), row);
        if (wide)
            add_cell(self, wb_kind_cell_new(self->document, index), -1, 2, row);
    }
}

static void add_heads(WbObstacleTable *self)
{
    for (int field = 0; field < WB_N_OBSTACLE_FIELDS; field++) {
        const WbBriefField *about = wb_obstacle_field(field);
        add_head(self, _(about->title), about->unit, column_of(field));
    }
    add_head(self, _("Kind"), NULL, 2);
}

/* Rows come and go at the end: they show whatever obstacle has their number, and a cell being typed
 * in keeps the keyboard. */
static void build_rows(WbObstacleTable *self)
{
    WbRowPager *pager = WB_ROW_PAGER(self->pager);
    int left = wb_row_pager_trim(pager, self->n, self->grid, (int)self->marks->len);
    g_ptr_array_set_size(self->marks, left);
    self->first = wb_row_pager_get_first(pager);
    if (gtk_widget_get_first_child(GTK_WIDGET(self->grid)) == NULL)
        add_heads(self);
    while ((int)self->marks->len < wb_row_pager_get_count(pager))
        add_row(self, (int)self->marks->len);
    gtk_widget_set_visible(GTK_WIDGET(self->grid), self->n > 0);
    gtk_widget_set_visible(GTK_WIDGET(self->none), self->n == 0);
    name_cells(self);
}

static void on_changed(WbObstacleTable *self)
{
    int n = (int)wb_document_get_brief(self->document)->roof.n_obstacles;
    if (n == self->n) {
        name_cells(self);
        return;
    }
    self->n = n;
    build_rows(self);
    wb_obstacle_table_tell(self, NULL);
    wb_obstacle_table_choose(self, self->chosen);
}

static void on_turned(WbObstacleTable *self)
{
    build_rows(self);
    choose(self, -1);
}

/* ---- actions ---- */

static gboolean report(WbObstacleTable *self, gboolean done, GError *error)
{
    wb_obstacle_table_tell(self, done ? NULL : error->message);
    g_clear_error(&error);
    return done;
}

static void act_add(GtkWidget *widget, const char *action, GVariant *parameter)
{
    WbObstacleTable *self = WB_OBSTACLE_TABLE(widget);
    GError *error = NULL;
    gboolean done = wb_obstacle_add(self->document, &error);
    if (report(self, done, error))
        choose(self, self->n - 1);
}

static void act_duplicate(GtkWidget *widget, const char *action, GVariant *parameter)
{
    WbObstacleTable *self = WB_OBSTACLE_TABLE(widget);
    GError *error = NULL;
    int next = self->chosen + 1;
    gboolean done = wb_obstacle_duplicate(self->document, (guint)self->chosen, &error);
    if (report(self, done, error))
        choose(self, next);
}

void wb_obstacle_table_remove(WbObstacleTable *self, int index)
{
    g_return_if_fail(WB_IS_OBSTACLE_TABLE(self));
    GError *error = NULL;
    gboolean done = wb_obstacle_remove(self->document, (guint)index, &error);
    if (report(self, done, error))
        choose(self, MIN(index, self->n - 1));
}

static void act_remove(GtkWidget *widget, const char *action, GVariant *parameter)
{
    wb_obstacle_table_remove(WB_OBSTACLE_TABLE(widget), WB_OBSTACLE_TABLE(widget)->chosen);
}

/* ---- GObject ---- */

GtkWidget *wb_obstacle_table_new(WbDocument *document)
{
    WbObstacleTable *self = g_object_new(WB_TYPE_OBSTACLE_TABLE, NULL);
    self->document = g_object_ref(document);
    self->n = -1;
    g_signal_connect_object(document, "changed", G_CALLBACK(on_changed), self, G_CONNECT_SWAPPED);
    on_changed(self);
    wb_obstacle_table_choose(self, -1);
    return GTK_WIDGET(self);
}

static void wb_obstacle_table_dispose(GObject *object)
{
    g_clear_object(&WB_OBSTACLE_TABLE(object)->document);
    G_OBJECT_CLASS(wb_obstacle_table_parent_class)->dispose(object);
}

static void wb_obstacle_table_finalize(GObject *object)
{
    g_ptr_array_unref(WB_OBSTACLE_TABLE(object)->marks);
    G_OBJECT_CLASS(wb_obstacle_table_parent_class)->finalize(object);
}

static void wb_obstacle_table_class_init(WbObstacleTableClass *klass)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(klass);
    G_OBJECT_CLASS(klass)->dispose = wb_obstacle_table_dispose;
    G_OBJECT_CLASS(klass)->finalize = wb_obstacle_table_finalize;
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/roof/obstacles.ui");
    gtk_widget_class_bind_template_child(widget, WbObstacleTable, grid);
    gtk_widget_class_bind_template_child(widget, WbObstacleTable, none);
    gtk_widget_class_bind_template_child(widget, WbObstacleTable, problem);
    gtk_widget_class_install_action(widget, "obstacles.add", NULL, act_add);
    gtk_widget_class_install_action(widget, "obstacles.duplicate", NULL, act_duplicate);
    gtk_widget_class_install_action(widget, "obstacles.remove", NULL, act_remove);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_Delete, GDK_CONTROL_MASK,
                                        "obstacles.remove", NULL);
    chosen_signal = g_signal_new("chosen", WB_TYPE_OBSTACLE_TABLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 1, G_TYPE_INT);
}

static void wb_obstacle_table_init(WbObstacleTable *self)
{
    self->marks = g_ptr_array_new_with_free_func(g_object_unref);
    self->chosen = -1;
    gtk_widget_init_template(GTK_WIDGET(self));
    self->pager = wb_row_pager_new();
    gtk_box_append(GTK_BOX(self), self->pager);
    g_signal_connect_object(self->pager, "turned", G_CALLBACK(on_turned), self, G_CONNECT_SWAPPED);
}
