/* View state: told once per change, and the pins. */
#include "session.h"

static void count(WbSession *session, GParamSpec *pspec, guint *n)
{
    (*n)++;
}

static void count_pins(WbSession *session, guint *n)
{
    (*n)++;
}

static void test_properties(void)
{
    g_autoptr(WbSession) session = wb_session_new();
    guint page = 0, axis = 0;
    g_signal_connect(session, "notify::page", G_CALLBACK(count), &page);
    g_signal_connect(session, "notify::axis-x", G_CALLBACK(count), &axis);
    wb_session_set_page(session, "ranking");
    wb_session_set_page(session, "ranking");
    g_assert_cmpuint(page, ==, 1);
    wb_session_set_page(session, wb_session_get_page(session)); /* its own text */
    g_assert_cmpstr(wb_session_get_page(session), ==, "ranking");
    wb_session_set_axes(session, WB_CRITERION_WEIGHT, WB_CRITERION_USABLE);
    wb_session_set_axes(session, WB_CRITERION_WEIGHT, WB_CRITERION_ROOF);
    g_assert_cmpuint(axis, ==, 1);
    g_object_set(session, "kit", "a kit", "hovered", NULL, "axis-y", (int)WB_CRITERION_SPARE, NULL);
    g_assert_cmpstr(wb_session_get_kit(session), ==, "a kit");
    g_assert_cmpstr(wb_session_get_hovered(session), ==, "");
    g_assert_cmpint(wb_session_get_axis_y(session), ==, WB_CRITERION_SPARE);
}

static void test_pins(void)
{
    g_autoptr(WbSession) session = wb_session_new();
    guint told = 0;
    gsize n;
    g_signal_connect(session, "pins-changed", G_CALLBACK(count_pins), &told);
    g_assert_false(wb_session_is_pinned(session, "a"));
    g_assert_true(wb_session_pin(session, "a"));
    g_assert_true(wb_session_pin(session, "b"));
    g_assert_true(wb_session_pin(session, "a"));
    g_assert_cmpuint(told, ==, 2);
    const char *const *pins = wb_session_get_pins(session, &n);
    g_assert_cmpuint(n, ==, 2);
    g_assert_cmpstr(pins[0], ==, "a");
    g_assert_cmpstr(pins[1], ==, "b");
    g_assert_null(pins[2]);
    wb_session_unpin(session, "a");
    wb_session_unpin(session, "a");
    g_assert_cmpuint(told, ==, 3);
    g_assert_true(wb_session_is_pinned(session, "b"));
    for (int i = 0; i < WB_MOST_PINS - 1; i++) {
        g_autofree char *id = g_strdup_printf("kit %d", i);
        g_assert_true(wb_session_pin(session, id));
    }
    g_assert_false(wb_session_pin(session, "one too many"));
    pins = wb_session_get_pins(session, &n);
    g_assert_cmpuint(n, ==, WB_MOST_PINS);
    g_assert_null(pins[n]);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/session/properties", test_properties);
    g_test_add_func("/session/pins", test_pins);
    return g_test_run();
}
