#include "part.h"
#include <string.h>

double wb_curve_at(const WbCurve *curve, double x)
{
    if (curve->n == 0)
        return WB_MISSING;
    if (x <= curve->point[0].x)
        return curve->point[0].y;
    for (int i = 1; i < curve->n; i++) {
        const WbPoint *a = &curve->point[i - 1], *b = &curve->point[i];
        if (x <= b->x)
            return a->y + (b->y - a->y) * (x - a->x) / (b->x - a->x);
    }
    return curve->point[curve->n - 1].y;
}

const WbChemistry *wb_catalogue_chemistry(const WbCatalogue *catalogue, const char *id)
{
    for (size_t i = 0; i < catalogue->n_chemistries; i++)
        if (strcmp(catalogue->chemistries[i].id, id) == 0)
            return &catalogue->chemistries[i];
    return NULL;
}

bool wb_profiles_hold(const char *profiles, const char *chemistry)
{
    size_t length = strlen(chemistry);
    for (const char *word = profiles; *word;) {
        size_t n = strcspn(word, " ");
        if (n == length && strncmp(word, chemistry, n) == 0)
            return true;
        word += n + (word[n] == ' ');
    }
    return false;
}

const char *wb_kind_name(WbPartKind kind)
{
    static const char *const names[WB_N_KINDS] = {"panel", "controller", "storage", "inverter",
                                                  "dcdc",  "conductor",  "fuse",    "fitting"};
    return names[kind];
}

size_t wb_kind_size(WbPartKind kind)
{
    static const size_t sizes[WB_N_KINDS] = {
        sizeof(WbPanel), sizeof(WbController), sizeof(WbStorage), sizeof(WbInverter),
        sizeof(WbDcdc),  sizeof(WbConductor),  sizeof(WbFuse),    sizeof(WbFitting)};
    return sizes[kind];
}
