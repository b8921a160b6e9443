/* Circuits in words, the same in window, print and terminal: what each is called, what answers it,
 * why it is sized so, and what cannot be built. All (transfer full) unless said otherwise. */
#ifndef WB_WORDS_CIRCUIT_H
#define WB_WORDS_CIRCUIT_H

#include "wiring.h"
#include <glib.h>

/* "Panel string", "Controller to bus bars". (transfer none) */
const char *wb_words_circuit(WbCircuitKind kind);
/* The same, a load by its own name; several alike are counted: "Panel string (2 alike)". */
char *wb_words_circuit_title(const WbProblem *problem, const WbCircuit *circuit);

/* "10 mm2" with its sign, "8 AWG"; a dash for NULL. */
char *wb_words_size(const WbConductor *conductor);
/* "10 mm2 copper, 90 C" with its signs. */
char *wb_words_conductor(const WbConductor *conductor);
/* "blade", "MIDI", "class T": the trade's names. (transfer none) */
const char *wb_words_fuse_form(int64_t form);
/* "40 A MIDI"; a dash for NULL. */
char *wb_words_fuse(const WbFuse *fuse);
/* "24.3 A", as many decimals as its size deserves. */
char *wb_words_amps(double amps);

/* What decided the size: "current" or "voltage drop". (transfer none) */
const char *wb_words_decided(const WbCircuit *circuit);
/* One sentence with both numbers and what to change; NULL: the circuit is sound. */
char *wb_words_circuit_fault(const WbProblem *problem, const WbCircuit *circuit);
/* One sentence for a list or a screen reader: size, length, fuse, current, drop. */
char *wb_words_circuit_line(const WbProblem *problem, const WbCircuit *circuit);
/* Where its fuse stands; NULL: it has none. */
char *wb_words_fuse_place(const WbProblem *problem, const WbCircuit *circuit);
/* The caution that belongs to a circuit; NULL: none. (transfer none) */
const char *wb_words_circuit_safety(const WbProblem *problem, const WbKit *kit, WbCircuitKind kind);

/* The whole reckoning of one circuit, a label and a text a line. */
typedef struct {
    char *label, *text;
} WbCircuitLine;
typedef struct {
    WbCircuitLine *line;
    gsize n;
} WbReckoning;
WbReckoning *wb_reckoning_new(const WbProblem *problem, const WbKit *kit, const WbCircuit *circuit);
void wb_reckoning_free(WbReckoning *reckoning);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbReckoning, wb_reckoning_free)

/* ---- of the whole wiring; (transfer none) ---- */

/* How the negative side is joined to earth or frame. */
const char *wb_words_earthing(int rule_set);
/* What is written and coloured positive and negative. */
const char *wb_words_polarity(int rule_set);
/* Where circuits can be parted by hand, and that they are before any work. */
const char *wb_words_disconnects(void);
/* "Plans only; ..." */
const char *wb_words_plans_only(void);
/* How many circuits there are, how many cannot be built, what they cost and weigh. (transfer full)
 */
char *wb_words_wiring(const WbProblem *problem, const WbWiring *wiring);

#endif
