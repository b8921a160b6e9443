#include "text_rules.h"
#include <glib.h>
#include <stdlib.h>
#include <string.h>

static const char letters_and_digits[] = "abcdefghijklmnopqrstuvwxyz0123456789";

static bool id_of_length(const char *text, size_t n)
{
    if (n < 1 || n > 64 || *text == '-')
        return false;
    for (size_t i = 0; i < n; i++)
        if (text[i] != '-' && !memchr(letters_and_digits, text[i], sizeof letters_and_digits - 1))
            return false;
    return true;
}

bool wb_is_id(const char *text)
{
    return id_of_length(text, strlen(text));
}

bool wb_is_id_list(const char *text)
{
    if (*text == '\0')
        return true;
    for (;;) {
        size_t n = strcspn(text, " ");
        if (!id_of_length(text, n))
            return false;
        if (text[n] == '\0')
            return true;
        text += n + 1;
    }
}

bool wb_is_currency(const char *text)
{
    return strlen(text) == 3 && strspn(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == 3;
}

bool wb_is_date(const char *text)
{
    static const char pattern[] = "dddd-dd-dd";
    if (strlen(text) != sizeof pattern - 1)
        return false;
    for (size_t i = 0; pattern[i]; i++)
        if (pattern[i] == 'd' ? !g_ascii_isdigit(text[i]) : text[i] != '-')
            return false;
    int year = atoi(text), month = atoi(text + 5), day = atoi(text + 8);
    return year > 0 && month > 0 && day > 0 &&
           g_date_valid_dmy((GDateDay)day, (GDateMonth)month, (GDateYear)year);
}
