/* Figures with units to text for people; the only place of the window that prints physical values.
 */
#include "format.h"

#include "figures_text.h"
#include "kit_list.h"
#include "money.h"
#include <errno.h>
#include <glib/gi18n-lib.h>
#include <langinfo.h>
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

/* "1,932" groups and "12,8" is a decimal comma: three digits after the only comma group, as long
 * as the locale's own decimal mark is not the comma. */
static gboolean comma_groups(const char *text)
{
    if (strchr(text, '.') != NULL)
        return TRUE;
    if (nl_langinfo(RADIXCHAR)[0] == ',')
        return FALSE;
    const char *comma = strrchr(text, ',');
    return comma != NULL && strspn(comma + 1, "0123456789") == 3;
}

gboolean wb_format_parse(const char *text, double *value)
{
    GString *plain = g_string_new(NULL);
    gboolean groups = comma_groups(text), number = FALSE;
    const char *rest = text;
    for (; *rest != '\0'; rest = g_utf8_next_char(rest)) {
        gunichar c = g_utf8_get_char(rest);
        if (g_unichar_isdigit(c) && c < 128)
            number = TRUE;
        if (c == 0x2212)
            g_string_append_c(plain, '-');
        else if (c == ',' && !groups)
            g_string_append_c(plain, '.');
        else if (c < 128 && strchr("0123456789.-+", (int)c) != NULL)
            g_string_append_c(plain, (char)c);
        else if (c != ',' && !g_unichar_isspace(c) && c != 0x202f && c != '\'')
            break;
    }
    /* Only a unit may follow: no digit in it, except the square of m2. */
    gboolean good = strpbrk(rest, "013456789") == NULL;
    char *end = NULL;
    errno = 0;
    double read = g_ascii_strtod(plain->str, &end);
    good = good && *end == '\0' && errno == 0 && isfinite(read);
    gboolean empty = plain->len == 0 && *rest == '\0';
    g_string_free(plain, TRUE);
    if (empty)
        *value = NAN;
    else if (good && number)
        *value = read;
    return empty || (good && number);
}
