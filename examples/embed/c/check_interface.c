/* examples/embed/c/check_interface.c - what the C interface says when it is held wrongly
 *
 * Says the line of the first check that fails.
 * SPDX-License-Identifier: BSL-1.0
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "barwright_c.h"

static void check(int holds, int line, const barwright_error* error) {
  if (holds) return;
  fprintf(stderr, "line %d: status %d, \"%s\"\n", line, (int)error->status, error->text);
  exit(EXIT_FAILURE);
}
#define CHECK(condition) check((condition) != 0, __LINE__, &error)
#define CHECK_SAYS(expected_status, expected_text) \
  CHECK(error.status == (expected_status));        \
  CHECK(strcmp(error.text, expected_text) == 0);   \
  error = none

int main(void) {
  const barwright_error none = BARWRIGHT_NO_ERROR;
  barwright_error error = none;

  /* Brzycki 1993: 100 kg 7 times is 36/30 of it (read); Epley 1985: 1 + 7/30 of it (recalled). */
  CHECK(fabs(barwright_one_rep_max("Brzycki", 100.0, 5, 2.0, &error) - 120.0) < 1e-9);
  CHECK(fabs(barwright_one_rep_max("Epley", 100.0, 7, 0.0, &error) - 100.0 * 37.0 / 30.0) < 1e-9);
  CHECK(fabs(barwright_load_for("Brzycki", 120.0, 5, 2.0, &error) - 100.0) < 1e-9);
  CHECK_SAYS(BARWRIGHT_OK, "");

  /* A value that is not allowed, in the library's words. */
  CHECK(barwright_one_rep_max("Brzycki", 100.0, 0, 2.0, &error) == 0.0);
  CHECK_SAYS(BARWRIGHT_REFUSED, "repetitions must be a whole number from 1 to 100; got 0");
  CHECK(barwright_one_rep_max("Brzycki", -100.0, 5, 2.0, &error) == 0.0);
  CHECK_SAYS(BARWRIGHT_REFUSED, "a load must be a number of kilograms from 0 to 1000000; got -100");
  CHECK(barwright_one_rep_max("Brzycki", NAN, 5, 2.0, &error) == 0.0);
  CHECK_SAYS(BARWRIGHT_REFUSED, "a load must be a number of kilograms from 0 to 1000000; got nan");

  /* A name that is not known. */
  CHECK(barwright_lift_new("bensh press", &error) == NULL);
  CHECK(strstr(error.text, "bench press") != NULL);
  error = none;
  CHECK(barwright_lift_new("bench press, feet upp", &error) == NULL);
  CHECK(strstr(error.text, "feet up") != NULL);
  error = none;
  barwright_one_rep_max("nobody", 100.0, 5, 2.0, &error);
  CHECK(strstr(error.text, "an equation must be one that is known, such as Epley") != NULL);
  error = none;

  /* Once it holds a failure, nothing more is done with it, and the first words stay. */
  barwright_one_rep_max("Brzycki", 100.0, 0, 2.0, &error);
  CHECK(barwright_one_rep_max("Brzycki", 100.0, 5, 2.0, &error) == 0.0);
  CHECK(barwright_lift_new("bench press", &error) == NULL);
  CHECK_SAYS(BARWRIGHT_REFUSED, "repetitions must be a whole number from 1 to 100; got 0");

  /* NULL where something should be. */
  CHECK(barwright_one_rep_max(NULL, 100.0, 5, 2.0, &error) == 0.0);
  CHECK_SAYS(BARWRIGHT_REFUSED, "an equation's name must be there; got NULL");
  CHECK(barwright_lift_max_from(NULL, 100.0, &error).high == 0.0);
  CHECK_SAYS(BARWRIGHT_REFUSED, "a lift must be there; got NULL");
  CHECK(barwright_lift_new("bench press", NULL) == NULL);
  CHECK(barwright_cautions_size(NULL) == 0);
  CHECK(barwright_cautions_text(NULL, 0) == NULL);
  CHECK(barwright_fit_sets(NULL) == 0);
  barwright_lift_free(NULL);
  barwright_room_free(NULL);
  barwright_cautions_free(NULL);
  barwright_model_free(NULL);
  barwright_fit_free(NULL);

  /* Plates: what cannot be had has no answer; what can adds up. */
  barwright_room* room = barwright_room_new("bar 20 kg; plates 25x1 10 2.5 kg", &error);
  CHECK(barwright_room_at_most(room, 19.0, &error).plates == 0);
  CHECK_SAYS(BARWRIGHT_NO_ANSWER, "there is nothing lighter than the bar, 20 kg");
  const barwright_loading bar = barwright_room_at_most(room, 96.0, &error);
  CHECK(bar.total_kg == 95.0 && bar.plates == 3);
  CHECK(bar.plate_kg[0] == 25.0 && bar.plate_kg[1] == 10.0 && bar.plate_kg[2] == 2.5);
  CHECK(strcmp(bar.text, "20 kg bar + 25, 10, 2.5 each side = 95 kg") == 0);
  barwright_room_free(room);
  CHECK(barwright_room_new("a bench", &error) == NULL);
  CHECK(error.status == BARWRIGHT_REFUSED);
  error = none;

  /* A log: the load of a set in pounds typed as kilograms is named, and questions have limits. */
  barwright_lift* squat = barwright_lift_new("squat", &error);
  barwright_lift* front = barwright_lift_new("squat, front squat", &error);
  barwright_lift* pull = barwright_lift_new("deadlift", &error);
  barwright_model* model = barwright_model_new("squat", "Wathen", &error);
  const barwright_date today = {2026, 11, 25};
  for (int day = 1; day <= 10; ++day) {
    const double kg = day == 6 ? 220.0 : 100.0;
    barwright_model_add(model, squat, (barwright_date){2026, 11, 2 * day}, kg, 5,
                        BARWRIGHT_RATED, 2.0, &error);
  }
  /* A target minus what was left may be negative: never a miss, never a set without a rating. */
  const barwright_date then = {2026, 11, 23};
  barwright_model_add(model, squat, then, 100.0, 5, BARWRIGHT_RATED, -1.0, &error);
  CHECK_SAYS(BARWRIGHT_REFUSED,
             "repetitions in reserve must be a number from 0 to 30 in steps of 0.5; got -1");
  barwright_model_add(model, squat, then, 100.0, 5, BARWRIGHT_UNRATED, -2.0, &error);
  CHECK_SAYS(BARWRIGHT_REFUSED,
             "repetitions in reserve must be a number from 0 to 30 in steps of 0.5; got -2");
  barwright_model_add(model, squat, then, 100.0, 5, BARWRIGHT_MISSED, 2.0, &error);
  CHECK_SAYS(BARWRIGHT_REFUSED,
             "the reserve of a set that was missed or not rated must be 0; got 2");
  barwright_model_add(model, squat, then, 100.0, 5, (barwright_outcome)3, 0.0, &error);
  CHECK_SAYS(BARWRIGHT_REFUSED, "an outcome must be rated, unrated or missed; got 3");
  barwright_fit* fit = barwright_fit_new(model, &error);
  barwright_model_free(model);
  CHECK_SAYS(BARWRIGHT_OK, "");
  CHECK(barwright_fit_sets(fit) == 10);
  for (size_t i = 0; i < 10; ++i) CHECK(barwright_fit_is_suspicious(fit, i) == (i == 5));
  CHECK(barwright_fit_is_suspicious(fit, 10) == 0);
  const barwright_range max = barwright_fit_max(fit, squat, today, 0.90, &error);
  CHECK(max.low < max.typical && max.typical < max.high && max.low > 100.0);
  CHECK(barwright_fit_ratio(fit, front, 0.90, &error).typical < 1.0);
  const double light = barwright_fit_chance_of_missing(fit, squat, 90.0, 5, today, 0, &error);
  const double heavy = barwright_fit_chance_of_missing(fit, squat, 115.0, 5, today, 0, &error);
  CHECK(0.0 < light && light < heavy && heavy < 1.0);
  CHECK_SAYS(BARWRIGHT_OK, "");
  barwright_fit_load_for(fit, squat, 5, 2.0, today, 0, 1.5, &error);
  CHECK_SAYS(BARWRIGHT_REFUSED,
             "a bound on the chance of missing must be a number above 0 and below 1; got 1.5");
  barwright_fit_max(fit, pull, today, 0.90, &error);
  CHECK(error.status == BARWRIGHT_REFUSED);
  error = none;
  barwright_fit_max(fit, squat, (barwright_date){2026, 2, 30}, 0.90, &error);
  CHECK_SAYS(BARWRIGHT_REFUSED,
             "a date must be a day of the years 1900 to 2199, as year, month, day; got 2026-2-30");
  barwright_fit_free(fit);

  /* How a set ended tells how strong the lifter is: 100 kg for 5. */
  double max_by_outcome[3];
  const barwright_outcome outcomes[] = {BARWRIGHT_RATED, BARWRIGHT_UNRATED, BARWRIGHT_MISSED};
  for (int i = 0; i < 3; ++i) {
    model = barwright_model_new("squat", "Wathen", &error);
    barwright_model_add(model, squat, then, 100.0, 5, outcomes[i], i == 0 ? 4.0 : 0.0, &error);
    fit = barwright_fit_new(model, &error);
    max_by_outcome[i] = barwright_fit_max(fit, squat, today, 0.90, &error).typical;
    barwright_fit_free(fit);
    barwright_model_free(model);
  }
  CHECK_SAYS(BARWRIGHT_OK, "");
  CHECK(max_by_outcome[2] < max_by_outcome[1] && max_by_outcome[1] < max_by_outcome[0]);

  /* A message too long for its place ends with a whole character: each of these is 4 bytes. */
  char name[2 + 4 * 60 + 1] = "ab";
  for (int i = 0; i < 60; ++i) strcat(name, "\xF0\x9F\x98\x80");
  CHECK(barwright_lift_new(name, &error) == NULL);
  CHECK(error.status == BARWRIGHT_REFUSED && strlen(error.text) > 250);
  CHECK(strcmp(error.text + strlen(error.text) - 4, "\xF0\x9F\x98\x80") == 0);
  error = none;

  /* Cautions come heaviest first, and alone close to failure the first says stop. */
  const barwright_session alone = {.reps = 5, .reserve = 0.0};
  barwright_cautions* cautions = barwright_cautions_new(squat, alone, &error);
  CHECK(barwright_cautions_weight(cautions, 0) == BARWRIGHT_STOP);
  CHECK(barwright_cautions_text(cautions, barwright_cautions_size(cautions)) == NULL);
  barwright_cautions_free(cautions);

  /* One with none left is a max attempt, though nobody says so: never on a lift that is new, caught
   * or not. The same single with one left is none. */
  const barwright_session single = {.reps = 1, .reserve = 0.5, .has_spotter = 1};
  cautions = barwright_cautions_new(squat, single, &error);
  CHECK(barwright_cautions_weight(cautions, 0) == BARWRIGHT_STOP);
  CHECK(strstr(barwright_cautions_text(cautions, 0), "No max attempt") != NULL);
  barwright_cautions_free(cautions);
  const barwright_session with_one_left = {.reps = 1, .reserve = 1.0, .has_spotter = 1};
  cautions = barwright_cautions_new(squat, with_one_left, &error);
  CHECK(barwright_cautions_weight(cautions, 0) != BARWRIGHT_STOP);
  barwright_cautions_free(cautions);
  barwright_lift_free(pull);
  barwright_lift_free(front);
  barwright_lift_free(squat);
  CHECK_SAYS(BARWRIGHT_OK, "");
  return EXIT_SUCCESS;
}
