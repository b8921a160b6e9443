/* Numbers and units to text for people; the only place of the window that prints physical values.
 */
#include "format.h"

#include "money.h"
#include <errno.h>
#include <glib/gi18n.h>
#include <langinfo.h>
#include <math.h>
#include <string.h>

#define NARROW_SPACE "\xe2\x80\xaf"
#define MISSING "\xe2\x80\x93"
#define MINUS "\xe2\x88\x92"

static const char *separator(void)
{
    const char *locale = nl_langinfo(THOUSEP);
    return locale[0] != '\0' ? locale : ",";
}

static const char *decimal_mark(void)
{
    const char *locale = nl_langinfo(RADIXCHAR);
    return locale[0] != '\0' ? locale : ".";
}

/* `digits` is what %.*f of a non-negative number gave, always with a point. */
static char *grouped(const char *digits, gboolean negative)
{
    GString *text = g_string_new(negative ? MINUS : "");
    const char *point = strchr(digits, '.');
    size_t whole = point != NULL ? (size_t)(point - digits) : strlen(digits);
    for (size_t i = 0; i < whole; i++) {
        if (i > 0 && (whole - i) % 3 == 0 && whole > 3)
            g_string_append(text, separator());
        g_string_append_c(text, digits[i]);
    }
    if (point != NULL) {
        g_string_append(text, decimal_mark());
        g_string_append(text, point + 1);
    }
    return g_string_free(text, FALSE);
}

char *wb_format_number(double value, int decimals)
{
    if (isnan(value))
        return g_strdup(MISSING);
    if (isinf(value))
        return g_strdup(value > 0 ? "\xe2\x88\x9e" : MINUS "\xe2\x88\x9e");
    char shape[8], digits[G_ASCII_DTOSTR_BUF_SIZE + 320];
    g_snprintf(shape, sizeof shape, "%%.%df", CLAMP(decimals, 0, 9));
    g_ascii_formatd(digits, sizeof digits, shape, fabs(value));
    gboolean nothing = strspn(digits, "0.") == strlen(digits);
    return grouped(digits, value < 0 && !nothing);
}

char *wb_format_short(double value, int most)
{
    int decimals = 0;
    double scale = 1;
    while (decimals < most && fabs(round(value * scale) / scale - value) > 1e-9 * fabs(value)) {
        decimals++;
        scale *= 10;
    }
    return wb_format_number(value, decimals);
}

char *wb_format_quantity(double value, int decimals, const char *unit)
{
    g_autofree char *number = wb_format_number(value, decimals);
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
    return wb_format_number(minor / pow(10, decimals), decimals);
}

typedef struct {
    const char *name, *unit;
    double scale;
    int decimals;
} CriterionFormat;

static const CriterionFormat criterion_format[WB_N_CRITERIA] = {
    [WB_CRITERION_COST] = {N_("Cost"), "", 0.01, 0},
    [WB_CRITERION_WEIGHT] = {N_("Weight"), "kg", 1, 1},
    [WB_CRITERION_USABLE] = {N_("Usable capacity"), "kWh", 0.001, 2},
    [WB_CRITERION_ROOF] = {N_("Roof area"), "m²", 1, 2},
    [WB_CRITERION_AUTONOMY] = {N_("Autonomy"), "d", 1, 1},
    [WB_CRITERION_SPARE] = {N_("Spare power"), "W", 1, 0},
};

const char *wb_format_criterion(WbCriterion criterion)
{
    return _(criterion_format[criterion].name);
}

const char *wb_format_criterion_unit(WbCriterion criterion, const char *currency)
{
    return criterion == WB_CRITERION_COST ? currency : criterion_format[criterion].unit;
}

double wb_format_criterion_scale(WbCriterion criterion, const char *currency)
{
    return criterion == WB_CRITERION_COST ? pow(10, -decimals_of(currency))
                                          : criterion_format[criterion].scale;
}

int wb_format_criterion_decimals(WbCriterion criterion)
{
    return criterion_format[criterion].decimals;
}

char *wb_format_figure(WbCriterion criterion, double value, const char *currency)
{
    return wb_format_quantity(value * wb_format_criterion_scale(criterion, currency),
                              criterion_format[criterion].decimals,
                              wb_format_criterion_unit(criterion, currency));
}

const char *wb_format_month(int month)
{
    static const char *const names[] = {
        N_("January"),   N_("February"), N_("March"),    N_("April"),
        N_("May"),       N_("June"),     N_("July"),     N_("August"),
        N_("September"), N_("October"),  N_("November"), N_("December"),
    };
    g_return_val_if_fail(month >= 0 && month < 12, "");
    return _(names[month]);
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
    if (decimal_mark()[0] == ',')
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
