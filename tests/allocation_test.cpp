// tests/allocation_test.cpp - from a set to the plates on the bar without one heap allocation
//
// Replaces the global operator new of the whole test program by one that counts. Inputs pass
// through `unforeseen`, so that nothing is computed while compiling.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <cstddef>
#include <cstdlib>
#include <new>
#include <optional>
#include <string>
#include <string_view>

#include "all_lifts.hpp"
#include "barwright/barwright.hpp"

namespace {

thread_local long allocations = 0;

void* counted(std::size_t size) {
  ++allocations;
  if (void* memory = std::malloc(size == 0 ? 1 : size)) return memory;
  throw std::bad_alloc();
}

void* counted(std::size_t size, std::align_val_t alignment) {
  ++allocations;
  const auto step = static_cast<std::size_t>(alignment);
  if (void* memory = std::aligned_alloc(step, (size + step - 1) / step * step)) return memory;
  throw std::bad_alloc();
}

}  // namespace

// The array and nothrow forms of the standard library call these.
void* operator new(std::size_t size) { return counted(size); }
void* operator new(std::size_t size, std::align_val_t alignment) {
  return counted(size, alignment);
}
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }
void operator delete(void* memory, std::align_val_t) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t, std::align_val_t) noexcept { std::free(memory); }

using namespace barwright;
using namespace barwright::literals;

namespace {

/// How often `action` allocated.
long allocations_in(auto action) {
  const long before = allocations;
  action();
  return allocations - before;
}

/// `value`, as far as the compiler knows from elsewhere.
double unforeseen(double value) {
  volatile double hidden = value;
  return hidden;
}
int unforeseen(int value) {
  volatile int hidden = value;
  return hidden;
}

/// Takes a result, so that it is not optimised away.
template <class T>
void use(const T& value) {
  asm volatile("" : : "r"(&value) : "memory");
}

/// All that a curve is asked, at values it is defined for.
void ask(const RepCurve auto& curve) {
  const Mass load = Mass::from_kg(unforeseen(80.0));
  const Reps reps(unforeseen(5));
  const RepsInReserve left(unforeseen(2.0));
  const Mass max = one_rep_max(curve, load, reps, left);
  use(max);
  use(share_of_max(curve, reps, left));
  use(load_for(curve, max, reps, left));
  use(predicted_reps(curve, max, load));
  use(reserve_left(curve, max, load, reps));
  use(is_studied(curve, reps, left));
  use(curve.slope(7.0));
  use(effort_table_share(curve, reps, left));
}

}  // namespace

TEST_CASE("the counter counts") {
  CHECK(allocations_in([] { ::operator delete(::operator new(16)); }) == 1);
  CHECK(allocations_in([] { ::operator delete[](::operator new[](16)); }) == 1);
  CHECK(allocations_in([] { use(std::string(static_cast<std::size_t>(unforeseen(100)), 'x')); }) ==
        1);
  CHECK(allocations_in([] {}) == 0);
}

TEST_CASE("values are made, changed and printed without allocating") {
  CHECK(allocations_in([] {
          const Mass load = Mass::from(unforeseen(225.0), Unit::lb);
          use(load.kg() + load.in(Unit::lb));
          use(load * unforeseen(0.9) + load / unforeseen(3.0) - load);
          use(load.whole_of(unforeseen(0.8)));
          for (const Rounding way : {Rounding::nearest, Rounding::down, Rounding::up}) {
            use(rounded(load, Mass::from_kg(unforeseen(2.5)), way));
          }
          use(to_text(load, Unit::lb, 1));
          use(to_text(load));
          use(Text{}
                  .append(unforeseen(1e300))
                  .append(unforeseen(7))
                  .append_rounded(unforeseen(1e300), 9));
          const Rpe rating(unforeseen(8.5));
          use(reps_in_reserve(rating));
          use(rpe(RepsInReserve(unforeseen(1.5))));
          use(rating_error(RepsInReserve(unforeseen(3.0)), Reps(unforeseen(8))));
          use(Range<double>(unforeseen(0.8), unforeseen(0.9), unforeseen(1.0)));
        }) == 0);
}

TEST_CASE("dates are counted, written and read without allocating") {
  CHECK(allocations_in([] {
          const Date date(unforeseen(2026), 11, 25);
          use(date + unforeseen(28));
          use(to_text(date));
          const Text text = to_text(date);
          use(parse_date(text));
          use(parse_date("2026-02-30"));
        }) == 0);
}

TEST_CASE("every equation, chart and adapter answers without allocating") {
  equations::for_each([](const auto& equation) {
    CAPTURE(std::string(equation.facts.name));
    CHECK(allocations_in([&] { ask(equation); }) == 0);
    CHECK(allocations_in([&] { ask(anchored(equation)); }) == 0);
    CHECK(allocations_in([&] { ask(stretched(equation, unforeseen(0.9))); }) == 0);
    CHECK(allocations_in([&] { ask(blend(equation, equations::epley)); }) == 0);
  });
  CHECK(allocations_in([] { ask(rep_tables::nsca_chart); }) == 0);
  CHECK(allocations_in([] { ask(rep_tables::baechle_earle); }) == 0);
  CHECK(allocations_in([] { ask(CriticalLoad(unforeseen(0.4), unforeseen(8.0))); }) == 0);
  CHECK(allocations_in([] {
          constexpr RepPoint points[] = {{1, 1.0}, {6, 0.86}, {12, 0.71}};
          ask(RepTable(points));
        }) == 0);
  CHECK(allocations_in([] {
          use(compare_equations(Mass::from_kg(unforeseen(100.0)), Reps(unforeseen(40))));
        }) == 0);
}

TEST_CASE("regressions and bar speed answer without allocating") {
  CHECK(allocations_in([] {
          const Mass load = Mass::from_kg(unforeseen(70.0));
          use(regressions::reynolds_chest_press_5rm.max_from(load, 5_reps));
          use(regressions::kravitz_bench_press.max_from(load, 10_reps));
          use(regressions::macht_performance(load, 8_reps, unforeseen(40.0)));
          use(velocity_curves::bench_press.share(unforeseen(0.5)));
          use(velocity_curves::bench_press.velocity(unforeseen(0.8)));
        }) == 0);
}

TEST_CASE("a session is prescribed without allocating") {
  CHECK(allocations_in([] {
          const Mass max = Mass::from_kg(unforeseen(120.0));
          use(percent_of(max, unforeseen(72.5)));
          use(warm_up(20_kg, max * unforeseen(0.8), 6_reps));
          use(back_off(max, unforeseen(0.1)));
          use(two_for_two({8_reps, Reps(unforeseen(10))}, {8_reps, 10_reps}));
        }) == 0);
}

TEST_CASE("every lift is put together, described and introduced without allocating") {
  for (const Lift& lift : barwright_test::all_lifts(2)) {
    CAPTURE(std::string(lift.name()));
    CHECK(allocations_in([&] {
            Lift same(lift.base());
            for (const Modifier& modifier : lift.modifiers()) same = same + modifier;
            use(same == lift);
            const Mass best = Mass::from_kg(unforeseen(110.0));
            for (const Stacking stacking : {Stacking::bounds, Stacking::spread}) {
              use(lift.ratio(best, stacking));
              use(lift.max_from(best, stacking));
              use(log_moments(lift.ratio(best, stacking)));
              use(lift.rep_stretch(stacking));
            }
            use(lift.muscles());
            use(lift.name());
            use(lift.cautions());
            use(lift.requirements());
            ask(lift.curve(equations::wathen));
            use(introduce(equations::wathen, lift, best, 6_reps, 2_rir));
            for (const int reps : {1, 6}) {
              use(cautions_for({.lift = lift, .reps = Reps(unforeseen(reps)), .reserve = 0_rir}));
            }
          }) == 0);
  }
}

TEST_CASE("lifts and modifiers are found, and the nearest names, without allocating") {
  CHECK(allocations_in([] {
          use(catalogue::find_lift("Bench Press"));
          use(catalogue::find_modifier("Feet-Up", lifts::bench_press));
          use(catalogue::nearest_lift_names("bensh pres"));
          use(catalogue::nearest_modifier_names("feat up", lifts::bench_press));
        }) == 0);
}

TEST_CASE("one logged set says what max it implies without allocating") {
  CHECK(allocations_in([] {
          const LoggedSet set{.date = Date(unforeseen(2026), 11, 25),
                              .lift = lifts::bench_press,
                              .load = 90_kg,
                              .reps = 6_reps,
                              .reserve = Range<RepsInReserve>::exactly(2_rir)};
          use(reps_to_failure(set));
          use(one_rep_max(equations::brzycki, set));
        }) == 0);
}

TEST_CASE("a bar is loaded without allocating, in every room") {
  for (const plate_sets::Named& named : plate_sets::all) {
    CAPTURE(std::string(named.name));
    CHECK(allocations_in([&] {
            for (double kg = unforeseen(10.0); kg < 300.0; kg += 13.7) {
              const Mass load = Mass::from_kg(kg);
              use(named.room->nearest(load));
              use(named.room->at_most(load));
              use(named.room->at_least(load));
              use(to_text(named.room->nearest(load)));
              use(draw(named.room->nearest(load)));
            }
          }) == 0);
  }
  SUBCASE("also where plates run out and both units are mixed") {
    CHECK(allocations_in([] {
            const Room room =
                parse_room("bar 20 kg; plates 25x1 20x2 10x1 5x1 2.5x1 kg 45x1 10x2 lb");
            for (double kg = unforeseen(10.0); kg < 300.0; kg += 13.7) {
              use(room.nearest(Mass::from_kg(kg)));
            }
          }) == 0);
  }
  SUBCASE("and a dumbbell chosen") {
    CHECK(allocations_in([] {
            use(dumbbells(2.5, 40, 2.5, Unit::kg).nearest(Mass::from_kg(unforeseen(23.0))));
          }) == 0);
  }
}

TEST_CASE("what is refused does not allocate either, but for the exception itself") {
  // The compiler's runtime takes the memory of an exception from malloc, not from operator new.
  CHECK(allocations_in([] {
          try {
            use(Reps(unforeseen(0)));
          } catch (const DomainError& error) {
            const DomainError copy = error;
            use(copy.what());
          }
        }) == 0);
}
