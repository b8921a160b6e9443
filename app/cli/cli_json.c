#include "cli_json.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define PRINTED_AT (1024 * 1024)

void wb_out_start(WbJsonOut *json)
{
    json->text = g_string_new(NULL);
    json->depth = 0;
    json->first = true;
}

char *wb_out_finish(WbJsonOut *json)
{
    g_string_append_c(json->text, '\n');
    return g_string_free(g_steal_pointer(&json->text), FALSE);
}

static void append_quoted(GString *text, const char *value)
{
    g_string_append_c(text, '"');
    for (const char *c = value; *c != '\0'; c++) {
        if (*c == '"' || *c == '\\')
            g_string_append_printf(text, "\\%c", *c);
        else if ((unsigned char)*c < 0x20)
            g_string_append_printf(text, "\\u%04x", (unsigned)*c);
        else
            g_string_append_c(text, *c);
    }
    g_string_append_c(text, '"');
}

static void new_line(WbJsonOut *json)
{
    if (json->text->len > PRINTED_AT) {
        fwrite(json->text->str, 1, json->text->len, stdout);
        g_string_truncate(json->text, 0);
    }
    g_string_append_c(json->text, '\n');
    for (int i = 0; i < json->depth; i++)
        g_string_append(json->text, "  ");
}

static void begin_value(WbJsonOut *json, const char *key)
{
    if (!json->first)
        g_string_append_c(json->text, ',');
    if (json->depth > 0)
        new_line(json);
    if (key != NULL) {
        append_quoted(json->text, key);
        g_string_append(json->text, ": ");
    }
    json->first = false;
}

static void open_bracket(WbJsonOut *json, const char *key, char bracket)
{
    begin_value(json, key);
    g_string_append_c(json->text, bracket);
    json->depth++;
    json->first = true;
}

static void close_bracket(WbJsonOut *json, char bracket)
{
    json->depth--;
    if (!json->first)
        new_line(json);
    g_string_append_c(json->text, bracket);
    json->first = false;
}

void wb_out_object(WbJsonOut *json, const char *key)
{
    open_bracket(json, key, '{');
}

void wb_out_end_object(WbJsonOut *json)
{
    close_bracket(json, '}');
}

void wb_out_array(WbJsonOut *json, const char *key)
{
    open_bracket(json, key, '[');
}

void wb_out_end_array(WbJsonOut *json)
{
    close_bracket(json, ']');
}

void wb_out_text(WbJsonOut *json, const char *key, const char *value)
{
    begin_value(json, key);
    if (value == NULL) {
        g_string_append(json->text, "null");
        return;
    }
    /* Texts of the person's files are UTF-8 already; a file name from the command line may not be.
     */
    g_autofree char *valid = g_utf8_make_valid(value, -1);
    append_quoted(json->text, valid);
}

/* The fewest of 15 to 17 significant digits that read back as the same double. */
static void shortest(double value, char text[G_ASCII_DTOSTR_BUF_SIZE])
{
    static const char *const formats[] = {"%.15g", "%.16g", "%.17g"};
    for (size_t i = 0; i < G_N_ELEMENTS(formats); i++) {
        g_ascii_formatd(text, G_ASCII_DTOSTR_BUF_SIZE, formats[i], value);
        if (g_ascii_strtod(text, NULL) == value)
            return;
    }
}

void wb_out_number(WbJsonOut *json, const char *key, double value)
{
    char text[G_ASCII_DTOSTR_BUF_SIZE] = "null";
    if (isfinite(value))
        shortest(value, text);
    begin_value(json, key);
    g_string_append(json->text, text);
}

void wb_out_integer(WbJsonOut *json, const char *key, int64_t value)
{
    begin_value(json, key);
    g_string_append_printf(json->text, "%" G_GINT64_FORMAT, value);
}

void wb_out_count(WbJsonOut *json, const char *key, uint64_t value)
{
    begin_value(json, key);
    g_string_append_printf(json->text, "%" G_GUINT64_FORMAT, value);
}

void wb_out_flag(WbJsonOut *json, const char *key, bool value)
{
    begin_value(json, key);
    g_string_append(json->text, value ? "true" : "false");
}

void wb_out_integers(WbJsonOut *json, const char *key, const int64_t *values, size_t n)
{
    begin_value(json, key);
    for (size_t i = 0; i < n; i++)
        g_string_append_printf(json->text, "%s%" G_GINT64_FORMAT, i == 0 ? "[" : ", ", values[i]);
    g_string_append(json->text, n == 0 ? "[]" : "]");
}

void wb_out_null(WbJsonOut *json, const char *key)
{
    begin_value(json, key);
    g_string_append(json->text, "null");
}

void wb_out_format(WbJsonOut *json, const char *format)
{
    wb_out_text(json, "format", format);
    wb_out_integer(json, "version", 1);
}
