#include "cli_not_read.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>

void wb_cli_say_not_read(const GPtrArray *not_read)
{
    for (guint i = 0; i < not_read->len; i++) {
        g_autofree char *text = wb_not_read_text(not_read->pdata[i]);
        fprintf(stderr, _("Not read: %s\n"), text);
    }
}

void wb_cli_say_hours_notes(const WbBriefFile *file)
{
    const WbHoursFile *hours = wb_brief_file_hours(file);
    const GPtrArray *notes = hours != NULL ? wb_hours_file_notes(hours) : NULL;
    for (guint i = 0; notes != NULL && i < notes->len; i++)
        fprintf(stderr, _("Hourly file: %s\n"), (const char *)notes->pdata[i]);
}

void wb_cli_not_read_json(WbJsonOut *json, const GPtrArray *not_read)
{
    wb_out_array(json, "not_read");
    for (guint i = 0; i < not_read->len; i++) {
        const WbNotRead *member = not_read->pdata[i];
        wb_out_object(json, NULL);
        wb_out_text(json, "pointer", member->pointer);
        wb_out_text(json, "nearest", member->nearest);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}
