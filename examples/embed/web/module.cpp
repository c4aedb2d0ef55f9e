// examples/embed/web/module.cpp - what the WebAssembly module exports
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <cstddef>
#include <string>

#include "answer.hpp"

namespace {

/// Copies what fits into the caller's memory; returns the size of all, as snprintf does.
int hand_over(const std::string& text, char* to, int room) {
  if (room > 0) {
    const std::size_t size = std::min(text.size(), static_cast<std::size_t>(room - 1));
    std::copy_n(text.begin(), size, to);
    to[size] = '\0';
  }
  return static_cast<int>(text.size());
}

}  // namespace

extern "C" {

int catalogue(char* to, int room) { return hand_over(catalogue_json(), to, room); }

int answer(const char* query, char* to, int room) {
  return hand_over(answer_json(query), to, room);
}
}
