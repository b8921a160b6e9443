/* Files of data/ compiled in by data/embed.py; a NUL follows each text. Private to the store. */
#ifndef WB_EMBEDDED_H
#define WB_EMBEDDED_H

#include <stddef.h>

extern const char wb_embedded_places_csv[];
extern const size_t wb_embedded_places_csv_length;
extern const char wb_embedded_starting_catalogue_json[];
extern const size_t wb_embedded_starting_catalogue_json_length;
extern const char wb_embedded_demo_brief_json[];
extern const size_t wb_embedded_demo_brief_json_length;
extern const char wb_embedded_new_brief_json[];
extern const size_t wb_embedded_new_brief_json_length;
extern const char wb_embedded_schema_0001_catalogue_sql[];
extern const size_t wb_embedded_schema_0001_catalogue_sql_length;
extern const char wb_embedded_schema_0002_energy_sql[];
extern const size_t wb_embedded_schema_0002_energy_sql_length;
extern const char wb_embedded_schema_0003_bay_sql[];
extern const size_t wb_embedded_schema_0003_bay_sql_length;
extern const char wb_embedded_schema_0004_wiring_sql[];
extern const size_t wb_embedded_schema_0004_wiring_sql_length;
extern const char wb_embedded_schema_0005_circuits_sql[];
extern const size_t wb_embedded_schema_0005_circuits_sql_length;

#endif
