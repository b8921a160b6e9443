#include "worksheet.h"
#include <limits.h>
#include <math.h>
#include <string.h>

static bool is_share(double x)
{
    return x > 0 && x <= 1;
}
static bool is_positive(double x)
{
    return isfinite(x) && x > 0;
}
static bool is_amount(double x)
{
    return isfinite(x) && x >= 0;
}

static bool is_good_month(const WbWorksheetInput *input, int m)
{
    return is_amount(input->dc_wh[m]) && is_amount(input->ac_wh[m]) &&
           (input->ac_wh[m] == 0 || is_share(input->inverter_efficiency)) &&
           is_amount(input->peak_sun_h[m]) && is_share(input->temperature_factor[m]);
}

static bool is_good(const WbWorksheetInput *input)
{
    int used = 0;
    for (int m = 0; m < WB_MONTHS; m++) {
        if (input->in_use[m] && !is_good_month(input, m))
            return false;
        used += input->in_use[m];
    }
    return used > 0 && is_positive(input->bank_v) && is_share(input->wire_efficiency) &&
           is_share(input->charge_efficiency) && is_positive(input->string_a) &&
           is_share(input->derating) && is_amount(input->storage_days) && is_share(input->depth) &&
           is_positive(input->battery_ah);
}

static void fill_month(const WbWorksheetInput *input, int m, WbWorksheet *sheet)
{
    double ac = input->ac_wh[m] > 0 ? input->ac_wh[m] / input->inverter_efficiency : 0;
    double load = (input->dc_wh[m] + ac) / input->bank_v;
    double corrected = load / (input->wire_efficiency * input->charge_efficiency);
    sheet->load_ah[m] = load;
    sheet->corrected_ah[m] = corrected;
    /* 0 / 0 would be no number: without a need no sun is needed. */
    sheet->design_a[m] = corrected > 0 ? corrected / input->peak_sun_h[m] : 0;
    sheet->required_ah[m] =
        corrected * input->storage_days / (input->depth * input->temperature_factor[m]);
}

static int largest_month(const bool in_use[WB_MONTHS], const double x[WB_MONTHS])
{
    int best = -1;
    for (int m = 0; m < WB_MONTHS; m++)
        if (in_use[m] && (best < 0 || x[m] > x[best]))
            best = m;
    return best;
}

WbStatus wb_worksheet(const WbWorksheetInput *input, WbWorksheet *sheet)
{
    memset(sheet, 0, sizeof *sheet);
    if (!is_good(input))
        return WB_BAD_INPUT;
    for (int m = 0; m < WB_MONTHS; m++)
        if (input->in_use[m])
            fill_month(input, m, sheet);
    sheet->design_month = largest_month(input->in_use, sheet->design_a);
    sheet->storage_month = largest_month(input->in_use, sheet->required_ah);
    sheet->strings_exact =
        sheet->design_a[sheet->design_month] / (input->string_a * input->derating);
    sheet->batteries_parallel_exact = sheet->required_ah[sheet->storage_month] / input->battery_ah;
    return WB_OK;
}

int wb_worksheet_whole(double exact)
{
    double whole = ceil(exact * (1 - 1e-9));
    return whole >= 0 && whole <= INT_MAX ? (int)whole : -1;
}
