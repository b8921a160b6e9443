#include "roof_gen.h"
#include "random.h"
#include <math.h>

typedef struct {
    int64_t length_mm, width_mm;
} Size;

/* Panels of 20 to 450 W. */
static const Size PANEL[] = {{760, 350},   {1020, 670},  {1200, 540},  {1480, 670}, {1050, 1290},
                             {1755, 1038}, {1030, 1640}, {1134, 1722}, {540, 440},  {1580, 808}};

static const Size OBSTACLE[] = {{250, 250}, {300, 200}, {400, 400}, {500, 500}, {700, 500}};

/* A bar across the whole roof. */
enum { BAR_MM = 60, BAR_OF = 8, OBSTACLES_OF_RANDOM = 7, OBSTACLES_OF_GROWN = 5 };

typedef struct {
    const char *name;
    Size least, most;
} Kind;

static const Kind KIND[] = {{"van", {2600, 1500}, {6000, 1950}},
                            {"boat", {2000, 1200}, {4000, 2400}},
                            {"cabin", {4500, 2800}, {8000, 4000}},
                            {"trailer", {3500, 1900}, {7500, 2400}}};

/* In whole centimetres, now and then in millimetres. */
static int64_t between_mm(WbRandom *random, int64_t low_mm, int64_t high_mm)
{
    int64_t step_mm = wb_random_below(random, 4) == 0 ? 1 : 10;
    return low_mm + step_mm * (int64_t)wb_random_below(random, (high_mm - low_mm) / step_mm + 1);
}

static void add_obstacles(RoofCase *row, WbRandom *random, int n)
{
    for (int i = 0; i < n; i++) {
        Size size = OBSTACLE[wb_random_below(random, G_N_ELEMENTS(OBSTACLE))];
        bool bar = wb_random_below(random, BAR_OF) == 0;
        if (bar)
            size = (Size){BAR_MM, row->roof.width_mm};
        else if (wb_random_below(random, 2) == 0)
            size = (Size){size.width_mm, size.length_mm};
        int64_t x_mm = between_mm(random, 0, row->roof.length_mm - size.length_mm);
        int64_t y_mm = between_mm(random, 0, row->roof.width_mm - size.width_mm);
        row->obstacle[i] = (WbObstacle){"obstacle", x_mm, y_mm, size.length_mm, size.width_mm, 0};
    }
    row->roof.n_obstacles = n;
    row->roof.obstacles = row->obstacle;
}

static RoofCase *new_case(const char *kind, uint64_t seed)
{
    RoofCase *row = g_new0(RoofCase, 1);
    row->name = g_strdup_printf("%s-%" G_GUINT64_FORMAT, kind, seed);
    row->source = g_strdup("made up");
    return row;
}

static void choose_panel(RoofCase *row, WbRandom *random)
{
    Size panel = PANEL[wb_random_below(random, G_N_ELEMENTS(PANEL))];
    row->panel_a_mm = panel.length_mm;
    row->panel_b_mm = panel.width_mm;
}

RoofCase *roof_gen(uint64_t seed)
{
    WbRandom random;
    wb_random_seed(&random, seed);
    const Kind *kind = &KIND[wb_random_below(&random, G_N_ELEMENTS(KIND))];
    RoofCase *row = new_case(kind->name, seed);
    row->roof.length_mm = between_mm(&random, kind->least.length_mm, kind->most.length_mm);
    row->roof.width_mm = between_mm(&random, kind->least.width_mm, kind->most.width_mm);
    choose_panel(row, &random);
    add_obstacles(row, &random, (int)wb_random_below(&random, OBSTACLES_OF_RANDOM));
    return row;
}

RoofCase *roof_gen_for(uint64_t seed, int n_panels)
{
    WbRandom random;
    wb_random_seed(&random, seed);
    RoofCase *row = new_case("grown", seed);
    choose_panel(row, &random);
    /* A tenth is lost between panels, and what obstacles take. */
    double area_mm2 = 1.1 * n_panels * (double)(row->panel_a_mm * row->panel_b_mm) + 6e5;
    double stretch = 1 + 2 * wb_random_unit(&random);
    row->roof.length_mm = (int64_t)sqrt(area_mm2 * stretch);
    row->roof.width_mm = (int64_t)(area_mm2 / (double)row->roof.length_mm);
    add_obstacles(row, &random, (int)wb_random_below(&random, OBSTACLES_OF_GROWN));
    return row;
}

void roof_gen_print(FILE *file, const RoofCase *row)
{
    fprintf(file,
            "%s,%" G_GINT64_FORMAT ",%" G_GINT64_FORMAT ",%" G_GINT64_FORMAT ",%" G_GINT64_FORMAT
            ",0,0,",
            row->name, row->roof.length_mm, row->roof.width_mm, row->panel_a_mm, row->panel_b_mm);
    for (size_t i = 0; i < row->roof.n_obstacles; i++)
        fprintf(file,
                "%s%" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %" G_GINT64_FORMAT
                " %" G_GINT64_FORMAT,
                i ? ";" : "", row->obstacle[i].x_mm, row->obstacle[i].y_mm,
                row->obstacle[i].length_mm, row->obstacle[i].width_mm);
    fputc('\n', file);
}
