/* A sentence on a roof drawing, beside the roof where there is room, else where it covers least. */
#include "roof_plan_private.h"

#include <math.h>

#define ROOM 130 /* px: a card is no narrower */
#define MOST 520 /* and no wider */
#define PAD_X 6
#define PAD_Y 4
#define AWAY 8
#define WIDTH_FIGURES 60 /* px left of the roof: its width is written there */
#define HELD_WEIGHT 8    /* what is in hand is hidden last */

typedef struct {
    double x, y, width, height;
} Card;

static Card sized(WbInk *ink, const char *text, double most)
{
    int width, height;
    pango_layout_set_width(ink->layout, (int)((most - 2 * PAD_X) * PANGO_SCALE));
    wb_ink_text_size(ink, text, &width, &height);
    return (Card){0, 0, width + 2 * PAD_X, height + 2 * PAD_Y};
}

/* Right of the roof, left of it, behind it. */
static gboolean beside_roof(WbRoofPlan *self, WbInk *ink, const char *text, Card *card)
{
    double left = wb_ink_x(ink, 0) - WIDTH_FIGURES - AWAY;
    double right = wb_ink_x(ink, self->roof.length_mm) + AWAY;
    double back = wb_ink_y(ink, self->roof.width_mm) + WB_VIEW_BOTTOM;
    double from = WB_VIEW_TOP + AWAY;
    const struct {
        double x, y, width, height;
    } room[] = {{right, from, ink->width - right, ink->height - from},
                {0, from, left, ink->height - from},
                {WB_VIEW_LEFT, back, ink->width - WB_VIEW_LEFT, ink->height - back}};
    for (guint i = 0; i < G_N_ELEMENTS(room); i++) {
        if (room[i].width < ROOM)
            continue;
        *card = sized(ink, text, fmin(room[i].width, MOST));
        card->x = room[i].x;
        card->y = room[i].y;
        if (card->height <= room[i].height)
            return TRUE;
    }
    return FALSE;
}

static double covered(WbInk *ink, const Card *card, const WbRect *rect)
{
    double x = wb_ink_x(ink, rect->x_mm), y = wb_ink_y(ink, rect->y_mm);
    double right = wb_ink_x(ink, rect->x_mm + rect->length_mm);
    double back = wb_ink_y(ink, rect->y_mm + rect->width_mm);
    double width = fmin(right, card->x + card->width) - fmax(x, card->x);
    double height = fmin(back, card->y + card->height) - fmax(y, card->y);
    return width > 0 && height > 0 ? width * height : 0;
}

static double cost(WbRoofPlan *self, WbInk *ink, const Card *card)
{
    double sum = 0;
    WbPlanThing thing = self->held.off ? self->held.thing : self->chosen;
    WbRect hand = self->held.off ? self->held.now : wb_plan_rect(self, thing);
    for (guint i = 0; i < self->n_panels; i++)
        sum += covered(ink, card, &self->rects[i]);
    for (gsize i = 0; i < self->roof.n_obstacles; i++) {
        const WbRect rect = wb_plan_rect(self, (WbPlanThing){WB_PLAN_OBSTACLE, (int)i});
        sum += covered(ink, card, &rect);
    }
    return wb_plan_has(self, thing) ? sum + HELD_WEIGHT * covered(ink, card, &hand) : sum;
}

/* Of the four corners of the drawing and the middles of its long sides, within the dimensions. */
static void over_roof(WbRoofPlan *self, WbInk *ink, const char *text, Card *card)
{
    Card best = sized(ink, text, fmin(ink->width - WB_VIEW_LEFT - 3 * AWAY, MOST));
    double x = fmax(wb_ink_x(ink, 0), WB_VIEW_LEFT) + AWAY;
    double y = fmax(wb_ink_y(ink, 0), WB_VIEW_TOP) + AWAY;
    double right = fmin(wb_ink_x(ink, self->roof.length_mm), ink->width) - AWAY - best.width;
    double back =
        fmin(wb_ink_y(ink, self->roof.width_mm), ink->height - WB_VIEW_BOTTOM) - AWAY - best.height;
    double least = INFINITY;
    *card = best;
    for (int i = 0; i < 6; i++) {
        best.x = x + (right - x) * (i % 3) / 2;
        best.y = i < 3 ? back : y;
        double now = cost(self, ink, &best);
        if (now < least)
            *card = best;
        least = fmin(least, now);
    }
    card->x = fmax(fmin(card->x, ink->width - card->width - 1), 0);
    card->y = fmax(fmin(card->y, ink->height - card->height - 1), 0);
}

void wb_plan_paint_told(WbRoofPlan *self, WbInk *ink, const char *sentence)
{
    g_autofree char *text = g_strdup_printf("! %s", sentence);
    Card card;
    if (!beside_roof(self, ink, text, &card))
        over_roof(self, ink, text, &card);
    cairo_new_path(ink->cr);
    cairo_rectangle(ink->cr, round(card.x) + 0.5, round(card.y) + 0.5, card.width - 1,
                    card.height - 1);
    wb_ink_fill(ink, &ink->palette.paper, 1);
    wb_ink_stroke(ink, &ink->palette.over, 1, 0);
    wb_ink_text(ink, text, card.x + PAD_X, card.y + PAD_Y, 0, 0, &ink->palette.over);
    pango_layout_set_width(ink->layout, -1);
}
