/* The roof: drawn to scale and edited on the drawing or by figures, and what fits of each panel. */
#include "page.h"
#include "bay_list.h"
#include "brief_row.h"
#include "children.h"
#include "figures_text.h"
#include "fit_list.h"
#include "format.h"
#include "mix_pane.h"
#include "obstacle_table.h"
#include "outline_pane.h"
#include "plan_edits.h"
#include "print_actions.h"
#include "resources.h"
#include "roof_edit.h"
#include "roof_fields.h"
#include "roof_pins.h"
#include "roof_sheet.h"
#include "roof_study.h"
#include "roof_words.h"
#include "sun_pane.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define WB_TYPE_ROOF_PAGE (wb_roof_page_get_type())
G_DECLARE_FINAL_TYPE(WbRoofPage, wb_roof_page, WB, ROOF_PAGE, GtkWidget)

struct _WbRoofPage {
    GtkWidget parent_instance;
    WbContext context;
    WbRoofStudy *study;
    WbRoofMix *mix;
    GtkLabel *status, *clear;
    GtkPaned *split;
    GtkStack *panes;
    GtkBox *obstacles, *outline, *bay, *bay_fits, *fits, *mixes, *sun;
    GtkWidget *plan, *table, *list, *has_bay, *bay_problem, *bay_list, *mix_pane, *sun_pane;
    GtkWidget *row[WB_N_ROOF_FIELDS];
    gboolean dirty, filling;
};

G_DEFINE_FINAL_TYPE(WbRoofPage, wb_roof_page, GTK_TYPE_WIDGET)

/* ---- what is looked at ---- */

/* The study's answer for the panel looked at, else for that of the kit in hand; NULL: none. *n: as
 * many of its layout are shown. */
static const WbStudyPanel *shown_panel(WbRoofPage *self, int *n)
{
    const char *id = wb_fit_list_get_shown(WB_FIT_LIST(self->list));
    WbResult *result = wb_ranking_job_get_result(self->context.job);
    g_autofree WbVerdict *verdict = g_new(WbVerdict, 1);
    int most = WB_STUDY_MOST;
    if (id == NULL && result != NULL &&
        wb_result_judge(result, wb_session_get_kit(self->context.session), verdict)) {
        id = wb_result_get_problem(result)->panels[verdict->kit.panel].panel->part.id;
        most = verdict->kit.n_series * verdict->kit.n_parallel;
    }
    int index = id != NULL ? wb_roof_study_find(self->study, id) : -1;
    if (index < 0)
        return NULL;
    const WbStudyPanel *panel = wb_roof_study_get(self->study, (gsize)index);
    *n = panel->known ? MIN(panel->fit.most, most) : 0;
    return panel;
}

/* The mix looked at while its pane is in sight; NULL: none. */
static const WbMixBest *shown_mix(WbRoofPage *self)
{
    const char *pane = gtk_stack_get_visible_child_name(self->panes);
    return g_strcmp0(pane, "mixes") == 0 ? wb_mix_pane_get_shown(WB_MIX_PANE(self->mix_pane))
                                         : NULL;
}

static void show_mix(WbRoofPage *self, const WbMixBest *mix)
{
    g_autofree WbRect *rects = g_new(WbRect, mix->n_layout + 1);
    for (int i = 0; i < mix->n_layout; i++)
        rects[i] = mix->layout[i].rect;
    wb_roof_plan_set(WB_ROOF_PLAN(self->plan), &wb_document_get_brief(self->context.document)->roof,
                     rects, (guint)mix->n_layout);
}

/* How the panels would lie after the change looked at; NULL: none is. */
static const WbRoofChange *shown_change(WbRoofPage *self)
{
    int n = 0, index = wb_fit_list_get_change(WB_FIT_LIST(self->list));
    const char *pane = gtk_stack_get_visible_child_name(self->panes);
    const WbStudyPanel *panel = shown_panel(self, &n);
    return g_strcmp0(pane, "fits") == 0 && panel != NULL && index >= 0 && index < panel->n_changes
               ? &panel->change[index]
               : NULL;
}

static void show_ghost(WbRoofPage *self, const WbRoof *roof)
{
    const WbRoofChange *change = shown_change(self);
    WbRect to = {0};
    if (change == NULL)
        return;
    if (change->obstacle >= 0) {
        const WbObstacle *o = &roof->obstacles[change->obstacle];
        to = (WbRect){o->x_mm + (change->kind == WB_CHANGE_MOVE_X ? change->by_mm : 0),
                      o->y_mm + (change->kind == WB_CHANGE_MOVE_Y ? change->by_mm : 0),
                      o->length_mm, o->width_mm};
    }
    wb_roof_plan_try(WB_ROOF_PLAN(self->plan), change->layout, (guint)change->n, change->obstacle,
                     &to);
}

static void show_plan(WbRoofPage *self)
{
    const WbMixBest *mix = shown_mix(self);
    if (mix != NULL) {
        show_mix(self, mix);
        return;
    }
    const WbRoof *roof = &wb_document_get_brief(self->context.document)->roof;
    int n = 0, n_pinned = 0;
    const WbStudyPanel *panel = shown_panel(self, &n);
    g_autofree WbRect *pinned =
        panel != NULL && n == 0 ? wb_roof_pinned(roof, panel->panel, &n_pinned) : NULL;
    /* Until an answer is there, and where pins stand wrong, only what is pinned. */
    wb_plan_edits_show(WB_ROOF_PLAN(self->plan), roof, panel != NULL ? panel->panel->part.id : NULL,
                       n > 0 ? panel->fit.layout : pinned, n > 0 ? n : n_pinned);
    show_ghost(self, roof);
}

/* ---- the status line ---- */

static char *name_of(const WbPanel *panel)
{
    return g_strstrip(g_strdup_printf("%s %s", panel->part.maker, panel->part.model));
}

/* The model looked at, its answer, and the first change that lets one more in. (transfer full) */
static char *panel_text(const WbStudyPanel *panel, const WbRoof *roof)
{
    g_autofree char *name = name_of(panel->panel);
    g_autofree char *answer = panel->refused != NULL ? g_strdup(panel->refused)
                              : panel->known         ? wb_roof_fit_words(&panel->fit)
                                                     : g_strdup(_("being worked out"));
    g_autofree char *change =
        panel->n_changes > 0 ? wb_roof_change_words(roof, panel->change, 1) : NULL;
    return change != NULL ? g_strdup_printf("%s: %s. %s", name, answer, change)
                          : g_strdup_printf("%s: %s", name, answer);
}

/* Nothing fits, and why; NULL: something does or may. */
static const char *nothing_text(WbRoofPage *self)
{
    gsize n = wb_roof_study_get_n(self->study);
    if (wb_roof_clear_mm2(&wb_document_get_brief(self->context.document)->roof) == 0)
        return _("The margin and what stands on the roof leave nothing of it free.");
    for (gsize i = 0; i < n; i++) {
        const WbStudyPanel *panel = wb_roof_study_get(self->study, i);
        if (!panel->known || panel->refused != NULL || panel->fit.bound > 0)
            return NULL;
    }
    return n > 0 ? _("None of the ticked panels fits this roof: proved.") : NULL;
}

static char *status_text(WbRoofPage *self)
{
    const WbRoof *roof = &wb_document_get_brief(self->context.document)->roof;
    gboolean looked_at = wb_fit_list_get_shown(WB_FIT_LIST(self->list)) != NULL;
    int n = 0;
    const WbMixBest *mix = shown_mix(self);
    const WbStudyPanel *panel = shown_panel(self, &n);
    const WbRoofChange *change = shown_change(self);
    if (mix != NULL)
        return wb_mix_pane_words(WB_MIX_PANE(self->mix_pane), mix);
    if (change != NULL)
        return wb_roof_change_words(roof, change, 1);
    if (panel != NULL && (looked_at || panel->refused != NULL))
        return panel_text(panel, roof);
    if (n == 1)
        return g_strdup(_("The panel of the kit in hand"));
    if (n > 1)
        return g_strdup_printf(_("The %d panels of the kit in hand"), n);
    return g_strdup(wb_roof_study_is_done(self->study) ? "" : _("Working out what fits this roof"));
}

static void show_status(WbRoofPage *self)
{
    const char *nothing = nothing_text(self);
    g_autofree char *text = nothing != NULL ? g_strdup(nothing) : status_text(self);
    gtk_label_set_text(self->status, text);
    if (nothing != NULL)
        gtk_widget_add_css_class(GTK_WIDGET(self->status), "stop");
    else
        gtk_widget_remove_css_class(GTK_WIDGET(self->status), "stop");
}

/* ---- the drawing sheet ---- */

/* (transfer full) */
static WbRoofSheet *mix_sheet_new(WbRoofPage *self, const WbMixBest *mix)
{
    g_autofree WbSheetPanel *panels = g_new0(WbSheetPanel, mix->n_layout + 1);
    char *names[WB_MIX_MODELS] = {NULL};
    for (gsize i = 0; i < wb_roof_mix_get_n_models(self->mix); i++)
        names[i] = name_of(wb_roof_mix_get_model(self->mix, i));
    for (int i = 0; i < mix->n_layout; i++)
        panels[i] = (WbSheetPanel){mix->layout[i].rect, names[mix->layout[i].item]};
    WbRoofSheet *sheet =
        wb_roof_sheet_new(wb_document_get_title(self->context.document),
                          &wb_document_get_brief(self->context.document)->roof, panels,
                          mix->n_layout, mix->load_kg, wb_print_is_letter());
    for (int i = 0; i < WB_MIX_MODELS; i++)
        g_free(names[i]);
    return sheet;
}

/* Of what the plan shows. (transfer full) */
static WbPrint *print_new(WbRoofPage *self)
{
    const WbBrief *brief = wb_document_get_brief(self->context.document);
    int n = 0;
    const WbMixBest *mix = shown_mix(self);
    const WbStudyPanel *shown = shown_panel(self, &n);
    if (mix != NULL)
        return wb_roof_sheet_print(mix_sheet_new(self, mix));
    g_autofree WbSheetPanel *panels = g_new0(WbSheetPanel, n + 1);
    g_autofree char *name = n > 0 ? name_of(shown->panel) : NULL;
    const WbPanel *panel = n > 0 ? shown->panel : NULL;
    double load_kg = n > 0 ? n * (panel->part.weight_kg + panel->mount_kg) : NAN;
    for (int i = 0; i < n; i++)
        panels[i] = (WbSheetPanel){shown->fit.layout[i], name};
    return wb_roof_sheet_print(wb_roof_sheet_new(wb_document_get_title(self->context.document),
                                                 &brief->roof, panels, n, load_kg,
                                                 wb_print_is_letter()));
}

static void act_print(GtkWidget *widget, const char *action, GVariant *parameter)
{
    wb_print_run(widget, print_new(WB_ROOF_PAGE(widget)));
}

static void act_save_pdf(GtkWidget *widget, const char *action, GVariant *parameter)
{
    wb_print_choose_file(widget, print_new(WB_ROOF_PAGE(widget)), WB_SHEET_PDF, _("roof-plan.pdf"));
}

static void act_save_svg(GtkWidget *widget, const char *action, GVariant *parameter)
{
    wb_print_choose_file(widget, print_new(WB_ROOF_PAGE(widget)), WB_SHEET_SVG, _("roof-plan.svg"));
}

static void act_save_as(GtkWidget *widget, const char *action, GVariant *parameter)
{
    wb_print_save_to(widget, print_new(WB_ROOF_PAGE(widget)),
                     g_variant_get_string(parameter, NULL));
}

/* ---- refreshing ---- */

static void show_figures(WbRoofPage *self)
{
    const WbBrief *brief = wb_document_get_brief(self->context.document);
    g_autofree char *area =
        wb_format_quantity((double)wb_roof_clear_mm2(&brief->roof) / 1e6, 2, "m\302\262");
    g_autofree char *text = g_strdup_printf(_("%s clear"), area);
    gboolean given = brief->bay.length_mm > 0;
    gtk_label_set_text(self->clear, text);
    for (int id = WB_BAY_LENGTH; id <= WB_BAY_GAP; id++)
        gtk_widget_set_visible(self->row[id], given);
    self->filling = TRUE;
    gtk_check_button_set_active(GTK_CHECK_BUTTON(self->has_bay), given);
    self->filling = FALSE;
    wb_bay_list_show(WB_BAY_LIST(self->bay_list), brief,
                     wb_ranking_job_get_result(self->context.job));
}

/* Shade is worked out for the panel looked at, once its pane is in sight. */
static void show_sun(WbRoofPage *self)
{
    int n = 0;
    const WbStudyPanel *panel = shown_panel(self, &n);
    const char *pane = gtk_stack_get_visible_child_name(self->panes);
    if (panel != NULL && g_strcmp0(pane, "sun") == 0)
        wb_roof_study_look_at(self->study, panel->panel->part.id);
    wb_sun_pane_show(WB_SUN_PANE(self->sun_pane), panel,
                     wb_document_get_brief(self->context.document));
}

static void on_shown(WbRoofPage *self)
{
    if (self->context.document == NULL)
        return; /* the page closes */
    show_plan(self);
    show_status(self);
    show_sun(self);
}

static void on_mix(WbRoofPage *self)
{
    if (self->context.document == NULL || !gtk_widget_get_mapped(GTK_WIDGET(self))) {
        self->dirty = TRUE;
        return;
    }
    wb_mix_pane_refresh(WB_MIX_PANE(self->mix_pane));
    on_shown(self);
}

/* Mixes are tried only while they are looked at. */
static void on_pane(WbRoofPage *self)
{
    if (self->context.document == NULL)
        return; /* the page closes */
    const char *pane = gtk_stack_get_visible_child_name(self->panes);
    wb_roof_mix_set_awake(self->mix,
                          gtk_widget_get_mapped(GTK_WIDGET(self)) && g_strcmp0(pane, "mixes") == 0);
    on_shown(self);
}

static void refresh(WbRoofPage *self)
{
    self->dirty = FALSE;
    show_figures(self);
    wb_fit_list_refresh(WB_FIT_LIST(self->list));
    wb_mix_pane_refresh(WB_MIX_PANE(self->mix_pane));
    on_shown(self);
}

static void on_changed(WbRoofPage *self)
{
    if (gtk_widget_get_mapped(GTK_WIDGET(self)))
        refresh(self);
    else
        self->dirty = TRUE;
}

static void on_study(WbRoofPage *self)
{
    if (self->context.document == NULL || !gtk_widget_get_mapped(GTK_WIDGET(self))) {
        self->dirty = TRUE;
        return;
    }
    wb_fit_list_refresh(WB_FIT_LIST(self->list));
    on_shown(self);
}

/* ---- edits ---- */

static void on_has_bay(WbRoofPage *self)
{
    g_autoptr(GError) error = NULL;
    gboolean on = gtk_check_button_get_active(GTK_CHECK_BUTTON(self->has_bay));
    if (self->filling)
        return;
    gboolean done = wb_bay_set_given(self->context.document, on, &error);
    gtk_label_set_text(GTK_LABEL(self->bay_problem), done ? "" : error->message);
    gtk_widget_set_visible(self->bay_problem, !done);
}

/* ---- building ---- */

static void add_label(GtkBox *box, const char *text, const char *css_class)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_widget_add_css_class(label, css_class);
    gtk_box_append(box, label);
}

static void add_rows(WbRoofPage *self, GtkBox *box, WbRoofFieldId first, WbRoofFieldId last)
{
    for (int id = (int)first; id <= (int)last; id++) {
        self->row[id] = wb_brief_row_new(self->context.document, wb_roof_field(id));
        gtk_box_append(box, self->row[id]);
    }
}

static void add_plan(WbRoofPage *self)
{
    self->plan = wb_roof_plan_new();
    gtk_widget_set_size_request(self->plan, 300, 156);
    wb_roof_plan_make_editable(WB_ROOF_PLAN(self->plan));
    gtk_paned_set_start_child(self->split, self->plan);
}

static void add_bay(WbRoofPage *self)
{
    add_label(self->bay, _("Storage bay"), "section");
    self->has_bay = gtk_check_button_new_with_label(_("The bank must stand in a bay"));
    g_signal_connect_object(self->has_bay, "toggled", G_CALLBACK(on_has_bay), self,
                            G_CONNECT_SWAPPED);
    gtk_box_append(self->bay, self->has_bay);
    add_label(self->bay, "", "stop");
    self->bay_problem = gtk_widget_get_last_child(GTK_WIDGET(self->bay));
    gtk_widget_set_visible(self->bay_problem, FALSE);
    add_rows(self, self->bay, WB_BAY_LENGTH, WB_BAY_GAP);
    self->bay_list = wb_bay_list_new();
    gtk_box_append(self->bay_fits, self->bay_list);
}

static void add_parts(WbRoofPage *self)
{
    add_plan(self);
    self->table = wb_obstacle_table_new(self->context.document);
    wb_plan_edits_connect(WB_ROOF_PLAN(self->plan), WB_OBSTACLE_TABLE(self->table),
                          self->context.document);
    gtk_box_append(self->obstacles, self->table);
    gtk_box_append(self->outline, wb_outline_pane_new(self->context.document));
    add_bay(self);
    self->list = wb_fit_list_new(self->study, self->context.document);
    g_signal_connect_object(self->list, "shown", G_CALLBACK(on_shown), self, G_CONNECT_SWAPPED);
    gtk_box_append(self->fits, self->list);
    self->mix_pane = wb_mix_pane_new(self->mix, self->context.document);
    g_signal_connect_object(self->mix_pane, "shown", G_CALLBACK(on_shown), self, G_CONNECT_SWAPPED);
    gtk_box_append(self->mixes, self->mix_pane);
    self->sun_pane = wb_sun_pane_new();
    gtk_box_append(self->sun, self->sun_pane);
    g_signal_connect_object(self->panes, "notify::visible-child", G_CALLBACK(on_pane), self,
                            G_CONNECT_SWAPPED);
}

GtkWidget *wb_roof_page_new(const WbContext *context)
{
    WbRoofPage *self = g_object_new(WB_TYPE_ROOF_PAGE, NULL);
    self->context = *context;
    self->study = wb_roof_study_new(context->document);
    self->mix = wb_roof_mix_new(context->document);
    add_parts(self);
    refresh(self);
    g_signal_connect_object(self->study, "changed", G_CALLBACK(on_study), self, G_CONNECT_SWAPPED);
    g_signal_connect_object(self->mix, "changed", G_CALLBACK(on_mix), self, G_CONNECT_SWAPPED);
    g_signal_connect_object(context->document, "changed", G_CALLBACK(on_changed), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->job, "result", G_CALLBACK(on_changed), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(context->session, "notify::kit", G_CALLBACK(on_shown), self,
                            G_CONNECT_SWAPPED);
    return GTK_WIDGET(self);
}

/* ---- GObject ---- */

static void wb_roof_page_map(GtkWidget *widget)
{
    WbRoofPage *self = WB_ROOF_PAGE(widget);
    wb_roof_study_set_awake(self->study, TRUE);
    if (self->dirty)
        refresh(self);
    GTK_WIDGET_CLASS(wb_roof_page_parent_class)->map(widget);
    on_pane(self);
}

static void wb_roof_page_unmap(GtkWidget *widget)
{
    WbRoofPage *self = WB_ROOF_PAGE(widget);
    if (self->study != NULL) {
        wb_roof_study_set_awake(self->study, FALSE);
        wb_roof_mix_set_awake(self->mix, FALSE);
    }
    GTK_WIDGET_CLASS(wb_roof_page_parent_class)->unmap(widget);
}

static void wb_roof_page_dispose(GObject *object)
{
    WB_ROOF_PAGE(object)->context.document = NULL;
    wb_drop_children(GTK_WIDGET(object), WB_TYPE_ROOF_PAGE);
    g_clear_object(&WB_ROOF_PAGE(object)->study); /* its rows are gone */
    g_clear_object(&WB_ROOF_PAGE(object)->mix);
    G_OBJECT_CLASS(wb_roof_page_parent_class)->dispose(object);
}

static void wb_roof_page_class_init(WbRoofPageClass *klass)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(klass);
    G_OBJECT_CLASS(klass)->dispose = wb_roof_page_dispose;
    widget->map = wb_roof_page_map;
    widget->unmap = wb_roof_page_unmap;
    gtk_widget_class_install_action(widget, "roof.print", NULL, act_print);
    gtk_widget_class_install_action(widget, "roof.save-pdf", NULL, act_save_pdf);
    gtk_widget_class_install_action(widget, "roof.save-svg", NULL, act_save_svg);
    gtk_widget_class_install_action(widget, "roof.save-as", "s", act_save_as);
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/roof/page.ui");
    gtk_widget_class_bind_template_child(widget, WbRoofPage, status);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, clear);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, split);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, panes);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, mixes);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, sun);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, obstacles);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, outline);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, bay);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, bay_fits);
    gtk_widget_class_bind_template_child(widget, WbRoofPage, fits);
}

static void wb_roof_page_init(WbRoofPage *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}
