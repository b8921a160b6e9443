#include "session.h"

struct _WbSession {
    GObject parent_instance;
    char *page, *kit, *hovered, *part_asked;
    int axis_x, axis_y, part_kind;
    GPtrArray *pins; /* char *, NULL-terminated by hand in get_pins */
};

G_DEFINE_FINAL_TYPE(WbSession, wb_session, G_TYPE_OBJECT)

enum {
    PROP_PAGE = 1,
    PROP_KIT,
    PROP_HOVERED,
    PROP_AXIS_X,
    PROP_AXIS_Y,
    PROP_PART_KIND,
    PROP_PART_ASKED,
    N_PROPS
};
static GParamSpec *props[N_PROPS];
static guint pins_changed;

WbSession *wb_session_new(void)
{
    return g_object_new(WB_TYPE_SESSION, NULL);
}

static void set_text(WbSession *self, char **field, const char *text, int prop)
{
    if (g_strcmp0(*field, text ? text : "") == 0)
        return;
    char *kept = g_strdup(text ? text : "");
    g_free(*field);
    *field = kept;
    g_object_notify_by_pspec(G_OBJECT(self), props[prop]);
}

static void set_int(WbSession *self, int *field, int value, int prop)
{
    if (*field == value)
        return;
    *field = value;
    g_object_notify_by_pspec(G_OBJECT(self), props[prop]);
}

const char *wb_session_get_page(WbSession *self)
{
    g_return_val_if_fail(WB_IS_SESSION(self), NULL);
    return self->page;
}

void wb_session_set_page(WbSession *self, const char *page)
{
    g_return_if_fail(WB_IS_SESSION(self));
    set_text(self, &self->page, page, PROP_PAGE);
}

const char *wb_session_get_kit(WbSession *self)
{
    g_return_val_if_fail(WB_IS_SESSION(self), NULL);
    return self->kit;
}

void wb_session_set_kit(WbSession *self, const char *kit_id)
{
    g_return_if_fail(WB_IS_SESSION(self));
    set_text(self, &self->kit, kit_id, PROP_KIT);
}

const char *wb_session_get_hovered(WbSession *self)
{
    g_return_val_if_fail(WB_IS_SESSION(self), NULL);
    return self->hovered;
}

void wb_session_set_hovered(WbSession *self, const char *kit_id)
{
    g_return_if_fail(WB_IS_SESSION(self));
    set_text(self, &self->hovered, kit_id, PROP_HOVERED);
}

WbCriterion wb_session_get_axis_x(WbSession *self)
{
    g_return_val_if_fail(WB_IS_SESSION(self), WB_CRITERION_COST);
    return self->axis_x;
}

WbCriterion wb_session_get_axis_y(WbSession *self)
{
    g_return_val_if_fail(WB_IS_SESSION(self), WB_CRITERION_USABLE);
    return self->axis_y;
}

void wb_session_set_axes(WbSession *self, WbCriterion x, WbCriterion y)
{
    g_return_if_fail(WB_IS_SESSION(self));
    g_object_freeze_notify(G_OBJECT(self));
    set_int(self, &self->axis_x, (int)x, PROP_AXIS_X);
    set_int(self, &self->axis_y, (int)y, PROP_AXIS_Y);
    g_object_thaw_notify(G_OBJECT(self));
}

int wb_session_get_part_kind(WbSession *self)
{
    g_return_val_if_fail(WB_IS_SESSION(self), 0);
    return self->part_kind;
}

void wb_session_set_part_kind(WbSession *self, int kind)
{
    g_return_if_fail(WB_IS_SESSION(self));
    set_int(self, &self->part_kind, kind, PROP_PART_KIND);
}

const char *wb_session_get_part_asked(WbSession *self)
{
    g_return_val_if_fail(WB_IS_SESSION(self), NULL);
    return self->part_asked;
}

void wb_session_set_part_asked(WbSession *self, const char *part_id)
{
    g_return_if_fail(WB_IS_SESSION(self));
    set_text(self, &self->part_asked, part_id, PROP_PART_ASKED);
}

/* ---- pins ---- */

/* The array's last item is always the NULL that ends it. */
static gboolean find_pin(WbSession *self, const char *kit_id, guint *index)
{
    for (*index = 0; *index + 1 < self->pins->len; (*index)++)
        if (g_str_equal(self->pins->pdata[*index], kit_id))
            return TRUE;
    return FALSE;
}

gboolean wb_session_is_pinned(WbSession *self, const char *kit_id)
{
    g_return_val_if_fail(WB_IS_SESSION(self) && kit_id != NULL, FALSE);
    guint index;
    return find_pin(self, kit_id, &index);
}

gboolean wb_session_pin(WbSession *self, const char *kit_id)
{
    g_return_val_if_fail(WB_IS_SESSION(self) && kit_id != NULL, FALSE);
    guint index;
    if (find_pin(self, kit_id, &index))
        return TRUE;
    if (self->pins->len - 1 >= WB_MOST_PINS)
        return FALSE;
    g_ptr_array_insert(self->pins, (int)self->pins->len - 1, g_strdup(kit_id));
    g_signal_emit(self, pins_changed, 0);
    return TRUE;
}

void wb_session_unpin(WbSession *self, const char *kit_id)
{
    g_return_if_fail(WB_IS_SESSION(self) && kit_id != NULL);
    guint index;
    if (!find_pin(self, kit_id, &index))
        return;
    g_ptr_array_remove_index(self->pins, index);
    g_signal_emit(self, pins_changed, 0);
}

const char *const *wb_session_get_pins(WbSession *self, gsize *n)
{
    g_return_val_if_fail(WB_IS_SESSION(self), NULL);
    if (n)
        *n = self->pins->len - 1;
    return (const char *const *)self->pins->pdata;
}

/* ---- GObject ---- */

static void wb_session_get_property(GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
    WbSession *self = WB_SESSION(object);
    switch (id) {
    case PROP_PAGE:
        g_value_set_string(value, self->page);
        break;
    case PROP_KIT:
        g_value_set_string(value, self->kit);
        break;
    case PROP_HOVERED:
        g_value_set_string(value, self->hovered);
        break;
    case PROP_AXIS_X:
        g_value_set_int(value, self->axis_x);
        break;
    case PROP_AXIS_Y:
        g_value_set_int(value, self->axis_y);
        break;
    case PROP_PART_KIND:
        g_value_set_int(value, self->part_kind);
        break;
    case PROP_PART_ASKED:
        g_value_set_string(value, self->part_asked);
        break;
    default:
        G_OBJECT_WARN_INVALID_PROPERTY_ID(object, id, pspec);
    }
}

static void wb_session_set_property(GObject *object, guint id, const GValue *value,
                                    GParamSpec *pspec)
{
    WbSession *self = WB_SESSION(object);
    switch (id) {
    case PROP_PAGE:
        set_text(self, &self->page, g_value_get_string(value), PROP_PAGE);
        break;
    case PROP_KIT:
        set_text(self, &self->kit, g_value_get_string(value), PROP_KIT);
        break;
    case PROP_HOVERED:
        set_text(self, &self->hovered, g_value_get_string(value), PROP_HOVERED);
        break;
    case PROP_AXIS_X:
        set_int(self, &self->axis_x, g_value_get_int(value), PROP_AXIS_X);
        break;
    case PROP_AXIS_Y:
        set_int(self, &self->axis_y, g_value_get_int(value), PROP_AXIS_Y);
        break;
    case PROP_PART_KIND:
        set_int(self, &self->part_kind, g_value_get_int(value), PROP_PART_KIND);
        break;
    case PROP_PART_ASKED:
        set_text(self, &self->part_asked, g_value_get_string(value), PROP_PART_ASKED);
        break;
    default:
        G_OBJECT_WARN_INVALID_PROPERTY_ID(object, id, pspec);
    }
}

static void wb_session_finalize(GObject *object)
{
    WbSession *self = WB_SESSION(object);
    g_free(self->page);
    g_free(self->kit);
    g_free(self->hovered);
    g_free(self->part_asked);
    g_ptr_array_unref(self->pins);
    G_OBJECT_CLASS(wb_session_parent_class)->finalize(object);
}

#define PROP_FLAGS (G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY)

static void wb_session_class_init(WbSessionClass *klass)
{
    GObjectClass *object_class = G_OBJECT_CLASS(klass);
    object_class->get_property = wb_session_get_property;
    object_class->set_property = wb_session_set_property;
    object_class->finalize = wb_session_finalize;
    props[PROP_PAGE] = g_param_spec_string("page", NULL, NULL, "loads", PROP_FLAGS);
    props[PROP_KIT] = g_param_spec_string("kit", NULL, NULL, "", PROP_FLAGS);
    props[PROP_HOVERED] = g_param_spec_string("hovered", NULL, NULL, "", PROP_FLAGS);
    props[PROP_AXIS_X] =
        g_param_spec_int("axis-x", NULL, NULL, 0, WB_N_CRITERIA - 1, WB_CRITERION_COST, PROP_FLAGS);
    props[PROP_AXIS_Y] = g_param_spec_int("axis-y", NULL, NULL, 0, WB_N_CRITERIA - 1,
                                          WB_CRITERION_USABLE, PROP_FLAGS);
    props[PROP_PART_KIND] = g_param_spec_int("part-kind", NULL, NULL, 0, G_MAXINT, 0, PROP_FLAGS);
    props[PROP_PART_ASKED] = g_param_spec_string("part-asked", NULL, NULL, "", PROP_FLAGS);
    g_object_class_install_properties(object_class, N_PROPS, props);
    pins_changed = g_signal_new("pins-changed", WB_TYPE_SESSION, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 0);
}

static void wb_session_init(WbSession *self)
{
    self->page = g_strdup("loads");
    self->kit = g_strdup("");
    self->hovered = g_strdup("");
    self->part_asked = g_strdup("");
    self->axis_x = WB_CRITERION_COST;
    self->axis_y = WB_CRITERION_USABLE;
    self->pins = g_ptr_array_new_with_free_func(g_free);
    g_ptr_array_add(self->pins, NULL);
}
