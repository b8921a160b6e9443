#include "month_table.h"

#include "brief_entry.h"
#include "figures_text.h"
#include "format.h"
#include "panel_yield.h"
#include "site_edit.h"
#include "site_fields.h"
#include <glib/gi18n-lib.h>
#include <math.h>

enum { PLANE, YIELD, SUPPLY, NEED, N_RESULTS };
#define SHADE WB_N_MONTH_FIGURES
#define N_TYPED (WB_N_MONTH_FIGURES + 1)

struct _WbMonthTable {
    GtkBox parent_instance;
    GtkGrid *grid;
    GtkLabel *problem;
    GtkWidget *paste;
    GtkWidget *month[WB_MONTHS];
    GtkWidget *cell[WB_MONTHS][N_TYPED];
    GtkWidget *shade_head;
    GtkLabel *result[WB_MONTHS][N_RESULTS];
    WbDocument *document;
};

G_DEFINE_FINAL_TYPE(WbMonthTable, wb_month_table, GTK_TYPE_BOX)

static void tell(WbMonthTable *self, const char *sentence)
{
    gtk_label_set_text(self->problem, sentence != NULL ? sentence : "");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), sentence != NULL);
}

static void on_message(WbBriefEntry *entry, const char *sentence, WbMonthTable *self)
{
    tell(self, sentence);
}

/* ---- paste ---- */

static void paste_text(WbMonthTable *self, WbMonthFigure first, int month, const char *text)
{
    g_autoptr(GError) error = NULL;
    gboolean taken = wb_site_paste(self->document, first, month, text, &error);
    tell(self, taken ? NULL : error->message);
}

static gboolean on_cell_pasted(WbBriefEntry *entry, const char *text, WbMonthTable *self)
{
    int figure = GPOINTER_TO_INT(g_object_get_data(G_OBJECT(entry), "figure"));
    if (figure == SHADE)
        return FALSE;
    paste_text(self, figure, wb_brief_entry_get_index(entry), text);
    return TRUE;
}

static void on_clipboard(GObject *source, GAsyncResult *result, gpointer data)
{
    g_autoptr(WbMonthTable) self = data;
    g_autofree char *text = gdk_clipboard_read_text_finish(GDK_CLIPBOARD(source), result, NULL);
    if (self->document != NULL)
        paste_text(self, WB_MONTH_SUN, 0, text != NULL ? text : "");
}

static void on_paste(WbMonthTable *self)
{
    gdk_clipboard_read_text_async(gtk_widget_get_clipboard(GTK_WIDGET(self)), NULL, on_clipboard,
                                  g_object_ref(self));
}

/* ---- refreshing ---- */

static void mark(GtkWidget *widget, gboolean used)
{
    if (used)
        gtk_widget_remove_css_class(widget, "quiet");
    else
        gtk_widget_add_css_class(widget, "quiet");
}

static void set_figure(WbMonthTable *self, int month, int column, double value)
{
    static const int decimals[N_RESULTS] = {[PLANE] = 2};
    g_autofree char *text = wb_text_number(value, decimals[column]);
    gtk_label_set_text(self->result[month][column], text);
}

void wb_month_table_show(WbMonthTable *self, const WbProblem *problem, const WbVerdict *verdict)
{
    g_return_if_fail(WB_IS_MONTH_TABLE(self));
    const WbSite *site = &wb_document_get_brief(self->document)->site;
    double yield_wh[WB_MONTHS];
    if (verdict != NULL)
        wb_panel_yield(problem, verdict, yield_wh);
    gboolean own = wb_site_is_own(self->document);
    gboolean shaded = wb_site_is_shaded_by_month(self->document);
    gtk_widget_set_visible(self->paste, own);
    gtk_widget_set_visible(self->shade_head, shaded);
    for (int m = 0; m < WB_MONTHS; m++) {
        set_figure(self, m, PLANE, problem != NULL ? problem->plane.plane_kwh_m2_day[m] : NAN);
        set_figure(self, m, YIELD, verdict != NULL ? yield_wh[m] : NAN);
        set_figure(self, m, SUPPLY, verdict != NULL ? verdict->month[m].supply_wh : NAN);
        set_figure(self, m, NEED, verdict != NULL ? verdict->month[m].need_wh : NAN);
        gtk_widget_set_visible(self->cell[m][SHADE], shaded);
        for (int f = 0; f < WB_N_MONTH_FIGURES; f++)
            wb_brief_entry_set_editable(WB_BRIEF_ENTRY(self->cell[m][f]), own);
        mark(self->month[m], site->months >> m & 1);
        for (int r = 0; r < N_RESULTS; r++)
            mark(GTK_WIDGET(self->result[m][r]), site->months >> m & 1);
    }
}

/* ---- building ---- */

static GtkWidget *head_new(const char *title, const char *unit)
{
    g_autofree char *text = g_strdup_printf("%s\n%s", title, unit);
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 1);
    gtk_label_set_justify(GTK_LABEL(label), GTK_JUSTIFY_RIGHT);
    gtk_widget_add_css_class(label, "quiet");
    gtk_widget_add_css_class(label, "small");
    return label;
}

static GtkLabel *figure_new(void)
{
    GtkWidget *label = gtk_label_new(NULL);
    gtk_label_set_xalign(GTK_LABEL(label), 1);
    gtk_widget_add_css_class(label, "numeric");
    return GTK_LABEL(label);
}

static void add_heads(WbMonthTable *self)
{
    const char *const results[N_RESULTS][2] = {
        [PLANE] = {_("On the panels"), _("kWh/m\302\262 a day")},
        [YIELD] = {_("100 W give"), _("Wh a day")},
        [SUPPLY] = {_("Supply"), _("Wh a day")},
        [NEED] = {_("Need"), _("Wh a day")},
    };
    for (int f = 0; f < N_TYPED; f++) {
        const WbBriefField *field = f == SHADE ? wb_shading_field() : wb_month_field(f);
        GtkWidget *head = head_new(_(field->title), _(field->unit));
        gtk_grid_attach(self->grid, head, 1 + f, 0, 1, 1);
        if (f == SHADE)
            self->shade_head = head;
    }
    for (int r = 0; r < N_RESULTS; r++)
        gtk_grid_attach(self->grid, head_new(results[r][0], results[r][1]), 1 + N_TYPED + r, 0, 1,
                        1);
}

static GtkWidget *cell_new(WbMonthTable *self, int figure, int month)
{
    const WbBriefField *field = figure == SHADE ? wb_shading_field() : wb_month_field(figure);
    GtkWidget *cell = wb_brief_entry_new(self->document, field, month, 6);
    /* Translators: a figure and a month, for a screen reader: "Mean air, March". */
    g_autofree char *name = g_strdup_printf(_("%s, %s"), _(field->title), wb_text_month(month));
    wb_brief_entry_set_name(WB_BRIEF_ENTRY(cell), name);
    gtk_widget_set_halign(cell, GTK_ALIGN_END);
    g_object_set_data(G_OBJECT(cell), "figure", GINT_TO_POINTER(figure));
    g_signal_connect_object(cell, "message", G_CALLBACK(on_message), self, 0);
    g_signal_connect_object(cell, "pasted", G_CALLBACK(on_cell_pasted), self, 0);
    return cell;
}

static void add_month(WbMonthTable *self, int month)
{
    self->month[month] = gtk_label_new(wb_format_month_short(month));
    gtk_label_set_xalign(GTK_LABEL(self->month[month]), 0);
    gtk_grid_attach(self->grid, self->month[month], 0, 1 + month, 1, 1);
    for (int f = 0; f < N_TYPED; f++) {
        self->cell[month][f] = cell_new(self, f, month);
        gtk_grid_attach(self->grid, self->cell[month][f], 1 + f, 1 + month, 1, 1);
    }
    for (int r = 0; r < N_RESULTS; r++) {
        self->result[month][r] = figure_new();
        gtk_grid_attach(self->grid, GTK_WIDGET(self->result[month][r]), 1 + N_TYPED + r, 1 + month,
                        1, 1);
    }
}

GtkWidget *wb_month_table_new(WbDocument *document)
{
    WbMonthTable *self = g_object_new(WB_TYPE_MONTH_TABLE, "orientation", GTK_ORIENTATION_VERTICAL,
                                      "spacing", 6, NULL);
    self->document = g_object_ref(document);
    add_heads(self);
    for (int month = 0; month < WB_MONTHS; month++)
        add_month(self, month);
    wb_month_table_show(self, NULL, NULL);
    return GTK_WIDGET(self);
}

static void wb_month_table_dispose(GObject *object)
{
    g_clear_object(&WB_MONTH_TABLE(object)->document);
    G_OBJECT_CLASS(wb_month_table_parent_class)->dispose(object);
}

static void wb_month_table_class_init(WbMonthTableClass *klass)
{
    G_OBJECT_CLASS(klass)->dispose = wb_month_table_dispose;
}

static void wb_month_table_init(WbMonthTable *self)
{
    self->paste = gtk_button_new_with_label(_("Paste figures"));
    gtk_widget_set_halign(self->paste, GTK_ALIGN_START);
    gtk_widget_set_tooltip_text(
        self->paste, _("Twelve lines copied from a spreadsheet: sun, mean, highest and lowest air; "
                       "or only the first columns of these"));
    g_signal_connect_object(self->paste, "clicked", G_CALLBACK(on_paste), self, G_CONNECT_SWAPPED);
    self->problem = GTK_LABEL(gtk_label_new(NULL));
    gtk_label_set_xalign(self->problem, 0);
    gtk_label_set_wrap(self->problem, TRUE);
    gtk_label_set_wrap_mode(self->problem, PANGO_WRAP_WORD_CHAR);
    gtk_widget_add_css_class(GTK_WIDGET(self->problem), "stop");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), FALSE);
    self->grid = GTK_GRID(gtk_grid_new());
    gtk_grid_set_column_spacing(self->grid, 6);
    gtk_grid_set_row_spacing(self->grid, 3);
    gtk_widget_set_halign(GTK_WIDGET(self->grid), GTK_ALIGN_START);
    gtk_box_append(GTK_BOX(self), self->paste);
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(self->problem));
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(self->grid));
}
