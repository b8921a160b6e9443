/* What is done with a drawing sheet of the roof: printed, or saved in a file the person names. Both
 * take the sheet over; what went wrong is said in the window's message bar. */
#ifndef WB_SHEET_ACTIONS_H
#define WB_SHEET_ACTIONS_H

#include "roof_sheet.h"
#include <gtk/gtk.h>

/* Of the paper people use here. */
gboolean wb_sheet_is_letter(void);
void wb_sheet_print(GtkWidget *from, WbRoofSheet *sheet);
/* A file of this name is suggested; the dialog asks before it writes over one. */
void wb_sheet_choose_file(GtkWidget *from, WbRoofSheet *sheet, WbSheetFormat format,
                          const char *name);
/* PDF where the name ends so, else SVG. */
void wb_sheet_save_to(GtkWidget *from, WbRoofSheet *sheet, const char *path);

#endif
