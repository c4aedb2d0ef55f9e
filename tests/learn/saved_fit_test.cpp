// Tests of barwright/learn/saved_fit.hpp: a fit read back is the fit that was saved, and nothing
// else is taken for one.
//
// The lifters are invented.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/learn/saved_fit.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/learn/append_set.hpp"
#include "barwright/learn/log_checksum.hpp"
#include "barwright/learn/strength_model.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr Date monday(2026, 1, 5);
const Lift plain = lifts::bench_press;
const Lift feet_up = lifts::bench_press + modifiers::feet_up;
const Lift both = lifts::bench_press + modifiers::feet_up + modifiers::flat_back;
const Lift close_grip = lifts::bench_press + modifiers::close_grip;
const Lift paused = lifts::bench_press + modifiers::pause;

LoggedSet rated(int day, const Lift& lift, double kg, int reps, double left) {
  return {.date = monday + day,
          .lift = lift,
          .load = Mass::from_kg(kg),
          .reps = Reps(reps),
          .reserve = Range<RepsInReserve>::exactly(RepsInReserve(left))};
}

StrengthSettings usual_settings() {
  StrengthSettings settings;
  settings.new_lifts = {both};
  return settings;
}

/// Four lifts by turns, five sets a day, three days a week.
std::vector<LoggedSet> training(int sets) {
  const Lift lifts[] = {plain, feet_up, both, close_grip};
  const double kg[] = {85.0, 80.0, 75.0, 82.5};
  std::vector<LoggedSet> log;
  for (int i = 0; i < sets; ++i) {
    const int session = i / 5;
    const auto which = static_cast<std::size_t>(session % 4);
    const int reps = 4 + (session + i) % 4;
    log.push_back(rated(session / 3 * 7 + session % 3 * 2, lifts[which], kg[which] + 0.1 * session,
                        reps, 3.5 - 0.5 * (reps - 4) - 0.5 * (i % 3)));
    if (i % 17 == 16) log.back().reserve.reset();
    if (i % 23 == 22) log.back().outcome = Outcome::missed;
  }
  return log;
}

StrengthFit fit_of(const std::vector<LoggedSet>& log,
                   StrengthSettings settings = usual_settings()) {
  StrengthModel model(std::move(settings));
  for (const LoggedSet& set : log) model.add(set);
  return model.fit();
}

/// Every answer about one day and the next weeks; `paused` is a lift that the log does not have.
std::vector<double> answers_of(const StrengthFit& fit, Date day) {
  std::vector<double> all;
  const auto add = [&](const auto& estimate) {
    all.insert(all.end(), {estimate.log_mean(), estimate.log_sd()});
  };
  const auto add_change = [&](const Change& change) {
    all.insert(all.end(), {change.mean(), change.standard_deviation()});
  };
  add_change(fit.trend());
  add_change(fit.set_loss());
  all.insert(all.end(), {fit.rating_bias().mean, fit.rating_bias().standard_deviation});
  all.push_back(fit.sets_used());
  all.push_back(fit.sets_appended());
  for (const Lift& lift : {plain, feet_up, both, close_grip, paused}) {
    add(fit.ratio(lift));
    add(fit.stretch(lift));
    if (const auto gain = fit.learning_gain(lift)) add(*gain);
    for (const int days : {0, 1, 3, 20, 100}) {
      add(fit.max(lift, day + days));
      all.push_back(fit.chance_of_missing(lift, 80_kg, 6_reps, day + days, 2));
      all.push_back(fit.share_of_max(lift, day + days, 8.0));
      const BoundedLoad load = fit.load_for(lift, 5_reps, 1_rir, day + days);
      all.insert(all.end(), {load.load.kg(), load.chance_of_missing, load.is_bounded ? 1.0 : 0.0});
      const StrengthJoint joint = fit.joint(lift, day + days, 1);
      all.insert(all.end(), joint.mean, joint.mean + 3);
      for (const auto& row : joint.covariance) all.insert(all.end(), row, row + 3);
      all.push_back(joint.on_top);
    }
  }
  return all;
}

bool is_refused(std::string_view saved, ErrorCode code = ErrorCode::unreadable,
                const StrengthSettings& settings = usual_settings()) {
  try {
    (void)restore_fit(saved, settings);
  } catch (const DomainError& error) {
    return error.code() == code;
  }
  return false;
}

/// The last eight bytes made right again, as somebody would who means to deceive.
void sign(std::string& saved) {
  std::uint64_t digest = 0xcbf29ce484222325;  // FNV-1a
  for (std::size_t i = 0; i + 8 < saved.size(); ++i) {
    digest = (digest ^ static_cast<unsigned char>(saved[i])) * 0x100000001b3;
  }
  for (std::size_t i = 0; i < 8; ++i) {
    saved[saved.size() - 8 + i] = static_cast<char>(static_cast<unsigned char>(digest >> (8 * i)));
  }
}

}  // namespace

TEST_CASE("a fit read back answers every question about today and later to the last bit") {
  for (const int sets : {1, 4, 60, 100}) {
    CAPTURE(sets);
    const std::vector<LoggedSet> log = training(sets);
    const StrengthFit fit = fit_of(log);
    const StrengthFit again = restore_fit(save_fit(fit), usual_settings());
    CHECK(answers_of(again, log.back().date) == answers_of(fit, log.back().date));
    CHECK(again.log_checksum() == checksum_of(log));
    CHECK(save_fit(again) == save_fit(fit));
  }
}

TEST_CASE("so does one that goes on training, and one that knows nothing yet") {
  const std::vector<LoggedSet> log = training(60);
  const StrengthFit fit = fit_of(log).if_training_goes_on();
  const StrengthFit again = restore_fit(save_fit(fit), usual_settings());
  CHECK(answers_of(again, log.back().date) == answers_of(fit, log.back().date));

  const StrengthFit nothing = fit_of({});
  const StrengthFit nothing_again = restore_fit(save_fit(nothing), usual_settings());
  CHECK(answers_of(nothing_again, monday) == answers_of(nothing, monday));
  CHECK(nothing_again.history(plain).empty());
}

TEST_CASE("of the days before the last nothing was saved, and it says so") {
  const std::vector<LoggedSet> log = training(60);
  const StrengthFit again = restore_fit(save_fit(fit_of(log)), usual_settings());
  CHECK_THROWS_AS((void)again.max(plain, log.back().date - 1), DomainError);
  CHECK(again.history(plain).size() == 1);
  CHECK(!again.gain(plain, monday, log.back().date));
  CHECK(again.reports().empty());
}

TEST_CASE("a lifter of four lifts takes less than two kilobytes, however long the log") {
  CHECK(save_fit(fit_of(training(100))).size() < 2048);
  CHECK(save_fit(fit_of(training(700))).size() < 2048);
  // Nine lifts, of which one is new.
  std::vector<LoggedSet> log = training(60);
  for (const Lift& lift : {paused, lifts::bench_press + modifiers::wide_grip,
                           lifts::bench_press + modifiers::slow_lowering,
                           paused + modifiers::close_grip, paused + modifiers::feet_up}) {
    for (int i = 0; i < 5; ++i) log.push_back(rated(90 + i, lift, 75.0, 6, 2.0));
  }
  CHECK(save_fit(fit_of(log)).size() < 4096);
}

TEST_CASE("a set appended after reading back teaches what it does before saving") {
  const std::vector<LoggedSet> log = training(100);
  const int day = log.back().date - monday;
  StrengthFit fit = fit_of(log);
  StrengthFit again = restore_fit(save_fit(fit), usual_settings());
  for (const LoggedSet& set : {rated(day, feet_up, 82.5, 5, 2), rated(day + 2, plain, 90, 3, 1),
                               rated(day + 2, plain, 90, 3, 0), rated(day + 9, both, 75, 6, 2)}) {
    fit = *append_set(fit, set);
    again = *append_set(restore_fit(save_fit(again), usual_settings()), set);
    CHECK(answers_of(again, set.date) == answers_of(fit, set.date));
    CHECK(save_fit(again) == save_fit(fit));
  }
  CHECK(again.sets_appended() == 4);
}

TEST_CASE("one wrong byte, a lost end or another file is refused") {
  const std::string saved = save_fit(fit_of(training(40)));
  for (std::size_t i = 0; i < saved.size(); ++i) {
    std::string damaged = saved;
    damaged[i] = static_cast<char>(damaged[i] ^ (1 << i % 8));
    CHECK(is_refused(damaged));
    CHECK(is_refused(std::string_view(saved).substr(0, i)));
  }
  CHECK(is_refused(saved + '\n'));
  CHECK(is_refused(saved + saved));
  CHECK(is_refused("date,lift,load,reps"));
  CHECK(is_refused(std::string(5000, '\0')));
}

TEST_CASE("wrong bytes with the right checksum are refused or answer in finite numbers") {
  const std::vector<LoggedSet> log = training(10);
  const std::string saved = save_fit(fit_of(log));
  const auto is_sound = [](const StrengthFit& fit, Date day) {
    bool is_finite = true;
    for (const Lift& lift : {plain, feet_up}) {
      const BoundedLoad load = fit.load_for(lift, 5_reps, 1_rir, day);
      for (const double answer :
           {fit.max(lift, day).log_mean(), fit.max(lift, day).log_sd(), load.load.kg(),
            load.chance_of_missing, fit.chance_of_missing(lift, 80_kg, 6_reps, day)}) {
        is_finite = is_finite && std::isfinite(answer);
      }
    }
    return is_finite;
  };
  int read = 0;
  int refused = 0;
  const auto try_to_read = [&](std::string damaged) {
    sign(damaged);
    try {
      const StrengthFit fit = restore_fit(damaged, usual_settings());
      const bool before = is_sound(fit, log.back().date + 60);
      CHECK(before);
      const LoggedSet next = rated(log.back().date - monday + 61, plain, 85.0, 6, 2.0);
      const auto appended = append_set(fit, next);
      const bool after = !appended || is_sound(*appended, next.date);
      CHECK(after);
      ++read;
    } catch (const DomainError&) {
      ++refused;
    }
  };
  for (std::size_t i = 0; i + 8 < saved.size(); ++i) {
    CAPTURE(i);
    for (const int flip : {0x10, 0x80}) {
      std::string damaged = saved;
      damaged[i] = static_cast<char>(damaged[i] ^ flip);
      try_to_read(std::move(damaged));
    }
    try_to_read(saved.substr(0, i) + saved.substr(saved.size() - 8));
  }
  CHECK(read > 0);
  CHECK(refused > 0);
}

TEST_CASE("counts that no log has are refused, however well they are signed") {
  // Of a log without a set: where it says whether one was rated, and how many sets it has.
  constexpr std::size_t has_counted = 64;
  constexpr std::size_t sets = 16;
  const std::string saved = save_fit(fit_of({}));
  REQUIRE(saved.substr(has_counted, 4) == std::string(4, '\0'));
  for (const std::size_t place : {has_counted, sets + 7}) {
    CAPTURE(place);
    std::string forged = saved;
    forged[place] = '\1';
    sign(forged);
    CHECK(is_refused(forged));
  }
}

TEST_CASE("a fit of other settings is refused: its answers would be of neither") {
  const std::string saved = save_fit(fit_of(training(40)));
  const auto with = [&](auto change) {
    StrengthSettings settings = usual_settings();
    change(settings);
    return is_refused(saved, ErrorCode::contradiction, settings);
  };
  CHECK(!with([](StrengthSettings&) {}));
  CHECK(with([](StrengthSettings& settings) { settings.reference = lifts::squat; }));
  CHECK(with([](StrengthSettings& settings) { settings.curve = equations::epley; }));
  CHECK(with([](StrengthSettings& settings) { settings.experience = Experience::novice; }));
  CHECK(with([](StrengthSettings& settings) { settings.new_lifts = {feet_up}; }));
  CHECK(with([](StrengthSettings& settings) { settings.known_lifts = {feet_up}; }));
  CHECK(with([](StrengthSettings& settings) { settings.unlogged_is_new = true; }));
  CHECK(with([](StrengthSettings& settings) { settings.priors.set_loss = 0.013; }));
}

TEST_CASE("each of the priors is among the settings that are compared") {
  // A number added to the priors belongs into `digest_of` of saved_fit.ipp, too: then raise this.
  CHECK(sizeof(StrengthPriors) == 34 * sizeof(double));
}

TEST_CASE("a variation that is not in the catalogue is found among the lifts given") {
  static const Modifier own("blue_bench", "on the blue bench", {0.9, 0.95, 1.0});
  const Lift blue = lifts::bench_press + own;
  std::vector<LoggedSet> log = training(40);
  log.push_back(rated(60, blue, 80.0, 6, 2.0));
  const StrengthFit fit = fit_of(log);
  const std::string saved = save_fit(fit);
  CHECK(is_refused(saved, ErrorCode::unknown_name));
  const StrengthFit again = restore_fit(saved, usual_settings(), std::span(&blue, 1));
  CHECK(again.max(blue, monday + 60).log_mean() == fit.max(blue, monday + 60).log_mean());
}
