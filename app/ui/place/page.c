/* Place and season: where the system stands, and supply against need through the year. */
#include "figures_text.h"
#include "month_chart.h"
#include "sheet.h"
#include <glib/gi18n-lib.h>
#include <math.h>

static void add_place(WbSheet *sheet, const WbSite *site)
{
    const WbPlace *place = &site->place;
    g_autofree char *name = *place->country ? g_strdup_printf("%s, %s", place->name, place->country)
                                            : g_strdup(place->name);
    g_autofree char *where = g_strdup_printf(
        "%.2f\302\260 %s, %.2f\302\260 %s, %.0f m", fabs(place->latitude_deg),
        place->latitude_deg < 0 ? _("south") : _("north"), fabs(place->longitude_deg),
        place->longitude_deg < 0 ? _("west") : _("east"), place->altitude_m);
    g_autofree char *source = g_strdup_printf("%s %s %s", place->kind, place->source, place->years);
    g_autofree char *months = wb_text_months(site->months);
    wb_sheet_row(sheet, _("Place"), name, NULL);
    wb_sheet_row(sheet, _("Position, altitude"), where, NULL);
    wb_sheet_row(sheet, _("Months in use"), months, NULL);
    wb_sheet_row(sheet, _("Figures from"), g_strstrip(source), NULL);
}

static void add_panels(WbSheet *sheet, const WbSite *site)
{
    static const char *const mountings[] = {N_("raised over the roof"), N_("close to the roof"),
                                            N_("bonded to the roof")};
    g_autofree char *tilt = g_strdup_printf("%.0f\302\260", site->tilt_deg);
    g_autofree char *azimuth = isnan(site->azimuth_deg)
                                   ? g_strdup(_("any, as a vehicle parks"))
                                   : g_strdup_printf("%.0f\302\260", site->azimuth_deg);
    g_autofree char *soiling = g_strdup_printf("%.0f %%", site->soiling_loss * 100);
    g_autofree char *cold = g_strdup_printf("%.1f \302\260C", site->design_cold_c);
    wb_sheet_section(sheet, _("How the panels stand"));
    wb_sheet_row(sheet, _("Tilt"), tilt, NULL);
    wb_sheet_row(sheet, _("Direction"), azimuth, NULL);
    wb_sheet_row(sheet, _("Mounting"), _(mountings[site->mounting]), NULL);
    wb_sheet_row(sheet, _("Soiling loss"), soiling, NULL);
    wb_sheet_row(sheet, _("Coldest ever"), cold,
                 _("of all twelve months: decides cold string voltage and freezing"));
}

static void add_months(WbSheet *sheet, const WbSite *site, const WbSky *sky,
                       const WbVerdict *verdict)
{
    const char *heads[] = {_("Month"),
                           _("Sun, flat\nkWh/m\302\262"),
                           _("on the panels"),
                           _("Mean air\n\302\260C"),
                           _("Mean minimum"),
                           _("Mean maximum"),
                           _("Supply\nWh a day"),
                           _("Need\nWh a day")};
    WbSheetTable table = wb_sheet_table(sheet, heads, G_N_ELEMENTS(heads));
    for (int m = 0; m < WB_MONTHS; m++) {
        gboolean used = site->months >> m & 1;
        double figures[] = {site->place.ghi_kwh_m2_day[m],
                            sky ? sky->plane_kwh_m2_day[m] : NAN,
                            site->place.air_mean_c[m],
                            site->place.air_min_c[m],
                            site->place.air_max_c[m],
                            verdict ? verdict->month[m].supply_wh : NAN,
                            verdict ? verdict->month[m].need_wh : NAN};
        static const int decimals[] = {2, 2, 1, 1, 1, 0, 0};
        char *cells[G_N_ELEMENTS(heads)];
        cells[0] = g_strdup(wb_text_month(m));
        for (gsize i = 0; i < G_N_ELEMENTS(figures); i++)
            cells[i + 1] = wb_text_number(figures[i], decimals[i]);
        wb_sheet_table_row(&table, (const char *const *)cells, used ? NULL : "quiet");
        for (gsize i = 0; i < G_N_ELEMENTS(cells); i++)
            g_free(cells[i]);
    }
}

static void show_chart(GtkWidget *chart, const WbSite *site, const WbVerdict *verdict)
{
    double supply[WB_MONTHS], need[WB_MONTHS];
    for (int m = 0; m < WB_MONTHS; m++) {
        supply[m] = verdict ? verdict->month[m].supply_wh : 0;
        need[m] = verdict ? verdict->month[m].need_wh : 0;
    }
    wb_month_chart_set(WB_MONTH_CHART(chart), _("Supply and need of the kit in hand, by month"),
                       _("Supply"), verdict ? supply : NULL, _("Need"), verdict ? need : NULL,
                       site->months, verdict ? verdict->figures.worst_supply_month : -1);
}

static void fill(WbSheet *sheet, const WbContext *context, const WbResult *result,
                 const WbVerdict *verdict, GtkWidget *picture)
{
    const WbSite *site = &wb_document_get_brief(context->document)->site;
    g_autofree WbSky *sky = g_new(WbSky, 1);
    gboolean lit = wb_sky(site, sky) == WB_OK;
    show_chart(picture, site, verdict);
    add_place(sheet, site);
    add_panels(sheet, site);
    wb_sheet_section(sheet, _("Month by month"));
    add_months(sheet, site, lit ? sky : NULL, verdict);
}

GtkWidget *wb_place_page_new(const WbContext *context)
{
    GtkWidget *chart = wb_month_chart_new();
    gtk_widget_set_size_request(chart, 300, 192);
    return wb_sheet_new(context, _("Place & season"), fill, chart);
}
