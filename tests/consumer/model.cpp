// tests/consumer/model.cpp - a model fitted to a small log, with all digits of what it says
// SPDX-License-Identifier: BSL-1.0
#include <barwright/learn/kalman_smoother.hpp>
#include <barwright/learn/strength_model.hpp>
#include <cstdio>

int main() {
  using namespace barwright;
  using namespace barwright::literals;
  const Lift feet_up = lifts::bench_press + modifiers::feet_up;
  StrengthModel model({.new_lifts = {feet_up}});
  for (int session = 0; session < 8; ++session) {
    const Date day = Date(2026, 1, 5) + 4 * session;
    const Lift lift = session % 3 == 2 ? feet_up : Lift(lifts::bench_press);
    for (int i = 0; i < 3; ++i) {
      model.add({.date = day,
                 .lift = lift,
                 .load = Mass::from_kg(90.0 + 0.5 * session),
                 .reps = Reps(6 - i),
                 .reserve = Range<RepsInReserve>::exactly(RepsInReserve(0.5 * (session % 3 + i)))});
    }
  }
  const StrengthFit fit = model.fit();
  const Date today(2026, 2, 10);
  const Estimate<Mass> max = fit.max(feet_up, today);
  std::printf("%a %a\n", max.log_mean(), max.log_sd());
  std::printf("%a\n", fit.load_for(feet_up, 5_reps, 2_rir, today).load.kg());
  std::printf("%a\n", fit.carry_over(feet_up).value().mean());

  KalmanSmoother smoother(KalmanFilter(StateVector{{0.0, 0.0}}, StateMatrix::Identity(2, 2)));
  smoother.predict(StateMatrix{{1.0, 1.0}, {0.0, 1.0}}, StateMatrix{{0.5, 0.1}, {0.1, 0.2}});
  smoother.update({{0, 1.0}}, 1.5, 0.3);
  std::printf("%a\n", smoother.filter().mean()[1]);
}
