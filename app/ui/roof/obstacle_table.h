/* The obstacles of the roof, edited in place, with the buttons to add, duplicate and remove one.
 * Signal "chosen" (int index): the keyboard came to its row, or it was added. */
#ifndef WB_OBSTACLE_TABLE_H
#define WB_OBSTACLE_TABLE_H

#include "document.h"
#include <gtk/gtk.h>

#define WB_TYPE_OBSTACLE_TABLE (wb_obstacle_table_get_type())
G_DECLARE_FINAL_TYPE(WbObstacleTable, wb_obstacle_table, WB, OBSTACLE_TABLE, GtkBox)

GtkWidget *wb_obstacle_table_new(WbDocument *document);
/* -1: none. Emits nothing. */
void wb_obstacle_table_choose(WbObstacleTable *self, int index);
void wb_obstacle_table_remove(WbObstacleTable *self, int index);
/* Why an edit was refused, NULL: all is well. */
void wb_obstacle_table_tell(WbObstacleTable *self, const char *sentence);

#endif
