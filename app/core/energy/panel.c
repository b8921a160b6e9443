/* One panel through the mean day of each month. */
#include "energy.h"
#include <math.h>

#define TYPICAL_NOCT_C 45.0
#define TYPICAL_POWER_COEFF_PCT_K (-0.45)
#define STC_W_M2 1000.0
#define STC_CELL_C 25.0

static double mounting_adder_k(int mounting)
{
    switch ((WbMounting)mounting) {
    case WB_MOUNT_CLOSE:
        return 11;
    case WB_MOUNT_BONDED:
        return 18;
    case WB_MOUNT_RAISED:
        break;
    }
    return 2;
}

double wb_heating_k_m2_w(double noct_c, int mounting)
{
    double noct = (isnan(noct_c) ? TYPICAL_NOCT_C : noct_c) + mounting_adder_k(mounting);
    return (noct - 20) / 800;
}

double wb_cell_c(double irradiance_w_m2, double air_c, double noct_c, int mounting)
{
    return air_c + wb_heating_k_m2_w(noct_c, mounting) * irradiance_w_m2;
}

static void fill_hour(const WbPanel *panel, double irradiance_w_m2, double cell_c, double *power_w,
                      double *imp_a)
{
    double coeff =
        isnan(panel->power_coeff_pct_k) ? TYPICAL_POWER_COEFF_PCT_K : panel->power_coeff_pct_k;
    double sun = irradiance_w_m2 / STC_W_M2;
    *power_w = panel->power_w * sun * fmax(0, 1 + coeff / 100 * (cell_c - STC_CELL_C));
    *imp_a = panel->imp_a * sun;
}

static double hottest_air_c(const WbSite *site, const WbSky *sky)
{
    double hottest_c = -INFINITY;
    for (int m = 0; m < WB_MONTHS; m++)
        for (int h = 0; h < WB_HOURS; h++)
            if (site->months >> m & 1 || site->months == 0)
                hottest_c = fmax(hottest_c, sky->air_c[m][h]);
    return hottest_c;
}

void wb_panel_day(const WbSite *site, const WbSky *sky, const WbPanel *panel, WbPanelDay *day)
{
    for (int m = 0; m < WB_MONTHS; m++) {
        double kept = (1 - site->shading_loss[m]) * (1 - site->soiling_loss);
        for (int h = 0; h < WB_HOURS; h++) {
            double irradiance_w_m2 = sky->plane_w_m2[m][h] * kept;
            day->cell_c[m][h] =
                wb_cell_c(irradiance_w_m2, sky->air_c[m][h], panel->noct_c, site->mounting);
            fill_hour(panel, irradiance_w_m2, day->cell_c[m][h], &day->max_power_w[m][h],
                      &day->imp_a[m][h]);
        }
    }
    day->hottest_cell_c =
        wb_cell_c(STC_W_M2, hottest_air_c(site, sky), panel->noct_c, site->mounting);
}
