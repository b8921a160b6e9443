/* Figures with units to text for people; the only place of the window that prints physical values.
 */
#include "format.h"

#include "figures_text.h"
#include "kit_list.h"
#include "money.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define NARROW_SPACE "\xe2\x80\xaf"

char *wb_format_quantity(double value, int decimals, const char *unit)
{
    g_autofree char *number = wb_text_number(value, decimals);
    if (unit == NULL || unit[0] == '\0' || isnan(value))
        return g_steal_pointer(&number);
    return g_strconcat(number, NARROW_SPACE, unit, NULL);
}

char *wb_format_percent(double share)
{
    return wb_format_quantity(share * 100, 0, "%");
}

static int decimals_of(const char *currency)
{
    int decimals = wb_currency_decimals(currency);
    return decimals < 0 ? 2 : decimals;
}

char *wb_format_money(double minor, const char *currency)
{
    int decimals = decimals_of(currency);
    return wb_text_number(minor / pow(10, decimals), decimals);
}

const char *wb_format_criterion_unit(WbCriterion criterion, const char *currency)
{
    return criterion == WB_CRITERION_COST ? currency : wb_criterion_unit(criterion);
}

double wb_format_criterion_scale(WbCriterion criterion, const char *currency)
{
    return criterion == WB_CRITERION_COST ? pow(10, -decimals_of(currency)) : 1;
}

int wb_format_criterion_decimals(WbCriterion criterion)
{
    static const int decimals[WB_N_CRITERIA] = {
        [WB_CRITERION_COST] = 0, [WB_CRITERION_WEIGHT] = 1,   [WB_CRITERION_USABLE] = 0,
        [WB_CRITERION_ROOF] = 2, [WB_CRITERION_AUTONOMY] = 1, [WB_CRITERION_SPARE] = 0,
        [WB_CRITERION_DARK] = 0, [WB_CRITERION_MARGIN] = 0,
    };
    return decimals[criterion];
}

char *wb_format_figure_bare(WbCriterion criterion, double value, const char *currency)
{
    return wb_text_number(value * wb_format_criterion_scale(criterion, currency),
                          wb_format_criterion_decimals(criterion));
}

char *wb_format_figure(WbCriterion criterion, double value, const char *currency)
{
    return wb_format_quantity(value * wb_format_criterion_scale(criterion, currency),
                              wb_format_criterion_decimals(criterion),
                              wb_format_criterion_unit(criterion, currency));
}

const char *wb_format_month_short(int month)
{
    static const char *const names[] = {
        NC_("short month", "Jan"), NC_("short month", "Feb"), NC_("short month", "Mar"),
        NC_("short month", "Apr"), NC_("short month", "May"), NC_("short month", "Jun"),
        NC_("short month", "Jul"), NC_("short month", "Aug"), NC_("short month", "Sep"),
        NC_("short month", "Oct"), NC_("short month", "Nov"), NC_("short month", "Dec"),
    };
    g_return_val_if_fail(month >= 0 && month < 12, "");
    return g_dpgettext2(NULL, "short month", names[month]);
}

/* Where the figure ends and a unit may begin. */
static const char *after_figure(const char *text)
{
    for (; *text != '\0'; text = g_utf8_next_char(text)) {
        gunichar c = g_utf8_get_char(text);
        if (g_unichar_isalpha(c) || c == '%' || c == 0xb0 ||
            g_unichar_type(c) == G_UNICODE_CURRENCY_SYMBOL)
            break;
    }
    return text;
}

gboolean wb_format_parse(const char *text, double *value)
{
    if (!g_utf8_validate(text, -1, NULL))
        return FALSE;
    const char *unit = after_figure(text);
    g_autofree char *figure = g_strstrip(g_strndup(text, (gsize)(unit - text)));
    if (figure[0] == '\0' && unit[0] == '\0') {
        *value = NAN;
        return TRUE;
    }
    /* No digit in a unit, except the square of m2. */
    const char *digit = strpbrk(unit, "0123456789");
    gboolean plain = digit == NULL || (digit > unit && g_str_equal(digit - 1, "m2"));
    return plain && wb_text_read_number(figure, value);
}
