/* What is done with a drawing on paper: printed, or saved in a file the person names. All take it
 * over; what went wrong is said in the window's message bar. */
#ifndef WB_PRINT_ACTIONS_H
#define WB_PRINT_ACTIONS_H

#include "paper.h"
#include <gtk/gtk.h>

/* Of the paper people use here. */
gboolean wb_print_is_letter(void);
void wb_print_run(GtkWidget *from, WbPrint *print);
/* A file of this name is suggested; the dialog asks before it writes over one. */
void wb_print_choose_file(GtkWidget *from, WbPrint *print, WbSheetFormat format, const char *name);
/* PDF where the name ends so, else SVG. */
void wb_print_save_to(GtkWidget *from, WbPrint *print, const char *path);

#endif
