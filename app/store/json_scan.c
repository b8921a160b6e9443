/* Checks a text against RFC 8259 before cJSON reads it, because cJSON 1.7.15 also takes 01, 1.,
 * control characters, wrong UTF-8, a NUL inside a text and numbers beyond what a double holds. */
#include "json.h"
#include "store_fail.h"
#include <math.h>
#include <stdbool.h>
#include <string.h>

typedef struct {
    const char *start, *at, *end;
    const char *name;
    int depth;
    GError **error;
} Scan;

static gboolean scan_value(Scan *scan);

static gboolean fail_at(Scan *scan, const char *place, const char *problem)
{
    int line = 1;
    const char *line_start = scan->start;
    for (const char *c = scan->start; c < place; c++)
        if (*c == '\n') {
            line++;
            line_start = c + 1;
        }
    int column = (int)g_utf8_strlen(line_start, place - line_start) + 1;
    wb_store_fail(scan->error, WB_STORE_ERROR_SYNTAX, "%s, line %d, column %d: %s.", scan->name,
                  line, column, problem);
    return FALSE;
}

static gboolean fail_expected(Scan *scan, const char *expected)
{
    g_autofree char *problem = NULL;
    if (scan->at >= scan->end) {
        problem = g_strdup_printf("the text ends where %s is expected, so it seems to be cut off",
                                  expected);
    } else {
        gunichar c = g_utf8_get_char(scan->at);
        char found[8] = "";
        found[g_unichar_to_utf8(c, found)] = '\0';
        problem = g_unichar_isprint(c)
                      ? g_strdup_printf("found \"%s\" where %s is expected", found, expected)
                      : g_strdup_printf("found the character U+%04X where %s is expected",
                                        (unsigned)c, expected);
    }
    return fail_at(scan, scan->at, problem);
}

static void skip_space(Scan *scan)
{
    while (scan->at < scan->end && memchr(" \t\r\n", *scan->at, 4))
        scan->at++;
}

static bool take(Scan *scan, char c)
{
    if (scan->at >= scan->end || *scan->at != c)
        return false;
    scan->at++;
    return true;
}

static int take_digits(Scan *scan)
{
    int n = 0;
    for (; scan->at < scan->end && g_ascii_isdigit(*scan->at); n++)
        scan->at++;
    return n;
}

static gboolean check_number_range(Scan *scan, const char *start)
{
    if (scan->at - start > 48)
        return fail_at(scan, start, "a number has at most 48 characters");
    g_autofree char *text = g_strndup(start, (gsize)(scan->at - start));
    if (fabs(g_ascii_strtod(text, NULL)) <= WB_JSON_NUMBER_MOST)
        return TRUE;
    g_autofree char *problem = g_strdup_printf(
        "%s is too large; numbers of up to 15 digits before the point are accepted", text);
    return fail_at(scan, start, problem);
}

static gboolean scan_number(Scan *scan)
{
    const char *start = scan->at;
    take(scan, '-');
    if (!take(scan, '0') && take_digits(scan) == 0)
        return fail_expected(scan, "a digit");
    if (scan->at < scan->end && g_ascii_isdigit(*scan->at))
        return fail_at(scan, start, "a number does not start with a zero before other digits");
    if (take(scan, '.') && take_digits(scan) == 0)
        return fail_expected(scan, "a digit");
    if (take(scan, 'e') || take(scan, 'E')) {
        if (!take(scan, '+'))
            take(scan, '-');
        if (take_digits(scan) == 0)
            return fail_expected(scan, "a digit");
    }
    return check_number_range(scan, start);
}

static gboolean scan_hex4(Scan *scan, unsigned *code)
{
    *code = 0;
    for (int i = 0; i < 4; i++, scan->at++) {
        if (scan->at >= scan->end || !g_ascii_isxdigit(*scan->at))
            return fail_expected(scan, "a hexadecimal digit");
        *code = *code * 16 + (unsigned)g_ascii_xdigit_value(*scan->at);
    }
    return TRUE;
}

static gboolean scan_unicode_escape(Scan *scan)
{
    const char *start = scan->at - 2;
    unsigned code, low = 0;
    if (!scan_hex4(scan, &code))
        return FALSE;
    if (code == 0)
        return fail_at(scan, start, "a text must not hold the character U+0000");
    if (code >= 0xDC00 && code <= 0xDFFF)
        return fail_at(scan, start, "the second half of a surrogate pair stands alone");
    if (code < 0xD800 || code > 0xDBFF)
        return TRUE;
    if (!take(scan, '\\') || !take(scan, 'u'))
        return fail_at(scan, start, "the first half of a surrogate pair stands alone");
    if (!scan_hex4(scan, &low))
        return FALSE;
    if (low < 0xDC00 || low > 0xDFFF)
        return fail_at(scan, start, "the first half of a surrogate pair stands alone");
    return TRUE;
}

static gboolean scan_escape(Scan *scan)
{
    if (take(scan, 'u'))
        return scan_unicode_escape(scan);
    if (scan->at < scan->end && memchr("\"\\/bfnrt", *scan->at, 8)) {
        scan->at++;
        return TRUE;
    }
    return fail_expected(scan, "one of the escapes \\\" \\\\ \\/ \\b \\f \\n \\r \\t \\u");
}

static gboolean scan_text(Scan *scan)
{
    scan->at++;
    while (scan->at < scan->end) {
        if (take(scan, '"'))
            return TRUE;
        if ((unsigned char)*scan->at < 0x20)
            return fail_expected(scan, "a character of a text, or its closing quote,");
        if (take(scan, '\\')) {
            if (!scan_escape(scan))
                return FALSE;
        } else {
            scan->at++;
        }
    }
    return fail_expected(scan, "the closing quote of a text");
}

static gboolean scan_member(Scan *scan)
{
    skip_space(scan);
    if (scan->at >= scan->end || *scan->at != '"')
        return fail_expected(scan, "a member's name in quotes");
    if (!scan_text(scan))
        return FALSE;
    skip_space(scan);
    if (!take(scan, ':'))
        return fail_expected(scan, "a colon");
    return scan_value(scan);
}

static gboolean scan_items(Scan *scan, char closing, gboolean (*scan_item)(Scan *),
                           const char *expected)
{
    if (++scan->depth > WB_JSON_DEPTH)
        return fail_at(scan, scan->at, "values are nested more than 64 deep");
    scan->at++;
    skip_space(scan);
    if (!take(scan, closing)) {
        do {
            if (!scan_item(scan))
                return FALSE;
            skip_space(scan);
        } while (take(scan, ','));
        if (!take(scan, closing))
            return fail_expected(scan, expected);
    }
    scan->depth--;
    return TRUE;
}

static gboolean scan_literal(Scan *scan)
{
    static const char *const literals[] = {"true", "false", "null"};
    for (size_t i = 0; i < G_N_ELEMENTS(literals); i++) {
        size_t n = strlen(literals[i]);
        if ((size_t)(scan->end - scan->at) >= n && memcmp(scan->at, literals[i], n) == 0) {
            scan->at += n;
            return TRUE;
        }
    }
    return fail_expected(scan, "a value");
}

static gboolean scan_value(Scan *scan)
{
    skip_space(scan);
    char c = scan->at < scan->end ? *scan->at : '\0';
    if (c == '{')
        return scan_items(scan, '}', scan_member, "a comma or \"}\"");
    if (c == '[')
        return scan_items(scan, ']', scan_value, "a comma or \"]\"");
    if (c == '"')
        return scan_text(scan);
    if (c == '-' || g_ascii_isdigit(c))
        return scan_number(scan);
    return scan_literal(scan);
}

gboolean wb_json_scan(const char *text, gsize length, const char *name, GError **error)
{
    Scan scan = {text, text, text + length, name, 0, error};
    const char *wrong;
    if (length == 0) {
        wb_store_fail(error, WB_STORE_ERROR_SYNTAX, "%s is empty; JSON is expected.", name);
        return FALSE;
    }
    if (!g_utf8_validate_len(text, length, &wrong))
        return fail_at(&scan, wrong, "the text is not UTF-8, or holds the character U+0000");
    if (!scan_value(&scan))
        return FALSE;
    skip_space(&scan);
    return scan.at == scan.end || fail_expected(&scan, "the end of the text");
}
