/* Outline, obstacles' shapes, pins and gland edited as a person does; each edit one step, refusals
 * change nothing. */
#include "rig.h"
#include "roof_edit.h"
#include "roof_shape_edit.h"
#include <string.h>

static WbDocument *demo(void)
{
    WbDocument *document = rig_document();
    g_assert_true(wb_document_begin_demo(document, NULL));
    return document;
}

static const WbRoof *roof_of(WbDocument *document)
{
    return &wb_document_get_brief(document)->roof;
}

static void assert_corner(WbDocument *document, guint index, gint64 x_mm, gint64 y_mm)
{
    g_assert_cmpuint(index, <, roof_of(document)->n_corners);
    g_assert_cmpint(roof_of(document)->corners[index].x_mm, ==, x_mm);
    g_assert_cmpint(roof_of(document)->corners[index].y_mm, ==, y_mm);
}

static void test_corners(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autofree char *before = rig_text(document);
    gint64 length = roof_of(document)->length_mm, width = roof_of(document)->width_mm;
    g_assert_true(wb_corners_set_given(document, FALSE, NULL)); /* none: nothing to do */
    g_assert_false(wb_document_can_undo(document));
    g_assert_true(wb_corners_set_given(document, TRUE, NULL));
    g_assert_cmpuint(roof_of(document)->n_corners, ==, 4);
    assert_corner(document, 2, length, width);
    g_assert_true(wb_corner_add(document, 1, length, width / 2, NULL));
    assert_corner(document, 2, length, width / 2);
    assert_corner(document, 3, length, width);
    g_assert_true(
        wb_corner_add(document, 4, 0, 300, NULL)); /* on the edge back to the first corner */
    assert_corner(document, 5, 0, 300);
    g_assert_true(wb_corner_move(document, 2, length - 400, width / 2, NULL));
    g_assert_true(wb_corner_remove(document, 5, NULL));
    g_assert_cmpuint(roof_of(document)->n_corners, ==, 5);
    g_assert_true(wb_corners_set_given(document, FALSE, NULL));
    g_assert_cmpuint(roof_of(document)->n_corners, ==, 0);
    for (int step = 0; step < 6; step++)
        g_assert_true(wb_document_undo(document));
    g_autofree char *after = rig_text(document);
    g_assert_cmpstr(before, ==, after);
    g_assert_false(wb_document_can_undo(document));
}

static void test_corner_refused(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(GError) error = NULL;
    g_assert_true(wb_corners_set_given(document, TRUE, NULL));
    g_autofree char *before = rig_text(document);
    g_assert_false(wb_corner_move(document, 0, roof_of(document)->length_mm, 5000, &error));
    g_assert_nonnull(strstr(error->message, "crosses or touches itself"));
    g_clear_error(&error);
    g_assert_false(wb_corner_move(document, 0, -1, 0, &error));
    g_assert_nonnull(strstr(error->message, "/roof/corners/0/0"));
    g_clear_error(&error);
    g_assert_true(wb_corner_remove(document, 0, NULL));
    g_assert_false(wb_corner_remove(document, 0, &error)); /* a triangle keeps its corners */
    g_assert_nonnull(strstr(error->message, "has 2 items"));
    g_assert_true(wb_document_undo(document));
    g_autofree char *after = rig_text(document);
    g_assert_cmpstr(before, ==, after);
}

static void test_corner_nudges(void)
{
    g_autoptr(WbDocument) document = demo();
    gint64 length = roof_of(document)->length_mm, width = roof_of(document)->width_mm;
    g_assert_true(wb_corners_set_given(document, TRUE, NULL));
    for (int i = 0; i < 5; i++)
        g_assert_true(wb_corner_nudge(document, 2, 10, i == 0 ? -1 : 0, NULL));
    assert_corner(document, 2, length + 50, width - 1);
    g_assert_cmpint(roof_of(document)->length_mm, ==, length + 50); /* the frame holds it */
    g_assert_true(wb_corner_nudge(document, 1, -1, 0, NULL));       /* another: a step of its own */
    g_assert_true(wb_document_undo(document));
    assert_corner(document, 1, length, 0);
    g_assert_true(wb_document_undo(document));
    assert_corner(document, 2, length, width);
    g_assert_cmpint(roof_of(document)->length_mm, ==, length);
}

static void test_roof_resize(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(GError) error = NULL;
    gint64 length = roof_of(document)->length_mm, width = roof_of(document)->width_mm;
    g_assert_true(wb_roof_resize(document, length + 100, width - 20, NULL));
    g_assert_cmpint(roof_of(document)->length_mm, ==, length + 100);
    g_assert_cmpint(roof_of(document)->width_mm, ==, width - 20);
    g_assert_true(wb_document_undo(document)); /* one step */
    g_assert_cmpint(roof_of(document)->width_mm, ==, width);
    g_assert_true(wb_corners_set_given(document, TRUE, NULL));
    g_assert_true(wb_corner_move(document, 0, 200, 0, NULL));
    g_assert_true(wb_roof_resize(document, length - 50, width + 30, NULL));
    assert_corner(document, 0, 200, 0);
    assert_corner(document, 1, length - 50, 0);
    assert_corner(document, 2, length - 50, width + 30);
    assert_corner(document, 3, 0, width + 30);
    g_assert_false(wb_roof_resize(document, 0, width, &error));
    g_assert_nonnull(strstr(error->message, "/roof/"));
    g_assert_cmpint(roof_of(document)->length_mm, ==, length - 50);
}

/* The sentence names what to move first; a size that is none is left to the brief's own answer. */
static void test_roof_shrink(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(GError) error = NULL;
    const WbRoof *roof = roof_of(document);
    gint64 length = roof->length_mm, width = roof->width_mm;
    g_autofree char *none = wb_roof_left_outside(roof, length, width);
    g_autofree char *no_size = wb_roof_left_outside(roof, 0, width);
    g_assert_null(none);
    g_assert_null(no_size);
    /* across: the hatch begins at 2700 - 40, the rack at 3330; along: the fan at 640 - 50 */
    g_assert_true(wb_roof_resize(document, 3331, width, &error));
    g_assert_true(wb_document_undo(document));
    g_assert_false(wb_roof_resize(document, 2660, width, &error));
    g_assert_cmpstr(error->message, ==,
                    "Hatch over the bed begins, with its clearance, 2,660 mm from the left, where "
                    "a roof of 2,660 mm has ended. Move it to the left or remove it first. 1 more "
                    "lies there.");
    g_clear_error(&error);
    g_assert_false(wb_roof_nudge(document, 0, -(width - 590), &error));
    g_assert_nonnull(strstr(error->message, "from the front"));
    g_clear_error(&error);
    g_assert_cmpint(roof_of(document)->length_mm, ==, length);
    g_assert_true(wb_gland_set(document, length, 10, NULL));
    g_autofree char *gland = wb_roof_left_outside(roof_of(document), length - 1, width);
    g_assert_cmpstr(gland, ==,
                    "The cable gland is 3,420 mm from the left. Move it to the left first.");
    g_assert_true(wb_corners_set_given(document, TRUE, NULL));
    g_autofree char *corner = wb_roof_left_outside(roof_of(document), length, width - 1);
    g_assert_cmpstr(corner, ==, "Corner 3 is 1,700 mm from the front. Move it to the front first.");
}

static void assert_box(WbDocument *document, gint64 x_mm, gint64 y_mm, gint64 length_mm,
                       gint64 width_mm)
{
    const WbObstacle *obstacle = &roof_of(document)->obstacles[0];
    g_assert_cmpint(obstacle->x_mm, ==, x_mm);
    g_assert_cmpint(obstacle->y_mm, ==, y_mm);
    g_assert_cmpint(obstacle->length_mm, ==, length_mm);
    g_assert_cmpint(obstacle->width_mm, ==, width_mm);
}

static void test_obstacle_shape(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autofree char *before = rig_text(document);
    g_assert_true(wb_obstacle_resize(document, 0, 1000, 400, 300, 501, NULL));
    assert_box(document, 1000, 400, 300, 501);
    g_assert_true(wb_obstacle_set_round(document, 0, FALSE, NULL)); /* as it is: no step */
    g_assert_true(wb_obstacle_set_round(document, 0, TRUE, NULL));
    assert_box(document, 1000, 500, 300, 300);
    g_assert_true(roof_of(document)->obstacles[0].round);
    g_assert_true(wb_obstacle_resize(document, 0, 990, 510, 310, 200, NULL));
    assert_box(document, 990, 510, 310, 310);
    for (int i = 0; i < 3; i++)
        g_assert_true(wb_obstacle_grow(document, 0, i == 2 ? 0 : -10, i == 2 ? 1 : 0, NULL));
    assert_box(document, 990, 510, 291, 291);
    g_assert_true(wb_document_undo(document)); /* nudges in a row are one step */
    assert_box(document, 990, 510, 310, 310);
    g_assert_true(wb_obstacle_set_round(document, 0, FALSE, NULL));
    g_assert_false(roof_of(document)->obstacles[0].round);
    g_assert_true(wb_obstacle_grow(document, 0, 5, 0, NULL));
    assert_box(document, 990, 510, 315, 310);
    for (int step = 0; step < 5; step++)
        g_assert_true(wb_document_undo(document));
    g_autofree char *after = rig_text(document);
    g_assert_cmpstr(before, ==, after);
}

/* From one end of the roof to the other, and growing beyond its edges: no step between lies outside
 * the roof. */
static void test_obstacle_far(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(GError) error = NULL;
    gint64 length = roof_of(document)->length_mm, width = roof_of(document)->width_mm;
    g_assert_true(wb_obstacle_resize(document, 0, -90, -90, 100, 100, &error));
    g_assert_true(wb_obstacle_resize(document, 0, length - 10, width - 10, 10, 10, &error));
    g_assert_true(wb_obstacle_resize(document, 0, -300, -200, 301, 201, &error));
    assert_box(document, -300, -200, 301, 201);
    g_assert_false(wb_obstacle_resize(document, 0, -500, 0, 100, 100, &error));
    g_assert_nonnull(strstr(error->message, "outside the roof"));
    g_clear_error(&error);
    g_assert_false(wb_obstacle_resize(document, 0, 0, 0, 0, 100, &error));
    g_assert_nonnull(strstr(error->message, "length_mm is 0"));
    assert_box(document, -300, -200, 301, 201);
}

/* Kind and shape at once: one step. */
static void test_obstacle_form(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autofree char *before = rig_text(document);
    g_assert_true(wb_obstacle_set_form(document, 1, WB_OBSTACLE_SHADE, TRUE, NULL));
    const WbObstacle *obstacle = &roof_of(document)->obstacles[1];
    g_assert_cmpint(obstacle->kind, ==, WB_OBSTACLE_SHADE);
    g_assert_true(obstacle->round);
    g_assert_cmpint(obstacle->length_mm, ==, obstacle->width_mm);
    g_assert_true(wb_obstacle_set_form(document, 1, WB_OBSTACLE_SHADE, TRUE, NULL)); /* no step */
    g_assert_true(wb_document_undo(document));
    g_autofree char *after = rig_text(document);
    g_assert_cmpstr(before, ==, after);
    g_assert_false(wb_document_can_undo(document));
}

static void test_obstacle_kind(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(GError) error = NULL;
    for (int kind = WB_OBSTACLE_SHADE; kind >= WB_OBSTACLE_STANDS; kind--) {
        g_assert_true(wb_obstacle_set_kind(document, 0, (WbObstacleKind)kind, NULL));
        g_assert_cmpint(roof_of(document)->obstacles[0].kind, ==, kind);
    }
    g_assert_true(wb_obstacle_set_height(document, 0, 180, NULL));
    g_assert_cmpint(roof_of(document)->obstacles[0].height_mm, ==, 180);
    g_assert_false(wb_obstacle_set_height(document, 0, -1, &error));
    g_assert_nonnull(strstr(error->message, "height_mm is -1"));
}

static void test_pins(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autofree char *before = rig_text(document);
    g_assert_true(wb_pin_add(document, "p-orrelith-100-rigid", 40, 50, FALSE, NULL));
    g_assert_true(wb_pin_add(document, "p-brambleray-100-rigid", 1200, 50, TRUE, NULL));
    g_assert_cmpuint(roof_of(document)->n_pins, ==, 2);
    g_assert_cmpstr(roof_of(document)->pins[1].part_id, ==, "p-brambleray-100-rigid");
    g_assert_true(roof_of(document)->pins[1].turned);
    for (int i = 0; i < 4; i++)
        g_assert_true(wb_pin_nudge(document, 0, 1, 2, NULL));
    g_assert_cmpint(roof_of(document)->pins[0].x_mm, ==, 44);
    g_assert_cmpint(roof_of(document)->pins[0].y_mm, ==, 58);
    g_assert_true(wb_document_undo(document));
    g_assert_cmpint(roof_of(document)->pins[0].x_mm, ==, 40);
    g_assert_true(wb_pin_move(document, 0, 60, 70, NULL));
    g_assert_true(wb_pin_turn(document, 0, TRUE, NULL));
    g_assert_true(roof_of(document)->pins[0].turned);
    g_assert_cmpint(roof_of(document)->pins[0].y_mm, ==, 70);
    g_assert_true(wb_pins_remove(document, "p-orrelith-100-rigid", NULL));
    g_assert_cmpuint(roof_of(document)->n_pins, ==, 1);
    g_assert_cmpint(roof_of(document)->pins[0].x_mm, ==, 1200);
    g_assert_true(wb_pin_remove(document, 0, NULL));
    g_assert_cmpuint(roof_of(document)->n_pins, ==, 0);
    for (int step = 0; step < 6; step++)
        g_assert_true(wb_document_undo(document));
    g_autofree char *after = rig_text(document);
    g_assert_cmpstr(before, ==, after);
}

static void test_pins_refused(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(GError) error = NULL;
    g_assert_false(wb_pin_add(document, "not an id", 0, 0, FALSE, &error));
    g_assert_nonnull(strstr(error->message, "/roof/pins/0/panel"));
    g_assert_true(wb_pins_remove(document, NULL, NULL)); /* none: no step */
    g_assert_false(wb_document_can_undo(document));
    g_clear_error(&error);
    g_assert_true(wb_pin_add(document, "p-of-nobody", 0, 0, FALSE, NULL)); /* kept, and told */
    g_assert_false(wb_document_check_parts(document, &error));
    g_assert_nonnull(strstr(error->message, "/roof/pins/0/panel is \"p-of-nobody\""));
    g_assert_nonnull(strstr(error->message, "id of a panel"));
}

static void test_gland(void)
{
    g_autoptr(WbDocument) document = demo();
    g_autoptr(GError) error = NULL;
    g_autofree char *before = rig_text(document);
    g_assert_true(wb_gland_remove(document, NULL)); /* none: no step */
    g_assert_true(wb_gland_set(document, 100, 200, NULL));
    for (int i = 0; i < 3; i++)
        g_assert_true(wb_gland_nudge(document, -10, 1, NULL));
    g_assert_cmpint(roof_of(document)->gland.x_mm, ==, 70);
    g_assert_cmpint(roof_of(document)->gland.y_mm, ==, 203);
    g_assert_true(wb_gland_remove(document, NULL));
    g_assert_false(roof_of(document)->has_gland);
    g_assert_true(wb_document_undo(document));
    g_assert_false(wb_gland_set(document, 100000, 0, &error));
    g_assert_nonnull(strstr(error->message, "/roof/gland/x_mm is 100000"));
    g_assert_true(wb_document_undo(document));
    g_assert_true(wb_document_undo(document));
    g_autofree char *after = rig_text(document);
    g_assert_cmpstr(before, ==, after);
}

static void test_same(void)
{
    static const struct {
        const char *pointer, *json;
        gboolean same;
    } edits[] = {
        {"/roof/standoff_mm", "31", FALSE},
        {"/roof/over_obstacles", "true", FALSE},
        {"/roof/corners", "[[0, 0], [3000, 0], [0, 1500]]", FALSE},
        {"/roof/gland", "{\"x_mm\": 1, \"y_mm\": 1}", FALSE},
        {"/roof/pins", "[{\"panel\": \"p\", \"x_mm\": 1, \"y_mm\": 1}]", FALSE},
        {"/roof/obstacles/0/kind", "\"shade\"", FALSE},
        {"/roof/obstacles/0/height_mm", "33", FALSE},
        {"/roof/max_height_mm", "200", TRUE},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(edits); i++) {
        g_autoptr(WbDocument) document = demo();
        g_autoptr(GError) error = NULL;
        g_autoptr(WbBriefFile) before = wb_brief_file_ref(wb_document_get_file(document));
        g_assert_true(
            wb_document_set_json(document, "Edit", edits[i].pointer, edits[i].json, &error));
        g_assert_no_error(error);
        g_assert_true(wb_document_can_undo(document));
        g_assert_cmpint(wb_roof_same(&wb_brief_file_brief(before)->roof, roof_of(document)), ==,
                        edits[i].same);
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof-shape/corners", test_corners);
    g_test_add_func("/roof-shape/corner-refused", test_corner_refused);
    g_test_add_func("/roof-shape/corner-nudges", test_corner_nudges);
    g_test_add_func("/roof-shape/roof-resize", test_roof_resize);
    g_test_add_func("/roof-shape/roof-shrink", test_roof_shrink);
    g_test_add_func("/roof-shape/obstacle-shape", test_obstacle_shape);
    g_test_add_func("/roof-shape/obstacle-far", test_obstacle_far);
    g_test_add_func("/roof-shape/obstacle-kind", test_obstacle_kind);
    g_test_add_func("/roof-shape/obstacle-form", test_obstacle_form);
    g_test_add_func("/roof-shape/pins", test_pins);
    g_test_add_func("/roof-shape/pins-refused", test_pins_refused);
    g_test_add_func("/roof-shape/gland", test_gland);
    g_test_add_func("/roof-shape/same", test_same);
    return g_test_run();
}
