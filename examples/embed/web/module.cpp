// examples/embed/web/module.cpp - what the WebAssembly module exports
//
// Texts end with a zero. One that is returned is the caller's to give back to `free`; it is null
// where there is no memory for it.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <cstddef>
#include <cstdlib>
#include <string>

#include "answer.hpp"

namespace {

char* handed_over(const std::string& text) noexcept {
  char* const to = static_cast<char*>(std::malloc(text.size() + 1));
  if (to != nullptr) std::copy_n(text.c_str(), text.size() + 1, to);
  return to;
}

}  // namespace

extern "C" {

/// The most bytes a question may have.
std::size_t question_limit() { return longest_question; }

char* catalogue() { return handed_over(catalogue_json()); }

char* answer(const char* query) { return handed_over(answer_json(query)); }
}
