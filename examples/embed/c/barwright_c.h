/* examples/embed/c/barwright_c.h - barwright for C, and for whatever can call C
 *
 * The planner, as one call from a request to an answer; and by themselves an estimate from one set,
 * and the plates of a load. Loads are in kilograms. Equations go by the names the library prints:
 * "Wathen".
 *
 * Every function that can fail takes a barwright_error last. Start with BARWRIGHT_NO_ERROR and look
 * at its status when the calculation is over: once it holds a failure, each further call with it
 * does nothing and returns zeros or NULL. It must not be NULL. Nothing is thrown across this
 * interface, nothing is global: threads may do as they like, each with an error of its own. The
 * inside of a handle is none of the caller's business; give each back to its _free function, which
 * takes NULL too.
 *
 * These are calculations, not advice for one body. Print the cautions beside a load; a qualified
 * coach, a clinician and the rules of the gym or federation come first.
 *
 * SPDX-License-Identifier: BSL-1.0
 */
#ifndef BARWRIGHT_C_H
#define BARWRIGHT_C_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- failures ---- */

typedef enum barwright_status {
  BARWRIGHT_OK = 0,
  BARWRIGHT_REFUSED = 1,   /* a value is not allowed; the text says which, and what is */
  BARWRIGHT_NO_ANSWER = 2, /* asked rightly, but there is none, such as a load below the bar's */
  BARWRIGHT_NO_MEMORY = 3,
  BARWRIGHT_BROKEN = 4 /* a fault in barwright or below it */
} barwright_status;

typedef struct barwright_error {
  barwright_status status;
  char text[256]; /* "reps must be a whole number from 1 to 100; got 0" */
} barwright_error;

#define BARWRIGHT_NO_ERROR \
  { BARWRIGHT_OK, "" }

/* ---- one set ---- */

/* The max behind a set, by a published equation; reserve in reps, in steps of one half. */
double barwright_one_rep_max(const char* equation, double load_kg, int reps, double reserve,
                             barwright_error* error);

/* ---- plates ---- */

typedef struct barwright_room barwright_room;

typedef struct barwright_loading {
  double total_kg;
  int plates;          /* on each side */
  double plate_kg[32]; /* of one side, inside to outside */
  char text[512];      /* "20 kg bar + 25, 10, 2.5 each side = 95 kg" */
} barwright_loading;

/* A bar and its plates: "gym_kg", or "bar 20 kg; plates 25x2 20 15 10 5 2.5 kg". */
barwright_room* barwright_room_new(const char* text, barwright_error* error);
void barwright_room_free(barwright_room* room);
/* The heaviest loading that is no heavier. BARWRIGHT_NO_ANSWER below the empty bar. */
barwright_loading barwright_room_at_most(const barwright_room* room, double load_kg,
                                         barwright_error* error);

/* ---- the planner ---- */

/* What the planner answers to a request; both are JSON in UTF-8, as docs/json.md describes them. Of
 * `size` bytes, without a zero at the end. Any request has an answer, if only what is wrong with it.
 * Ends with a zero; give it back to barwright_free. NULL without memory, or where request is NULL.
 *
 * An answer whose outcome is "stop" holds no load. Show the cautions beside every load. */
char* barwright_answer(const char* request, size_t size);
void barwright_free(char* text);

/* For programs without a JSON reader: what stands at a place in an answer, such as
 * "sets[3].load_kg" or "cautions[0].text". NAN, or NULL, where no number, or no string, stands there.
 * Give the string back to barwright_free. */
double barwright_number(const char* answer, const char* place);
char* barwright_text(const char* answer, const char* place);

#ifdef __cplusplus
}
#endif

#endif
