// barwright/lifts/variation.hpp - a lift and what is changed about it, and what the change costs
//
// A Lift is a base lift and up to eight modifiers: bench press, feet up, flat back. It only points
// at them: they are static objects that are not copied, and a lift is as cheap to pass on as ten
// pointers. Each modifier
// says what share of the max is left (its ratio), how much sooner the repetitions run out (its rep
// stretch), which muscles work more or less, what the lifter should be able to do first, and what
// to beware of. Every figure carries its evidence, and every figure can be replaced: a modifier of
// your own is the same kind of object as one of the catalogue's.
//
// Ratios multiply. How their uncertainty stacks is the caller's choice (Stacking). Some ratios
// depend on how strong the lifter is: the more is lifted, the more the legs were giving.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cmath>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <span>
#include <string_view>

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/core/source.hpp"
#include "barwright/curves/adapters.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/lifts/handles.hpp"

namespace barwright::inline BARWRIGHT_ABI {

// ---- muscles ------------------------------------------------------------------------------------

/// The muscles a week of training is counted by.
enum class MuscleGroup : unsigned char {
  chest,
  front_shoulders,
  side_shoulders,
  rear_shoulders,
  triceps,
  biceps,
  forearms,
  upper_back,
  lats,
  lower_back,
  trunk,
  glutes,
  quadriceps,
  hamstrings,
  calves,
  hip_flexors,
};

/// Every muscle group, in the order of the enum.
inline constexpr std::array all_muscle_groups{
    MuscleGroup::chest,          MuscleGroup::front_shoulders, MuscleGroup::side_shoulders,
    MuscleGroup::rear_shoulders, MuscleGroup::triceps,         MuscleGroup::biceps,
    MuscleGroup::forearms,       MuscleGroup::upper_back,      MuscleGroup::lats,
    MuscleGroup::lower_back,     MuscleGroup::trunk,           MuscleGroup::glutes,
    MuscleGroup::quadriceps,     MuscleGroup::hamstrings,      MuscleGroup::calves,
    MuscleGroup::hip_flexors};

[[nodiscard]] constexpr std::string_view to_text(MuscleGroup group) noexcept {
  switch (group) {
    case MuscleGroup::chest: return "chest";
    case MuscleGroup::front_shoulders: return "front shoulders";
    case MuscleGroup::side_shoulders: return "side shoulders";
    case MuscleGroup::rear_shoulders: return "rear shoulders";
    case MuscleGroup::triceps: return "triceps";
    case MuscleGroup::biceps: return "biceps";
    case MuscleGroup::forearms: return "forearms";
    case MuscleGroup::upper_back: return "upper back";
    case MuscleGroup::lats: return "lats";
    case MuscleGroup::lower_back: return "lower back";
    case MuscleGroup::trunk: return "trunk";
    case MuscleGroup::glutes: return "glutes";
    case MuscleGroup::quadriceps: return "quadriceps";
    case MuscleGroup::hamstrings: return "hamstrings";
    case MuscleGroup::calves: return "calves";
    case MuscleGroup::hip_flexors: return "hip flexors";
  }
  return "";
}

/// How much a lift asks of a muscle group.
enum class Involvement : signed char { none, indirect, direct };

/// The part of a set that counts for a muscle group: 1 where it works directly, one half where it
/// helps (Pelland et al. 2024, preprint, 67 studies: this count fitted muscle size and strength
/// best; abstract read).
[[nodiscard]] constexpr double fraction_of_set(Involvement involvement) noexcept {
  return 0.5 * static_cast<double>(involvement);
}

/// What a lift asks of each muscle group.
class Muscles {
 public:
  constexpr Muscles() noexcept = default;  ///< nothing

  [[nodiscard]] static constexpr Muscles of(std::initializer_list<MuscleGroup> direct,
                                            std::initializer_list<MuscleGroup> indirect) noexcept {
    Muscles muscles;
    for (const MuscleGroup group : indirect) muscles.at(group) = Involvement::indirect;
    for (const MuscleGroup group : direct) muscles.at(group) = Involvement::direct;
    return muscles;
  }

  [[nodiscard]] constexpr Involvement operator[](MuscleGroup group) const noexcept {
    return by_group_[static_cast<std::size_t>(group)];
  }

  friend constexpr bool operator==(const Muscles&, const Muscles&) noexcept = default;

 private:
  friend class Lift;
  constexpr Involvement& at(MuscleGroup group) noexcept {
    return by_group_[static_cast<std::size_t>(group)];
  }

  std::array<Involvement, all_muscle_groups.size()> by_group_{};
};

/// Which muscle groups a modifier asks more or less of, one step each: none, indirect, direct.
///
/// Steps of several modifiers add before they are held between none and direct, so their order
/// does not matter.
class MuscleShift {
 public:
  constexpr MuscleShift() noexcept = default;  ///< no change

  [[nodiscard]] static constexpr MuscleShift of(std::initializer_list<MuscleGroup> more,
                                                std::initializer_list<MuscleGroup> less) noexcept {
    MuscleShift shift;
    for (const MuscleGroup group : more) shift.by_group_[static_cast<std::size_t>(group)] = 1;
    for (const MuscleGroup group : less) shift.by_group_[static_cast<std::size_t>(group)] = -1;
    return shift;
  }

  /// +1, 0 or -1 step.
  [[nodiscard]] constexpr int operator[](MuscleGroup group) const noexcept {
    return by_group_[static_cast<std::size_t>(group)];
  }

  friend constexpr bool operator==(const MuscleShift&, const MuscleShift&) noexcept = default;

 private:
  std::array<signed char, all_muscle_groups.size()> by_group_{};
};

// ---- what is known, and from where --------------------------------------------------------------

/// One published or customary result behind a figure.
struct Finding {
  std::string_view what{};  ///< what was compared: "incline against flat, 1RM, men"
  /// The ratio found; nothing when only a direction is known.
  std::optional<Range<double>> value{};
  Source source{};

  friend constexpr bool operator==(const Finding&, const Finding&) noexcept = default;
};

namespace detail {

/// Whether two lists hold the same things in the same order.
template <class T>
[[nodiscard]] constexpr bool same_items(std::span<const T> a, std::span<const T> b) noexcept {
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (!(a[i] == b[i])) return false;
  }
  return true;
}

}  // namespace detail

/// A figure as this library uses it, with the findings it was chosen from.
struct Figure {
  Range<double> value = Range<double>::exactly(1.0);
  Evidence evidence = Evidence::assumption;  ///< what the typical value rests on
  std::span<const Finding> findings{};       ///< must outlive the figure: keep them static

  friend constexpr bool operator==(const Figure& a, const Figure& b) noexcept {
    return a.value == b.value && a.evidence == b.evidence &&
           detail::same_items(a.findings, b.findings);
  }
};

/// What a note is for.
enum class NoteKind : unsigned char {
  requirement,  ///< what the lifter should be able to do, or have, first
  caution,      ///< what can go wrong
  benefit,      ///< who gains from it, and when to choose it
  remark,       ///< what else is known
};

[[nodiscard]] constexpr std::string_view to_text(NoteKind kind) noexcept {
  switch (kind) {
    case NoteKind::requirement: return "requirement";
    case NoteKind::caution: return "caution";
    case NoteKind::benefit: return "benefit";
    case NoteKind::remark: return "remark";
  }
  return "";
}

/// A sentence about a lift, with its source.
struct Note {
  NoteKind kind = NoteKind::remark;
  std::string_view text{};
  Source source{};

  friend constexpr bool operator==(const Note&, const Note&) noexcept = default;
};

/// A short list with room for `Capacity` items and no allocation.
template <class T, std::size_t Capacity>
class ShortList {
 public:
  [[nodiscard]] static constexpr std::size_t capacity() noexcept { return Capacity; }
  [[nodiscard]] constexpr std::size_t size() const noexcept { return size_; }
  [[nodiscard]] constexpr bool empty() const noexcept { return size_ == 0; }
  [[nodiscard]] constexpr const T* begin() const noexcept { return items_; }
  [[nodiscard]] constexpr const T* end() const noexcept { return items_ + size_; }
  /// @pre index < size()
  [[nodiscard]] constexpr const T& operator[](std::size_t index) const noexcept {
    return items_[index];
  }

  /// Inserts before `index`, which is at most size().
  /// @throws DomainError when the list is full.
  constexpr void insert(std::size_t index, const T& item) {
    if (size_ == Capacity) {
      detail::fail(ErrorCode::too_many, "a short list", "no longer than its capacity",
                   static_cast<double>(size_ + 1));
    }
    for (std::size_t i = size_; i > index; --i) items_[i] = items_[i - 1];
    items_[index] = item;
    ++size_;
  }
  constexpr void append(const T& item) { insert(size_, item); }
  constexpr void drop_last() noexcept {
    if (size_ > 0) --size_;
  }

 private:
  T items_[Capacity]{};
  std::size_t size_ = 0;
};

/// The notes of one lift.
using NoteList = ShortList<Note, 48>;

// ---- stacking ranges ----------------------------------------------------------------------------

/// How the ranges of several ratios combine. Typical values multiply in both.
enum class Stacking : unsigned char {
  /// low x low and high x high: as if all went badly, or well, at once. The widest honest answer.
  bounds,
  /// Each range is read as holding 90 % of lifters, log-normal about the typical value as median,
  /// and each modifier as independent of the others: variances of the logs add.
  spread,
};

namespace detail {

/// The distance from the median to the 95th percentile, in standard deviations.
inline constexpr double normal_95th_percentile = 1.6448536269514722;

constexpr void require_factor(std::string_view what, const Range<double>& value) {
  if (!(value.low >= 0.1)) fail(what, "a number from 0.1 to 10", value.low);
  if (!(value.high <= 10.0)) fail(what, "a number from 0.1 to 10", value.high);
}

constexpr void require_reference_max(Mass best) {
  if (!(best > Mass{})) fail("a reference max", "more than 0 kg", best.kg());
}

}  // namespace detail

/// The product of two factors that are each known as a range; both positive.
///
/// A constant expression with `Stacking::bounds` only: a spread takes logarithms.
///
/// With `Stacking::spread` the distances to the low and to the high end are stacked separately, so
/// that a lop-sided range stays lop-sided and a single one is reproduced exactly. For even ranges
/// the result holds exactly 90 %; for lop-sided ones 89 to 91 %, or 92 % when one has no upper side
/// at all (by simulation, tests/variation_test.cpp).
[[nodiscard]] constexpr Range<double> stacked(const Range<double>& a, const Range<double>& b,
                                              Stacking stacking) {
  const double typical = a.typical * b.typical;
  if (stacking == Stacking::bounds) return {a.low * b.low, typical, a.high * b.high};
  const double below = std::hypot(std::log(a.typical / a.low), std::log(b.typical / b.low));
  const double above = std::hypot(std::log(a.high / a.typical), std::log(b.high / b.typical));
  return {typical * std::exp(-below), typical, typical * std::exp(above)};
}

/// Mean and standard deviation of the natural logarithm of a factor.
struct LogMoments {
  double mean = 0.0;
  double standard_deviation = 0.0;
};

/// A factor's range as a prior for its logarithm.
///
/// The range is read as 5th percentile, median and 95th percentile, with a half-normal on each side
/// of the median. When both sides are equally wide that is the log-normal; otherwise, with sides a
/// and b, the mean is off the median by (b - a)/sqrt(2 pi) and the variance is
/// (a^2 + b^2)/2 - (b - a)^2/(2 pi).
/// @param factor  positive
[[nodiscard]] inline LogMoments log_moments(const Range<double>& factor) noexcept {
  constexpr double two_pi = 6.283185307179586;
  const double a = std::log(factor.typical / factor.low) / detail::normal_95th_percentile;
  const double b = std::log(factor.high / factor.typical) / detail::normal_95th_percentile;
  const double shift = (b - a) / std::sqrt(two_pi);
  return {.mean = std::log(factor.typical) + shift,
          .standard_deviation = std::sqrt(0.5 * (a * a + b * b) - shift * shift)};
}

/// A ratio that changes with the lifter's max on the base lift: one range at a lighter max, one at
/// a heavier max, a straight line between, and held beyond.
class StrengthScaling {
 public:
  /// @throws DomainError unless 0 kg < light_max < heavy_max.
  constexpr StrengthScaling(Mass light_max, const Range<double>& at_light, Mass heavy_max,
                            const Range<double>& at_heavy)
      : light_max_(light_max), heavy_max_(heavy_max), at_light_(at_light), at_heavy_(at_heavy) {
    if (!(light_max > Mass{})) {
      detail::fail("the lighter max of a scaling", "more than 0 kg", light_max.kg());
    }
    if (!(heavy_max > light_max)) {
      detail::fail(ErrorCode::contradiction, "the heavier max of a scaling",
                   "more than the lighter", heavy_max.kg());
    }
  }

  [[nodiscard]] constexpr Range<double> at(Mass best) const {
    if (best <= light_max_) return at_light_;
    if (best >= heavy_max_) return at_heavy_;
    const double share = (best - light_max_) / (heavy_max_ - light_max_);
    const auto between = [share](double a, double b) noexcept { return a + share * (b - a); };
    return {between(at_light_.low, at_heavy_.low), between(at_light_.typical, at_heavy_.typical),
            between(at_light_.high, at_heavy_.high)};
  }

  /// What holds for a lifter of unknown strength: both ranges together.
  [[nodiscard]] constexpr Range<double> overall() const {
    return {at_light_.low < at_heavy_.low ? at_light_.low : at_heavy_.low,
            0.5 * (at_light_.typical + at_heavy_.typical),
            at_light_.high > at_heavy_.high ? at_light_.high : at_heavy_.high};
  }

  [[nodiscard]] constexpr Mass light_max() const noexcept { return light_max_; }
  [[nodiscard]] constexpr Mass heavy_max() const noexcept { return heavy_max_; }

  friend constexpr bool operator==(const StrengthScaling&,
                                   const StrengthScaling&) noexcept = default;

 private:
  Mass light_max_;
  Mass heavy_max_;
  Range<double> at_light_;
  Range<double> at_heavy_;
};

// ---- base lifts and modifiers -------------------------------------------------------------------

/// Which half of the body a lift mainly trains.
enum class Region : unsigned char { upper_body, lower_body };

[[nodiscard]] constexpr std::string_view to_text(Region region) noexcept {
  return region == Region::upper_body ? "upper body" : "lower body";
}

/// What kind of movement a lift is.
enum class LiftFamily : unsigned char {
  horizontal_press,
  overhead_press,
  squat,
  deadlift,
  pull,
  single_joint,
};

[[nodiscard]] constexpr std::string_view to_text(LiftFamily family) noexcept {
  switch (family) {
    case LiftFamily::horizontal_press: return "horizontal press";
    case LiftFamily::overhead_press: return "overhead press";
    case LiftFamily::squat: return "squat";
    case LiftFamily::deadlift: return "deadlift";
    case LiftFamily::pull: return "pull";
    case LiftFamily::single_joint: return "single-joint lift";
  }
  return "";
}

namespace detail {

/// Makes what holds it impossible to copy: what is pointed at is to be the one and only.
struct NotCopied {
  constexpr NotCopied() noexcept = default;
  NotCopied(const NotCopied&) = delete;
  NotCopied& operator=(const NotCopied&) = delete;
};

}  // namespace detail

/// A lift as it is usually done. A static object: lifts point at it, and it is never copied. All
/// its texts must outlive it.
///
///     constexpr BaseLift log_press{.key = "log_press", .name = "log press", .family = ...};
struct BaseLift {
  std::string_view key{};   ///< its identity: "bench_press"
  std::string_view name{};  ///< as people write it: "bench press"
  std::span<const std::string_view> aliases{};
  LiftFamily family = LiftFamily::single_joint;
  Region region = Region::upper_body;
  bool is_bodyweight = false;  ///< the body is moved, and nothing is held over it: a push-up
  bool is_machine = false;     ///< what is moved runs in a frame: a leg press
  Muscles muscles{};
  std::span<const Note> notes{};
  std::span<const Finding> findings{};  ///< how its max compares with other base lifts
  [[no_unique_address]] detail::NotCopied not_copied{};

  /// Whether it is called the same, whatever is said about it.
  [[nodiscard]] constexpr bool same_as(const BaseLift& other) const noexcept {
    return key == other.key;
  }
  /// Equal in everything.
  friend constexpr bool operator==(const BaseLift& a, const BaseLift& b) noexcept {
    return &a == &b ||
           (a.key == b.key && a.name == b.name && detail::same_items(a.aliases, b.aliases) &&
            a.family == b.family && a.region == b.region && a.is_bodyweight == b.is_bodyweight &&
            a.is_machine == b.is_machine && a.muscles == b.muscles &&
            detail::same_items(a.notes, b.notes) && detail::same_items(a.findings, b.findings));
  }
};

/// What a modifier sets about a lift. Two modifiers that set the same thing exclude each other.
enum class Setup : unsigned short {
  none = 0,
  bench_angle = 1,
  grip_width = 2,
  implement = 4,  ///< barbell, dumbbells, guided rail, hexagonal bar
  surface = 8,    ///< what the lifter lies on or stands on
  feet = 16,
  back = 32,
  lowering = 64,
  turnaround = 128,  ///< touch-and-go, paused, from a dead start
  range_of_motion = 256,
  bar_position = 512,
  stance = 1024,
  posture = 2048,  ///< standing or seated
};

[[nodiscard]] constexpr Setup operator|(Setup a, Setup b) noexcept {
  return static_cast<Setup>(static_cast<unsigned>(a) | static_cast<unsigned>(b));
}
[[nodiscard]] constexpr Setup operator&(Setup a, Setup b) noexcept {
  return static_cast<Setup>(static_cast<unsigned>(a) & static_cast<unsigned>(b));
}

/// The share of a lift's estimated max to start from when nothing about the movement is unusual
/// (common practice, no source; 50-70 % is also the first load of a max test in the ACSM guideline,
/// 9th ed. 2014, read).
inline constexpr double usual_starting_share = 0.70;

/// One change to a lift.
///
/// Starts as a key, a name and a ratio; the `with_...` functions return another with one thing set:
///
///     constexpr Modifier towel("towel", "bar stopped on a folded towel", {0.98, 1.02, 1.08});
///     constexpr Modifier mine = modifiers::feet_up.with_ratio({0.91, 0.93, 0.95});
///
/// A lift only points at its modifiers, so keep them where they outlive it, best as constants at
/// namespace scope as above. They cannot be copied, and a temporary cannot be added to a lift. All
/// texts and lists must outlive the modifier too.
class Modifier {
 public:
  Modifier& operator=(const Modifier&) = delete;

  /// @param ratio     the max with the change as a share of the max without it
  /// @param evidence  what its typical value rests on
  /// @param findings  what it was chosen from
  /// @throws DomainError unless the key is not empty and the ratio lies within 0.1 to 10.
  constexpr Modifier(std::string_view key, std::string_view name, const Range<double>& ratio,
                     Evidence evidence = Evidence::assumption,
                     std::span<const Finding> findings = {})
      : key_(key), name_(name) {
    if (key.empty()) detail::fail("a modifier's key", "a short word", "nothing");
    set_ratio({.value = ratio, .evidence = evidence, .findings = findings});
  }
  /// The same with a ratio that depends on the lifter's max on the base lift.
  constexpr Modifier(std::string_view key, std::string_view name, const StrengthScaling& scaling,
                     Evidence evidence = Evidence::assumption,
                     std::span<const Finding> findings = {})
      : Modifier(key, name, scaling.overall(), evidence, findings) {
    scaling_ = scaling;
  }

  // -- replacing figures --

  /// Another ratio, the same at any strength.
  [[nodiscard]] constexpr Modifier with_ratio(const Range<double>& ratio,
                                              Evidence evidence = Evidence::assumption,
                                              std::span<const Finding> findings = {}) const {
    Modifier changed(*this, Unscaled{});
    changed.set_ratio({.value = ratio, .evidence = evidence, .findings = findings});
    return changed;
  }
  /// Another ratio, which depends on the lifter's max on the base lift.
  [[nodiscard]] constexpr Modifier with_ratio(const StrengthScaling& scaling,
                                              Evidence evidence = Evidence::assumption,
                                              std::span<const Finding> findings = {}) const {
    Modifier changed = with_ratio(scaling.overall(), evidence, findings);
    changed.scaling_ = scaling;
    return changed;
  }
  /// How many repetitions beyond the first are left at the same share of the lift's own max, as a
  /// multiple: below 1 they run out sooner (see `stretched`).
  /// @throws DomainError unless it lies within 0.1 to 10.
  [[nodiscard]] constexpr Modifier with_rep_stretch(const Range<double>& stretch,
                                                    Evidence evidence = Evidence::assumption,
                                                    std::span<const Finding> findings = {}) const {
    detail::require_factor("a rep stretch", stretch);
    Modifier changed = *this;
    changed.rep_stretch_ = {.value = stretch, .evidence = evidence, .findings = findings};
    return changed;
  }
  /// The share of the lift's estimated max a lifter new to it starts from.
  /// @throws DomainError unless 0.1 <= share <= 1.
  [[nodiscard]] constexpr Modifier with_starting_share(double share) const {
    if (!(share >= 0.1 && share <= 1.0)) {
      detail::fail("a starting share", "a number from 0.1 to 1", share);
    }
    Modifier changed = *this;
    changed.starting_share_ = share;
    return changed;
  }

  // -- describing a modifier --

  [[nodiscard]] constexpr Modifier with_aliases(std::span<const std::string_view> names) const {
    Modifier changed = *this;
    changed.aliases_ = names;
    return changed;
  }
  /// The keys of the base lifts it applies to; none listed means all.
  [[nodiscard]] constexpr Modifier with_lifts(std::span<const std::string_view> keys) const {
    Modifier changed = *this;
    changed.lifts_ = keys;
    return changed;
  }
  [[nodiscard]] constexpr Modifier with_setup(Setup setup) const {
    Modifier changed = *this;
    changed.setup_ = setup;
    return changed;
  }
  [[nodiscard]] constexpr Modifier with_muscles(const MuscleShift& shift) const {
    Modifier changed = *this;
    changed.muscles_ = shift;
    return changed;
  }
  [[nodiscard]] constexpr Modifier with_notes(std::span<const Note> notes) const {
    Modifier changed = *this;
    changed.notes_ = notes;
    return changed;
  }

  // -- reading it --

  [[nodiscard]] constexpr std::string_view key() const noexcept { return key_; }
  [[nodiscard]] constexpr std::string_view name() const noexcept { return name_; }
  [[nodiscard]] constexpr std::span<const std::string_view> aliases() const noexcept {
    return aliases_;
  }

  /// The ratio for a lifter with this max on the base lift, unmodified.
  /// @throws DomainError unless best is more than 0 kg.
  [[nodiscard]] constexpr Range<double> ratio(Mass best) const {
    detail::require_reference_max(best);
    return scaling_ ? scaling_->at(best) : ratio_.value;
  }
  /// The ratio for a lifter of unknown strength, with its evidence.
  [[nodiscard]] constexpr const Figure& ratio_figure() const noexcept { return ratio_; }
  [[nodiscard]] constexpr const std::optional<StrengthScaling>& strength_scaling() const noexcept {
    return scaling_;
  }
  [[nodiscard]] constexpr const Figure& rep_stretch() const noexcept { return rep_stretch_; }
  [[nodiscard]] constexpr double starting_share() const noexcept { return starting_share_; }

  [[nodiscard]] constexpr std::span<const std::string_view> lifts() const noexcept {
    return lifts_;
  }
  [[nodiscard]] constexpr bool applies_to(const BaseLift& base) const noexcept {
    for (const std::string_view lift : lifts_) {
      if (lift == base.key) return true;
    }
    return lifts_.empty();
  }
  [[nodiscard]] constexpr Setup setup() const noexcept { return setup_; }
  /// Whether it sets at least one of these.
  [[nodiscard]] constexpr bool sets_any_of(Setup setup) const noexcept {
    return (setup_ & setup) != Setup::none;
  }
  [[nodiscard]] constexpr bool excludes(const Modifier& other) const noexcept {
    return same_as(other) || sets_any_of(other.setup_);
  }
  [[nodiscard]] constexpr const MuscleShift& muscles() const noexcept { return muscles_; }
  [[nodiscard]] constexpr std::span<const Note> notes() const noexcept { return notes_; }

  /// Whether it is the same change, whatever is believed about it: whether the keys are the same.
  [[nodiscard]] constexpr bool same_as(const Modifier& other) const noexcept {
    return key_ == other.key_;
  }
  /// Equal in everything: with another ratio it is the same change, but not equal.
  friend constexpr bool operator==(const Modifier& a, const Modifier& b) noexcept {
    return &a == &b ||
           (a.key_ == b.key_ && a.name_ == b.name_ && detail::same_items(a.aliases_, b.aliases_) &&
            detail::same_items(a.lifts_, b.lifts_) && detail::same_items(a.notes_, b.notes_) &&
            a.ratio_ == b.ratio_ && a.scaling_ == b.scaling_ && a.rep_stretch_ == b.rep_stretch_ &&
            a.starting_share_ == b.starting_share_ && a.muscles_ == b.muscles_ &&
            a.setup_ == b.setup_);
  }

 private:
  constexpr Modifier(const Modifier&) = default;  // for the `with_...` functions

  // Without the scaling, which some compilers cannot take back out in a constant expression.
  struct Unscaled {};
  constexpr Modifier(const Modifier& other, Unscaled) noexcept
      : key_(other.key_),
        name_(other.name_),
        aliases_(other.aliases_),
        lifts_(other.lifts_),
        notes_(other.notes_),
        ratio_(other.ratio_),
        rep_stretch_(other.rep_stretch_),
        starting_share_(other.starting_share_),
        muscles_(other.muscles_),
        setup_(other.setup_) {}

  constexpr void set_ratio(const Figure& ratio) {
    detail::require_factor("a ratio to the lift without the change", ratio.value);
    ratio_ = ratio;
  }

  std::string_view key_{};
  std::string_view name_{};
  std::span<const std::string_view> aliases_{};
  std::span<const std::string_view> lifts_{};
  std::span<const Note> notes_{};
  Figure ratio_{};
  std::optional<StrengthScaling> scaling_{};
  Figure rep_stretch_{.value = {0.9, 1.0, 1.1}};  // one curve for all, give or take: assumption
  double starting_share_ = usual_starting_share;
  MuscleShift muscles_{};
  Setup setup_ = Setup::none;
};

// ---- lifts --------------------------------------------------------------------------------------

class LiftId;

/// A base lift with up to eight modifiers.
///
///     const Lift lift = lifts::bench_press + modifiers::feet_up + modifiers::flat_back;
///     for (const Modifier& m : lift.modifiers()) use(m.name(), m.ratio(best));   // each factor
///
/// Points at static objects, so it is small and cheap to copy. Modifiers are kept in the order of
/// their keys, so that the order of adding does not matter.
class Lift {
 public:
  static constexpr std::size_t most_modifiers = 8;

  /// The lift without any change.
  /// @throws DomainError if it has no key.
  constexpr Lift(const BaseLift& base) : base_(&base) {  // implicit: a base lift is a lift
    if (base.key.empty()) detail::fail("a lift's key", "a short word", "nothing");
  }
  Lift(const BaseLift&&) = delete;  // the lift would point at what is gone

  [[nodiscard]] constexpr const BaseLift& base() const noexcept { return *base_; }
  /// In the order of their keys.
  [[nodiscard]] constexpr Handles<Modifier> modifiers() const& noexcept {
    const std::span<const Modifier* const> added(modifiers_, count_);
    return added;
  }
  void modifiers() const&& = delete;  // the view would outlive the lift
  [[nodiscard]] constexpr bool is_plain() const noexcept { return count_ == 0; }
  /// Whether it has this change, whatever is believed about it.
  [[nodiscard]] constexpr bool has(const Modifier& modifier) const noexcept {
    for (const Modifier& own : modifiers()) {
      if (own.same_as(modifier)) return true;
    }
    return false;
  }

  /// What it is called, for maps and for comparing with other lifts.
  [[nodiscard]] constexpr LiftId id() const noexcept;
  /// Whether it is the same lift: the same base with the same changes, whatever is believed about
  /// them. This is what a log is searched by.
  [[nodiscard]] constexpr bool same_as(const Lift& other) const noexcept {
    return order_by_name(other) == 0;
  }
  /// Whether one of `lifts`, any range of them, is the same lift.
  template <class Lifts>
  [[nodiscard]] constexpr bool is_among(const Lifts& lifts) const noexcept {
    for (const Lift& lift : lifts) {
      if (same_as(lift)) return true;
    }
    return false;
  }
  /// Equal in everything: with a ratio of one's own it is the same lift, but not equal.
  friend constexpr bool operator==(const Lift& a, const Lift& b) noexcept {
    bool is_equal = *a.base_ == *b.base_ && a.count_ == b.count_;
    for (std::size_t i = 0; is_equal && i < a.count_; ++i) {
      is_equal = *a.modifiers_[i] == *b.modifiers_[i];
    }
    return is_equal;
  }

  /// Whether `lift + modifier` is allowed.
  [[nodiscard]] constexpr bool accepts(const Modifier& modifier) const noexcept {
    return count_ < most_modifiers && modifier.applies_to(*base_) &&
           excluder_of(modifier) == nullptr;
  }

  /// The lift with one more change.
  /// @throws DomainError if the modifier does not apply to the base lift, is there already, sets
  ///   something another modifier sets, or is the ninth.
  [[nodiscard]] friend constexpr Lift operator+(const Lift& lift, const Modifier& modifier) {
    lift.require_accepts(modifier);
    Lift sum = lift;
    std::size_t place = sum.count_++;
    for (; place > 0 && modifier.key() < sum.modifiers_[place - 1]->key(); --place) {
      sum.modifiers_[place] = sum.modifiers_[place - 1];
    }
    sum.modifiers_[place] = &modifier;
    return sum;
  }
  friend Lift operator+(const Lift&, const Modifier&&) = delete;  // it would point at what is gone

  // -- the figures --

  /// The lift's max as a share of the base lift's.
  ///
  /// This, `max_from` and `rep_stretch` are constant expressions with `Stacking::bounds` only.
  /// @param best  the lifter's max on the base lift, unmodified; more than 0 kg
  [[nodiscard]] constexpr Range<double> ratio(Mass best,
                                              Stacking stacking = Stacking::bounds) const {
    detail::require_reference_max(best);
    auto product = Range<double>::exactly(1.0);
    for (const Modifier& modifier : modifiers()) {
      product = stacked(product, modifier.ratio(best), stacking);
    }
    return product;
  }

  /// What the max on this lift may be, from the max on the base lift.
  [[nodiscard]] constexpr Range<Mass> max_from(Mass best,
                                               Stacking stacking = Stacking::bounds) const {
    const Range<double> share = ratio(best, stacking);
    return {best * share.low, best * share.typical, best * share.high};
  }

  /// How many repetitions beyond the first are left at the same share of this lift's max, against
  /// the base lift at the same share of its own.
  [[nodiscard]] constexpr Range<double> rep_stretch(Stacking stacking = Stacking::bounds) const {
    auto product = Range<double>::exactly(1.0);
    for (const Modifier& modifier : modifiers()) {
      product = stacked(product, modifier.rep_stretch().value, stacking);
    }
    return product;
  }

  /// The base lift's repetition curve as it is for this lift: stretched by the typical stretch.
  template <RepCurve C>
  [[nodiscard]] constexpr Stretched<C> curve(const C& of_base) const {
    return stretched(of_base, rep_stretch().typical);
  }

  /// The share of this lift's estimated max a lifter new to it starts from: the least any of its
  /// modifiers asks for.
  [[nodiscard]] constexpr double starting_share() const noexcept {
    double share = usual_starting_share;
    for (const Modifier& modifier : modifiers()) {
      if (modifier.starting_share() < share) share = modifier.starting_share();
    }
    return share;
  }

  // -- what else is known --

  /// What it asks of each muscle group.
  [[nodiscard]] constexpr Muscles muscles() const noexcept {
    Muscles result = base_->muscles;
    for (const MuscleGroup group : all_muscle_groups) {
      int steps = static_cast<int>(base_->muscles[group]);
      for (const Modifier& modifier : modifiers()) steps += modifier.muscles()[group];
      constexpr int most = static_cast<int>(Involvement::direct);
      result.at(group) = static_cast<Involvement>(steps < 0 ? 0 : steps > most ? most : steps);
    }
    return result;
  }

  /// What is said about the base lift and each modifier, nothing twice.
  [[nodiscard]] constexpr NoteList notes(NoteKind kind) const {
    NoteList list;
    add_notes(list, base_->notes, kind);
    for (const Modifier& modifier : modifiers()) add_notes(list, modifier.notes(), kind);
    return list;
  }
  [[nodiscard]] constexpr NoteList requirements() const { return notes(NoteKind::requirement); }
  [[nodiscard]] constexpr NoteList cautions() const { return notes(NoteKind::caution); }

  /// "bench press, feet up, flat back"
  [[nodiscard]] constexpr Text name() const noexcept {
    Text text;
    text.append(base_->name);
    for (const Modifier& modifier : modifiers()) text.append(", ").append(modifier.name());
    return text;
  }

 private:
  friend class LiftId;

  /// By keys: base first, then modifiers.
  [[nodiscard]] constexpr std::strong_ordering order_by_name(const Lift& other) const noexcept {
    if (base_ != other.base_) {
      if (const auto order = base_->key <=> other.base_->key; order != 0) return order;
    }
    for (std::size_t i = 0; i < count_ && i < other.count_; ++i) {
      if (modifiers_[i] == other.modifiers_[i]) continue;
      const auto order = modifiers_[i]->key() <=> other.modifiers_[i]->key();
      if (order != 0) return order;
    }
    return count_ <=> other.count_;
  }

  /// The modifier of this lift that cannot go together with `modifier`, if any.
  [[nodiscard]] constexpr const Modifier* excluder_of(const Modifier& modifier) const noexcept {
    for (const Modifier& own : modifiers()) {
      if (own.excludes(modifier)) return &own;
    }
    return nullptr;
  }

  constexpr void require_accepts(const Modifier& modifier) const {
    if (!modifier.applies_to(*base_)) {
      detail::fail(ErrorCode::does_not_apply, "a modifier",
                   Text{}.append("one that applies to the ").append(base_->name), modifier.name());
    }
    if (const Modifier* other = excluder_of(modifier)) {
      Text allowed;
      if (other->same_as(modifier)) {
        allowed.append("added once");
      } else {
        allowed.append("one that can go together with ").append(other->name());
      }
      detail::fail(ErrorCode::contradiction, "a modifier", allowed, modifier.name());
    }
    if (count_ == most_modifiers) {
      detail::fail(ErrorCode::too_many, "the modifiers of a lift", "at most 8",
                   static_cast<double>(most_modifiers + 1));
    }
  }

  static constexpr void add_notes(NoteList& list, std::span<const Note> notes, NoteKind kind) {
    for (const Note& note : notes) {
      bool is_new = note.kind == kind;
      for (const Note& listed : list) is_new = is_new && listed.text != note.text;
      if (is_new) list.append(note);
    }
  }

  const BaseLift* base_;
  const Modifier* modifiers_[most_modifiers]{};
  std::size_t count_ = 0;
};

/// What a lift is called: the keys of its base and of its changes, and nothing that is believed
/// about them. Ordered and hashed, so that it serves as the key of a map.
class LiftId {
 public:
  constexpr explicit LiftId(const Lift& lift) noexcept : lift_(lift) {}

  friend constexpr bool operator==(const LiftId& a, const LiftId& b) noexcept {
    return a.lift_.same_as(b.lift_);
  }
  friend constexpr std::strong_ordering operator<=>(const LiftId& a, const LiftId& b) noexcept {
    return a.order(b);
  }
  /// The same in every run and on every machine (FNV-1a, 64 bits).
  [[nodiscard]] constexpr std::uint64_t hash() const noexcept {
    std::uint64_t mixed = 0xcbf29ce484222325;
    const auto mix = [&](std::string_view key) noexcept {
      for (const char c : key) mixed = (mixed ^ static_cast<unsigned char>(c)) * 0x100000001b3;
      mixed = (mixed ^ 0xffU) * 0x100000001b3;  // no byte of UTF-8: keeps the keys apart
    };
    mix(lift_.base().key);
    for (const Modifier& modifier : lift_.modifiers()) mix(modifier.key());
    return mixed;
  }

 private:
  [[nodiscard]] constexpr std::strong_ordering order(const LiftId& other) const noexcept {
    return lift_.order_by_name(other.lift_);
  }

  Lift lift_;
};

constexpr LiftId Lift::id() const noexcept { return LiftId(*this); }

/// A base lift with one change.
[[nodiscard]] constexpr Lift operator+(const BaseLift& base, const Modifier& modifier) {
  return Lift(base) + modifier;
}
Lift operator+(const BaseLift&, const Modifier&&) = delete;  // it would point at what is gone
Lift operator+(const BaseLift&&, const Modifier&) = delete;

}  // namespace barwright::inline BARWRIGHT_ABI

template <>
struct std::hash<barwright::LiftId> {
  std::size_t operator()(const barwright::LiftId& id) const noexcept {
    return static_cast<std::size_t>(id.hash());
  }
};
/// Equal lifts hash the same; so do lifts that are the same but for what is believed about them.
template <>
struct std::hash<barwright::Lift> {
  std::size_t operator()(const barwright::Lift& lift) const noexcept {
    return static_cast<std::size_t>(lift.id().hash());
  }
};
