// barwright/plates/detail/sorted_ramp.hpp - a ramp with the heaviest plates inside at every step
//
// For each step the stacks that come near its load with few plates are listed, heaviest inside.
// Then the cheapest way through one stack of each step is found: dynamic programming from step to
// step.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "barwright/plates/detail/kinds.hpp"
#include "barwright/plates/detail/ramp_planner.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// Plans the stacks of a ramp. A step costs its plate moves, what its load is off the one wanted,
/// and very much where two steps would change places.
class SortedRamp {
 public:
  /// One load of the ramp, all in ticks of pairs.
  struct Step {
    Ticks wanted = 0;
    Ticks leeway = 0;  ///< how far the load may lie from `wanted`
    Found nearest{};   ///< the loading nearest to `wanted`, always a choice
  };

  /// @param work  the load, bar and all, that what is off is measured by
  SortedRamp(const Kinds& kinds, const std::vector<Step>& steps, Ticks work)
      : kinds_(kinds), work_(static_cast<double>(work)) {
    for (const Step& step : steps) choices_.push_back(choices_of(step));
    for (std::size_t i = 0; i < steps.size(); ++i) {
      for (Choice& choice : choices_[i]) {
        double least = choice.cost + choice.stack.size;
        if (i > 0) {
          least = 1e300;
          for (std::size_t b = 0; b < choices_[i - 1].size(); ++b) {
            const Choice& before = choices_[i - 1][b];
            double cost = before.sum + moves(before.stack, choice.stack) + choice.cost;
            if (changes_order(steps[i - 1].wanted, steps[i].wanted, before.mass, choice.mass)) {
              cost += order_lost;
            }
            if (cost < least) {
              least = cost;
              choice.before = b;
            }
          }
        }
        choice.sum = least;
        // The last bar is checked, lifted and stripped: few plates there are worth four moves each.
        if (i + 1 == steps.size()) choice.sum += 4.0 * choice.stack.size;
      }
    }
    std::size_t at = 0;
    for (std::size_t c = 1; c < choices_.back().size(); ++c) {
      if (choices_.back()[c].sum < choices_.back()[at].sum) at = c;
    }
    chosen_.resize(steps.size());
    for (std::size_t i = steps.size(); i-- > 0;) {
      chosen_[i] = at;
      at = choices_[i][at].before;
    }
  }

  [[nodiscard]] const Stack& stack(std::size_t step) const noexcept {
    return choices_[step][chosen_[step]].stack;
  }

 private:
  static constexpr std::size_t most_choices = 96;
  static constexpr int most_tries = 20'000;       // for one step: a tenth of a millisecond
  static constexpr int more_than_fewest = 2;      // plates, where they may save moves
  static constexpr double moves_for_load = 30.0;  // a move for each thirtieth of the work load
  static constexpr double a_plate = 0.01;         // of two equally handy ways the one with fewer
  static constexpr double order_lost = 1000.0;

  struct Choice {
    Stack stack{};
    Ticks mass = 0;
    double cost = 0.0;       ///< but for the moves
    double sum = 0.0;        ///< of the cheapest way here
    std::size_t before = 0;  ///< the choice of the step before on that way
  };

  /// What a search for the stacks near a load is at.
  struct Search {
    Ticks lightest = 0;
    Ticks heaviest = 0;
    Ticks wanted = 0;
    int tries_left = most_tries;
    std::vector<Choice> choices{};
  };

  [[nodiscard]] static int moves(const Stack& a, const Stack& b) noexcept {
    int same = 0;
    while (same < a.size && same < b.size && a.kinds[same] == b.kinds[same]) ++same;
    return a.size + b.size - 2 * same;
  }
  [[nodiscard]] static bool changes_order(Ticks wanted_before, Ticks wanted, Ticks before,
                                          Ticks now) noexcept {
    if (wanted == wanted_before) return now != before;
    return wanted > wanted_before ? now <= before : now >= before;
  }

  [[nodiscard]] std::vector<Choice> choices_of(const Step& step) const {
    Search search{.lightest = step.wanted - step.leeway,
                  .heaviest = step.wanted + step.leeway,
                  .wanted = step.wanted};
    Choice nearest{.mass = step.nearest.mass};
    for (int k = 0; k < kinds_.size; ++k) {
      for (int i = 0; i < step.nearest.counts.of[k]; ++i) put_on(nearest.stack, k);
    }
    if (step.leeway == 0) search.lightest = search.heaviest = step.nearest.mass;
    offer(search, nearest);
    // One more plate than before, until there are stacks; then a few more.
    int most = nearest.stack.size + more_than_fewest;
    for (int plates = 0; plates <= most && plates <= most_plates_a_side; ++plates) {
      const std::size_t before = search.choices.size();
      Choice choice;
      extend(search, 0, plates, choice);
      const bool is_first = search.choices.size() > before;
      if (is_first && plates + more_than_fewest < most) most = plates + more_than_fewest;
    }
    return std::move(search.choices);
  }

  void put_on(Stack& stack, int kind) const noexcept {
    stack.kinds[stack.size++] = static_cast<std::uint8_t>(kind);
  }

  /// Offers each stack of `choice` and exactly `left` more plates of `kind` and lighter ones.
  void extend(Search& search, int kind, int left, Choice& choice) const {
    if (--search.tries_left <= 0) return;
    if (left == 0) {
      if (choice.mass >= search.lightest && choice.mass <= search.heaviest) offer(search, choice);
      return;
    }
    if (kind == kinds_.size) return;
    const Kind& own = kinds_.of[kind];
    if (choice.mass + left * own.pair < search.lightest) return;  // all the others are lighter
    const int before = choice.stack.size;
    const Ticks mass = choice.mass;
    int count = 0;
    while (count < own.limit && count < left && choice.mass + own.pair <= search.heaviest) {
      put_on(choice.stack, kind);
      choice.mass += own.pair;
      ++count;
    }
    for (; count >= 0; --count) {
      choice.stack.size = before + count;
      choice.mass = mass + count * own.pair;
      extend(search, kind + 1, left - count, choice);
    }
    choice.stack.size = before;
    choice.mass = mass;
  }

  /// Keeps a stack among the best, unless it is there.
  void offer(Search& search, Choice choice) const {
    const Ticks off = choice.mass - search.wanted;
    choice.cost = moves_for_load * static_cast<double>(off < 0 ? -off : off) / work_ +
                  a_plate * choice.stack.size;
    const double rank = choice.cost + choice.stack.size;
    std::vector<Choice>& choices = search.choices;
    std::size_t place = choices.size();
    for (std::size_t i = 0; i < choices.size(); ++i) {
      if (choices[i].mass == choice.mass && moves(choices[i].stack, choice.stack) == 0) return;
      if (place == choices.size() && rank < choices[i].cost + choices[i].stack.size) place = i;
    }
    if (choices.size() == most_choices) {
      if (place == choices.size()) return;
      choices.pop_back();
    }
    choices.insert(choices.begin() + static_cast<std::ptrdiff_t>(place), choice);
  }

  Kinds kinds_;
  double work_;
  std::vector<std::vector<Choice>> choices_;
  std::vector<std::size_t> chosen_;
};

}  // namespace barwright::inline BARWRIGHT_ABI::detail
