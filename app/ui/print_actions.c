#include "print_actions.h"

#include "page.h"
#include <glib/gi18n-lib.h>

/* What waits for the printer or for the person's choice. */
typedef struct {
    GtkWidget *from; /* a weak pointer */
    WbPrint *print;
    WbSheetFormat format;
} Errand;

static Errand *errand_new(GtkWidget *from, WbPrint *print, WbSheetFormat format)
{
    Errand *errand = g_new0(Errand, 1);
    errand->print = print;
    errand->format = format;
    g_set_weak_pointer(&errand->from, from);
    return errand;
}

static void errand_free(gpointer data, GClosure *closure)
{
    Errand *errand = data;
    g_clear_weak_pointer(&errand->from);
    wb_print_free(errand->print);
    g_free(errand);
}

static void say(GtkWidget *from, const char *sentence)
{
    if (from != NULL && gtk_widget_get_root(from) != NULL)
        wb_show_message(from, sentence);
}

gboolean wb_print_is_letter(void)
{
    return g_str_equal(gtk_paper_size_get_default(), GTK_PAPER_NAME_LETTER);
}

/* ---- printing ---- */

static void on_draw_page(GtkPrintOperation *operation, GtkPrintContext *context, int page,
                         Errand *errand)
{
    errand->print->draw(errand->print->drawing, page, gtk_print_context_get_cairo_context(context));
}

/* The whole paper in points from its corner: what is drawn to scale comes out to scale. */
static GtkPageSetup *setup_new(const WbPrint *print)
{
    gboolean across = print->width_mm > print->height_mm;
    gboolean letter = MIN(print->width_mm, print->height_mm) > WB_PAPER_A4_SHORT_MM + 0.5;
    GtkPageSetup *setup = gtk_page_setup_new();
    GtkPaperSize *paper = gtk_paper_size_new(letter ? GTK_PAPER_NAME_LETTER : GTK_PAPER_NAME_A4);
    gtk_page_setup_set_paper_size(setup, paper);
    gtk_page_setup_set_orientation(setup, across ? GTK_PAGE_ORIENTATION_LANDSCAPE
                                                 : GTK_PAGE_ORIENTATION_PORTRAIT);
    gtk_paper_size_free(paper);
    return setup;
}

static void on_printed(GtkPrintOperation *operation, GtkPrintOperationResult result, Errand *errand)
{
    g_autoptr(GError) error = NULL;
    if (result != GTK_PRINT_OPERATION_RESULT_ERROR)
        return;
    gtk_print_operation_get_error(operation, &error);
    g_autofree char *sentence =
        g_strdup_printf(_("The drawing could not be printed: %s"), error->message);
    say(errand->from, sentence);
}

void wb_print_run(GtkWidget *from, WbPrint *print)
{
    g_autoptr(GtkPrintOperation) operation = gtk_print_operation_new();
    g_autoptr(GtkPageSetup) setup = setup_new(print);
    g_autoptr(GError) error = NULL;
    GtkRoot *root = gtk_widget_get_root(from);
    Errand *errand = errand_new(from, print, WB_SHEET_PDF);
    gtk_print_operation_set_default_page_setup(operation, setup);
    gtk_print_operation_set_use_full_page(operation, TRUE);
    gtk_print_operation_set_unit(operation, GTK_UNIT_POINTS);
    gtk_print_operation_set_allow_async(operation, TRUE);
    gtk_print_operation_set_job_name(operation, print->job);
    gtk_print_operation_set_n_pages(operation, print->pages);
    g_signal_connect(operation, "draw-page", G_CALLBACK(on_draw_page), errand);
    g_signal_connect_data(operation, "done", G_CALLBACK(on_printed), errand, errand_free, 0);
    GtkPrintOperationResult result =
        gtk_print_operation_run(operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG,
                                GTK_IS_WINDOW(root) ? GTK_WINDOW(root) : NULL, &error);
    if (result == GTK_PRINT_OPERATION_RESULT_ERROR)
        say(from, error->message);
}

/* ---- files ---- */

static void save(GtkWidget *from, const WbPrint *print, WbSheetFormat format, const char *path)
{
    g_autoptr(GError) error = NULL;
    if (!wb_print_save(print, format, path, &error)) {
        say(from, error->message);
        return;
    }
    g_autofree char *sentence =
        g_strdup_printf(_("The drawing was written to %s. %s"), path, print->written);
    say(from, sentence);
}

void wb_print_save_to(GtkWidget *from, WbPrint *print, const char *path)
{
    gboolean pdf = g_str_has_suffix(path, ".pdf") || g_str_has_suffix(path, ".PDF");
    save(from, print, pdf ? WB_SHEET_PDF : WB_SHEET_SVG, path);
    wb_print_free(print);
}

static void on_response(GtkNativeDialog *dialog, int response, Errand *errand)
{
    if (response == GTK_RESPONSE_ACCEPT) {
        g_autoptr(GFile) file = gtk_file_chooser_get_file(GTK_FILE_CHOOSER(dialog));
        g_autofree char *path = file != NULL ? g_file_get_path(file) : NULL;
        if (path != NULL)
            save(errand->from, errand->print, errand->format, path);
        else
            say(errand->from, _("A drawing can only be written to a file of this computer."));
    }
    g_object_unref(dialog); /* GTK does not keep native dialogs; it was ours until now */
}

void wb_print_choose_file(GtkWidget *from, WbPrint *print, WbSheetFormat format, const char *name)
{
    GtkRoot *root = gtk_widget_get_root(from);
    GtkFileChooserNative *dialog =
        gtk_file_chooser_native_new(print->job, GTK_IS_WINDOW(root) ? GTK_WINDOW(root) : NULL,
                                    GTK_FILE_CHOOSER_ACTION_SAVE, NULL, NULL);
    g_autoptr(GtkFileFilter) filter = gtk_file_filter_new();
    gtk_native_dialog_set_modal(GTK_NATIVE_DIALOG(dialog), TRUE);
    gtk_file_filter_set_name(filter,
                             format == WB_SHEET_PDF ? _("PDF (*.pdf)") : _("Drawings (*.svg)"));
    gtk_file_filter_add_pattern(filter, format == WB_SHEET_PDF ? "*.pdf" : "*.svg");
    gtk_file_chooser_add_filter(GTK_FILE_CHOOSER(dialog), filter);
    gtk_file_chooser_set_current_name(GTK_FILE_CHOOSER(dialog), name);
    g_signal_connect_data(dialog, "response", G_CALLBACK(on_response),
                          errand_new(from, print, format), errand_free, 0);
    gtk_native_dialog_show(GTK_NATIVE_DIALOG(dialog));
}
