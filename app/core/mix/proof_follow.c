/* Propagation of the checker's own: every clause hangs in the chains of two of its literals. */
#include "proof.h"
#include <stdlib.h>

/* A clause in `store`: its size, the next clause in the chain of its first and of its second
 * literal, its literals. Place 0 stands for none. */
enum { SIZE, NEXT_FIRST, NEXT_SECOND, LITERALS };

typedef struct {
    WbInts store;
    int32_t n_variables;
    int32_t *chain;   /* [index_of(literal)] */
    int8_t *truth;    /* [variable]: 1, -1, 0 not known */
    int32_t *assumed; /* literals made true, in order */
    int32_t n_assumed, n_met;
    bool refuted; /* the facts and what was learnt contradict each other */
    bool failed;  /* out of memory */
} Follower;

static int32_t index_of(int32_t literal)
{
    return literal > 0 ? 2 * literal : -2 * literal + 1;
}

static int truth_of(const Follower *follower, int32_t literal)
{
    return literal > 0 ? follower->truth[literal] : -follower->truth[-literal];
}

static void assume(Follower *follower, int32_t literal)
{
    follower->truth[literal > 0 ? literal : -literal] = literal > 0 ? 1 : -1;
    follower->assumed[follower->n_assumed++] = literal;
}

static void hang(Follower *follower, int32_t clause, int which)
{
    int32_t *at = follower->store.at + clause;
    int32_t *chain = &follower->chain[index_of(at[LITERALS + which])];
    at[NEXT_FIRST + which] = *chain;
    *chain = clause;
}

/* A literal beyond the two that hang and that is not false; 0: none. */
static int32_t spare_of(const Follower *follower, const int32_t *at)
{
    for (int32_t k = 2; k < at[SIZE]; k++)
        if (truth_of(follower, at[LITERALS + k]) >= 0)
            return k;
    return 0;
}

/* `untrue` has become false. False: a contradiction. */
static bool meet_one(Follower *follower, int32_t untrue)
{
    int32_t clause = follower->chain[index_of(untrue)];
    bool sound = true;
    follower->chain[index_of(untrue)] = 0;
    while (clause != 0) {
        int32_t *at = follower->store.at + clause;
        int which = at[LITERALS] == untrue ? 0 : 1;
        int32_t next = at[NEXT_FIRST + which], partner = at[LITERALS + 1 - which];
        int32_t spare = sound && truth_of(follower, partner) <= 0 ? spare_of(follower, at) : 0;
        if (spare) {
            at[LITERALS + which] = at[LITERALS + spare];
            at[LITERALS + spare] = untrue;
        } else if (sound && truth_of(follower, partner) == 0) {
            assume(follower, partner);
        } else if (sound && truth_of(follower, partner) < 0) {
            sound = false;
        }
        hang(follower, clause, which);
        clause = next;
    }
    return sound;
}

static bool meet_all(Follower *follower)
{
    while (follower->n_met < follower->n_assumed)
        if (!meet_one(follower, -follower->assumed[follower->n_met++]))
            return false;
    return true;
}

static void take_back(Follower *follower, int32_t kept)
{
    while (follower->n_assumed > kept) {
        int32_t literal = follower->assumed[--follower->n_assumed];
        follower->truth[literal > 0 ? literal : -literal] = 0;
    }
    follower->n_met = kept;
}

/* Stores what is not known to be false of a clause; what is known to be true needs no clause. */
static void learn(Follower *follower, const int32_t *literal, size_t n)
{
    size_t start = follower->store.n;
    if (!wb_ints_reserve(&follower->store, n + LITERALS) || start + n + LITERALS > INT32_MAX) {
        follower->failed = true;
        return;
    }
    int32_t *at = follower->store.at + start;
    at[SIZE] = 0;
    for (size_t k = 0; k < n; k++) {
        if (truth_of(follower, literal[k]) > 0)
            return;
        if (truth_of(follower, literal[k]) == 0)
            at[LITERALS + at[SIZE]++] = literal[k];
    }
    if (at[SIZE] == 0) {
        follower->refuted = true;
    } else if (at[SIZE] == 1) {
        assume(follower, at[LITERALS]);
        follower->refuted = !meet_all(follower);
    } else {
        follower->store.n += LITERALS + at[SIZE];
        hang(follower, (int32_t)start, 0);
        hang(follower, (int32_t)start, 1);
    }
}

static bool follows(Follower *follower, const int32_t *literal, size_t n)
{
    int32_t kept = follower->n_assumed;
    bool contradicted = follower->refuted;
    for (size_t k = 0; k < n && !contradicted; k++) {
        int truth = truth_of(follower, literal[k]);
        contradicted = truth > 0;
        if (truth == 0)
            assume(follower, -literal[k]);
    }
    contradicted = contradicted || !meet_all(follower);
    take_back(follower, kept);
    return contradicted;
}

/* The clause that begins at `from`: its length, or -1 where it is malformed. */
static int64_t clause_length(const Follower *follower, const int32_t *literals, size_t n,
                             size_t from)
{
    for (size_t k = from; k < n; k++) {
        if (literals[k] == 0)
            return (int64_t)(k - from);
        if (literals[k] > follower->n_variables || literals[k] < -follower->n_variables)
            return -1;
    }
    return -1;
}

static bool follow_all(Follower *follower, const WbFacts *facts, const int32_t *literals, size_t n)
{
    int64_t length = -1;
    for (size_t at = 0; at < facts->literals.n && !follower->failed && !follower->refuted;
         at += length + 1) {
        length = clause_length(follower, facts->literals.at, facts->literals.n, at);
        learn(follower, facts->literals.at + at, length);
    }
    length = -1;
    for (size_t at = 0; at < n && !follower->failed; at += length + 1) {
        length = clause_length(follower, literals, n, at);
        if (length < 0 || !follows(follower, literals + at, length))
            return false;
        if (!follower->refuted)
            learn(follower, literals + at, length);
    }
    return length == 0 && follower->refuted && !follower->failed;
}

bool wb_proof_follows(const WbFacts *facts, const int32_t *literals, size_t n_literals)
{
    size_t n = (size_t)facts->n_variables + 1;
    Follower follower = {.n_variables = facts->n_variables,
                         .chain = calloc(2 * n, sizeof *follower.chain),
                         .truth = calloc(n, 1),
                         .assumed = malloc(n * sizeof *follower.assumed)};
    bool good = follower.chain && follower.truth && follower.assumed &&
                wb_ints_push(&follower.store, 0) &&
                follow_all(&follower, facts, literals, n_literals);
    free(follower.chain);
    free(follower.truth);
    free(follower.assumed);
    wb_ints_free(&follower.store);
    return good;
}
