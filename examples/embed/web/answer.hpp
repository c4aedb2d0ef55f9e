// examples/embed/web/answer.hpp - one question of the page, one answer
//
// Question and answer are text, as that is all a page and a module need to share: a query as in a
// web address, "lift=bench_press&changes=feet_up&kg=100&reps=5&left=2&next_reps=6&next_left=2", and
// JSON. The page holds no figure and no rule: all are the library's.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

/// Bytes; far more than any form holds.
inline constexpr std::size_t longest_question = 65536;

/// What there is to choose from: {"lifts": [{"key", "name", "changes": [{"key", "name", "excludes":
/// [key]}]}]}, of the lifts and changes that are done with a straight bar and plates.
std::string catalogue_json();

/// {"refused": why}, or what follows from the set: the maxes, the load and what is said beside it.
std::string answer_json(std::string_view query);
