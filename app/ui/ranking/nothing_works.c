#include "nothing_works.h"

#include "outline.h"
#include "resources.h"
#include <glib/gi18n-lib.h>

struct _WbNothingWorks {
    GtkBox parent_instance;
    GtkLabel *headline, *reason, *advice;
    GtkButton *go;
    WbSession *session;
    WbStep step; /* where the button leads */
};

G_DEFINE_FINAL_TYPE(WbNothingWorks, wb_nothing_works, GTK_TYPE_BOX)

/* Where a person can do something about a rule. */
typedef struct {
    WbRule rule;
    WbStep step;
    const char *advice;
} Advice;

#define ROOF_ADVICE N_("Check the roof's measures and obstacles, or tick smaller panels.")
#define LOAD_ADVICE                                                                                \
    N_("Look through the loads: fewer hours or fewer watts let smaller kits work. Or tick larger " \
       "parts.")
#define COLD_ADVICE N_("Check the lowest temperature ever expected, and where the bank stands.")
#define LIMIT_ADVICE                                                                               \
    N_("Raise the limit under Wishes beside the ranking, or tick cheaper and lighter parts.")

static const Advice advices[] = {
    {WB_RULE_ROOF_FIT, WB_STEP_ROOF, ROOF_ADVICE},
    {WB_RULE_ROOF_UNDECIDED, WB_STEP_ROOF, ROOF_ADVICE},
    {WB_RULE_ROOF_LOAD, WB_STEP_ROOF, ROOF_ADVICE},
    {WB_RULE_ROOF_HEIGHT, WB_STEP_ROOF, ROOF_ADVICE},
    {WB_RULE_MONEY, WB_STEP_PARTS, LIMIT_ADVICE},
    {WB_RULE_WEIGHT, WB_STEP_PARTS, LIMIT_ADVICE},
    {WB_RULE_SUPPLY, WB_STEP_LOADS, LOAD_ADVICE},
    {WB_RULE_AUTONOMY, WB_STEP_LOADS, LOAD_ADVICE},
    {WB_RULE_DARK_HOURS, WB_STEP_LOADS, LOAD_ADVICE},
    {WB_RULE_INVERTER_CONTINUOUS, WB_STEP_LOADS, LOAD_ADVICE},
    {WB_RULE_INVERTER_SURGE, WB_STEP_LOADS, LOAD_ADVICE},
    {WB_RULE_PEAK_DRAW, WB_STEP_LOADS, LOAD_ADVICE},
    {WB_RULE_COLD_VOC, WB_STEP_PLACE, COLD_ADVICE},
    {WB_RULE_COLD_CHARGE, WB_STEP_PLACE, COLD_ADVICE},
    {WB_RULE_FREEZING, WB_STEP_PLACE, COLD_ADVICE},
};

static Advice advice_for(WbRule rule)
{
    for (guint i = 0; i < G_N_ELEMENTS(advices); i++)
        if (advices[i].rule == rule)
            return advices[i];
    return (Advice){rule, WB_STEP_PARTS, N_("Tick more parts, so that some of them go together.")};
}

static void show_step(WbNothingWorks *self, WbStep step)
{
    self->step = step;
    g_autofree char *text = g_strdup_printf(_("Go to: %s"), wb_step_title(step));
    gtk_button_set_label(self->go, text);
}

void wb_nothing_works_show(WbNothingWorks *self, WbResult *result)
{
    g_return_if_fail(WB_IS_NOTHING_WORKS(self));
    const WbRanking *ranking = result != NULL ? wb_result_get_ranking(result) : NULL;
    if (ranking == NULL || ranking->raw == 0) {
        gtk_label_set_text(self->headline, _("Nothing to combine yet"));
        gtk_label_set_text(self->reason, _("A kit needs at least one panel, one charge controller "
                                           "and one storage battery to choose from."));
        gtk_label_set_text(self->advice, "");
        show_step(self, WB_STEP_PARTS);
        return;
    }
    WbRule rule = wb_outline_decisive_rule(ranking);
    const char *clash = wb_result_get_clash(result, &rule);
    Advice advice = advice_for(rule);
    g_autofree char *reason = clash ? g_strdup(clash) : wb_outline_why_none_works(ranking);
    gtk_label_set_text(self->headline, _("No kit works yet"));
    gtk_label_set_text(self->reason, reason);
    gtk_label_set_text(self->advice, _(advice.advice));
    show_step(self, advice.step);
}

static void on_go(WbNothingWorks *self)
{
    wb_session_set_page(self->session, wb_step_name(self->step));
}

static void wb_nothing_works_dispose(GObject *object)
{
    g_clear_object(&WB_NOTHING_WORKS(object)->session);
    G_OBJECT_CLASS(wb_nothing_works_parent_class)->dispose(object);
}

static void wb_nothing_works_class_init(WbNothingWorksClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_nothing_works_dispose;
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/ranking/nothing.ui");
    gtk_widget_class_bind_template_child(widget, WbNothingWorks, headline);
    gtk_widget_class_bind_template_child(widget, WbNothingWorks, reason);
    gtk_widget_class_bind_template_child(widget, WbNothingWorks, advice);
    gtk_widget_class_bind_template_child(widget, WbNothingWorks, go);
    gtk_widget_class_bind_template_callback(widget, on_go);
}

static void wb_nothing_works_init(WbNothingWorks *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
    wb_nothing_works_show(self, NULL);
}

void wb_nothing_works_set_context(WbNothingWorks *self, const WbContext *context)
{
    g_return_if_fail(WB_IS_NOTHING_WORKS(self) && self->session == NULL);
    self->session = g_object_ref(context->session);
}
