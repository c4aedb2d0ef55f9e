// tests/fuzz/model_fuzz.cpp - any log that can be written down gets finite answers from the model
// SPDX-License-Identifier: BSL-1.0
#include <fuzzer/FuzzedDataProvider.h>

#include <array>
#include <barwright/barwright.hpp>
#include <barwright/learning.hpp>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "require.hpp"

namespace bw = barwright;
using fuzz::require;

namespace {

bw::Lift a_lift(FuzzedDataProvider& data) {
  static const std::array<bw::Lift, 7> lifts{
      bw::Lift(bw::lifts::bench_press),
      bw::lifts::bench_press + bw::modifiers::feet_up,
      bw::lifts::bench_press + bw::modifiers::feet_up + bw::modifiers::flat_back,
      bw::lifts::bench_press + bw::modifiers::close_grip,
      bw::lifts::bench_press + bw::modifiers::dumbbells,
      bw::lifts::bench_press + bw::modifiers::incline,
      bw::Lift(bw::lifts::squat)};
  return lifts[data.ConsumeIntegralInRange<std::size_t>(0, lifts.size() - 1)];
}

bw::Date a_date(FuzzedDataProvider& data) {
  const bool is_near = data.ConsumeBool();
  return bw::Date(1990, 1, 1) + (is_near ? data.ConsumeIntegralInRange<int>(0, 30)
                                         : data.ConsumeIntegralInRange<int>(-30000, 70000));
}

bw::Mass a_load(FuzzedDataProvider& data) {
  if (data.ConsumeBool()) {
    return bw::Mass::from_kg(data.ConsumeIntegralInRange<int>(0, 600) / 2.0);
  }
  return bw::Mass::from_kg(data.ConsumeFloatingPointInRange<double>(0.0, 1e6));
}

bw::LoggedSet a_set(FuzzedDataProvider& data) {
  bw::LoggedSet set{.date = a_date(data),
                    .lift = a_lift(data),
                    .load = a_load(data),
                    .reps = bw::Reps(data.ConsumeIntegralInRange<int>(1, 100))};
  const int kind = data.ConsumeIntegralInRange<int>(0, 5);
  if (kind == 0) set.outcome = bw::Outcome::missed;
  if (kind >= 2) {
    const double low = data.ConsumeIntegralInRange<int>(0, 20) / 2.0;
    const double width = kind >= 4 ? data.ConsumeIntegralInRange<int>(0, 10) : 0.0;
    set.reserve =
        bw::Range<bw::RepsInReserve>(bw::RepsInReserve(low), bw::RepsInReserve(low + width / 2.0),
                                     bw::RepsInReserve(low + width));
  }
  return set;
}

template <class Answer>
void require_sound(const bw::Estimate<Answer>& estimate) {
  require(std::isfinite(estimate.log_mean()), "an estimate is a number");
  require(std::isfinite(estimate.log_sd()) && estimate.log_sd() > 0.0, "and says how sure it is");
}
void require_sound(const bw::Change& change) {
  require(std::isfinite(change.mean()) && std::isfinite(change.standard_deviation()),
          "a change is a number");
}

void require_all_sound(const bw::StrengthFit& fit, const bw::Lift& lift, bw::Date date,
                       bw::Mass load, bw::Reps reps) {
  require_sound(fit.max(lift, date));
  require_sound(fit.stretch(lift));
  if (!lift.is_plain()) require_sound(fit.ratio(lift));
  if (const auto gap = fit.learning_gain(lift)) require_sound(*gap);
  if (const auto carried = fit.carry_over(lift)) require_sound(*carried);
  for (const auto& point : fit.history(lift)) require_sound(point.max);
  const double chance = fit.chance_of_missing(lift, load, reps, date);
  require(chance >= 0.0 && chance <= 1.0, "a chance is between 0 and 1");
  const bw::BoundedLoad chosen = fit.load_for(lift, reps, bw::RepsInReserve(2.0), date);
  require(chosen.load >= bw::Mass{}, "a load is a number");
  require(chosen.chance_of_missing >= 0.0 && chosen.chance_of_missing <= 1.0,
          "and its chance of missing too");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  FuzzedDataProvider data(bytes, size);
  bw::StrengthSettings settings;
  settings.experience = data.ConsumeBool() ? bw::Experience::novice : bw::Experience::experienced;
  if (data.ConsumeBool()) settings.curve = bw::equations::brzycki;
  if (data.ConsumeBool()) settings.new_lifts = {a_lift(data)};
  bw::StrengthModel model(settings);
  const int sets = data.ConsumeIntegralInRange<int>(0, 10);
  for (int i = 0; i < sets; ++i) model.add(a_set(data));

  const bw::StrengthFit fit = model.fit();
  require(fit.reports().size() == static_cast<std::size_t>(sets), "every set gets its report");
  for (const bw::SetReport& report : fit.reports()) {
    require(std::isfinite(report.surprise) && std::isfinite(report.expected_ratio) &&
                std::isfinite(report.expected_load.kg()),
            "a report is made of numbers");
  }
  require_sound(fit.trend());
  require_sound(fit.set_loss());
  require(
      std::isfinite(fit.rating_bias().mean) && std::isfinite(fit.rating_bias().standard_deviation),
      "the rating bias is a number");
  const bw::Mass load = a_load(data);
  const bw::Reps reps(data.ConsumeIntegralInRange<int>(1, 100));
  const bw::Date date = a_date(data);
  require_all_sound(fit, bw::lifts::bench_press, date, load, reps);
  require_all_sound(fit, bw::lifts::bench_press + bw::modifiers::feet_up, date, load, reps);
  return 0;
}
