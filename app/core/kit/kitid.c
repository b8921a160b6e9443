#include "kit.h"
#include <stdio.h>
#include <string.h>

/* Choices stand in the order of their ids, so comparing indices compares ids. */
int wb_kit_compare(const WbProblem *problem, const WbKit *a, const WbKit *b)
{
    const int left[] = {a->panel,         a->n_series, a->n_parallel,  a->controller,
                        a->n_controllers, a->storage,  a->bank_series, a->bank_parallel,
                        a->inverter,      a->dcdc};
    const int right[] = {b->panel,         b->n_series, b->n_parallel,  b->controller,
                         b->n_controllers, b->storage,  b->bank_series, b->bank_parallel,
                         b->inverter,      b->dcdc};
    for (size_t i = 0; i < sizeof left / sizeof *left; i++)
        if (left[i] != right[i])
            return left[i] < right[i] ? -1 : 1;
    return 0;
}

static const char *inverter_id(const WbProblem *problem, int i)
{
    const WbInverter *inverter = problem->inverters[i].inverter;
    return inverter ? inverter->part.id : "none";
}

static const char *dcdc_id(const WbProblem *problem, int i)
{
    const WbDcdc *dcdc = problem->dcdc[i].dcdc;
    return dcdc ? dcdc->part.id : "none";
}

void wb_kit_id(const WbProblem *problem, const WbKit *kit, char text[WB_KIT_ID])
{
    snprintf(text, WB_KIT_ID, "%s:%ds%dp/%s:%d/%s:%ds%dp/%s/%s",
             problem->panels[kit->panel].panel->part.id, kit->n_series, kit->n_parallel,
             problem->controllers[kit->controller].controller->part.id, kit->n_controllers,
             problem->storage[kit->storage].storage->part.id, kit->bank_series, kit->bank_parallel,
             inverter_id(problem, kit->inverter), dcdc_id(problem, kit->dcdc));
}

#define ID "%64[a-z0-9-]"

static int find_panel(const WbProblem *problem, const char *id)
{
    for (size_t i = 0; i < problem->n_panels; i++)
        if (strcmp(problem->panels[i].panel->part.id, id) == 0)
            return (int)i;
    return -1;
}

static int find_controller(const WbProblem *problem, const char *id)
{
    for (size_t i = 0; i < problem->n_controllers; i++)
        if (strcmp(problem->controllers[i].controller->part.id, id) == 0)
            return (int)i;
    return -1;
}

static int find_storage(const WbProblem *problem, const char *id)
{
    for (size_t i = 0; i < problem->n_storage; i++)
        if (strcmp(problem->storage[i].storage->part.id, id) == 0)
            return (int)i;
    return -1;
}

static int find_inverter(const WbProblem *problem, const char *id)
{
    for (size_t i = 0; i < problem->n_inverters; i++)
        if (strcmp(inverter_id(problem, (int)i), id) == 0)
            return (int)i;
    return -1;
}

static int find_dcdc(const WbProblem *problem, const char *id)
{
    for (size_t i = 0; i < problem->n_dcdc; i++)
        if (strcmp(dcdc_id(problem, (int)i), id) == 0)
            return (int)i;
    return -1;
}

bool wb_kit_parse(const WbProblem *problem, const char *text, WbKit *kit)
{
    char panel[65], controller[65], storage[65], inverter[65], dcdc[65];
    WbKit read = {0};
    int end = 0;
    if (sscanf(text, ID ":%3ds%3dp/" ID ":%3d/" ID ":%3ds%3dp/" ID "/" ID "%n", panel,
               &read.n_series, &read.n_parallel, controller, &read.n_controllers, storage,
               &read.bank_series, &read.bank_parallel, inverter, dcdc, &end) != 10 ||
        text[end] != '\0')
        return false;
    read.panel = find_panel(problem, panel);
    read.controller = find_controller(problem, controller);
    read.storage = find_storage(problem, storage);
    read.inverter = find_inverter(problem, inverter);
    read.dcdc = find_dcdc(problem, dcdc);
    if (read.panel < 0 || read.controller < 0 || read.storage < 0 || read.inverter < 0 ||
        read.dcdc < 0 || read.n_series < 1 || read.n_parallel < 1 || read.n_controllers < 1 ||
        read.bank_series < 1 || read.bank_parallel < 1)
        return false;
    *kit = read;
    return true;
}
