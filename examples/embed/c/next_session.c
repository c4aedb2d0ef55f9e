/* examples/embed/c/next_session.c - from a handful of sets to the loaded bar, in C
 *
 * The rower and her sets are invented.
 * SPDX-License-Identifier: BSL-1.0
 */
#include <stdio.h>
#include <stdlib.h>

#include "barwright_c.h"

int main(void) {
  barwright_error error = BARWRIGHT_NO_ERROR;
  barwright_lift* bench = barwright_lift_new("bench press", &error);
  barwright_lift* feet_up = barwright_lift_new("bench press, feet up", &error);
  barwright_room* gym = barwright_room_new("gym_kg", &error);

  /* What she did: kilograms, repetitions, and how many more she had in her. */
  barwright_model* log = barwright_model_new("bench press", "Wathen", &error);
  barwright_model_add(log, bench, (barwright_date){2026, 10, 28}, 60.0, 5, BARWRIGHT_RATED,
                      2.0, &error);
  barwright_model_add(log, bench, (barwright_date){2026, 11, 2}, 62.5, 5, BARWRIGHT_RATED,
                      1.0, &error);
  barwright_model_add(log, feet_up, (barwright_date){2026, 11, 5}, 52.5, 6, BARWRIGHT_RATED,
                      3.0, &error);
  barwright_model_add(log, feet_up, (barwright_date){2026, 11, 9}, 55.0, 6, BARWRIGHT_RATED,
                      2.0, &error);
  barwright_model_add(log, bench, (barwright_date){2026, 11, 16}, 62.5, 6, BARWRIGHT_RATED,
                      1.0, &error);

  /* How strong that makes her, and what to load for 6 with 2 left, feet up. */
  const barwright_date today = {2026, 11, 18};
  barwright_fit* fit = barwright_fit_new(log, &error);
  const barwright_range max = barwright_fit_max(fit, bench, today, 0.90, &error);
  const barwright_range ratio = barwright_fit_ratio(fit, feet_up, 0.90, &error);
  const barwright_bounded_load load =
      barwright_fit_load_for(fit, feet_up, 6, 2.0, today, 0, 0.05, &error);
  const barwright_loading bar = barwright_room_at_most(gym, load.load_kg, &error);
  const double chance =
      barwright_fit_chance_of_missing(fit, feet_up, bar.total_kg, 6, today, 0, &error);
  const barwright_session session = {.reps = 6,
                                     .reserve = 2.0,
                                     .has_spotter = 0,
                                     .safeties = BARWRIGHT_SAFETIES_CHECKED,
                                     .earlier_sessions = 2};
  barwright_cautions* cautions = barwright_cautions_new(feet_up, session, &error);

  if (error.status == BARWRIGHT_OK) {
    printf("bench press: max %.1f kg, in 9 of 10 cases %.1f to %.1f kg\n", max.typical, max.low,
           max.high);
    printf("feet up: %.0f %% of it, in 9 of 10 cases %.0f to %.0f %%\n", 100.0 * ratio.typical,
           100.0 * ratio.low, 100.0 * ratio.high);
    printf("6 with 2 left, feet up: %.1f kg, %s\n", load.load_kg,
           load.is_bounded ? "held down by the bound on missing" : "by the reserve");
    printf("on the bar: %s\n", bar.text);
    printf("the chance that the last one does not go up: %.1f %%\n", 100.0 * chance);
    for (size_t i = 0; i < barwright_cautions_size(cautions); ++i) {
      static const char* const weights[] = {"STOP", "take care", "note"};
      printf("%s: %s\n", weights[barwright_cautions_weight(cautions, i)],
             barwright_cautions_text(cautions, i));
    }
  } else {
    fprintf(stderr, "%s\n", error.text);
  }

  barwright_cautions_free(cautions);
  barwright_fit_free(fit);
  barwright_model_free(log);
  barwright_room_free(gym);
  barwright_lift_free(feet_up);
  barwright_lift_free(bench);
  return error.status == BARWRIGHT_OK ? EXIT_SUCCESS : EXIT_FAILURE;
}
