// barwright/learn/saved_fit.ipp - the bodies of saved_fit.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/learn/kalman_filter.hpp"
#include "barwright/learn/log_checksum.hpp"
#include "barwright/learn/model/last_day.hpp"
#include "barwright/learn/model/log_fit.hpp"
#include "barwright/learn/model/log_model.hpp"
#include "barwright/learn/model/marks.hpp"
#include "barwright/learn/model/staged_log.hpp"
#include "barwright/learn/saved_fit.hpp"
#include "barwright/learn/strength_model.hpp"
#include "barwright/learn/strength_settings.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/modifier.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline constexpr std::string_view saved_fit_begin = "barwfit1";

[[nodiscard]] inline std::uint64_t digest_of(std::string_view bytes) noexcept {
  Digest digest;
  for (const char byte : bytes) digest.add_byte(static_cast<unsigned char>(byte));
  return digest.value();
}

/// Of all that a fit reads of its settings.
[[nodiscard]] inline std::uint64_t digest_of(const StrengthSettings& settings) {
  Digest digest;
  const auto add_lifts = [&](const std::vector<Lift>& lifts) {
    digest.add(static_cast<std::uint64_t>(lifts.size()));
    for (const Lift& lift : lifts) digest.add(lift.id().hash());
  };
  digest.add(settings.reference.id().hash());
  // Rounded, as the logarithms of two machines may differ in their last bit.
  for (const double reps : {0.5, 1.0, 2.0, 3.0, 5.0, 8.0, 12.0, 20.0, 40.0}) {
    digest.add(std::round(1e6 * settings.curve.log_fraction(reps)));
  }
  digest.add_byte(static_cast<unsigned char>(settings.experience));
  digest.add_byte(settings.unlogged_is_new ? 1 : 0);
  add_lifts(settings.new_lifts);
  add_lifts(settings.known_lifts);
  const StrengthPriors& p = settings.priors;
  for (const double number : {p.max.kg(),
                              p.max_log_sd,
                              p.gain,
                              p.early_gain,
                              p.early_weeks,
                              p.novice_gain,
                              p.novice_weeks,
                              p.trend_sd,
                              p.novice_trend_sd,
                              p.trend_weeks,
                              1.0 * p.layoff_days,
                              p.layoff_loss,
                              p.layoff_loss_sd,
                              p.level_walk,
                              p.day_sd,
                              p.set_sd,
                              p.steadiness_log_sd,
                              p.set_loss,
                              p.set_loss_sd,
                              p.ratio_walk,
                              p.stretch_log,
                              p.stretch_log_sd,
                              p.bend,
                              p.bend_sd,
                              p.rating_bias,
                              p.rating_bias_sd,
                              p.unrated_reserve,
                              p.unrated_reserve_sd,
                              p.most_counted_reserve,
                              p.learning_gain.low,
                              p.learning_gain.typical,
                              p.learning_gain.high,
                              p.learning_kept,
                              p.most_surprise}) {
    digest.add(number);
  }
  return digest.value();
}

class FitWriter {
 public:
  template <class Unsigned>
  void add(Unsigned value) {
    for (std::size_t byte = 0; byte < sizeof value; ++byte) {
      bytes_ += static_cast<char>(static_cast<unsigned char>(value >> (8 * byte)));
    }
  }
  void add(double value) { add(same_bits<std::uint64_t>(value)); }
  void add_count(std::size_t count) { add(static_cast<std::uint32_t>(count)); }
  void add_integer(int value) { add(static_cast<std::uint32_t>(value)); }
  void add_text(std::string_view text) {
    add_count(text.size());
    bytes_ += text;
  }
  void add_bytes(std::string_view bytes) { bytes_ += bytes; }
  template <class Numbers>
  void add_all(const Numbers& numbers) {
    for (Index j = 0; j < numbers.cols(); ++j) {
      for (Index i = 0; i < numbers.rows(); ++i) add(numbers(i, j));
    }
  }
  /// A symmetric matrix.
  template <class Numbers>
  void add_triangle(const Numbers& numbers) {
    for (Index j = 0; j < numbers.cols(); ++j) {
      for (Index i = 0; i <= j; ++i) add(numbers(i, j));
    }
  }
  [[nodiscard]] const std::string& bytes() const noexcept { return bytes_; }

 private:
  std::string bytes_{};
};

[[noreturn]] inline void fail_to_restore(std::string_view found) {
  fail(ErrorCode::unreadable, "a saved fit", "the bytes that save_fit wrote, all of them", found);
}

/// Reads what FitWriter wrote. Of bytes that were meant to mislead it makes a DomainError or a fit
/// of finite numbers.
class FitReader {
 public:
  explicit FitReader(std::string_view bytes) noexcept : left_(bytes) {}

  template <class Unsigned>
  [[nodiscard]] Unsigned take() {
    const std::string_view bytes = take_bytes(sizeof(Unsigned));
    Unsigned value = 0;
    for (std::size_t byte = sizeof value; byte-- > 0;) {
      value = static_cast<Unsigned>((value << 8U) | static_cast<unsigned char>(bytes[byte]));
    }
    return value;
  }
  /// @param most  its size, either way
  [[nodiscard]] double take_number(double most) {
    const auto value = same_bits<double>(take<std::uint64_t>());
    if (!(std::fabs(value) <= most)) fail_to_restore("a number out of range");
    return value;
  }
  [[nodiscard]] int take_integer(int low, int high) {
    const auto value = static_cast<std::int32_t>(take<std::uint32_t>());
    if (value < low || value > high) fail_to_restore("a count out of range");
    return value;
  }
  [[nodiscard]] std::size_t take_count() { return take<std::uint32_t>(); }
  /// A place in a list of so many.
  [[nodiscard]] std::size_t take_index(std::size_t size) {
    const std::size_t index = take_count();
    if (index >= size) fail_to_restore("a count out of range");
    return index;
  }
  [[nodiscard]] bool take_flag() { return take_integer(0, 1) == 1; }
  [[nodiscard]] Date take_date() {
    const Date first(Date::first_year, 1, 1);
    const Date last(Date::last_year, 12, 31);
    return Date(1970, 1, 1) + take_integer(first.days_since_1970(), last.days_since_1970());
  }
  [[nodiscard]] std::string_view take_bytes(std::size_t count) {
    if (count > left_.size()) fail_to_restore("fewer");
    const std::string_view bytes = left_.substr(0, count);
    left_.remove_prefix(count);
    return bytes;
  }
  template <class Numbers>
  void take_all(Numbers& numbers, double most) {
    for (Index j = 0; j < numbers.cols(); ++j) {
      for (Index i = 0; i < numbers.rows(); ++i) numbers(i, j) = take_number(most);
    }
  }
  template <class Numbers>
  void take_triangle(Numbers& numbers, double most) {
    for (Index j = 0; j < numbers.cols(); ++j) {
      for (Index i = 0; i <= j; ++i) numbers(i, j) = numbers(j, i) = take_number(most);
    }
  }
  /// Asked before room is made for them.
  void require_numbers_left(std::size_t count) const {
    if (left_.size() != count * sizeof(double)) fail_to_restore("more or fewer");
  }

 private:
  std::string_view left_;
};

/// Logarithms, and their variances: none that mean anything come near.
inline constexpr double largest_state = 100.0;
inline constexpr double largest_shape = 10.0;

inline void write_log(FitWriter& out, const StagedLog& log) {
  out.add_count(log.modifiers.size());
  for (const Modifier* modifier : log.modifiers) out.add_text(modifier->key());
  out.add_count(log.lifts.size());
  for (const ModelLift& lift : log.lifts) {
    out.add_count(lift.modifiers.size());
    for (const std::size_t m : lift.modifiers) out.add_count(m);
    out.add_integer(static_cast<int>(lift.gap));
    out.add_integer(lift.sessions_before);
  }
  out.add_integer(log.has_counted ? 1 : 0);
  out.add_count(log.sets.size());
  if (!log.has_sets()) return;
  out.add_integer(log.dates.front().days_since_1970());
  out.add_integer(log.dates.back().days_since_1970());
  for (const ModelSet& set : log.sets) {
    out.add_count(set.lift);
    out.add(set.log_load);
    out.add_integer(set.is_left_out ? 1 : 0);
  }
}

/// A modifier of the lifts given, or else of the catalogue.
[[nodiscard]] inline const Modifier& modifier_called(std::string_view key, const BaseLift& base,
                                                     std::span<const Lift> own_lifts) {
  for (const Lift& lift : own_lifts) {
    if (!lift.base().same_as(base)) continue;
    for (const Modifier& modifier : lift.modifiers()) {
      if (modifier.key() == key) return modifier;
    }
  }
  for (const Modifier& modifier : catalogue::modifiers()) {
    if (modifier.key() == key && modifier.applies_to(base)) return modifier;
  }
  fail(ErrorCode::unknown_name, "a modifier of a saved fit",
       "in the catalogue or in the lifts given beside it", key);
}

inline void read_log(FitReader& in, StagedLog& log, const Lift& reference,
                     std::span<const Lift> own_lifts) {
  const std::size_t modifiers = in.take_count();
  for (std::size_t i = 0; i < modifiers; ++i) {
    const std::string_view key = in.take_bytes(in.take_count());
    log.modifiers.push_back(&modifier_called(key, reference.base(), own_lifts));
  }
  const std::size_t lifts = in.take_count();
  for (std::size_t i = 0; i < lifts; ++i) {
    ModelLift lift{.lift = reference};
    const std::size_t count = in.take_count();
    for (std::size_t k = 0; k < count; ++k) {
      const std::size_t m = in.take_index(modifiers);
      lift.lift = lift.lift + *log.modifiers[m];
      lift.modifiers.push_back(m);
    }
    lift.gap = in.take_integer(-1, static_cast<int>(log.gaps));
    if (lift.gap == static_cast<std::ptrdiff_t>(log.gaps)) ++log.gaps;
    lift.sessions_before = in.take_integer(0, 1'000'000);
    log.lifts.push_back(std::move(lift));
  }
  log.has_counted = in.take_flag();
  const std::size_t sets = in.take_count();
  if (sets == 0) {
    if (log.has_counted) fail_to_restore("a rating without a set");
    return;
  }
  log.dates.push_back(in.take_date());
  const Date last = in.take_date();
  if (last < log.dates.front()) fail_to_restore("days out of order");
  if (log.dates.front() < last) log.dates.push_back(last);
  for (std::size_t i = 0; i < sets; ++i) {
    ModelSet set{.session = log.dates.size() - 1};
    set.lift = in.take_index(lifts);
    set.log_load = in.take_number(largest_state);
    set.is_left_out = in.take_flag();
    log.sets.push_back(set);
  }
}

/// Whether a matrix can be the covariance of numbers that are not known exactly; a state may be.
template <class Numbers>
void require_covariance(const Numbers& covariance, double least) {
  (void)weighted_root(covariance);
  for (Index i = 0; i < covariance.rows(); ++i) {
    if (!(covariance(i, i) >= least)) fail_to_restore("a variance out of range");
  }
}

}  // namespace detail

inline std::string save_fit(const StrengthFit& fit) {
  const detail::LogFit last = detail::last_day_of(detail::FitAccess::inside(fit));
  const detail::Mark& mark = last.marks.back();
  detail::FitWriter out;
  out.add_bytes(detail::saved_fit_begin);
  out.add(detail::digest_of(last.model.settings));
  out.add(last.checksum.sets);
  out.add(last.checksum.digest);
  out.add_integer(last.sets_used());
  out.add_integer(last.sets_appended);
  out.add_integer(detail::FitAccess::trains_on(fit) ? 1 : 0);
  out.add(last.model.best.kg());
  out.add_integer(last.model.layoff_after);
  detail::write_log(out, last.model.log);
  out.add_all(last.shapes.mean);
  out.add_triangle(last.shapes.covariance);
  out.add_all(mark.state.mean);
  out.add_triangle(mark.state.covariance);
  out.add_all(mark.by_shape);
  out.add(detail::digest_of(out.bytes()));
  return out.bytes();
}

inline StrengthFit restore_fit(std::string_view saved, const StrengthSettings& settings,
                               std::span<const Lift> own_lifts) {
  constexpr std::size_t check_bytes = sizeof(std::uint64_t);
  if (saved.substr(0, detail::saved_fit_begin.size()) != detail::saved_fit_begin ||
      saved.size() < detail::saved_fit_begin.size() + check_bytes) {
    detail::fail_to_restore("others");
  }
  const std::string_view body = saved.substr(0, saved.size() - check_bytes);
  if (detail::FitReader(saved.substr(body.size())).take<std::uint64_t>() !=
      detail::digest_of(body)) {
    detail::fail_to_restore("others");
  }
  detail::FitReader in(body.substr(detail::saved_fit_begin.size()));
  if (in.take<std::uint64_t>() != detail::digest_of(settings)) {
    detail::fail(ErrorCode::contradiction, "a saved fit",
                 "of the settings that it is restored with", "one of others");
  }
  detail::LogFit fit{.model = {.settings = settings}, .is_of_last_day = true};
  detail::LogModel& model = fit.model;
  fit.checksum.sets = in.take<std::uint64_t>();
  fit.checksum.digest = in.take<std::uint64_t>();
  constexpr int many = 1'000'000'000;
  fit.sets_used_before = in.take_integer(0, many);
  fit.sets_appended = in.take_integer(0, many);
  if (fit.checksum.sets > static_cast<std::uint64_t>(many) ||
      fit.checksum.sets < static_cast<std::uint64_t>(fit.sets_appended)) {
    detail::fail_to_restore("a count out of range");
  }
  const bool trains_on = in.take_flag();
  const double best = in.take_number(Mass::largest_kg);
  if (!(best > 0.0)) detail::fail_to_restore("a number out of range");
  model.best = Mass::from_kg(best);
  model.layoff_after = in.take_integer(0, many);
  detail::read_log(in, model.log, settings.reference, own_lifts);
  const detail::Index shapes = model.shape_count();
  const detail::Index states = model.state_count();
  const auto triangle = [](detail::Index size) { return size * (size + 1) / 2; };
  in.require_numbers_left(static_cast<std::size_t>(shapes + triangle(shapes) + states +
                                                   triangle(states) + states * shapes));
  fit.shapes = {detail::Vector(shapes), detail::Matrix(shapes, shapes)};
  in.take_all(fit.shapes.mean, detail::largest_shape);
  in.take_triangle(fit.shapes.covariance, detail::largest_shape);
  const Date day = model.log.has_sets() ? model.log.dates.back() : Date(1970, 1, 1);
  detail::Mark mark{
      day, {StateVector(states), StateMatrix(states, states)}, detail::Matrix(states, shapes)};
  in.take_all(mark.state.mean, detail::largest_state);
  in.take_triangle(mark.state.covariance, detail::largest_state);
  in.take_all(mark.by_shape, detail::largest_state);
  detail::require_covariance(fit.shapes.covariance, 1e-12);
  detail::require_covariance(mark.state.covariance, 0.0);
  fit.marks.push_back(std::move(mark));
  return detail::FitAccess::fit_of(std::move(fit), trains_on);
}

}  // namespace barwright::inline BARWRIGHT_ABI
