/* How the time of the choice out of tables grows with the catalogue, from 50 to 5,000 panels and
 * batteries with two controllers and two inverters for every five, on the reference model. From the
 * parts to the answer, rows made and counted in; processor's time, the middle of RUNS, each size in
 * a process of its own. CSV; and a picture with both axes in powers of ten, choice_growth.svg, in
 * the folder given (else here), whose path is printed last.
 *
 * The front is left out above FRONT_TO parts: there it is too long to wait for. */
#include "cpu_time.h"
#include "own_process.h"
#include "reference_model.h"
#include <glib.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { RUNS = 9, SEED = 1, LONG_LIST = 100, ALL_CRITERIA = 63, FRONT_TO = 500 };

static const size_t SIZES[] = {50, 100, 200, 500, 1000, 2000, 5000};
enum { N_SIZES = G_N_ELEMENTS(SIZES), ROWS = 0, LEAST, LIST, COUNT, FRONT, N_TIMES };

static const char *const NAMES[N_TIMES] = {"rows", "least cost", "best 100", "count", "front"};

typedef struct {
    double ms[N_TIMES]; /* NaN: not asked */
    double raw;
    int64_t least;
    uint64_t count;
    size_t vectors;
    long list_kib, peak_kib;
} Growth;

static int by_size(const void *a, const void *b)
{
    double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

static double one_run(const RefCatalogue *catalogue, int what, Growth *growth)
{
    WbChoiceAim aim = {.weight = {[REF_COST] = 1}};
    WbChoiceEffort effort = {0};
    WbChoiceList list = {0};
    WbChoiceFront front = {0};
    RefTable table;
    WbStatus status = WB_OK;
    double start_ms = cpu_ms();
    ref_table(catalogue, &table);
    if (what == LEAST || what == LIST)
        status = wb_choice_best(&table.table, &aim, what == LIST ? LONG_LIST : 1, &effort, &list);
    else if (what == COUNT)
        status = wb_choice_count(&table.table, &effort, &growth->count);
    else if (what == FRONT)
        status = wb_choice_front(&table.table, ALL_CRITERIA, &effort, &front);
    double ms = cpu_ms() - start_ms;
    if (status != WB_OK)
        g_error("%s: %s", NAMES[what], wb_status_describe(status));
    if (list.n > 0)
        growth->least = list.best[0].score;
    if (what == FRONT)
        growth->vectors = front.n_vectors;
    wb_choice_list_free(&list);
    wb_choice_front_free(&front);
    ref_table_free(&table);
    return ms;
}

static void measure(const void *asked, void *result)
{
    size_t size = *(const size_t *)asked;
    Growth *growth = result;
    RefCatalogue catalogue;
    size_t others = 2 * size / 5;
    ref_make(&catalogue, SEED, size, others, size, others);
    growth->raw = (double)size * 36 * (double)others * (double)size * 16 * (double)others;
    for (int what = ROWS; what < N_TIMES; what++) {
        double ms[RUNS];
        bool slow = what >= COUNT && size > 200;
        growth->ms[what] = NAN;
        if (what == FRONT && size > FRONT_TO)
            continue;
        int runs = slow ? 1 : RUNS;
        for (int run = 0; run < runs; run++)
            ms[run] = one_run(&catalogue, what, growth);
        qsort(ms, (size_t)runs, sizeof *ms, by_size);
        growth->ms[what] = ms[runs / 2];
        if (what == LIST)
            growth->list_kib = own_peak_kib();
    }
    growth->peak_kib = own_peak_kib();
    ref_free(&catalogue);
}

/* ---- the picture ---- */

enum { LEFT = 70, TOP = 20, DECADE_X = 210, DECADE_Y = 70, DECADES_X = 2, DECADES_Y = 7 };

static double x_of(double parts)
{
    return LEFT + DECADE_X * log10(parts / 50);
}

/* From 0.001 ms up. */
static double y_of(double ms)
{
    return TOP + DECADE_Y * (DECADES_Y - log10(ms / 1e-3));
}

static void draw_axes(GString *svg)
{
    double right = x_of(5000), bottom = y_of(1e-3);
    for (int decade = 0; decade <= DECADES_Y; decade++) {
        double ms = pow(10, decade - 3), y = y_of(ms);
        g_string_append_printf(svg,
                               "<path d='M%d %.1f H%.1f' stroke='#ccc'/>"
                               "<text x='%d' y='%.1f' text-anchor='end'>%g ms</text>\n",
                               LEFT, y, right, LEFT - 6, y + 4, ms);
    }
    for (int i = 0; i < N_SIZES; i++) {
        double x = x_of((double)SIZES[i]);
        g_string_append_printf(svg,
                               "<path d='M%.1f %d V%.1f' stroke='#ccc'/>"
                               "<text x='%.1f' y='%.1f' text-anchor='middle'>%zu</text>\n",
                               x, TOP, bottom, x, bottom + 16, SIZES[i]);
    }
    g_string_append_printf(svg,
                           "<text x='%.1f' y='%.1f' text-anchor='middle'>panels, batteries"
                           "</text>\n",
                           (LEFT + right) / 2, bottom + 34);
}

static void draw_line(GString *svg, const Growth *growth, int what)
{
    static const char *const COLOURS[N_TIMES] = {"#777", "#1a5fb4", "#26a269", "#c64600",
                                                 "#813d9c"};
    static const double LABEL_DOWN[N_TIMES] = {18, -8, 5, 0, 0};
    int last = 0;
    g_string_append(svg, "<path fill='none' stroke-width='2' d='");
    for (int i = 0; i < N_SIZES; i++) {
        if (isnan(growth[i].ms[what]))
            continue;
        g_string_append_printf(svg, "%s%.1f %.1f", i ? " L" : "M", x_of((double)SIZES[i]),
                               y_of(fmax(growth[i].ms[what], 1e-3)));
        last = i;
    }
    g_string_append_printf(svg, "' stroke='%s'/><text x='%.1f' y='%.1f' fill='%s'>%s</text>\n",
                           COLOURS[what], x_of((double)SIZES[last]) + 6,
                           y_of(fmax(growth[last].ms[what], 1e-3)) + LABEL_DOWN[what],
                           COLOURS[what], NAMES[what]);
}

static void draw(const Growth *growth, const char *folder)
{
    g_autofree char *path = g_build_filename(folder, "choice_growth.svg", NULL);
    g_autoptr(GError) error = NULL;
    g_autoptr(GString) svg = g_string_new(NULL);
    g_string_append_printf(svg,
                           "<svg xmlns='http://www.w3.org/2000/svg' width='%.0f' height='%.0f' "
                           "font-family='sans-serif' font-size='11'>\n"
                           "<rect width='100%%' height='100%%' fill='white'/>\n",
                           x_of(5000) + 90, y_of(1e-3) + 44);
    draw_axes(svg);
    for (int what = ROWS; what < N_TIMES; what++)
        draw_line(svg, growth, what);
    g_string_append(svg, "</svg>\n");
    if (!g_file_set_contents(path, svg->str, -1, &error))
        g_error("%s", error->message);
    printf("%s\n", path);
}

int main(int argc, char **argv)
{
    Growth growth[N_SIZES];
    printf("parts,raw,rows_ms,least_ms,best_100_ms,peak_kib,least,count_ms,count,front_ms,vectors,"
           "peak_kib\n");
    for (int i = 0; i < N_SIZES; i++) {
        Growth *row = &growth[i];
        *row = (Growth){0};
        own_process(measure, &SIZES[i], row, sizeof *row);
        printf("%zu,%.1e,%.3f,%.3f,%.3f,%ld,%" G_GINT64_FORMAT ",%.2f,%" G_GUINT64_FORMAT
               ",%.2f,%zu,%ld\n",
               SIZES[i], row->raw, row->ms[ROWS], row->ms[LEAST], row->ms[LIST], row->list_kib,
               row->least, row->ms[COUNT], row->count, row->ms[FRONT], row->vectors, row->peak_kib);
        fflush(stdout);
    }
    draw(growth, argc > 1 ? argv[1] : ".");
    return 0;
}
