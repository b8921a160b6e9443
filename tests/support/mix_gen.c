#include "mix_gen.h"

enum { ROOFS = 5, SIZES = 8, ZONES = 4, PANELS_MAX = 60, TRIES = 400, WASTE_MAX = 400 };

/* Frames, panels and bodies of the usual orders of size, in mm. */
static const int64_t ROOF_MM[ROOFS][2] = {
    {3600, 2200}, {4100, 1800}, {5600, 1850}, {7000, 2300}, {6000, 4000}};
static const int64_t PANEL_MM[SIZES][2] = {{1140, 1720}, {1020, 670},  {1480, 670},  {760, 350},
                                           {1050, 1290}, {1030, 1640}, {1760, 1040}, {1200, 540}};
static const int64_t ZONE_MM[ZONES][2] = {{700, 500}, {500, 500}, {400, 400}, {300, 200}};

static int64_t between(WbRandom *random, int64_t low, int64_t high)
{
    return low + (int64_t)wb_random_below(random, (uint64_t)(high - low + 1));
}

/* Half of the cases keep whole centimetres, as people measure; many lengths then add up alike. */
static int64_t about(WbRandom *random, int64_t length_mm, int64_t unit_mm)
{
    int64_t off_mm = length_mm / 10;
    return (length_mm + between(random, -off_mm, off_mm)) / unit_mm * unit_mm;
}

static void draw_frame(MixCase *mix_case, WbRandom *random, int64_t unit_mm)
{
    const int64_t *frame_mm = ROOF_MM[between(random, 0, ROOFS - 1)];
    *mix_case = (MixCase){.roof = {.length_mm = about(random, frame_mm[0], unit_mm),
                                   .width_mm = about(random, frame_mm[1], unit_mm)}};
    if (between(random, 0, 1)) {
        mix_case->roof.margin_mm = between(random, 0, 5) * 10;
        mix_case->roof.gap_mm = between(random, 0, 4) * 5;
    }
}

static void draw_sizes(MixCase *mix_case, WbRandom *random, int64_t unit_mm)
{
    bool usual = between(random, 0, 2) > 0;
    size_t first = (size_t)between(random, 0, SIZES - 1);
    mix_case->n_items = (size_t)between(random, 2, 3);
    for (size_t k = 0; k < mix_case->n_items; k++) {
        const int64_t *size_mm = PANEL_MM[(first + 3 * k) % SIZES]; /* 3: each once */
        mix_case->item[k] = (WbMixItem){size_mm[0], size_mm[1], 0, true};
        if (!usual) {
            mix_case->item[k].length_mm = about(random, size_mm[0], unit_mm);
            mix_case->item[k].width_mm = about(random, size_mm[1], unit_mm);
        }
    }
}

static void draw_obstacles(MixCase *mix_case, WbRandom *random)
{
    WbRoof *roof = &mix_case->roof;
    int n = (int)between(random, 0, ZONES);
    for (int i = 0; i < n; i++) {
        const int64_t *zone_mm = ZONE_MM[between(random, 0, ZONES - 1)];
        mix_case->obstacle[i] = (WbObstacle){"obstacle",
                                             between(random, 0, roof->length_mm - zone_mm[0]),
                                             between(random, 0, roof->width_mm - zone_mm[1]),
                                             zone_mm[0],
                                             zone_mm[1],
                                             between(random, 0, 2) * 10};
    }
    roof->n_obstacles = (size_t)n;
}

static int64_t area_mm2(const WbMixItem *item)
{
    return item->length_mm * item->width_mm;
}

void mix_gen_drawn(MixCase *mix_case, WbRandom *random)
{
    int64_t unit_mm = between(random, 0, 1) ? 10 : 1;
    draw_frame(mix_case, random, unit_mm);
    draw_obstacles(mix_case, random);
    draw_sizes(mix_case, random, unit_mm);
    mix_case->roof.obstacles = mix_case->obstacle;
    mix_case->answer = WB_FIT_UNDECIDED;
    int64_t left_mm2 = wb_roof_clear_mm2(&mix_case->roof) * between(random, 50, 98) / 100;
    for (int panels = 0, tries = 0; panels < PANELS_MAX && tries < TRIES; tries++) {
        WbMixItem *item = &mix_case->item[between(random, 0, (int64_t)mix_case->n_items - 1)];
        if (area_mm2(item) > left_mm2)
            continue;
        left_mm2 -= area_mm2(item);
        item->count++;
        panels++;
    }
}

/* ---- cut ---- */

/* Parts are grown: a gap belongs to each panel's right and back side. */
typedef struct {
    MixCase *mix_case;
    WbRandom *random;
    MixGenLayout *layout;
    WbRect waste[WASTE_MAX];
    int n_waste;
} Cutter;

/* A size and a turn that enter the part; false: none does. */
static bool choose(Cutter *cutter, WbRect part, int *which, WbRect *panel)
{
    WbMixItem *items = cutter->mix_case->item;
    int64_t gap_mm = cutter->mix_case->roof.gap_mm;
    int n = 2 * (int)cutter->mix_case->n_items, first = (int)between(cutter->random, 0, n - 1);
    for (int k = 0; k < n && cutter->layout->n < PANELS_MAX; k++) {
        const WbMixItem *item = &items[(first + k) % n / 2];
        bool turned = (first + k) % 2;
        int64_t length_mm = (turned ? item->width_mm : item->length_mm) + gap_mm;
        int64_t width_mm = (turned ? item->length_mm : item->width_mm) + gap_mm;
        if (length_mm > part.length_mm || width_mm > part.width_mm)
            continue;
        *which = (int)(item - items);
        *panel = (WbRect){part.x_mm, part.y_mm, length_mm, width_mm};
        return true;
    }
    return false;
}

static void cut(Cutter *cutter, WbRect part)
{
    WbRect panel;
    int which;
    if (part.length_mm <= 0 || part.width_mm <= 0)
        return;
    if (!choose(cutter, part, &which, &panel)) {
        if (cutter->n_waste < WASTE_MAX)
            cutter->waste[cutter->n_waste++] = part;
        return;
    }
    int64_t gap_mm = cutter->mix_case->roof.gap_mm, margin_mm = cutter->mix_case->roof.margin_mm;
    cutter->layout->place[cutter->layout->n++] =
        (WbMixPlace){{panel.x_mm + margin_mm, panel.y_mm + margin_mm, panel.length_mm - gap_mm,
                      panel.width_mm - gap_mm},
                     which};
    cutter->mix_case->item[which].count++;
    bool along = between(cutter->random, 0, 1);
    WbRect right = {part.x_mm + panel.length_mm, part.y_mm, part.length_mm - panel.length_mm,
                    along ? part.width_mm : panel.width_mm};
    WbRect back = {part.x_mm, part.y_mm + panel.width_mm, along ? panel.length_mm : part.length_mm,
                   part.width_mm - panel.width_mm};
    cut(cutter, right);
    cut(cutter, back);
}

/* The frame ends where the last panel does. */
static void cut_off_waste(Cutter *cutter)
{
    WbRoof *roof = &cutter->mix_case->roof;
    int64_t length_mm = 1, width_mm = 1;
    for (int i = 0; i < cutter->layout->n; i++) {
        WbRect rect = cutter->layout->place[i].rect;
        length_mm = MAX(length_mm, rect.x_mm + rect.length_mm + roof->margin_mm);
        width_mm = MAX(width_mm, rect.y_mm + rect.width_mm + roof->margin_mm);
    }
    roof->length_mm = length_mm;
    roof->width_mm = width_mm;
}

/* In waste, what the panels' gap leaves free on its left and front; right and back the gap of the
 * part itself. */
static void stand_in_waste(Cutter *cutter)
{
    WbRoof *roof = &cutter->mix_case->roof;
    int wanted = (int)between(cutter->random, 0, ZONES);
    for (int i = 0; i < cutter->n_waste && (int)roof->n_obstacles < wanted; i++) {
        WbRect waste = cutter->waste[i];
        waste.x_mm += roof->margin_mm;
        waste.y_mm += roof->margin_mm;
        waste.length_mm -= roof->gap_mm;
        waste.width_mm -= roof->gap_mm;
        if (waste.length_mm < 50 || waste.width_mm < 50 || waste.x_mm >= roof->length_mm ||
            waste.y_mm >= roof->width_mm)
            continue;
        cutter->mix_case->obstacle[roof->n_obstacles++] =
            (WbObstacle){"obstacle", waste.x_mm, waste.y_mm, waste.length_mm, waste.width_mm, 0};
    }
}

void mix_gen_cut(MixCase *mix_case, WbRandom *random, MixGenLayout *layout)
{
    int64_t unit_mm = between(random, 0, 1) ? 10 : 1;
    Cutter cutter = {.mix_case = mix_case, .random = random, .layout = layout};
    draw_frame(mix_case, random, unit_mm);
    draw_sizes(mix_case, random, unit_mm);
    mix_case->roof.obstacles = mix_case->obstacle;
    mix_case->answer = WB_FITS;
    layout->n = 0;
    const WbRoof *roof = &mix_case->roof;
    cut(&cutter, (WbRect){0, 0, roof->length_mm - 2 * roof->margin_mm + roof->gap_mm,
                          roof->width_mm - 2 * roof->margin_mm + roof->gap_mm});
    cut_off_waste(&cutter);
    stand_in_waste(&cutter);
}

double mix_gen_fullness(const MixCase *mix_case)
{
    double panels_mm2 = 0;
    for (size_t k = 0; k < mix_case->n_items; k++)
        panels_mm2 += (double)(mix_case->item[k].count * area_mm2(&mix_case->item[k]));
    return panels_mm2 / (double)wb_roof_clear_mm2(&mix_case->roof);
}
