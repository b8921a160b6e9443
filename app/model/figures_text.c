#include "figures_text.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Thousands are set apart by commas in the whole-number part of "1234567.89". */
static char *set_thousands(const char *digits)
{
    const char *start = digits[0] == '-' ? digits + 1 : digits;
    gsize whole = strspn(start, "0123456789");
    GString *out = g_string_new(digits[0] == '-' ? "-" : "");
    for (gsize i = 0; i < whole; i++) {
        if (i > 0 && (whole - i) % 3 == 0)
            g_string_append_c(out, ',');
        g_string_append_c(out, start[i]);
    }
    g_string_append(out, start + whole);
    return g_string_free(out, FALSE);
}

char *wb_text_number(double value, int decimals)
{
    char digits[G_ASCII_DTOSTR_BUF_SIZE + 320];
    char format[16];
    if (isnan(value))
        return g_strdup("\342\200\223"); /* en dash */
    if (isinf(value))
        return g_strdup(value > 0 ? "\342\210\236" : "-\342\210\236"); /* infinity sign */
    g_snprintf(format, sizeof format, "%%.%df", CLAMP(decimals, 0, 9));
    g_ascii_formatd(digits, sizeof digits, format, value);
    if (digits[0] == '-' && strspn(digits + 1, "0.") == strlen(digits + 1))
        return set_thousands(digits + 1); /* no minus before a rounded zero */
    return set_thousands(digits);
}

char *wb_text_plain(double value)
{
    char digits[G_ASCII_DTOSTR_BUF_SIZE];
    for (int precision = 1; precision <= 17; precision++) {
        char format[8];
        g_snprintf(format, sizeof format, "%%.%dg", precision);
        g_ascii_formatd(digits, sizeof digits, format, value);
        if (g_ascii_strtod(digits, NULL) == value)
            break;
    }
    if (strchr(digits, 'e') && fabs(value) < 1e15 && value == floor(value))
        g_ascii_formatd(digits, sizeof digits, "%.0f", value);
    return g_strdup(digits);
}

static void append_escaped(GString *json, unsigned char c)
{
    if (c == '"' || c == '\\')
        g_string_append_printf(json, "\\%c", c);
    else if (c < 0x20)
        g_string_append_printf(json, "\\u%04x", c);
    else
        g_string_append_c(json, (char)c);
}

char *wb_text_json(const char *text)
{
    GString *json = g_string_new("\"");
    for (const char *c = text; *c; c++)
        append_escaped(json, (unsigned char)*c);
    g_string_append_c(json, '"');
    return g_string_free(json, FALSE);
}

const char *wb_text_month(int month)
{
    static const char *const names[] = {N_("January"), N_("February"), N_("March"),
                                        N_("April"),   N_("May"),      N_("June"),
                                        N_("July"),    N_("August"),   N_("September"),
                                        N_("October"), N_("November"), N_("December")};
    return month >= 0 && month < 12 ? _(names[month]) : "";
}

/* First month of a run that may go past December: the one whose predecessor is not in use. */
static int first_of_run(guint32 months)
{
    for (int m = 0; m < 12; m++)
        if (months >> m & 1 && !(months >> (m + 11) % 12 & 1))
            return m;
    return 0;
}

char *wb_text_months(guint32 months)
{
    months &= 0xfff;
    if (months == 0xfff)
        return g_strdup(_("all year"));
    GString *out = g_string_new(NULL);
    int start = first_of_run(months);
    for (int i = 0; i < 12;) {
        int length = 0;
        while (i + length < 12 && months >> (start + i + length) % 12 & 1)
            length++;
        if (length > 0 && out->len > 0)
            g_string_append(out, ", ");
        if (length > 0)
            g_string_append(out, wb_text_month((start + i) % 12));
        if (length > 1)
            g_string_append_printf(out, "%s%s", length > 2 ? _(" to ") : ", ",
                                   wb_text_month((start + i + length - 1) % 12));
        i += length > 0 ? length : 1;
    }
    return g_string_free(out, FALSE);
}
