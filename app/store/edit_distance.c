#include "edit_distance.h"
#include <string.h>

guint wb_edit_distance(const char *a, const char *b, guint most)
{
    gsize n = strlen(a), m = strlen(b);
    if (MAX(n, m) - MIN(n, m) > most)
        return most + 1;
    g_autofree guint *row = g_new(guint, m + 1);
    for (gsize j = 0; j <= m; j++)
        row[j] = (guint)j;
    for (gsize i = 1; i <= n; i++) {
        guint diagonal = row[0];
        row[0] = (guint)i;
        for (gsize j = 1; j <= m; j++) {
            guint replaced = diagonal + (a[i - 1] != b[j - 1]);
            diagonal = row[j];
            row[j] = MIN(replaced, MIN(row[j], row[j - 1]) + 1);
        }
    }
    return MIN(row[m], most + 1);
}
