#include "clauses.h"
#include <stdlib.h>

/* Literals that need no variable. */
enum { ALWAYS = INT32_MAX, NEVER = -INT32_MAX, LITERALS_MAX = 8 };

typedef struct {
    const WbMixQuestion *question;
    const WbMixNames *names;
    WbClauseSink sink;
    void *to;
} Writer;

static const WbMixKind *kind_of(const WbMixQuestion *question, int piece)
{
    return &question->kind[question->piece[piece]];
}

static bool alike(const WbMixQuestion *question, int i, int j)
{
    return question->piece[i] == question->piece[j];
}

int64_t wb_mix_variables(const WbMixQuestion *question)
{
    int64_t n = 2 * (int64_t)question->n_pieces * (question->n_pieces - 1);
    for (int i = 0; i < question->n_pieces; i++) {
        const WbMixKind *kind = kind_of(question, i);
        n += kind->n_at[0] + kind->n_at[1] - 2 + (kind->turns == 2);
    }
    return n;
}

double wb_mix_literals(const WbMixQuestion *question)
{
    double n = 0, others = question->n_pieces - 1, zones = question->n_zones;
    for (int i = 0; i < question->n_pieces; i++) {
        const WbMixKind *kind = kind_of(question, i);
        n += kind->turns * ((kind->n_at[0] + kind->n_at[1]) * (3.0 + 4 * others) + 5 * zones);
    }
    return n;
}

WbMixNames *wb_mix_names(const WbMixQuestion *question, int32_t *first_pair)
{
    WbMixNames *names = malloc((question->n_pieces + 1) * sizeof *names);
    int32_t next = 1;
    for (int i = 0; names && i < question->n_pieces; i++) {
        const WbMixKind *kind = kind_of(question, i);
        for (int axis = 0; axis < WB_AXES; axis++) {
            names[i].at[axis] = next;
            next += kind->n_at[axis] - 1;
        }
        names[i].turned = kind->turns == 2 ? next++ : 0;
    }
    *first_pair = next;
    return names;
}

static void write(const Writer *writer, const int32_t *literals, int n)
{
    int32_t kept[LITERALS_MAX];
    int n_kept = 0;
    for (int k = 0; k < n; k++) {
        if (literals[k] == ALWAYS)
            return;
        if (literals[k] != NEVER)
            kept[n_kept++] = literals[k];
    }
    writer->sink(writer->to, kept, n_kept);
}

/* "The panel stands at its k-th position or later." */
static int32_t position(const Writer *writer, int piece, int axis, int k)
{
    if (k == 0)
        return ALWAYS;
    return k == kind_of(writer->question, piece)->n_at[axis]
               ? NEVER
               : writer->names[piece].at[axis] + k - 1;
}

/* "The panel stands at wanted_mm or later." */
static int32_t from_on(const Writer *writer, int piece, int axis, int64_t wanted_mm)
{
    const WbMixKind *kind = kind_of(writer->question, piece);
    int low = 0, high = kind->n_at[axis];
    while (low < high) {
        int middle = (low + high) / 2;
        if (kind->at_mm[axis][middle] < wanted_mm)
            low = middle + 1;
        else
            high = middle;
    }
    return position(writer, piece, axis, low);
}

/* "It does not stand this way." */
static int32_t other_way(const Writer *writer, int piece, int turned)
{
    int32_t name = writer->names[piece].turned;
    return name == 0 ? NEVER : turned ? -name : name;
}

static void write_order(const Writer *writer, int piece, int axis)
{
    int32_t name = writer->names[piece].at[axis];
    for (int k = 1; k + 1 < kind_of(writer->question, piece)->n_at[axis]; k++)
        write(writer, (int32_t[]){-(name + k), name + k - 1}, 2);
}

static void write_edge(const Writer *writer, int piece, int turned)
{
    const WbMixQuestion *question = writer->question;
    for (int axis = 0; axis < WB_AXES; axis++) {
        int64_t size_mm = wb_mix_size_mm(kind_of(question, piece), axis, turned);
        int32_t beyond = from_on(writer, piece, axis, question->room_mm[axis] - size_mm + 1);
        write(writer, (int32_t[]){other_way(writer, piece, turned), -beyond}, 2);
    }
}

static void write_zones(const Writer *writer, int piece, int turned)
{
    const WbMixQuestion *question = writer->question;
    const WbMixKind *kind = kind_of(question, piece);
    int64_t length_mm = wb_mix_size_mm(kind, WB_ALONG, turned) - question->gap_mm;
    int64_t width_mm = wb_mix_size_mm(kind, WB_ACROSS, turned) - question->gap_mm;
    for (int i = 0; i < question->n_zones; i++) {
        WbZone zone = question->zone[i];
        write(writer,
              (int32_t[]){other_way(writer, piece, turned),
                          -from_on(writer, piece, WB_ALONG, zone.left_mm - length_mm + 1),
                          from_on(writer, piece, WB_ALONG, zone.right_mm),
                          -from_on(writer, piece, WB_ACROSS, zone.front_mm - width_mm + 1),
                          from_on(writer, piece, WB_ACROSS, zone.back_mm)},
              5);
    }
}

/* Where `before` is true, panel j begins where panel i ends or later. */
static void write_before(const Writer *writer, int32_t before, int axis, int i, int j)
{
    const WbMixKind *kind = kind_of(writer->question, i), *after = kind_of(writer->question, j);
    for (int turned = 0; turned < kind->turns; turned++) {
        int64_t size_mm = wb_mix_size_mm(kind, axis, turned);
        int to = 0, last = -1; /* j's first position that is not below i's end */
        for (int k = 0; k < kind->n_at[axis] && last < after->n_at[axis]; k++) {
            while (to < after->n_at[axis] &&
                   after->at_mm[axis][to] < kind->at_mm[axis][k] + size_mm)
                to++;
            if (to == last)
                continue;
            last = to;
            write(writer,
                  (int32_t[]){-before, other_way(writer, i, turned), -position(writer, i, axis, k),
                              position(writer, j, axis, to)},
                  4);
        }
    }
}

/* Panels of a kind stand in the order of their x, those of one x in that of their y. */
static void write_alike(const Writer *writer, int i, int j, int32_t i_before_j)
{
    int n = kind_of(writer->question, i)->n_at[WB_ALONG];
    for (int k = 0; k < n; k++)
        write(writer,
              (int32_t[]){-position(writer, i, WB_ALONG, k), position(writer, j, WB_ALONG, k + 1),
                          i_before_j},
              3);
    int32_t first = writer->names[i].at[WB_ALONG], second = writer->names[j].at[WB_ALONG];
    for (int k = 0; k + 1 < kind_of(writer->question, i)->n_at[WB_ALONG]; k++)
        write(writer, (int32_t[]){-(first + k), second + k}, 2);
}

static void write_pair(const Writer *writer, int32_t pair, int i, int j)
{
    write(writer, (int32_t[]){pair, pair + 1, pair + 2, pair + 3}, 4);
    write_before(writer, pair, WB_ALONG, i, j);
    write_before(writer, pair + 1, WB_ALONG, j, i);
    write_before(writer, pair + 2, WB_ACROSS, i, j);
    write_before(writer, pair + 3, WB_ACROSS, j, i);
    if (!alike(writer->question, i, j))
        return;
    write(writer, (int32_t[]){-(pair + 1)}, 1);
    if (j == i + 1)
        write_alike(writer, i, j, pair + 2);
}

/* A layout mirrored and pushed anew is a layout: the largest panel that is alone of its kind stands
 * in the left and the front half. -1: none. */
static int halved_piece(const WbMixQuestion *question)
{
    int largest = -1;
    int64_t most_mm2 = 0;
    for (int i = 0; i < question->n_pieces && question->n_zones == 0; i++) {
        const WbMixKind *kind = kind_of(question, i);
        if (kind->count == 1 && kind->grown_mm[0] * kind->grown_mm[1] > most_mm2) {
            most_mm2 = kind->grown_mm[0] * kind->grown_mm[1];
            largest = i;
        }
    }
    return largest;
}

static void write_halved(const Writer *writer, int piece)
{
    const WbMixKind *kind = kind_of(writer->question, piece);
    for (int axis = 0; axis < WB_AXES; axis++)
        for (int turned = 0; turned < kind->turns; turned++) {
            int64_t spare_mm = writer->question->room_mm[axis] - wb_mix_size_mm(kind, axis, turned);
            if (spare_mm >= 0)
                write(writer,
                      (int32_t[]){other_way(writer, piece, turned),
                                  -from_on(writer, piece, axis, spare_mm / 2 + 1)},
                      2);
        }
}

void wb_mix_clauses(const WbMixQuestion *question, const WbMixNames *names, int32_t first_pair,
                    WbClauseSink sink, void *to)
{
    Writer writer = {question, names, sink, to};
    for (int i = 0; i < question->n_pieces; i++) {
        for (int axis = 0; axis < WB_AXES; axis++)
            write_order(&writer, i, axis);
        for (int turned = 0; turned < kind_of(question, i)->turns; turned++) {
            write_edge(&writer, i, turned);
            write_zones(&writer, i, turned);
        }
    }
    int32_t pair = first_pair;
    for (int i = 0; i < question->n_pieces; i++)
        for (int j = i + 1; j < question->n_pieces; j++, pair += 4)
            write_pair(&writer, pair, i, j);
    int halved = halved_piece(question);
    if (halved >= 0)
        write_halved(&writer, halved);
}
