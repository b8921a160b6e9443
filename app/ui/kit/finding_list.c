#include "finding_list.h"

#include "finding_line.h"
#include "words.h"
#include <glib/gi18n-lib.h>
#include <math.h>

struct _WbFindingList {
    GtkBox parent_instance;
    guint64 open; /* bit r: rule r is open */
};

G_DEFINE_FINAL_TYPE(WbFindingList, wb_finding_list, GTK_TYPE_BOX)

/* Rules that do not concern the kit are left out; what keeps its limit comes last. */
typedef struct {
    const char *title;
    gboolean holds;
    WbSeverity severity;
} Group;

static const Group groups[] = {{N_("Stops: it does not work"), FALSE, WB_STOP},
                               {N_("Cautions"), FALSE, WB_CAUTION},
                               {N_("Notes"), FALSE, WB_NOTE},
                               {N_("Checked and within its limits"), TRUE, WB_NOTE}};

static gboolean belongs(const WbFinding *finding, const Group *group)
{
    if (group->holds)
        return finding->holds && !isnan(finding->value);
    return !finding->holds && finding->severity == group->severity;
}

/* Those nearest their limit first among what keeps it. */
static double distance(const WbFinding *finding)
{
    return isnan(finding->margin) ? INFINITY : finding->margin;
}

static int nearer(gconstpointer a, gconstpointer b)
{
    const WbFinding *one = *(const WbFinding *const *)a, *other = *(const WbFinding *const *)b;
    double by = distance(one) - distance(other);
    if (by < 0 || by > 0)
        return by < 0 ? -1 : 1;
    return (int)one->rule - (int)other->rule;
}

static void remember(WbFindingList *self)
{
    GtkWidget *child = gtk_widget_get_first_child(GTK_WIDGET(self));
    for (; child != NULL; child = gtk_widget_get_next_sibling(child)) {
        if (!WB_IS_FINDING_LINE(child))
            continue;
        guint64 bit = G_GUINT64_CONSTANT(1) << wb_finding_line_get_rule(WB_FINDING_LINE(child));
        self->open &= ~bit;
        if (wb_finding_line_get_open(WB_FINDING_LINE(child)))
            self->open |= bit;
    }
}

static void add_group(WbFindingList *self, const WbProblem *problem, const WbVerdict *verdict,
                      const Group *group)
{
    g_autoptr(GPtrArray) found = g_ptr_array_new();
    for (int r = 0; r < WB_N_RULES; r++)
        if (belongs(&verdict->finding[r], group))
            g_ptr_array_add(found, (gpointer)&verdict->finding[r]);
    if (found->len == 0)
        return;
    if (group->holds)
        g_ptr_array_sort(found, nearer);
    g_autofree char *title = g_strdup_printf("%s (%u)", _(group->title), found->len);
    GtkWidget *head = gtk_label_new(title);
    gtk_label_set_xalign(GTK_LABEL(head), 0);
    gtk_widget_add_css_class(head, "section");
    gtk_widget_set_margin_top(head, 12);
    gtk_box_append(GTK_BOX(self), head);
    for (guint i = 0; i < found->len; i++) {
        const WbFinding *finding = g_ptr_array_index(found, i);
        gtk_box_append(GTK_BOX(self), wb_finding_line_new(problem, verdict, finding,
                                                          (self->open >> finding->rule & 1) != 0));
    }
}

void wb_finding_list_set(WbFindingList *self, const WbProblem *problem, const WbVerdict *verdict)
{
    GtkWidget *child;
    g_return_if_fail(WB_IS_FINDING_LIST(self));
    remember(self);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(self))) != NULL)
        gtk_box_remove(GTK_BOX(self), child);
    for (gsize i = 0; verdict != NULL && i < G_N_ELEMENTS(groups); i++)
        add_group(self, problem, verdict, &groups[i]);
}

static void wb_finding_list_class_init(WbFindingListClass *class)
{
}

static void wb_finding_list_init(WbFindingList *self)
{
    gtk_orientable_set_orientation(GTK_ORIENTABLE(self), GTK_ORIENTATION_VERTICAL);
}

GtkWidget *wb_finding_list_new(void)
{
    return g_object_new(WB_TYPE_FINDING_LIST, NULL);
}
