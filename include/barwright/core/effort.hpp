// barwright/core/effort.hpp - reps, reps in reserve, and ratings of perceived exertion
//
// How hard a set was is said in two ways: how many more reps were left (reserve), or a rating from
// 1 to 10 on the scale built on that reserve (Zourdos et al. 2016, J Strength Cond Res
// 30(1):267-275; the anchors 10 = 0 left, 9 = 1 left, 8 = 2 left read in its abstract and that of
// Zourdos et al. 2021, the half points from memory). Half points name a range, 9.5 means no more
// reps but perhaps a little more load, and below 5 the scale does not count reps. A rating is a
// guess; `rating_error` says how good a guess.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <compare>
#include <optional>

#include "barwright/core/detail/literal.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/range.hpp"
#include "barwright/core/source.hpp"
#include "barwright/core/text.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Reps done in one set: a whole number from 1 to 100.
class Reps {
 public:
  static constexpr int fewest = 1;
  static constexpr int most = 100;

  /// @throws DomainError unless 1 <= count <= 100.
  constexpr explicit Reps(int count) : count_(count) {
    if (!is_valid(count)) {
      detail::fail("reps", "a whole number from 1 to 100", static_cast<double>(count));
    }
  }
  [[nodiscard]] static constexpr bool is_valid(int count) noexcept {
    return fewest <= count && count <= most;
  }

  [[nodiscard]] constexpr int count() const noexcept { return count_; }
  friend constexpr auto operator<=>(Reps, Reps) noexcept = default;

 private:
  int count_;
};

/// Reps that could still have been done: 0 to 30, in steps of one half.
class RepsInReserve {
 public:
  static constexpr double most = 30.0;

  constexpr RepsInReserve() noexcept = default;  ///< none: taken to failure

  /// @throws DomainError unless count is 0, 0.5, 1, ... 30.
  constexpr explicit RepsInReserve(double count) : count_(count) {
    if (!is_valid(count)) {
      detail::fail("reps in reserve", "a number from 0 to 30 in steps of 0.5", count);
    }
  }
  [[nodiscard]] static constexpr bool is_valid(double count) noexcept {
    return count >= 0.0 && count <= most && static_cast<int>(2.0 * count) == 2.0 * count;
  }

  [[nodiscard]] constexpr double count() const noexcept { return count_; }
  friend constexpr bool operator==(RepsInReserve, RepsInReserve) noexcept = default;
  friend constexpr std::partial_ordering operator<=>(RepsInReserve,
                                                     RepsInReserve) noexcept = default;

 private:
  double count_ = 0.0;
};

/// A rating of perceived exertion on the scale built on reserve: 1 to 10, in steps of one half.
class Rpe {
 public:
  /// @throws DomainError unless rating is 1, 1.5, 2, ... 10.
  constexpr explicit Rpe(double rating) : rating_(rating) {
    if (!is_valid(rating)) {
      detail::fail("a rating of perceived exertion", "a number from 1 to 10 in steps of 0.5",
                   rating);
    }
  }
  [[nodiscard]] static constexpr bool is_valid(double rating) noexcept {
    return rating >= 1.0 && rating <= 10.0 && static_cast<int>(2.0 * rating) == 2.0 * rating;
  }

  [[nodiscard]] constexpr double rating() const noexcept { return rating_; }
  friend constexpr bool operator==(Rpe, Rpe) noexcept = default;
  friend constexpr std::partial_ordering operator<=>(Rpe, Rpe) noexcept = default;

 private:
  double rating_;
};

/// Sets of one lift in one session: a whole number from 1 to 50.
class Sets {
 public:
  static constexpr int most = 50;

  /// @throws DomainError unless 1 <= count <= 50.
  constexpr explicit Sets(int count) : count_(count) {
    if (!is_valid(count)) {
      detail::fail("sets", "a whole number from 1 to 50", static_cast<double>(count));
    }
  }
  [[nodiscard]] static constexpr bool is_valid(int count) noexcept {
    return 1 <= count && count <= most;
  }

  [[nodiscard]] constexpr int count() const noexcept { return count_; }
  friend constexpr auto operator<=>(Sets, Sets) noexcept = default;

 private:
  int count_;
};

namespace literals {

template <char... Characters>
[[nodiscard]] constexpr Reps operator""_reps() noexcept {
  constexpr Reps reps(detail::whole<Characters...>());
  return reps;
}
template <char... Characters>
[[nodiscard]] constexpr RepsInReserve operator""_rir() noexcept {
  constexpr RepsInReserve reserve(detail::decimal<Characters...>());
  return reserve;
}
template <char... Characters>
[[nodiscard]] constexpr Rpe operator""_rpe() noexcept {
  constexpr Rpe rating(detail::decimal<Characters...>());
  return rating;
}
template <char... Characters>
[[nodiscard]] constexpr Sets operator""_sets() noexcept {
  constexpr Sets sets(detail::whole<Characters...>());
  return sets;
}

}  // namespace literals

/// "5 reps"
[[nodiscard]] inline Text to_text(Reps reps) noexcept {
  return Text{}.append(reps.count()).append(reps.count() == 1 ? " rep" : " reps");
}
/// "2 in reserve"
[[nodiscard]] inline Text to_text(RepsInReserve reserve) noexcept {
  return Text{}.append(reserve.count()).append(" in reserve");
}
/// "RPE 8.5"
[[nodiscard]] inline Text to_text(Rpe effort) noexcept {
  return Text{}.append("RPE ").append(effort.rating());
}

template <class Traits>
std::basic_ostream<char, Traits>& operator<<(std::basic_ostream<char, Traits>& out, Reps reps) {
  return out << to_text(reps);
}
template <class Traits>
std::basic_ostream<char, Traits>& operator<<(std::basic_ostream<char, Traits>& out,
                                             RepsInReserve reserve) {
  return out << to_text(reserve);
}
template <class Traits>
std::basic_ostream<char, Traits>& operator<<(std::basic_ostream<char, Traits>& out, Rpe effort) {
  return out << to_text(effort);
}

/// Reps to failure: those done and those left.
[[nodiscard]] constexpr double reps_to_failure(Reps done, RepsInReserve left = {}) noexcept {
  return done.count() + left.count();
}

/// The reserve a rating stands for: one value at whole ratings from 5 to 10, a range at the half
/// points between (8.5 is 1 to 2), 0 at 9.5, and nothing below 5, where the scale does not count.
[[nodiscard]] constexpr std::optional<Range<RepsInReserve>> reps_in_reserve(Rpe effort) {
  const double rating = effort.rating();
  if (rating < 5.0) return std::nullopt;
  if (rating == 9.5) return Range<RepsInReserve>::exactly(RepsInReserve(0.0));
  const double reserve = 10.0 - rating;
  if (RepsInReserve(reserve).count() == static_cast<int>(reserve)) {
    return Range<RepsInReserve>::exactly(RepsInReserve(reserve));
  }
  return Range<RepsInReserve>(RepsInReserve(reserve - 0.5), RepsInReserve(reserve),
                              RepsInReserve(reserve + 0.5));
}

/// The reserve a rating most likely stands for: 2 for 8, 1.5 for 8.5, 0 for 9.5 and 10.
/// @throws DomainError below 5, where the scale does not count reps.
[[nodiscard]] constexpr RepsInReserve typical_reserve(Rpe effort) {
  const auto reserve = reps_in_reserve(effort);
  if (!reserve) {
    detail::fail("a rating that is to stand for reps in reserve",
                 "from 5 to 10, as lower ones do not count reps", effort.rating());
  }
  return reserve->typical;
}

/// Reps to failure: those done and those a rating most likely leaves.
/// @throws DomainError for a rating below 5.
[[nodiscard]] constexpr double reps_to_failure(Reps done, Rpe effort) {
  return reps_to_failure(done, typical_reserve(effort));
}

/// The rating for a reserve of 0 to 5 (0 is 10, 1.5 is 8.5); nothing above 5, where ratings stop
/// counting reps, nor at 0.5, as 9.5 means no rep left.
[[nodiscard]] constexpr std::optional<Rpe> rpe(RepsInReserve reserve) {
  if (reserve.count() > 5.0 || reserve.count() == 0.5) return std::nullopt;
  return Rpe(10.0 - reserve.count());
}

/// How well the lifter knows how the end of a set feels on this lift.
enum class Experience : unsigned char {
  experienced,  ///< rates sets on this lift as a habit
  novice,       ///< new to training
  new_to_lift,  ///< trained, but this lift is new
};

/// How far a stated reserve is off.
struct RatingError {
  double bias = 0.0;  ///< true reserve minus stated reserve; positive: more was left than was said
  double standard_deviation = 0.0;  ///< of the true reserve about stated reserve plus bias, reps
};

/// "None left" is no estimate like the others: who is about to fail knows it. It is said with fewer
/// than `none_left_below` reps left, give or take `none_left_deviation`. At a true maximum the
/// experienced give 9.86 on a scale that ends at 10 (Ormsbee et al. 2019, abstract read): nine in
/// ten say none left. But it is said with more left, too: who stopped where they held the next rep
/// for impossible had 2.0 left (0 to 4; 38 trained people, knee extensions with 70 %; Armes et al.
/// 2020, abstract read). So `none_left_loosely` of those who say it say it as they would any other
/// rating. How near to failure, and how many, are assumptions; with them none left says what a miss
/// on the next rep says, to within 1 % of the load.
inline constexpr double none_left_below = 0.5;
inline constexpr double none_left_deviation = 0.4;
inline constexpr double none_left_loosely = 0.1;

/// Where the figures of `rating_error` come from.
inline constexpr Source rating_error_source{
    .citation =
        "Halperin et al. 2022, Sports Med 52(2):377-390; Zourdos et al. 2021, J Strength "
        "Cond Res 35(Suppl 1):S158-S165; Hackett et al. 2017, J Strength Cond Res "
        "31(8):2162-2168; Refalo et al. 2024, J Strength Cond Res; Ormsbee et al. 2019",
    .population = "414 people in 12 studies (Halperin); bench press, squat, machines",
    .evidence = Evidence::assumption,
    .reading = Reading::read,
    .note = "the abstracts were read; the curve through their figures is this library's own"};

/// The error of one stated reserve, other than none.
///
/// About 1.0 rep at 0 to 3 left, 1.4 at 4 to 5, 2.5 at 7, and growing. In sets of 13 reps to
/// failure and more at least 1.5, and 0.3 for each of five reps left: 1.8, 2.4 and 3.0 with 1, 3
/// and 5, where squats of 16 reps had 1.7, 2.5 and 2.9 (Zourdos 2021); beyond 16 it grows with the
/// length (assumption). The mean is half a rep left unsaid. Long sets leave more unsaid (2 to 5
/// reps in those squats, 0.47 a rep beyond 12: Halperin 2022), which is not counted on: loads are
/// lighter without. Beginners rate a true maximum about 0.5 lower (9.35 against 9.86), which takes
/// the half away. Half as much again on a lift that is new (assumption: none of the studies used
/// one).
///
/// @param reserve   the stated reserve, reps; negative values count as 0
/// @param to_failure  reps done plus stated reserve
[[nodiscard]] constexpr RatingError rating_error(double reserve, double to_failure,
                                                 Experience experience) noexcept {
  double deviation = 1.0;
  if (reserve > 7.0) {
    deviation = 2.5 + 0.25 * (reserve - 7.0);
  } else if (reserve > 5.0) {
    deviation = 1.4 + 0.55 * (reserve - 5.0);
  } else if (reserve > 4.0) {
    deviation = 1.4;
  } else if (reserve > 3.0) {
    deviation = 1.0 + 0.4 * (reserve - 3.0);
  }
  const double beyond_study = to_failure > 16.0 ? to_failure / 16.0 : 1.0;
  const double counted = reserve < 0.0 ? 0.0 : reserve > 5.0 ? 5.0 : reserve;
  const double in_long_set = (1.5 + 0.3 * counted) * beyond_study;
  if (in_long_set > deviation && to_failure > 10.0) {
    const double how_long = to_failure < 13.0 ? (to_failure - 10.0) / 3.0 : 1.0;
    deviation += (in_long_set - deviation) * how_long;
  }
  if (experience == Experience::new_to_lift) deviation *= 1.5;
  return {.bias = experience == Experience::novice ? 0.0 : 0.5, .standard_deviation = deviation};
}

/// The error of the reserve stated for one set.
[[nodiscard]] constexpr RatingError rating_error(
    RepsInReserve stated, Reps done, Experience experience = Experience::experienced) noexcept {
  return rating_error(stated.count(), reps_to_failure(done, stated), experience);
}

}  // namespace barwright::inline BARWRIGHT_ABI

/// For sets and maps without an order.
template <>
struct std::hash<barwright::Reps> {
  std::size_t operator()(barwright::Reps reps) const noexcept {
    return std::hash<int>{}(reps.count());
  }
};

/// For sets and maps without an order.
template <>
struct std::hash<barwright::RepsInReserve> {
  std::size_t operator()(barwright::RepsInReserve reserve) const noexcept {
    return std::hash<double>{}(reserve.count());
  }
};

/// For sets and maps without an order.
template <>
struct std::hash<barwright::Rpe> {
  std::size_t operator()(barwright::Rpe effort) const noexcept {
    return std::hash<double>{}(effort.rating());
  }
};
