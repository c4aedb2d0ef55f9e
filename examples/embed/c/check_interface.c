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

/* Whether the string at a place in the answer to a request begins like that. */
static int says(const char* request, const char* place, const char* beginning) {
  char* const answer = barwright_answer(request, strlen(request));
  char* const text = barwright_text(answer, place);
  const int holds = text != NULL && strncmp(text, beginning, strlen(beginning)) == 0;
  if (!holds) fprintf(stderr, "%s\n", answer);
  barwright_free(text);
  barwright_free(answer);
  return holds;
}

#define BENCH "{\"version\":1,\"ask\":\"plan_session\",\"lift\":\"bench press\",\"date\":\"2026-11-25\","

int main(void) {
  const barwright_error none = BARWRIGHT_NO_ERROR;
  barwright_error error = none;

  /* Brzycki 1993: 100 kg 7 times is 36/30 of it (read); Epley 1985: 1 + 7/30 of it (from memory,
   * unverified). */
  CHECK(fabs(barwright_one_rep_max("Brzycki", 100.0, 5, 2.0, &error) - 120.0) < 1e-9);
  CHECK(fabs(barwright_one_rep_max("Epley", 100.0, 7, 0.0, &error) - 100.0 * 37.0 / 30.0) < 1e-9);
  CHECK_SAYS(BARWRIGHT_OK, "");

  /* A value that is not allowed, in the library's words. */
  CHECK(barwright_one_rep_max("Brzycki", 100.0, 0, 2.0, &error) == 0.0);
  CHECK_SAYS(BARWRIGHT_REFUSED, "reps must be a whole number from 1 to 100; got 0");
  CHECK(barwright_one_rep_max("Brzycki", -100.0, 5, 2.0, &error) == 0.0);
  CHECK_SAYS(BARWRIGHT_REFUSED, "a load must be a number of kilograms from 0 to 1000000; got -100");
  CHECK(barwright_one_rep_max("Brzycki", NAN, 5, 2.0, &error) == 0.0);
  CHECK_SAYS(BARWRIGHT_REFUSED, "a load must be a number of kilograms from 0 to 1000000; got nan");
  barwright_one_rep_max("nobody", 100.0, 5, 2.0, &error);
  CHECK(strstr(error.text, "a curve must be one of the published ones, such as Epley") != NULL);
  error = none;

  /* A message too long for its place ends with a whole character: each of these is 4 bytes. */
  char name[2 + 4 * 60 + 1] = "ab";
  for (int i = 0; i < 60; ++i) strcat(name, "\xF0\x9F\x98\x80");
  CHECK(barwright_room_new(name, &error) == NULL);
  CHECK(error.status == BARWRIGHT_REFUSED && strlen(error.text) > 250);
  CHECK(strcmp(error.text + strlen(error.text) - 4, "\xF0\x9F\x98\x80") == 0);
  error = none;

  /* Once it holds a failure, nothing more is done with it, and the first words stay. */
  barwright_one_rep_max("Brzycki", 100.0, 0, 2.0, &error);
  CHECK(barwright_one_rep_max("Brzycki", 100.0, 5, 2.0, &error) == 0.0);
  CHECK(barwright_room_new("gym_kg", &error) == NULL);
  CHECK_SAYS(BARWRIGHT_REFUSED, "reps must be a whole number from 1 to 100; got 0");

  /* NULL where something should be. */
  CHECK(barwright_one_rep_max(NULL, 100.0, 5, 2.0, &error) == 0.0);
  CHECK_SAYS(BARWRIGHT_REFUSED, "an equation's name must be given; got NULL");
  CHECK(barwright_room_at_most(NULL, 100.0, &error).plates == 0);
  CHECK_SAYS(BARWRIGHT_REFUSED, "a room must be given; got NULL");
  CHECK(barwright_room_new("gym_kg", NULL) == NULL);
  barwright_room_free(NULL);
  CHECK(barwright_answer(NULL, 0) == NULL);
  CHECK(isnan(barwright_number(NULL, "load_kg")) && isnan(barwright_number("{}", NULL)));
  CHECK(barwright_text(NULL, "outcome") == NULL);
  barwright_free(NULL);

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

  /* Places in JSON. */
  const char* const json = "{\"a\": {\"b\": [1.5, {\"c\": \"\\u00e9\"}]}, \"d\": true}";
  CHECK(barwright_number(json, "a.b[0]") == 1.5);
  char* const text = barwright_text(json, "a.b[1].c");
  CHECK(strcmp(text, "\xC3\xA9") == 0);
  barwright_free(text);
  CHECK(isnan(barwright_number(json, "a.b[2]")) && isnan(barwright_number(json, "a.b[")));
  CHECK(isnan(barwright_number(json, "a..b")) && isnan(barwright_number(json, "d")));
  CHECK(isnan(barwright_number("{\"a\":", "a")) && barwright_text(json, "a.b[0]") == NULL);

  /* Whatever a request holds, it has an answer; and its size counts, not a zero in it. */
  CHECK(says("", "outcome", "bad_request"));
  CHECK(says("{\"version\":1}", "message", "\"ask\" must be given"));
  CHECK(says(BENCH "\"stated_max_kg\":100,\"spotter\":true}", "outcome", "plan"));
  char* const cut = barwright_answer(BENCH, strlen(BENCH) - 1);
  CHECK(strstr(cut, "bad_request") != NULL);
  barwright_free(cut);

  /* A target less what was left may be negative: never a miss, never a set without a rating. */
#define DONE "\"log\":[{\"date\":\"2026-11-23\",\"lift\":\"bench press\",\"load_kg\":80,\"reps\":5,"
  CHECK(says(BENCH DONE "\"left\":-1}]}", "message", "reps in reserve must be a number from 0"));
  CHECK(says(BENCH DONE "\"left\":-2}]}", "at", "log[0].left"));
  CHECK(says(BENCH DONE "\"left\":2,\"missed\":true}]}", "message", "a set that was missed must have"));

  /* One with none left is a max attempt, though nobody says so: never on a lift that is new, caught
   * or not. A stop has no load. */
#define SINGLE BENCH DONE "\"left\":2}],\"reps\":1,\"left\":0,\"spotter\":true}"
  CHECK(says(SINGLE, "outcome", "stop"));
  CHECK(says(SINGLE, "cautions[0].severity", "stop"));
  char* const stop = barwright_answer(SINGLE, strlen(SINGLE));
  CHECK(isnan(barwright_number(stop, "load_kg")) && isnan(barwright_number(stop, "sets[0].load_kg")));
  barwright_free(stop);
  return EXIT_SUCCESS;
}
