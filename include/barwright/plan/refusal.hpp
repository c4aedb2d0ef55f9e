// barwright/plan/refusal.hpp - why there is no plan, as a code and its figures
//
// A question that cannot be answered is no error of the program: the log is too old, the bar is
// heavier than the load. Each such case has a code that programs can rely on, and the figures that
// a sentence about it needs. A plan that should not be done is another matter: it is made, and says
// stop.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "barwright/core/date.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/text.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Why there is no plan.
enum class RefusalCode : unsigned char {
  no_strength,          ///< neither a set of the lift or a variation of it, nor a stated max
  log_too_old,          ///< the last set was too long ago to say how strong the lifter is
  log_goes_on,          ///< there are sets after the day that was asked about
  other_lift,           ///< what is known is of another base lift
  bodyweight_lift,      ///< the lift moves the body: how much of it is not known, or not on a bar
  explosive_lift,       ///< reps of the lift say nothing about its max
  bar_too_heavy,        ///< the empty bar is heavier than the load
  dumbbells_too_heavy,  ///< the lightest dumbbells are
  body_too_heavy,       ///< what the lift moves of the body weighs more than the load
  no_body_mass,         ///< the lift moves the body, and nobody said what that weighs
  stack_too_heavy,      ///< the first plate of the stack is
  no_bar_in_block,      ///< a block is loaded with plates, not with dumbbells or a stack
  not_in_log,           ///< the log has no set of this lift
  too_few_days,         ///< a review needs two days of the lift
  too_many_days,        ///< of a squad: more days of one lifter than are planned at once
};

[[nodiscard]] constexpr std::string_view name(RefusalCode code) noexcept {
  switch (code) {
    case RefusalCode::no_strength: return "no_strength";
    case RefusalCode::log_too_old: return "log_too_old";
    case RefusalCode::log_goes_on: return "log_goes_on";
    case RefusalCode::other_lift: return "other_lift";
    case RefusalCode::bodyweight_lift: return "bodyweight_lift";
    case RefusalCode::explosive_lift: return "explosive_lift";
    case RefusalCode::bar_too_heavy: return "bar_too_heavy";
    case RefusalCode::dumbbells_too_heavy: return "dumbbells_too_heavy";
    case RefusalCode::body_too_heavy: return "body_too_heavy";
    case RefusalCode::no_body_mass: return "no_body_mass";
    case RefusalCode::stack_too_heavy: return "stack_too_heavy";
    case RefusalCode::no_bar_in_block: return "no_bar_in_block";
    case RefusalCode::not_in_log: return "not_in_log";
    case RefusalCode::too_few_days: return "too_few_days";
    case RefusalCode::too_many_days: return "too_many_days";
  }
  return "";
}

/// Why there is no plan, and the figures of it. What does not matter to the code is left as it is.
struct Refusal {
  RefusalCode code = RefusalCode::no_strength;
  std::optional<Date> date{};  ///< the last set's, where a log is too old or goes on
  int days = 0;                ///< since that set, that a review found, or that are the most
  Mass wanted{};               ///< the load for today
  Mass lightest{};             ///< that there is
  int reps_with_lightest = 0;  ///< so many with it leave what was asked for; 0: none do
};

/// Why there is no plan, in a sentence without its full stop, for whoever asked. What a program can
/// be told in place of it (a max, a lighter bar) is the program's to add.
/// @param lift  what the lift is called: "bench press"
/// @param unit  of the loads in it
[[nodiscard]] inline std::string message(const Refusal& refusal, std::string_view lift,
                                         Unit unit = Unit::kg) {
  const std::string the_lift = "the " + std::string(lift);
  const std::string subject = "The " + std::string(lift);
  const auto load = [&](Mass mass) { return to_text(mass, unit, 1).str(); };
  const std::string lightest = to_text(refusal.lightest, unit, 2).str();
  switch (refusal.code) {
    case RefusalCode::no_strength:
      return "No 1RM was stated, and there is no set of " + the_lift +
             " or a variation of it to go by";
    case RefusalCode::log_too_old:
      return "The last set of " + the_lift + " or a variation of it was " +
             (refusal.date ? "on " + to_text(*refusal.date).str() + ", " : std::string()) +
             std::to_string(refusal.days) +
             " days before the day asked about: too long ago to say how strong the lifter is now";
    case RefusalCode::log_goes_on:
      return "The log has a set after that day" +
             (refusal.date ? ", on " + to_text(*refusal.date).str() : std::string()) +
             "; ask for a day after it";
    case RefusalCode::other_lift: return "What is known of the lifter is not of " + the_lift;
    case RefusalCode::bodyweight_lift:
      return subject + " is done with the body, not a bar: there is no load to plan";
    case RefusalCode::explosive_lift:
      return "A set of " + the_lift +
             " ends when the bar slows, not when a rep fails: reps say nothing about the max, and "
             "no load is planned from them";
    case RefusalCode::bar_too_heavy:
      return "The empty bar, " + lightest + " with collars, is heavier than the load to use, " +
             load(refusal.wanted) +
             (refusal.reps_with_lightest > 0
                  ? ". Do sets of " + std::to_string(refusal.reps_with_lightest) +
                        " with it, or use a lighter bar or dumbbells"
                  : ". Use a lighter bar or dumbbells");
    case RefusalCode::dumbbells_too_heavy:
      return "The lightest dumbbells, " + lightest +
             " together, are heavier than the load to use, " + load(refusal.wanted);
    case RefusalCode::body_too_heavy:
      return "What " + the_lift + " moves of the body, " + load(refusal.lightest) +
             ", is more than the load to use, " + load(refusal.wanted) +
             (refusal.reps_with_lightest > 0
                  ? ". Do sets of " + std::to_string(refusal.reps_with_lightest) +
                        " without a belt, or take "
                  : ". Take ") +
             load(refusal.lightest - refusal.wanted) +
             " off with a band or an assisting machine, or use an easier lift: a pulldown for a "
             "pull-up, a push-up for a dip";
    case RefusalCode::no_body_mass: return subject + " moves the body: say what the lifter weighs";
    case RefusalCode::stack_too_heavy:
      return "The first plate of the stack, " + lightest + ", is heavier than the load to use, " +
             load(refusal.wanted);
    case RefusalCode::no_bar_in_block:
      return "A block is planned with a barbell; with dumbbells or a stack, plan each session on "
             "its own";
    case RefusalCode::not_in_log: return "The log has no set of " + the_lift + " by this lifter";
    case RefusalCode::too_few_days:
      return "A review needs two days of " + the_lift + "; the period asked for has " +
             std::to_string(refusal.days);
    case RefusalCode::too_many_days:
      return "More than " + std::to_string(refusal.days) +
             " days of one lifter are not planned at once";
  }
  return "";
}

/// An answer, or why there is none.
template <class T>
class Result {
 public:
  Result(T value) : value_(std::move(value)) {}  // implicit: a function returns either
  Result(const Refusal& refusal) : refusal_(refusal) {}

  [[nodiscard]] bool has_value() const noexcept { return value_.has_value(); }
  explicit operator bool() const noexcept { return value_.has_value(); }

  /// @throws DomainError where there is none.
  [[nodiscard]] const T& value() const& {
    require();
    return *value_;
  }
  [[nodiscard]] T& value() & {
    require();
    return *value_;
  }
  [[nodiscard]] T value() && {
    require();
    return std::move(*value_);
  }
  [[nodiscard]] const T& operator*() const& { return value(); }
  [[nodiscard]] const T* operator->() const { return &value(); }
  /// Of meaning only where there is no value.
  [[nodiscard]] const Refusal& refusal() const noexcept { return refusal_; }

 private:
  void require() const {
    if (!value_)
      detail::fail(ErrorCode::no_answer, "an answer", "there to be read", name(refusal_.code));
  }

  std::optional<T> value_{};
  Refusal refusal_{};
};

}  // namespace barwright::inline BARWRIGHT_ABI
