#include "energy_pane.h"

#include "charge_chart.h"
#include "figures_text.h"
#include "format.h"
#include "hour_table.h"
#include "kit_energy.h"
#include "source_chart.h"
#include "weather_text.h"
#include <glib/gi18n-lib.h>
#include <math.h>

enum { SUN, ALTERNATOR, SHORE, NEED, OWN, MISSED, SPILLED, DARK, LOWEST, N_FIGURES };

struct _WbEnergyPane {
    GtkBox parent_instance;
    GtkLabel *sentence, *weather, *fact[WB_N_FACTS];
    GtkWidget *charge, *hours, *sources;
    GtkExpander *hours_opener;
    GtkLabel *figure[WB_MONTHS][N_FIGURES], *month[WB_MONTHS];
    WbKitEnergy *energy; /* shown; NULL: none yet */
    WbResult *result;    /* asked about; kept, so that another one is another pointer */
    char *kit_id;
    GCancellable *running; /* NULL: nothing is */
};

G_DEFINE_FINAL_TYPE(WbEnergyPane, wb_energy_pane, GTK_TYPE_BOX)

/* ---- showing ---- */

static void show_hours(WbEnergyPane *self)
{
    gboolean open = gtk_expander_get_expanded(self->hours_opener);
    wb_hour_table_set(WB_HOUR_TABLE(self->hours), open ? self->energy : NULL);
}

static void dim(GtkLabel *label, gboolean dimmed)
{
    if (dimmed)
        gtk_widget_add_css_class(GTK_WIDGET(label), "quiet");
    else
        gtk_widget_remove_css_class(GTK_WIDGET(label), "quiet");
}

static void show_month(WbEnergyPane *self, int m)
{
    static const int decimals[N_FIGURES] = {[DARK] = 1};
    const WbYearMonth *of = &self->energy->year.month[m];
    const double figures[N_FIGURES] = {[SUN] = of->array_wh,
                                       [ALTERNATOR] = of->alternator_wh,
                                       [SHORE] = of->shore_wh,
                                       [NEED] = of->need_wh,
                                       [OWN] = of->own_draw_wh,
                                       [MISSED] = of->unmet_wh,
                                       [SPILLED] = of->spilled_wh,
                                       [DARK] = of->dark_h,
                                       [LOWEST] = of->lowest_charge * 100};
    gboolean unused = !(self->energy->months >> m & 1);
    for (int f = 0; f < N_FIGURES; f++) {
        gboolean known = !unused || f <= SHORE || f == OWN; /* no need, no dark hours there */
        g_autofree char *text = wb_text_number(known ? figures[f] : NAN, decimals[f]);
        gtk_label_set_text(self->figure[m][f], text);
        dim(self->figure[m][f], unused);
    }
    dim(self->month[m], unused);
}

static void show(WbEnergyPane *self)
{
    const WbKitEnergy *energy = self->energy;
    g_autofree char *sentence = wb_kit_energy_sentence(energy);
    g_autofree char *weather = wb_words_weather(&wb_result_get_brief(self->result)->site);
    g_autofree char *note =
        g_strdup_printf("%s %s", weather, wb_words_weather_clock(energy->own_hours));
    gtk_label_set_text(self->sentence, sentence);
    gtk_label_set_text(self->weather, note);
    for (WbEnergyFact fact = 0; fact < WB_N_FACTS; fact++) {
        g_autofree char *text = wb_kit_energy_fact(energy, fact);
        gtk_label_set_text(self->fact[fact], text);
    }
    wb_charge_chart_set(WB_CHARGE_CHART(self->charge), energy);
    wb_source_chart_set(WB_SOURCE_CHART(self->sources), energy->year.month, energy->months);
    for (int m = 0; m < WB_MONTHS; m++)
        show_month(self, m);
    show_hours(self);
}

/* ---- asking ---- */

/* An answer to a question given up since comes as cancelled and is dropped, even where the work
 * itself was done. */
static void on_answer(GObject *source, GAsyncResult *answer, gpointer data)
{
    g_autoptr(WbEnergyPane) self = data;
    g_autoptr(GError) error = NULL;
    WbKitEnergy *energy = wb_kit_energy_make_finish(answer, &error);
    if (g_error_matches(error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
        return;
    g_clear_object(&self->running);
    g_clear_pointer(&self->energy, wb_kit_energy_free);
    self->energy = energy;
    if (energy != NULL) {
        show(self);
        return;
    }
    wb_charge_chart_set(WB_CHARGE_CHART(self->charge), NULL);
    gtk_label_set_text(self->sentence, error->message);
}

static void give_up(WbEnergyPane *self)
{
    if (self->running != NULL)
        g_cancellable_cancel(self->running);
    g_clear_object(&self->running);
}

void wb_energy_pane_show(WbEnergyPane *self, WbResult *result, const char *kit_id)
{
    g_return_if_fail(WB_IS_ENERGY_PANE(self));
    if (result == self->result && g_strcmp0(kit_id, self->kit_id) == 0)
        return;
    give_up(self);
    g_clear_pointer(&self->result, wb_result_unref);
    self->result = wb_result_ref(result);
    g_free(self->kit_id);
    self->kit_id = g_strdup(kit_id);
    self->running = g_cancellable_new();
    wb_kit_energy_make(result, kit_id, self->running, on_answer, g_object_ref(self));
}

gboolean wb_energy_pane_get_busy(WbEnergyPane *self)
{
    g_return_val_if_fail(WB_IS_ENERGY_PANE(self), FALSE);
    return self->running != NULL;
}

/* ---- building ---- */

static GtkLabel *add_label(WbEnergyPane *self, const char *text, const char *css_class)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_label_set_natural_wrap_mode(GTK_LABEL(label), GTK_NATURAL_WRAP_NONE);
    gtk_label_set_max_width_chars(GTK_LABEL(label), 90);
    gtk_widget_set_halign(label, GTK_ALIGN_START);
    if (css_class != NULL)
        gtk_widget_add_css_class(label, css_class);
    gtk_box_append(GTK_BOX(self), label);
    return GTK_LABEL(label);
}

static void add_section(WbEnergyPane *self, const char *title)
{
    GtkLabel *label = add_label(self, title, "section");
    gtk_widget_set_margin_top(GTK_WIDGET(label), 12);
}

static GtkWidget *add_opener(WbEnergyPane *self, const char *title, GtkWidget *table)
{
    GtkWidget *opener = gtk_expander_new(title);
    /* GTK 4.8 does not tell a screen reader the text of an expander's own label. */
    gtk_accessible_update_property(GTK_ACCESSIBLE(opener), GTK_ACCESSIBLE_PROPERTY_LABEL, title,
                                   -1);
    gtk_widget_set_margin_top(table, 6);
    gtk_expander_set_child(GTK_EXPANDER(opener), table);
    gtk_box_append(GTK_BOX(self), opener);
    return opener;
}

static void add_facts(WbEnergyPane *self)
{
    GtkWidget *grid = gtk_grid_new();
    gtk_grid_set_column_spacing(GTK_GRID(grid), 18);
    gtk_grid_set_row_spacing(GTK_GRID(grid), 6);
    for (WbEnergyFact fact = 0; fact < WB_N_FACTS; fact++) {
        GtkWidget *title = gtk_label_new(wb_energy_fact_title(fact)), *text = gtk_label_new(NULL);
        gtk_label_set_xalign(GTK_LABEL(title), 0);
        gtk_widget_set_size_request(title, 168, -1);
        gtk_widget_set_valign(title, GTK_ALIGN_START);
        gtk_widget_add_css_class(title, "quiet");
        gtk_label_set_xalign(GTK_LABEL(text), 0);
        gtk_label_set_wrap(GTK_LABEL(text), TRUE);
        gtk_label_set_selectable(GTK_LABEL(text), TRUE);
        gtk_widget_set_hexpand(text, TRUE);
        gtk_widget_add_css_class(text, "numeric");
        gtk_grid_attach(GTK_GRID(grid), title, 0, (int)fact, 1, 1);
        gtk_grid_attach(GTK_GRID(grid), text, 1, (int)fact, 1, 1);
        self->fact[fact] = GTK_LABEL(text);
    }
    gtk_box_append(GTK_BOX(self), grid);
}

static GtkLabel *attach(GtkWidget *grid, const char *text, int column, int row)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), column == 0 ? 0 : 1);
    gtk_label_set_justify(GTK_LABEL(label), column == 0 ? GTK_JUSTIFY_LEFT : GTK_JUSTIFY_RIGHT);
    gtk_widget_set_valign(label, GTK_ALIGN_END);
    gtk_widget_add_css_class(label, "numeric");
    if (row == 0) {
        gtk_widget_add_css_class(label, "quiet");
        gtk_widget_add_css_class(label, "small");
    }
    gtk_grid_attach(GTK_GRID(grid), label, column, row, 1, 1);
    return GTK_LABEL(label);
}

static GtkWidget *month_table_new(WbEnergyPane *self)
{
    const char *const heads[N_FIGURES] = {
        [SUN] = _("Sun\nWh a day"),          [ALTERNATOR] = _("Alternator\nWh a day"),
        [SHORE] = _("Shore\nWh a day"),      [NEED] = _("Need of loads\nWh a day"),
        [OWN] = _("Own draw\nWh a day"),     [MISSED] = _("Not carried\nWh a day"),
        [SPILLED] = _("Not used\nWh a day"), [DARK] = _("Dark\nh a month"),
        [LOWEST] = _("Lowest\n% of full")};
    GtkWidget *grid = gtk_grid_new();
    gtk_grid_set_column_spacing(GTK_GRID(grid), 12);
    gtk_grid_set_row_spacing(GTK_GRID(grid), 3);
    gtk_widget_set_halign(grid, GTK_ALIGN_START);
    attach(grid, _("Month"), 0, 0);
    for (int f = 0; f < N_FIGURES; f++)
        attach(grid, heads[f], 1 + f, 0);
    for (int m = 0; m < WB_MONTHS; m++) {
        self->month[m] = attach(grid, wb_format_month_short(m), 0, 1 + m);
        for (int f = 0; f < N_FIGURES; f++)
            self->figure[m][f] = attach(grid, NULL, 1 + f, 1 + m);
    }
    return grid;
}

static void wb_energy_pane_dispose(GObject *object)
{
    WbEnergyPane *self = WB_ENERGY_PANE(object);
    give_up(self);
    g_clear_pointer(&self->energy, wb_kit_energy_free);
    g_clear_pointer(&self->result, wb_result_unref);
    g_clear_pointer(&self->kit_id, g_free);
    G_OBJECT_CLASS(wb_energy_pane_parent_class)->dispose(object);
}

static void wb_energy_pane_class_init(WbEnergyPaneClass *class)
{
    G_OBJECT_CLASS(class)->dispose = wb_energy_pane_dispose;
}

static void wb_energy_pane_init(WbEnergyPane *self)
{
    add_section(self, _("Energy"));
    self->sentence = add_label(self, _("The year is being worked out."), NULL);
    gtk_label_set_selectable(self->sentence, TRUE);
    self->charge = wb_charge_chart_new();
    gtk_box_append(GTK_BOX(self), self->charge);
    self->weather = add_label(self, NULL, "quiet");
    gtk_widget_add_css_class(GTK_WIDGET(self->weather), "small");
    self->hours = wb_hour_table_new();
    self->hours_opener = GTK_EXPANDER(add_opener(self, _("These hours as a table"), self->hours));
    g_signal_connect_object(self->hours_opener, "notify::expanded", G_CALLBACK(show_hours), self,
                            G_CONNECT_SWAPPED);
    add_facts(self);
    add_section(self, _("Sources and need, by month"));
    self->sources = wb_source_chart_new();
    gtk_box_append(GTK_BOX(self), self->sources);
    add_opener(self, _("These months as a table"), month_table_new(self));
}

GtkWidget *wb_energy_pane_new(void)
{
    return g_object_new(WB_TYPE_ENERGY_PANE, "orientation", GTK_ORIENTATION_VERTICAL, "spacing", 6,
                        NULL);
}
