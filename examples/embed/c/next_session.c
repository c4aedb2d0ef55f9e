/* examples/embed/c/next_session.c - from a handful of sets to the loaded bar, in C
 *
 * The rower and her sets are invented.
 * SPDX-License-Identifier: BSL-1.0
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "barwright_c.h"

/* Prints the string at a place in the answer; 0 where there is none. */
static int print_text(const char* answer, const char* place) {
  char* const text = barwright_text(answer, place);
  if (text == NULL) return 0;
  printf("%s\n", text);
  barwright_free(text);
  return 1;
}

int main(void) {
  /* What she did, and what is planned: six with two left, feet up. docs/json.md has all members. */
  static const char request[] =
      "{\"version\": 1, \"ask\": \"plan_session\","
      " \"log\": ["
      "  {\"date\": \"2026-10-28\", \"lift\": \"bench press\", \"load_kg\": 60, \"reps\": 5, \"left\": 2},"
      "  {\"date\": \"2026-11-02\", \"lift\": \"bench press\", \"load_kg\": 62.5, \"reps\": 5, \"left\": 1},"
      "  {\"date\": \"2026-11-05\", \"lift\": \"bench press, feet up\", \"load_kg\": 52.5, \"reps\": 6, \"left\": 3},"
      "  {\"date\": \"2026-11-09\", \"lift\": \"bench press, feet up\", \"load_kg\": 55, \"reps\": 6, \"left\": 2},"
      "  {\"date\": \"2026-11-14\", \"lift\": \"bench press\", \"load_kg\": 62.5, \"reps\": 6, \"left\": 1}],"
      " \"lift\": \"bench press, feet up\", \"date\": \"2026-11-18\", \"reps\": 6, \"left\": 2,"
      " \"room\": \"gym_kg\", \"safeties\": \"checked\"}";
  char* const answer = barwright_answer(request, strlen(request));
  if (answer == NULL) return EXIT_FAILURE;

  print_text(answer, "outcome");
  if (!isnan(barwright_number(answer, "load_kg"))) {
    printf("%g kg for %g, at least %g left, limited by ", barwright_number(answer, "load_kg"),
           barwright_number(answer, "reps"), barwright_number(answer, "stop_with_left"));
    print_text(answer, "limited_by");
    for (int i = 0;; ++i) {
      char place[64];
      snprintf(place, sizeof place, "sets[%d].bar.text", i);
      if (!print_text(answer, place)) break;
    }
  }
  for (int i = 0;; ++i) { /* beside a load and beside a stop */
    char place[64];
    snprintf(place, sizeof place, "cautions[%d].text", i);
    if (!print_text(answer, place)) break;
  }
  print_text(answer, "message"); /* of a request that could not be understood */
  print_text(answer, "refusal.message");
  barwright_free(answer);
  return EXIT_SUCCESS;
}
