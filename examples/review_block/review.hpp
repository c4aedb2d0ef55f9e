// examples/review_block/review.hpp - what a block of training on a variation brought
//
// Everything the page says is found here: the gain on the variation and on the reference lift, what
// the reference lift did before the block, and whether any one session decides the verdict. The
// verdict rests on the reference lift, because carrying over to it is what a variation is for.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/learn/strength_model.hpp"
#include "lifter_model.hpp"
#include "squad_log.hpp"

namespace review_block {

namespace bw = barwright;
using lifter_model::Refusal;

/// What is asked.
struct Question {
  std::string lifter{};
  bw::Lift lift;                   ///< the variation
  std::optional<bw::Date> from{};  ///< else its first day in the log
  std::optional<bw::Date> to{};    ///< else its last
};

/// A change that the log is sure of, or is not.
enum class Verdict : unsigned char { rose, fell, level, unclear };

/// A change smaller than this is not worth speaking of: less than a day's form (assumption).
inline constexpr double worth_speaking_of = 0.02;
/// In fewer weeks the model expects no more than that of anybody, so a small change shows nothing.
inline constexpr double fewest_weeks = 4.0;

inline Verdict verdict_on(const bw::Change& change, double weeks) {
  const bw::Range<double> range = change.interval(0.90);
  if (range.low > 0.0) return Verdict::rose;
  if (range.high < 0.0) return Verdict::fell;
  const bool is_small = range.low > -worth_speaking_of && range.high < worth_speaking_of;
  return is_small && weeks >= fewest_weeks ? Verdict::level : Verdict::unclear;
}

/// The gain on the reference lift as it would be without the sets of one day.
struct WithoutDay {
  bw::Date day;
  bw::Change gain;
};

/// How much a lift was trained.
struct Amount {
  int days = 0;
  int sets = 0;
  int near_failure = 0;  ///< sets missed, or rated with two or fewer left
};

struct Review {
  Question question;
  bw::Date from;
  bw::Date to;
  lifter_model::Learnt learnt;
  Amount of_variation{};
  Amount of_reference{};
  bw::Change on_variation;
  bw::Change on_reference;
  std::optional<bw::Change> before{};  ///< on the reference lift, in the log before the block
  bw::Date first_day;                  ///< of the log, for this lift
  std::vector<WithoutDay> without{};

  [[nodiscard]] bw::Lift reference() const { return question.lift.base(); }
  [[nodiscard]] double weeks() const { return (to - from) / 7.0; }
  [[nodiscard]] double weeks_before() const { return (from - first_day) / 7.0; }
  [[nodiscard]] Verdict verdict() const { return verdict_on(on_reference, weeks()); }
  /// The max on the variation as a share of the reference lift's, as practised as it was that day.
  [[nodiscard]] double ratio_on(bw::Date day) const {
    return learnt.fit.max(question.lift, day).median() / learnt.fit.max(reference(), day).median();
  }
};

inline Amount amount_of(const std::vector<bw::LoggedSet>& sets, const bw::Lift& lift, bw::Date from,
                        bw::Date to) {
  Amount amount;
  std::vector<bw::Date> days;
  for (const bw::LoggedSet& set : sets) {
    if (!set.lift.same_as(lift) || set.date < from || set.date > to) continue;
    ++amount.sets;
    const bool is_hard = set.outcome == bw::Outcome::missed ||
                         (set.reserve && set.reserve->typical <= bw::RepsInReserve(2.0));
    if (is_hard) ++amount.near_failure;
    if (std::find(days.begin(), days.end(), set.date) == days.end()) days.push_back(set.date);
  }
  amount.days = static_cast<int>(days.size());
  return amount;
}

/// The first and last day that satisfy `test`; nothing without any.
template <class Test>
std::optional<std::pair<bw::Date, bw::Date>> span_of(const std::vector<bw::LoggedSet>& sets,
                                                     Test test) {
  std::optional<std::pair<bw::Date, bw::Date>> span;
  for (const bw::LoggedSet& set : sets) {
    if (!test(set)) continue;
    if (!span) span = {set.date, set.date};
    span->first = std::min(span->first, set.date);
    span->second = std::max(span->second, set.date);
  }
  return span;
}

/// Refits without each day of the block in turn. Skipped for long logs, where no day could matter.
inline std::vector<WithoutDay> without_each_day(const bw::StrengthSettings& settings,
                                                const std::vector<squad_log::Entry>& entries,
                                                bw::Date from, bw::Date to) {
  constexpr std::size_t long_log = 1500;
  std::vector<WithoutDay> results;
  std::vector<bw::Date> days;
  for (const squad_log::Entry& entry : entries) {
    const bw::Date day = entry.set.date;
    const bool is_ours = entry.set.lift.base().same_as(settings.reference.base());
    if (is_ours && from <= day && day <= to) days.push_back(day);
  }
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  if (entries.size() > long_log) return results;
  for (const bw::Date day : days) {
    std::vector<squad_log::Entry> rest;
    std::copy_if(entries.begin(), entries.end(), std::back_inserter(rest),
                 [&](const squad_log::Entry& entry) { return entry.set.date != day; });
    const auto gain = lifter_model::learn(settings, rest).fit.gain(settings.reference, from, to);
    if (gain) results.push_back({day, *gain});
  }
  return results;
}

/// @param entries  the lifter's sets
inline Review make_review(const Question& asked, const std::vector<squad_log::Entry>& entries) {
  const bw::BaseLift& base = asked.lift.base();
  const std::string name = asked.lift.name().str();
  std::vector<bw::LoggedSet> all;
  for (const squad_log::Entry& entry : entries) all.push_back(entry.set);
  std::vector<std::string> variations;
  for (const bw::LoggedSet& set : all) {
    if (!set.lift.base().same_as(base) || set.lift.is_plain()) continue;
    const std::string known = set.lift.name().str();
    if (std::find(variations.begin(), variations.end(), known) == variations.end()) {
      variations.push_back(known);
    }
  }
  const std::string in_log = variations.empty() ? "no variation" : squad_log::one_of(variations);
  if (asked.lift.is_plain()) {
    throw Refusal{"Name what is changed about the " + name +
                  ", with --with; the log has for this lifter: " + in_log};
  }
  const bw::StrengthSettings settings =
      lifter_model::settings_for(base, bw::equations::wathen, all);
  lifter_model::Learnt learnt = lifter_model::learn(settings, entries);

  const auto span =
      span_of(learnt.sets, [&](const bw::LoggedSet& set) { return set.lift.same_as(asked.lift); });
  if (!span) {
    throw Refusal{"The log has no set of the " + name + " by this lifter" +
                  lifter_model::but_for(learnt.misfits) + "; of the " + std::string(base.name) +
                  " it has: " + in_log};
  }
  const bw::Date from = asked.from.value_or(span->first);
  const bw::Date to = asked.to.value_or(span->second);
  const Amount of_variation = amount_of(learnt.sets, asked.lift, from, to);
  const auto on_variation = learnt.fit.gain(asked.lift, from, to);
  const auto on_reference = learnt.fit.gain(base, from, to);
  if (of_variation.days < 2 || !on_variation || !on_reference) {
    throw Refusal{"A review needs two days of the " + name + "; from " + text_page::day(from) +
                  " to " + text_page::day(to) + " the log has " +
                  std::to_string(of_variation.days)};
  }
  const auto whole =
      span_of(learnt.sets, [&](const bw::LoggedSet& set) { return set.lift.base().same_as(base); });
  Review review{.question = asked,
                .from = from,
                .to = to,
                .learnt = std::move(learnt),
                .of_variation = of_variation,
                .on_variation = *on_variation,
                .on_reference = *on_reference,
                .first_day = whole->first};
  review.of_reference = amount_of(review.learnt.sets, base, from, to);
  if (review.weeks_before() >= 2.0) {
    review.before = review.learnt.fit.gain(base, review.first_day, from);
  }
  review.without = without_each_day(settings, entries, from, to);
  return review;
}

}  // namespace review_block
