#include "choice_lp.h"
#include <glib.h>

enum { TERMS_OF_A_LINE = 10 };

typedef struct {
    const WbChoiceTable *table;
    GString *text;
    int terms, rows;
} Writer;

static void add_term(Writer *writer, int64_t factor, int slot, size_t row)
{
    if (factor == 0)
        return;
    if (writer->terms++ % TERMS_OF_A_LINE == 0)
        g_string_append_c(writer->text, '\n');
    g_string_append_printf(writer->text, " %c %" G_GINT64_FORMAT " x%d_%zu", factor < 0 ? '-' : '+',
                           ABS(factor), slot, row);
}

static void add_column(Writer *writer, const int64_t *column, int slot)
{
    for (size_t i = 0; column && i < writer->table->slot[slot].n; i++)
        add_term(writer, column[i], slot, i);
}

static void begin_row(Writer *writer)
{
    g_string_append_printf(writer->text, " r%d:", writer->rows++);
    writer->terms = 0;
}

static void add_rules(Writer *writer)
{
    const WbChoiceTable *table = writer->table;
    for (int r = 0; r < table->n_rules; r++) {
        begin_row(writer);
        for (int s = 0; s < table->n_slots; s++)
            add_column(writer, table->slot[s].term[r], s);
        g_string_append_printf(writer->text, " <= %" G_GINT64_FORMAT "\n", table->limit[r]);
    }
}

static void add_slots(Writer *writer, int buses)
{
    const WbChoiceTable *table = writer->table;
    for (int s = 0; s < table->n_slots; s++) {
        begin_row(writer);
        for (size_t i = 0; i < table->slot[s].n; i++)
            add_term(writer, 1, s, i);
        g_string_append(writer->text, " = 1\n");
        for (int b = 0; b < buses && table->slot[s].bus; b++) {
            begin_row(writer);
            for (size_t i = 0; i < table->slot[s].n; i++)
                add_term(writer, table->slot[s].bus[i] >> b & 1, s, i);
            g_string_append_printf(writer->text, " - y%d >= 0\n", b);
        }
    }
    begin_row(writer);
    for (int b = 0; b < buses; b++)
        g_string_append_printf(writer->text, " + y%d", b);
    g_string_append(writer->text, " = 1\n");
}

char *choice_lp(const WbChoiceTable *table, int criterion, int buses)
{
    Writer writer = {.table = table, .text = g_string_new("Minimize\n least:")};
    for (int s = 0; s < table->n_slots; s++)
        add_column(&writer, table->slot[s].criterion[criterion], s);
    g_string_append(writer.text, "\nSubject To\n");
    add_rules(&writer);
    add_slots(&writer, buses);
    g_string_append(writer.text, "Binaries\n");
    for (int s = 0; s < table->n_slots; s++)
        for (size_t i = 0; i < table->slot[s].n; i++)
            g_string_append_printf(writer.text, " x%d_%zu\n", s, i);
    for (int b = 0; b < buses; b++)
        g_string_append_printf(writer.text, " y%d\n", b);
    g_string_append(writer.text, "End\n");
    return g_string_free(writer.text, FALSE);
}

/* ---- MiniZinc ---- */

/* One member of each record of an array, as an array of integers. */
static void add_array(GString *text, const char *name, const void *records, size_t n, size_t size,
                      size_t offset)
{
    g_string_append_printf(text, "array[1..%zu] of int: %s = [", n, name);
    for (size_t i = 0; i < n; i++)
        g_string_append_printf(text, "%s%" G_GINT64_FORMAT, i ? "," : "",
                               *(const int64_t *)((const char *)records + i * size + offset));
    g_string_append(text, "];\n");
}

#define ADD(text, name, records, n, type, member)                                                  \
    add_array(text, name, records, n, sizeof(type), G_STRUCT_OFFSET(type, member))

static void add_parts(GString *text, const RefCatalogue *c)
{
    ADD(text, "pw", c->panel, c->n_panels, RefPanel, w);
    ADD(text, "voc", c->panel, c->n_panels, RefPanel, voc_dv);
    ADD(text, "vmp", c->panel, c->n_panels, RefPanel, vmp_dv);
    ADD(text, "isc", c->panel, c->n_panels, RefPanel, isc_da);
    ADD(text, "area", c->panel, c->n_panels, RefPanel, area_cm2);
    ADD(text, "pg", c->panel, c->n_panels, RefPanel, weight_g);
    ADD(text, "vmax", c->controller, c->n_controllers, RefController, most_dv);
    ADD(text, "ipv", c->controller, c->n_controllers, RefController, input_da);
    ADD(text, "iout", c->controller, c->n_controllers, RefController, output_da);
    ADD(text, "cg", c->controller, c->n_controllers, RefController, weight_g);
    ADD(text, "bv", c->battery, c->n_batteries, RefBattery, dv);
    ADD(text, "ah", c->battery, c->n_batteries, RefBattery, ah);
    ADD(text, "dod", c->battery, c->n_batteries, RefBattery, depth_pct);
    ADD(text, "chg", c->battery, c->n_batteries, RefBattery, charge_da);
    ADD(text, "dis", c->battery, c->n_batteries, RefBattery, discharge_da);
    ADD(text, "bg", c->battery, c->n_batteries, RefBattery, weight_g);
    ADD(text, "iw", c->inverter, c->n_inverters, RefInverter, w);
    ADD(text, "ig", c->inverter, c->n_inverters, RefInverter, weight_g);
}

static void add_buses(GString *text, const RefCatalogue *c)
{
    g_string_append_printf(text, "array[1..%zu] of int: ibus = [", c->n_inverters);
    for (size_t i = 0; i < c->n_inverters; i++)
        g_string_append_printf(text, "%s%d", i ? "," : "", c->inverter[i].bus + 1);
    g_string_append_printf(text, "];\narray[1..%zu,1..%d] of bool: cbus = [|", c->n_controllers,
                           REF_BUSES);
    for (size_t i = 0; i < c->n_controllers; i++)
        for (int b = 0; b < REF_BUSES; b++)
            g_string_append_printf(text, "%s%s", c->controller[i].buses >> b & 1 ? "true" : "false",
                                   b < REF_BUSES - 1 ? "," : "|");
    g_string_append(text, "];\narray[1..3] of int: vb = [120,240,480];\n");
}

char *reference_mzn(const RefCatalogue *c)
{
    GString *text = g_string_new(NULL);
    add_parts(text, c);
    add_buses(text, c);
    g_string_append_printf(
        text,
        "int: E = %" G_GINT64_FORMAT "; int: PK = %" G_GINT64_FORMAT ";\n"
        "int: heaviest = %" G_GINT64_FORMAT "; int: widest = %" G_GINT64_FORMAT ";\n"
        "var 1..%zu: p; var 1..%d: ns; var 1..%d: np; var 1..%zu: c; var 1..3: bus;\n"
        "var 1..%zu: b; var 1..%d: s; var 1..%d: q; var 1..%zu: i;\n",
        c->need_wh, c->peak_w, c->most_weight_g, c->most_area_cm2, c->n_panels, REF_MOST_STRING,
        REF_MOST_STRING, c->n_controllers, c->n_batteries, REF_MOST_BANK, REF_MOST_BANK,
        c->n_inverters);
    g_string_append(text, "constraint ns*voc[p] <= vmax[c];\n"
                          "constraint np*isc[p] <= ipv[c];\n"
                          "constraint 100*ns*vmp[p] >= 125*vb[bus];\n"
                          "constraint cbus[c,bus];\n"
                          "constraint 100*ns*np*pw[p] <= (iout[c]*vb[bus]*130) div 100;\n"
                          "constraint (ns*np*pw[p]*2625) div 1000 >= E;\n"
                          "constraint ns*np*area[p] <= widest;\n"
                          "constraint vb[bus] <= s*bv[b];\n"
                          "constraint 100*s*bv[b] <= 107*vb[bus];\n"
                          "constraint ((((s*q*bv[b]*ah[b]) div 10)*dod[b]) div 100)*10 >= 15*E;\n"
                          "constraint iw[i] >= PK;\n"
                          "constraint ibus[i] = bus;\n"
                          "constraint 10*((q*dis[b]*vb[bus]) div 100) >= 11*iw[i];\n"
                          "constraint iout[c] <= q*chg[b];\n"
                          "constraint ns*np*pg[p] + cg[c] + s*q*bg[b] + ig[i] <= heaviest;\n"
                          "solve satisfy;\noutput [show([p,ns,np,c,b,s,q,i])];\n");
    return g_string_free(text, FALSE);
}
