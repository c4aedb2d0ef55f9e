/* examples/embed/c/answers.c - a request in each line, an answer in each line
 *
 *   embed_c_answers <requests >answers
 *
 * For whatever talks to another program through pipes, and for the tests. Takes on the locale of its
 * host, as programs do; the answers are the same in each.
 * SPDX-License-Identifier: BSL-1.0
 */
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>

#include "barwright_c.h"

/* One line without its end, in memory of `room` bytes that grows; -1 at the end of all. */
static long read_line(char** line, size_t* room) {
  size_t size = 0;
  int c = getchar();
  if (c == EOF) return -1;
  for (; c != EOF && c != '\n'; c = getchar()) {
    if (size == *room) {
      *room = 2 * *room + 4096;
      *line = realloc(*line, *room);
      if (*line == NULL) return -1;
    }
    (*line)[size++] = (char)c;
  }
  return (long)size;
}

int main(void) {
  char* line = NULL;
  size_t room = 0;
  setlocale(LC_ALL, "");
  for (long size = read_line(&line, &room); size >= 0; size = read_line(&line, &room)) {
    char* const answer = barwright_answer(size > 0 ? line : "", (size_t)size);
    if (answer == NULL || puts(answer) == EOF) return EXIT_FAILURE;
    barwright_free(answer);
  }
  free(line);
  return fflush(stdout) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
