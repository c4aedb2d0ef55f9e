// tests/plan/random_requests.hpp - lifters, rooms, logs and questions drawn at random, and what a
// coach would check on paper
//
// The rules call nothing of plan/. [common practice, but for the table of reserves alone, which is
// this library's: tests/training/alone_test.cpp] All lifters and sets are invented.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/curves/equations.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/session.hpp"

namespace barwright_test::random_requests {

using namespace barwright;
using namespace barwright::literals;

inline constexpr Date today(2026, 11, 25);

/// The same numbers by every standard library.
class Draw {
 public:
  explicit Draw(std::uint32_t seed) : engine_(seed) {}
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_()) / 4294967296.0;
  }
  int whole(int low, int high) { return low + static_cast<int>(between(0, high - low + 0.999)); }
  bool chance(double share) { return between(0, 1) < share; }
  double halves(double low, double high) {
    return whole(static_cast<int>(2 * low), static_cast<int>(2 * high)) / 2.0;
  }
  template <class T>
  const T& one_of(const std::vector<T>& all) {
    return all[static_cast<std::size_t>(whole(0, static_cast<int>(all.size()) - 1))];
  }

 private:
  std::mt19937 engine_;
};

struct Kind {
  Lift lift;
  double lightest_max;  // on the base lift, kilograms; of the body, shares of what is moved of it
  double heaviest_max;
  bool can_pin = true;
  bool safeties_catch = true;
  bool is_machine = false;
};

inline const std::vector<Kind>& kinds() {
  static const std::vector<Kind> all{
      {lifts::bench_press, 30, 180},
      {lifts::bench_press + modifiers::close_grip, 40, 160},
      {lifts::bench_press + modifiers::feet_up, 50, 160},
      {lifts::bench_press + modifiers::dumbbells, 40, 140, true, false},
      {lifts::squat, 40, 250},
      {lifts::squat + modifiers::front_squat, 60, 200},
      {lifts::overhead_press, 30, 100},
      {lifts::deadlift, 60, 300, false},
      {lifts::romanian_deadlift, 60, 200, false},
      {lifts::barbell_row, 40, 120, false},
      {lifts::leg_press, 80, 300, true, true, true},
      {lifts::lat_pulldown, 30, 130, false},
      {lifts::pull_up, 1.0, 1.7, false},
      {lifts::dip, 1.0, 1.8, false},
  };
  return all;
}

inline const std::vector<Room>& rooms() {
  static const std::vector<Room> all{
      plate_sets::gym_kg,
      plate_sets::gym_lb,
      plate_sets::powerlifting,
      plate_sets::powerlifting_record,
      plate_sets::gym_kg.with(Bar(15, Unit::kg)),
      Room(Bar(20, Unit::kg), {Plate(20, Unit::kg, 2), Plate(10, Unit::kg, 2),
                               Plate(5, Unit::kg, 2), Plate(2.5, Unit::kg, 1)}),
  };
  return all;
}

/// Somebody, and what is known of them.
struct Somebody {
  const Kind* kind = nullptr;
  double max = 0.0;    // of the base lift, what is moved of the body included
  double moved = 0.0;  // of the body; 0 where the lift does not move it
  std::vector<LoggedSet> log{};
  LifterFacts facts{};

  [[nodiscard]] LearntLifter learnt() const {
    return learn_lifter(log, Lift(kind->lift.base()), today, facts);
  }
};

/// Somebody who trained this lift, more or less often, more or less long ago.
inline std::vector<LoggedSet> drawn_log(Draw& draw, const Somebody& who) {
  std::vector<LoggedSet> log;
  const Lift& lift = who.kind->lift;
  const double own = who.max * lift.ratio(Mass::from_kg(who.max)).typical;
  const int sessions = draw.whole(1, 14);
  int day = draw.chance(0.25) ? draw.whole(15, 80) : draw.chance(0.15) ? 0 : draw.whole(1, 8);
  for (int session = 0; session < sessions; ++session) {
    int reps = draw.whole(3, 10);
    const double effort = draw.between(0.86, 1.0);  // of what can be done
    const double whole_load = own * equations::wathen.fraction(reps) * effort;
    const Mass added = rounded(Mass::from_kg(std::max(whole_load - who.moved, 0.0)), 2.5_kg);
    const double can =
        predicted_reps(anchored(equations::wathen), Mass::from_kg(own),
                       std::min(added + Mass::from_kg(who.moved), Mass::from_kg(own)));
    reps = std::clamp(reps, 1, std::max(static_cast<int>(can), 1));  // the body cannot be lighter
    for (int set = draw.whole(1, 4); set > 0; --set) {
      LoggedSet done{.date = today - day, .lift = lift, .load = added, .reps = Reps(reps)};
      const double left = std::floor(2.0 * (can - reps + draw.between(-1, 1))) / 2.0;
      if (can < reps + 0.2 && draw.chance(0.5)) {
        done.outcome = Outcome::missed;
      } else if (draw.chance(0.9)) {
        done.reserve = Range<RepsInReserve>::exactly(RepsInReserve(std::clamp(left, 0.0, 8.0)));
      }
      done.has_pain = draw.chance(0.01);
      log.push_back(done);
    }
    day += draw.chance(0.1) ? draw.whole(15, 60) : draw.whole(2, 7);
  }
  return log;
}

inline Somebody drawn_lifter(Draw& draw, const Kind& kind) {
  Somebody who{.kind = &kind, .max = draw.between(kind.lightest_max, kind.heaviest_max)};
  if (const auto share = kind.lift.base().body_share) {
    const double body = draw.between(50, 105);
    who.facts.body_mass = Mass::from_kg(body);
    who.moved = body * share->value.typical;
    who.max *= who.moved;
  }
  const bool is_stated = draw.chance(0.2);
  if (is_stated) who.facts.stated_max = Mass::from_kg(who.max - who.moved);
  if (!is_stated || draw.chance(0.3)) who.log = drawn_log(draw, who);
  return who;
}

template <class Request>
void draw_circumstances(Draw& draw, Request& request) {
  request.room = draw.one_of(rooms());
  request.has_spotter = draw.chance(0.3);
  request.safeties = draw.chance(0.5)   ? Safeties::checked
                     : draw.chance(0.3) ? Safeties::unchecked
                                        : Safeties::none;
}

// ---- the rules ----------------------------------------------------------------------------------

/// What is wrong, one after the other.
class Faults {
 public:
  void hold(bool is_right, std::string_view what) {
    if (!is_right) text_ += std::string(what) + "; ";
  }
  [[nodiscard]] const std::string& text() const noexcept { return text_; }

 private:
  std::string text_;
};

/// The least to leave where nothing would catch a miss; 99: not at all.
inline double must_be_left(int reps, bool is_new) {
  if (reps > 12) return 99;
  if (reps > 8) return reps - 6;
  return is_new ? 3 : 2;
}

template <class Request>
bool is_caught(const Kind& kind, const Request& asked) {
  return !kind.can_pin || (asked.has_spotter && !kind.is_machine) ||
         (asked.safeties == Safeties::checked && kind.safeties_catch);
}

struct Past {
  int sessions = 0;
  int gap = 0;  // days off before the way back, 0 where it is over
  int days_back = 0;
  bool hurt = false;
  int sets_today = 0;
  bool missed_today = false;
};

/// The most that the heaviest curve makes of the sets of four weeks, or of the last, for some reps.
inline double most_shown(const Somebody& who, int reps) {
  double most = 0.0;
  int last = 1000;
  int first = 1000;
  for (const LoggedSet& set : who.log) {
    const int age = today - set.date;
    first = std::min(first, age);
    if (age > 0) last = std::min(last, age);
  }
  for (const LoggedSet& set : who.log) {
    const int age = today - set.date;
    if (age > 28 && age != last && age != first) continue;
    const int done = set.reps.count() - (set.outcome == Outcome::missed ? 1 : 0);
    // 3 % a rep, and 6: flatter and steeper than any published curve of so few reps.
    for (const double slope : {0.015, 0.07}) {
      most = std::max(most, (set.load.kg() + who.moved) * std::exp(-slope * (reps - done)));
    }
  }
  return most;
}

inline Past past_of(const Somebody& who) {
  Past past;
  std::vector<int> days;  // ago
  for (const LoggedSet& set : who.log) days.push_back(today - set.date);
  for (const LoggedSet& set : who.log) {
    // Two weeks of training, not of rest.
    const int since = today - set.date - *std::min_element(days.begin(), days.end());
    past.hurt = past.hurt || (set.has_pain && since <= 14);
    if (set.date != today) continue;
    ++past.sets_today;
    past.missed_today = past.missed_today || set.outcome == Outcome::missed;
  }
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  for (const int day : days) past.sessions += day > 0;
  if (!days.empty() && days.front() > 0) days.insert(days.begin(), 0);
  const auto is_over_by = [&](int day) {
    return past.days_back - day >= 7 * std::clamp((past.gap + 27) / 28, 1, 4);
  };
  for (std::size_t i = days.size(); i-- > 1;) {
    const int gap = days[i] - days[i - 1];
    if (gap <= 14) continue;
    // Before the way back from a longer one is over, it is the longer one still.
    past.gap = past.gap == 0 || is_over_by(days[i]) ? gap : std::max(past.gap, gap);
    past.days_back = days[i - 1];
  }
  if (is_over_by(0)) past.gap = 0;
  return past;
}

/// Whether a caution speaks of what the log or the room cannot be right about.
inline bool has_doubt(const std::vector<Caution>& cautions) {
  return std::any_of(cautions.begin(), cautions.end(), [](const Caution& caution) {
    return caution.key == "too_many_plates" || caution.key == "doubtful_max" ||
           caution.key == "stated_max_above_log" || caution.key == "doubtful_log" ||
           caution.key == "doubtful_log_max" || caution.key == "light_set_left_out" ||
           caution.key == "body_in_loads";
  });
}

inline bool names_a_coach(const std::vector<Caution>& cautions) {
  return std::any_of(cautions.begin(), cautions.end(), [](const Caution& caution) {
    return caution.text.find("qualified coach") != std::string_view::npos;
  });
}

/// What is on the bar, on the belt, in the hands or on the pin, is there, and is the load.
inline void check_loaded(Faults& faults, const LoadedWith& with, const Room& room,
                         const Somebody& who) {
  const auto check_plates = [&](const auto& plates, int sides) {
    std::map<double, int> count;
    Mass sum{};
    for (std::size_t i = 0; i < plates.size(); ++i) {
      faults.hold(i == 0 || plates[i] <= plates[i - 1], "a heavy plate outside a light one");
      sum = sum + plates[i].mass();
      ++count[plates[i].mass().kg()];
    }
    for (const Plate& plate : room.plates()) {
      faults.hold(count[plate.mass().mass().kg()] <= plate.per_side() * (sides == 1 ? 2 : 1),
                  "plates that are not there");
    }
    return sides * sum;
  };
  const auto is_same = [](Mass a, Mass b) { return std::fabs((a - b).kg()) < 1e-6; };
  if (with.bar) {
    const Mass plates = check_plates(with.bar->plates(), 2);
    faults.hold(is_same(room.empty_bar().total() + plates, with.load),
                "the plates are not the load");
  } else if (with.belt) {
    const Mass plates = check_plates(with.belt->plates, 1);
    faults.hold(is_same(plates, with.belt->added), "the plates are not what is added");
    faults.hold(is_same(with.load, plates + Mass::from_kg(who.moved)),
                "body and belt are not the load");
  } else if (with.dumbbell) {
    faults.hold(is_same(with.dumbbells * with.dumbbell->mass(), with.load),
                "dumbbells are not the load");
  } else {
    faults.hold(with.pin.has_value() && is_same(with.pin->mass(), with.load),
                "nothing is the load");
  }
}

/// The way up: loads rise, reps fall, the work comes last.
inline void check_way_up(Faults& faults, const std::vector<PlannedSet>& sets, const Room& room,
                         const Somebody& who) {
  Mass before{};
  int reps_before = 8;
  for (std::size_t i = 0; i < sets.size(); ++i) {
    const PlannedSet& set = sets[i];
    const bool is_last = i + 1 == sets.size();
    faults.hold(set.is_work == is_last, "the work sets are not the last");
    faults.hold(set.with.load > before, "loads do not rise");
    if (!is_last) {
      faults.hold(set.reps.count() <= reps_before, "warm-up reps do not fall");
      reps_before = set.reps.count();
    }
    before = set.with.load;
    check_loaded(faults, set.with, room, who);
  }
}

/// Whether a refusal is one that what was drawn may have.
inline bool is_known(RefusalCode code, const Somebody& who) {
  return code == RefusalCode::bar_too_heavy || code == RefusalCode::dumbbells_too_heavy ||
         code == RefusalCode::stack_too_heavy || code == RefusalCode::body_too_heavy ||
         (code == RefusalCode::no_strength && !who.facts.stated_max);
}

}  // namespace barwright_test::random_requests
