/* The roof fit beside a general solver of mixed integer programmes, on the carried roofs.
 *
 * The model is the usual exact one: a binary for every place of the normal patterns, and for every
 * grid point at most one of the places over it. The solver gets it twice: as it is, and reduced by
 * the program's own means, without places that have no support and without rows that another row
 * holds in it; making it costs the solver nothing here. Its time is the processor's time it reports
 * itself, in one thread, with its own settings; it need not look for less than one whole panel. The
 * program's time is the processor's too, the middle of five runs, grid and all.
 *
 * name,own_ms,own,bound, then for the usual and the reduced model columns,rows,s,answer, then same;
 * then the sums. Rows whose answer stands on one method only are left out.
 * Without the solver (Debian: coinor-cbc) it says so and ends. With an argument: the limit of a
 * model in seconds. */
#include "cpu_time.h"
#include "roof_cases.h"
#include "roof_grid.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>

enum { RUNS = 5, LIMIT_S = 60, TERMS_OF_A_LINE = 12, OVER_S = 30, SKIPPED = 77 };

typedef struct {
    double s;
    int most, columns, rows;
    bool solved;
} Solver;

static double run_own(const RoofCase *row, WbRoofFit *fit)
{
    double start_ms = cpu_ms();
    wb_roof_fit_free(fit);
    if (wb_roof_most(&row->roof, row->panel_a_mm, row->panel_b_mm, 1000, WB_ROOF_NODES, NULL,
                     fit) != WB_OK)
        g_error("%s: no answer", row->name);
    return cpu_ms() - start_ms;
}

static int by_size(const void *a, const void *b)
{
    double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

static double own_ms(const RoofCase *row, WbRoofFit *fit)
{
    double ms[RUNS];
    for (int run = 0; run < RUNS; run++)
        ms[run] = run_own(row, fit);
    qsort(ms, RUNS, sizeof *ms, by_size);
    return ms[RUNS / 2];
}

/* ---- the model ---- */

typedef struct {
    const WbRoofGrid *grid;
    GString *text;
    GArray *over; /* places over a point */
    int terms, rows;
    bool reduced;
} Model;

static void find_over(Model *model, int column, int row)
{
    const WbRoofGrid *grid = model->grid;
    g_array_set_size(model->over, 0);
    for (int turn = 0; turn < grid->turns; turn++)
        for (int j = grid->y.from[turn][row]; j <= row; j++)
            for (int i = grid->x.from[turn][column]; i <= column; i++) {
                int place = turn * grid->points + j * grid->x.n + i;
                if (grid->open[place])
                    g_array_append_val(model->over, place);
            }
}

typedef struct {
    bool starts_x, starts_y, ends_x, ends_y;
} Edges;

/* Whether a place over the point starts (ends) right there, seen along the roof (across). */
static Edges edges_at(Model *model, int column, int row)
{
    const WbRoofGrid *grid = model->grid;
    Edges edges = {0};
    if (column == grid->x.n || row == grid->y.n)
        return edges;
    find_over(model, column, row);
    for (guint k = 0; k < model->over->len; k++) {
        int place = g_array_index(model->over, int, k);
        int turn = place / grid->points, point = place % grid->points;
        int i = point % grid->x.n, j = point / grid->x.n;
        edges.starts_x |= i == column;
        edges.starts_y |= j == row;
        edges.ends_x |= grid->x.end[turn][i] == column + 1;
        edges.ends_y |= grid->y.end[turn][j] == row + 1;
    }
    return edges;
}

/* Where no place starts at the point, all over it lie over the point before too; where none ends,
 * over the point after: that one holds more if a place starts there, else as much, and goes itself.
 * Afterwards model->over is of this point. */
static bool row_needed(Model *model, int column, int row)
{
    if (!model->reduced) {
        find_over(model, column, row);
        return model->over->len > 1;
    }
    Edges right = edges_at(model, column + 1, row), back = edges_at(model, column, row + 1);
    Edges here = edges_at(model, column, row);
    return model->over->len > 1 && here.starts_x && here.starts_y &&
           (here.ends_x || !right.starts_x) && (here.ends_y || !back.starts_y);
}

static void add_term(Model *model, int place)
{
    if (model->terms++ % TERMS_OF_A_LINE == 0)
        g_string_append_c(model->text, '\n');
    g_string_append_printf(model->text, " + p%d", place);
}

static void add_row(Model *model)
{
    g_string_append_printf(model->text, " r%d:", model->rows++);
    model->terms = 0;
    for (guint k = 0; k < model->over->len; k++)
        add_term(model, g_array_index(model->over, int, k));
    g_string_append(model->text, " <= 1\n");
}

static int add_objective(Model *model)
{
    int columns = 0;
    g_string_append(model->text, "Maximize\n panels:");
    for (int place = 0; place < wb_grid_places(model->grid); place++)
        if (model->grid->open[place]) {
            add_term(model, place);
            columns++;
        }
    g_string_append(model->text, "\nSubject To\n");
    return columns;
}

static void add_binaries(Model *model)
{
    g_string_append(model->text, "Binaries\n");
    for (int place = 0; place < wb_grid_places(model->grid); place++)
        if (model->grid->open[place])
            g_string_append_printf(model->text, " p%d\n", place);
    g_string_append(model->text, "End\n");
}

static char *model_text(const WbRoofGrid *grid, bool reduced, Solver *solver)
{
    Model model = {grid, g_string_new(NULL), g_array_new(FALSE, FALSE, sizeof(int)), 0, 0, reduced};
    solver->columns = add_objective(&model);
    for (int row = 0; row < grid->y.n; row++)
        for (int column = 0; column < grid->x.n; column++) {
            if (row_needed(&model, column, row))
                add_row(&model);
        }
    add_binaries(&model);
    solver->rows = model.rows;
    g_array_unref(model.over);
    return g_string_free(model.text, FALSE);
}

/* ---- the solver ---- */

/* It looks at its own limit only now and then: this much over it, it is ended. */
static void set_hard_limit(gpointer limit_s)
{
    rlim_t hard_s = (rlim_t)g_ascii_strtoull(limit_s, NULL, 10) + OVER_S;
    setrlimit(RLIMIT_CPU, &(struct rlimit){hard_s, hard_s});
}

static double reported_s(const char *name, const char *output)
{
    const char *at = strstr(output, "Total time (CPU seconds):");
    if (!at)
        g_error("%s: the solver reports no time:\n%s", name, output);
    return g_ascii_strtod(at + strlen("Total time (CPU seconds):"), NULL);
}

static void read_answer(const char *name, const char *path, Solver *solver)
{
    g_autofree char *text = NULL;
    if (!g_file_get_contents(path, &text, NULL, NULL))
        g_error("%s: the solver wrote no solution", name);
    const char *value = strstr(text, "objective value ");
    solver->solved = g_str_has_prefix(text, "Optimal");
    if (value)
        solver->most = (int)lround(fabs(g_ascii_strtod(value + strlen("objective value "), NULL)));
}

static void run_solver(const char *cbc, const char *folder, const char *name, const char *text,
                       const char *limit_s, Solver *solver)
{
    g_autoptr(GError) error = NULL;
    g_autofree char *model = g_build_filename(folder, "model.lp", NULL);
    g_autofree char *answer = g_build_filename(folder, "answer", NULL);
    if (!g_file_set_contents(model, text, -1, &error))
        g_error("%s", error->message);
    const char *argv[] = {cbc,      model,   "-threads", "0",     "-sec", limit_s,
                          "-allow", "0.999", "-solve",   "-solu", answer, NULL};
    g_autofree char *output = NULL;
    int status;
    if (!g_spawn_sync(NULL, (char **)argv, NULL, G_SPAWN_STDERR_TO_DEV_NULL, set_hard_limit,
                      (gpointer)limit_s, &output, NULL, &status, &error))
        g_error("%s", error->message);
    if (WIFSIGNALED(status)) {
        *solver = (Solver){
            .s = g_ascii_strtod(limit_s, NULL), .columns = solver->columns, .rows = solver->rows};
    } else {
        read_answer(name, answer, solver);
        solver->s = reported_s(name, output);
    }
    remove(model);
    remove(answer);
}

/* Where no place is open there is nothing to solve: no time is counted. */
static Solver solve(const char *cbc, const char *folder, const RoofCase *row, const char *limit_s,
                    bool reduced)
{
    Solver solver = {.solved = true};
    WbRoofGrid grid;
    if (wb_grid_build(&grid, &row->roof, row->panel_a_mm, row->panel_b_mm, false) != WB_OK ||
        (reduced && wb_grid_prune(&grid, &row->roof) != WB_OK))
        g_error("%s: no grid", row->name);
    g_autofree char *text = model_text(&grid, reduced, &solver);
    if (solver.columns > 0)
        run_solver(cbc, folder, row->name, text, limit_s, &solver);
    wb_grid_free(&grid);
    return solver;
}

/* ---- both ---- */

typedef struct {
    double own_ms, solver_s[2]; /* the usual model, the reduced one */
    int rows, limited[2], differ;
} Sums;

/* What the solver has where its limit ends it need not be a layout: it is not compared. */
static const char *verdict(const WbRoofFit *fit, const Solver solver[2])
{
    bool limited = false;
    for (int k = 0; k < 2; k++) {
        if (solver[k].solved && (solver[k].most < fit->most || solver[k].most > fit->bound))
            return "NO";
        limited |= !solver[k].solved;
    }
    return limited ? "limit" : fit->most < fit->bound ? "not decided" : "yes";
}

static void compare(const char *cbc, const char *folder, const RoofCase *row, const char *limit_s,
                    Sums *sums)
{
    WbRoofFit fit = {0};
    Solver solver[2];
    double ms = own_ms(row, &fit);
    printf("%s,%.3f,%d,%d", row->name, ms, fit.most, fit.bound);
    for (int k = 0; k < 2; k++) {
        solver[k] = solve(cbc, folder, row, limit_s, k == 1);
        printf(",%d,%d,%.2f,%d", solver[k].columns, solver[k].rows, solver[k].s, solver[k].most);
    }
    const char *same = verdict(&fit, solver);
    printf(",%s\n", same);
    fflush(stdout);
    sums->differ += strcmp(same, "NO") == 0;
    for (int k = 0; k < 2; k++) {
        sums->solver_s[k] += solver[k].s;
        sums->limited[k] += !solver[k].solved;
    }
    sums->own_ms += ms;
    sums->rows++;
    wb_roof_fit_free(&fit);
}

static void print_sums(const Sums *sums, const char *limit_s)
{
    static const char *const MODEL[] = {"usual", "reduced"};
    printf("sum of %d,%.3f,,,,,%.2f,,,,%.2f,,%d differ\n", sums->rows, sums->own_ms,
           sums->solver_s[0], sums->solver_s[1], sums->differ);
    for (int k = 0; k < 2; k++)
        printf("%s model: the solver takes %.0f times as long; in %d rows it hit the limit of %s "
               "s, which is what is counted there\n",
               MODEL[k], 1000 * sums->solver_s[k] / sums->own_ms, sums->limited[k], limit_s);
}

int main(int argc, char **argv)
{
    g_autofree char *cbc = g_find_program_in_path("cbc");
    g_autofree char *limit_s = argc > 1 ? g_strdup(argv[1]) : g_strdup_printf("%d", LIMIT_S);
    if (!cbc) {
        printf("skipped: cbc is not installed (Debian: coinor-cbc)\n");
        return SKIPPED;
    }
    g_autoptr(GError) error = NULL;
    g_autofree char *folder = g_dir_make_tmp("wattberth-milp-XXXXXX", &error);
    if (!folder)
        g_error("%s", error->message);
    g_autoptr(GPtrArray) roofs = roof_cases();
    Sums sums = {0};
    printf("name,own_ms,own,bound,columns,rows,s,answer,columns,rows,s,answer,same\n");
    for (guint i = 0; i < roofs->len; i++)
        if (((RoofCase *)roofs->pdata[i])->sure)
            compare(cbc, folder, roofs->pdata[i], limit_s, &sums);
    remove(folder);
    print_sums(&sums, limit_s);
    return 0;
}
