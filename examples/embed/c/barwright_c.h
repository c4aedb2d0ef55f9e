/* examples/embed/c/barwright_c.h - barwright for C, and for whatever can call C
 *
 * From a set to a max, to a load, to the plates; and the model that learns from a log. Loads are in
 * kilograms. Lifts and equations go by the names the library prints: "bench press, feet up",
 * "Wathen".
 *
 * Every function that can fail takes a barwright_error last. Start with BARWRIGHT_NO_ERROR and look
 * at its status when the calculation is over: once it holds a failure, each further call with it
 * does nothing and returns zeros or NULL. It must not be NULL. Nothing is thrown across this
 * interface, nothing is global: threads may do as they like, each with an error of its own, but for
 * barwright_model_add, which changes its model. The inside of a handle is none of the caller's
 * business; give each back to its _free function, which takes NULL too.
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
  char text[256]; /* "repetitions must be a whole number from 1 to 100; got 0" */
} barwright_error;

#define BARWRIGHT_NO_ERROR \
  { BARWRIGHT_OK, "" }

/* ---- values ---- */

typedef struct barwright_range {
  double low, typical, high;
} barwright_range;

typedef struct barwright_date {
  int year, month, day;
} barwright_date;

/* ---- one set, one load ---- */

/* The max behind a set, by a published equation; reserve in repetitions, in steps of one half. */
double barwright_one_rep_max(const char* equation, double load_kg, int reps, double reserve,
                             barwright_error* error);
/* The load for so many repetitions with so many left. */
double barwright_load_for(const char* equation, double max_kg, int reps, double reserve,
                          barwright_error* error);

/* ---- lifts ---- */

typedef struct barwright_lift barwright_lift;

/* A lift and what is changed about it: "bench press, feet up, flat back". */
barwright_lift* barwright_lift_new(const char* name, barwright_error* error);
void barwright_lift_free(barwright_lift* lift);
/* What others lift on it, for a lifter with this max on the unchanged lift. */
barwright_range barwright_lift_max_from(const barwright_lift* lift, double base_max_kg,
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

/* ---- cautions ---- */

typedef enum barwright_safeties {
  BARWRIGHT_SAFETIES_NONE = 0,
  BARWRIGHT_SAFETIES_UNCHECKED = 1,
  BARWRIGHT_SAFETIES_CHECKED = 2 /* tried with the empty bar in this body position */
} barwright_safeties;

typedef enum barwright_weight {
  BARWRIGHT_STOP = 0, /* do not do this as planned */
  BARWRIGHT_WARN = 1, /* take care of this before the first set */
  BARWRIGHT_NOTE = 2
} barwright_weight;

typedef struct barwright_session {
  int reps;
  double reserve; /* the least planned for any set */
  int has_spotter;
  barwright_safeties safeties;
  int earlier_sessions; /* of this very lift, by this lifter */
} barwright_session;

typedef struct barwright_cautions barwright_cautions;

/* What must be said beside a load, heaviest first. There is always at least one. */
barwright_cautions* barwright_cautions_new(const barwright_lift* lift, barwright_session session,
                                           barwright_error* error);
void barwright_cautions_free(barwright_cautions* cautions);
size_t barwright_cautions_size(const barwright_cautions* cautions);
/* NULL where there is no such caution. The text lives as long as the program. */
const char* barwright_cautions_text(const barwright_cautions* cautions, size_t index);
barwright_weight barwright_cautions_weight(const barwright_cautions* cautions, size_t index);

/* ---- what a log says ---- */

typedef struct barwright_model barwright_model;
typedef struct barwright_fit barwright_fit;

/* How a set ended. Only one that was done and rated has a reserve; give 0 with the others. */
typedef enum barwright_outcome {
  BARWRIGHT_RATED = 0,   /* done, with so many repetitions left */
  BARWRIGHT_UNRATED = 1, /* done, and nobody said how many were left */
  BARWRIGHT_MISSED = 2   /* the last repetition did not go up */
} barwright_outcome;

/* An empty log of a lift and its variations. */
barwright_model* barwright_model_new(const char* base_lift, const char* equation,
                                     barwright_error* error);
void barwright_model_free(barwright_model* model);
/* One set. Sets of one day count as done in the order they are added. */
void barwright_model_add(barwright_model* model, const barwright_lift* lift, barwright_date date,
                         double load_kg, int reps, barwright_outcome outcome, double reserve,
                         barwright_error* error);

/* What the sets so far say. Keeps nothing of the model, which may change or go. */
barwright_fit* barwright_fit_new(const barwright_model* model, barwright_error* error);
void barwright_fit_free(barwright_fit* fit);

/* The max on a day of average form, with the interval that holds it in `level` of all cases. */
barwright_range barwright_fit_max(const barwright_fit* fit, const barwright_lift* lift,
                                  barwright_date date, double level, barwright_error* error);
/* The max on a lift as a share of that on the base lift. */
barwright_range barwright_fit_ratio(const barwright_fit* fit, const barwright_lift* lift,
                                    double level, barwright_error* error);
/* The chance that the last repetition does not go up. */
double barwright_fit_chance_of_missing(const barwright_fit* fit, const barwright_lift* lift,
                                       double load_kg, int reps, barwright_date date,
                                       int earlier_sets, barwright_error* error);

typedef struct barwright_bounded_load {
  double load_kg;
  double chance_of_missing;
  int is_bounded; /* the bound, not the reserve, decided */
} barwright_bounded_load;

/* The load for so many repetitions with so many left, no greater than the bound allows.
 *
 * It knows no introduction to a new lift, no layoff, no limit on the step from the last session and
 * no stop: a lift never done, or not done for months, gets the load of one in full training. It is
 * an estimate for a planner to start from, and no load to show a lifter. */
barwright_bounded_load barwright_fit_load_for(const barwright_fit* fit, const barwright_lift* lift,
                                              int reps, double reserve, barwright_date date,
                                              int earlier_sets, double max_chance_of_missing,
                                              barwright_error* error);

/* Sets added, and those that fitted too badly to be used: look for typing errors. */
size_t barwright_fit_sets(const barwright_fit* fit);
int barwright_fit_is_suspicious(const barwright_fit* fit, size_t set);

#ifdef __cplusplus
}
#endif

#endif
