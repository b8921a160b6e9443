/* Place and season: where and when the system is used, how its panels stand, and supply against
 * need through the year. */
#include "page.h"
#include "brief_row.h"
#include "children.h"
#include "figures_text.h"
#include "format.h"
#include "hourly_row.h"
#include "month_chart.h"
#include "month_table.h"
#include "month_toggles.h"
#include "panel_yield.h"
#include "place_finder.h"
#include "place_list.h"
#include "resources.h"
#include "site_edit.h"
#include "site_fields.h"
#include "system_toggles.h"
#include "weather_text.h"
#include <glib/gi18n-lib.h>

#define WB_TYPE_PLACE_PAGE (wb_place_page_get_type())
G_DECLARE_FINAL_TYPE(WbPlacePage, wb_place_page, WB, PLACE_PAGE, GtkWidget)

struct _WbPlacePage {
    GtkWidget parent_instance;
    WbContext context;
    GtkLabel *summary, *place, *position, *quality, *problem;
    GtkBox *picture, *where, *own, *driving, *wishes, *panels, *bank, *weather, *months;
    GtkWidget *begin_own, *chart, *table, *by_month, *drives, *plugged;
    GtkWidget *row[WB_N_SITE_FIELDS];
    gboolean dirty, filling;
};

G_DEFINE_FINAL_TYPE(WbPlacePage, wb_place_page, GTK_TYPE_WIDGET)

static void tell(WbPlacePage *self, gboolean done, GError *error)
{
    gtk_label_set_text(self->problem, done ? "" : error->message);
    gtk_widget_set_visible(GTK_WIDGET(self->problem), !done);
    g_clear_error(&error);
}

/* ---- refreshing ---- */

/* How good the place's figures are, and what weather is worked with; a file that cannot be used
 * says so at its row. */
static char *quality_text(WbPlacePage *self, const char *figures, const WbSite *site)
{
    g_autofree char *weather = wb_words_weather(site);
    gboolean unread = wb_site_hourly_file(self->context.document) != NULL && site->hours == NULL;
    return unread ? g_strdup(figures) : g_strdup_printf("%s\n%s", figures, weather);
}

static void show_place(WbPlacePage *self, const WbSite *site)
{
    const WbPlace *place = &site->place;
    g_autofree char *name = *place->country ? g_strdup_printf("%s, %s", place->name, place->country)
                                            : g_strdup(place->name);
    g_autofree char *position = wb_place_position(place);
    g_autofree char *source =
        g_strdup_printf("%s%s%s", place->source, *place->years ? ", " : "", place->years);
    /* Translators: the kind of figures, how far they can be off, whose they are. */
    g_autofree char *figures = *source
                                   ? g_strdup_printf(_("Figures: %s, %s. From %s."), place->kind,
                                                     wb_place_uncertainty(place->kind), source)
                                   : g_strdup_printf(_("Figures: %s, %s."), place->kind,
                                                     wb_place_uncertainty(place->kind));
    g_autofree char *quality = quality_text(self, figures, site);
    gtk_label_set_text(self->place, name);
    gtk_label_set_text(self->position, position);
    gtk_label_set_text(self->quality, quality);
}

static void show_chart(WbPlacePage *self, const WbSite *site, const WbProblem *problem,
                       const WbVerdict *verdict)
{
    double yield_wh[WB_MONTHS] = {0}, need_wh[WB_MONTHS] = {0};
    int worst = verdict != NULL ? verdict->figures.worst_supply_month : -1;
    if (verdict != NULL)
        wb_panel_yield(problem, verdict, yield_wh);
    for (int m = 0; verdict != NULL && m < WB_MONTHS; m++)
        need_wh[m] = verdict->month[m].need_wh;
    wb_month_chart_set(WB_MONTH_CHART(self->chart),
                       _("What 100 W of panel give against the need, by month"),
                       _("100 W of panel give"), verdict != NULL ? yield_wh : NULL, _("Need"),
                       verdict != NULL ? need_wh : NULL, site->months, worst);
}

static char *worst_text(const WbProblem *problem, const WbVerdict *verdict)
{
    double yield_wh[WB_MONTHS];
    int worst = verdict->figures.worst_supply_month;
    wb_panel_yield(problem, verdict, yield_wh);
    g_autofree char *yield = wb_text_number(yield_wh[worst], 0);
    g_autofree char *need = wb_text_number(verdict->month[worst].need_wh, 0);
    /* Translators: a month, two energies in Wh. */
    return g_strdup_printf(_("The month that decides: %s. 100 W of panel give %s Wh a day then; "
                             "the need is %s Wh."),
                           wb_text_month(worst), yield, need);
}

static void show_summary(WbPlacePage *self, const WbSite *site, const WbProblem *problem,
                         const WbVerdict *verdict)
{
    g_autofree char *months = wb_text_months(site->months);
    g_autofree char *used = g_strdup_printf(_("In use: %s."), months);
    gboolean decided = verdict != NULL && verdict->figures.worst_supply_month >= 0;
    g_autofree char *worst = decided ? worst_text(problem, verdict) : NULL;
    g_autofree char *text = decided ? g_strdup_printf("%s %s", used, worst) : g_strdup(used);
    gtk_label_set_text(self->summary, text);
}

static void show_rows(WbPlacePage *self, const WbBrief *brief)
{
    const WbSite *site = &brief->site;
    gboolean own = wb_site_is_own(self->context.document);
    gboolean by_month = wb_site_is_shaded_by_month(self->context.document);
    gboolean drives = brief->driving.alternator_a > 0;
    double assumed = wb_design_cold_c(&site->place);
    g_autofree char *cold = wb_text_number(assumed, 1);
    g_autofree char *note = g_strdup_printf(
        _("Decides cold string voltage and freezing. Empty: our assumption, %s °C, the coldest "
          "month’s mean lowest less 15 K."),
        cold);
    wb_brief_row_set_note(WB_BRIEF_ROW(self->row[WB_SITE_COLD]), note);
    wb_brief_row_set_placeholder(WB_BRIEF_ROW(self->row[WB_SITE_COLD]), cold);
    gtk_widget_set_visible(GTK_WIDGET(self->own), own);
    gtk_widget_set_visible(GTK_WIDGET(self->begin_own), !own);
    gtk_widget_set_visible(self->row[WB_SITE_SHADING], !by_month);
    gtk_widget_set_visible(self->row[WB_SITE_INSIDE], site->bank_where == WB_BANK_INSIDE);
    gtk_widget_set_visible(self->row[WB_SITE_BANK_OWN], site->bank_where == WB_BANK_OWN);
    gboolean made = wb_site_hourly_file(self->context.document) == NULL;
    gboolean plugged = wb_site_has_shore(self->context.document);
    for (int id = WB_SITE_ALTERNATOR_A; id <= WB_SITE_DRIVE_HOURS; id++)
        gtk_widget_set_visible(self->row[id], drives);
    for (int id = WB_SITE_SHORE_NIGHTS; id <= WB_SITE_SHORE_A; id++)
        gtk_widget_set_visible(self->row[id], plugged);
    for (int id = WB_SITE_WEATHER_YEARS; id <= WB_SITE_WEATHER_SEED; id++)
        gtk_widget_set_visible(self->row[id], made);
    self->filling = TRUE;
    gtk_check_button_set_active(GTK_CHECK_BUTTON(self->plugged), plugged);
    gtk_check_button_set_active(GTK_CHECK_BUTTON(self->by_month), by_month);
    gtk_check_button_set_active(GTK_CHECK_BUTTON(self->drives), drives);
    self->filling = FALSE;
}

static void refresh(WbPlacePage *self)
{
    const WbBrief *brief = wb_document_get_brief(self->context.document);
    WbResult *result = wb_ranking_job_get_result(self->context.job);
    g_autofree WbVerdict *verdict = g_new(WbVerdict, 1);
    gboolean judged = result != NULL &&
                      wb_result_judge(result, wb_session_get_kit(self->context.session), verdict);
    const WbVerdict *shown = judged ? verdict : NULL;
    const WbProblem *problem = result != NULL ? wb_result_get_problem(result) : NULL;
    self->dirty = FALSE;
    show_place(self, &brief->site);
    show_summary(self, &brief->site, problem, shown);
    show_chart(self, &brief->site, problem, shown);
    show_rows(self, brief);
    wb_month_table_show(WB_MONTH_TABLE(self->table), problem, shown);
}

static void on_changed(WbPlacePage *self)
{
    if (gtk_widget_get_mapped(GTK_WIDGET(self)))
        refresh(self);
    else
        self->dirty = TRUE;
}

static void show_stale(WbPlacePage *self)
{
    if (wb_ranking_job_get_stale(self->context.job))
        gtk_widget_add_css_class(self->chart, "stale");
    else
        gtk_widget_remove_css_class(self->chart, "stale");
}

/* ---- edits ---- */

static void on_chosen(WbPlaceFinder *finder, const char *place_id, WbPlacePage *self)
{
    GError *error = NULL;
    tell(self, wb_site_choose_place(self->context.document, place_id, &error), error);
}

static void on_begin_own(WbPlacePage *self)
{
    GError *error = NULL;
    tell(self, wb_site_begin_own(self->context.document, &error), error);
}

static void on_by_month(WbPlacePage *self)
{
    GError *error = NULL;
    gboolean on = gtk_check_button_get_active(GTK_CHECK_BUTTON(self->by_month));
    if (!self->filling)
        tell(self, wb_site_shade_by_month(self->context.document, on, &error), error);
}

static void on_drives(WbPlacePage *self)
{
    GError *error = NULL;
    gboolean on = gtk_check_button_get_active(GTK_CHECK_BUTTON(self->drives));
    if (!self->filling)
        tell(self, wb_site_set_driving(self->context.document, on, &error), error);
}

static void on_plugged(WbPlacePage *self)
{
    GError *error = NULL;
    gboolean on = gtk_check_button_get_active(GTK_CHECK_BUTTON(self->plugged));
    if (!self->filling)
        tell(self, wb_site_set_shore(self->context.document, on, &error), error);
}

/* ---- building ---- */

static void add_section(GtkBox *box, const char *title)
{
    GtkWidget *label = gtk_label_new(title);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_widget_add_css_class(label, "section");
    gtk_box_append(box, label);
}

static void add_rows(WbPlacePage *self, GtkBox *box, WbSiteFieldId first, WbSiteFieldId last)
{
    for (int id = (int)first; id <= (int)last; id++) {
        self->row[id] = wb_brief_row_new(self->context.document, wb_site_field(id));
        gtk_box_append(box, self->row[id]);
    }
}

static GtkWidget *add_tick(WbPlacePage *self, GtkBox *box, const char *title, GCallback toggled)
{
    GtkWidget *tick = gtk_check_button_new_with_label(title);
    g_signal_connect_object(tick, "toggled", toggled, self, G_CONNECT_SWAPPED);
    gtk_box_append(box, tick);
    return tick;
}

static void add_forms(WbPlacePage *self)
{
    add_section(self->own, _("Figures of your own"));
    add_rows(self, self->own, WB_SITE_NAME, WB_SITE_ALTITUDE);
    add_section(self->panels, _("How the panels stand"));
    add_rows(self, self->panels, WB_SITE_TILT, WB_SITE_SHADING);
    self->by_month =
        add_tick(self, self->panels, _("Shade differs by month"), G_CALLBACK(on_by_month));
    add_rows(self, self->panels, WB_SITE_SOILING, WB_SITE_ALBEDO);
    add_section(self->bank, _("Cold, and where the bank stands"));
    add_rows(self, self->bank, WB_SITE_COLD, WB_SITE_SLEEPING);
    add_section(self->driving, _("Driving"));
    self->drives = add_tick(self, self->driving, _("An alternator charges while driving"),
                            G_CALLBACK(on_drives));
    add_rows(self, self->driving, WB_SITE_ALTERNATOR_A, WB_SITE_DRIVE_HOURS);
    add_section(self->driving, _("Shore power"));
    self->plugged =
        add_tick(self, self->driving, _("Plugged in on some nights"), G_CALLBACK(on_plugged));
    add_rows(self, self->driving, WB_SITE_SHORE_NIGHTS, WB_SITE_SHORE_A);
    add_section(self->weather, _("Weather, hour by hour"));
    add_rows(self, self->weather, WB_SITE_WEATHER_YEARS, WB_SITE_WEATHER_SEED);
    gtk_box_append(self->weather, wb_hourly_row_new(self->context.document));
    add_section(self->wishes, _("Wishes and rules"));
    add_rows(self, self->wishes, WB_SITE_AUTONOMY, WB_SITE_RULES);
    gtk_box_append(self->wishes, wb_system_toggles_new(self->context.document));
    add_section(self->wishes, _("Most of each to try"));
    add_rows(self, self->wishes, WB_SITE_MOST_SERIES, WB_SITE_MOST_BANK_PARALLEL);
}

static void add_parts(WbPlacePage *self)
{
    GtkWidget *finder = wb_place_finder_new();
    self->chart = wb_month_chart_new();
    gtk_widget_set_size_request(self->chart, 300, 174);
    wb_month_chart_hide_names(WB_MONTH_CHART(self->chart));
    gtk_box_append(self->picture, self->chart);
    gtk_box_append(self->picture, wb_month_toggles_new(self->context.document));
    gtk_box_prepend(self->where, finder);
    g_signal_connect_object(finder, "chosen", G_CALLBACK(on_chosen), self, 0);
    self->table = wb_month_table_new(self->context.document);
    gtk_box_append(self->months, self->table);
    add_forms(self);
}

GtkWidget *wb_place_page_new(const WbContext *context)
{
    WbPlacePage *self = g_object_new(WB_TYPE_PLACE_PAGE, NULL);
    self->context = *context;
    add_parts(self);
    refresh(self);
    g_signal_connect_object(context->document, "changed", G_CALLBACK(on_changed), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->job, "result", G_CALLBACK(on_changed), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->session, "notify::kit", G_CALLBACK(on_changed), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->job, "notify::stale", G_CALLBACK(show_stale), self,
                            G_CONNECT_SWAPPED);
    return GTK_WIDGET(self);
}

/* ---- GObject ---- */

static void wb_place_page_map(GtkWidget *widget)
{
    if (((WbPlacePage *)widget)->dirty)
        refresh((WbPlacePage *)widget);
    GTK_WIDGET_CLASS(wb_place_page_parent_class)->map(widget);
}

static void wb_place_page_dispose(GObject *object)
{
    WB_PLACE_PAGE(object)->context.document = NULL;
    wb_drop_children(GTK_WIDGET(object), WB_TYPE_PLACE_PAGE);
    G_OBJECT_CLASS(wb_place_page_parent_class)->dispose(object);
}

static void wb_place_page_class_init(WbPlacePageClass *klass)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(klass);
    G_OBJECT_CLASS(klass)->dispose = wb_place_page_dispose;
    widget->map = wb_place_page_map;
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/place/page.ui");
    gtk_widget_class_bind_template_child(widget, WbPlacePage, summary);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, place);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, position);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, quality);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, problem);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, picture);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, where);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, own);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, driving);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, wishes);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, panels);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, bank);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, weather);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, months);
    gtk_widget_class_bind_template_child(widget, WbPlacePage, begin_own);
    gtk_widget_class_bind_template_callback(widget, on_begin_own);
}

static void wb_place_page_init(WbPlacePage *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}
