// tests/allocation_test.cpp - from a set to the loaded bar without one heap allocation
//
// Counts every call of operator new in the whole test program.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <atomic>
#include <cstdlib>
#include <new>
#include <vector>

#include "barwright/barwright.hpp"

namespace {

std::atomic<long> allocations{0};

void* counted(std::size_t size) {
  allocations.fetch_add(1, std::memory_order_relaxed);
  void* const memory = std::malloc(size > 0 ? size : 1);
  if (memory == nullptr) throw std::bad_alloc();
  return memory;
}

}  // namespace

// The other forms of new and delete that allocate without alignment call these.
void* operator new(std::size_t size) { return counted(size); }
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }

namespace {

using namespace barwright;
using namespace barwright::literals;

/// How many allocations a piece of work makes.
template <class Work>
long allocations_of(Work work) {
  const long before = allocations.load(std::memory_order_relaxed);
  work();
  return allocations.load(std::memory_order_relaxed) - before;
}

/// Keeps a result, so that the work behind it is done.
double kept = 0.0;
void keep(double value) { kept += value; }
void keep(Mass value) { keep(value.kg()); }

}  // namespace

TEST_CASE("the counter counts: a vector allocates once") {
  CHECK(allocations_of([] {
          const std::vector<double> loads(8, 1.0);
          keep(loads[0]);
        }) == 1);
}

TEST_CASE("a max, a load and a reserve by every equation allocate nothing") {
  int curves = 0;
  const long made = allocations_of([&] {
    equations::for_each([&](const auto& equation) {
      const Mass max = one_rep_max(equation, 100_kg, 5_reps, 2_rir);
      keep(max);
      keep(load_for(equation, max, 6_reps, 2_rir));
      keep(reserve_left(equation, max, 80_kg, 6_reps));
      ++curves;
    });
    for (const auto& line : compare_equations(100_kg, 5_reps)) keep(line.max);
  });
  CHECK(curves > 5);
  CHECK(made == 0);
}

TEST_CASE("a variation's max, its introduction and its cautions allocate nothing") {
  CHECK(allocations_of([] {
          const Lift lift = lifts::bench_press + modifiers::feet_up + modifiers::flat_back;
          keep(lift.max_from(100_kg).typical);
          keep(introduce(equations::wathen, lift, 100_kg, 6_reps, 2_rir).working_load());
          keep(static_cast<double>(cautions_for(SessionFacts{.lift = lift}).size()));
        }) == 0);
}

TEST_CASE("warm-up sets and loaded bars, printed and drawn, allocate nothing") {
  CHECK(allocations_of([] {
          for (const WarmUpSet& set : warm_up(20_kg, 100_kg, 5_reps)) {
            const Loading bar = plate_sets::gym_kg.nearest(set.load);
            keep(bar.total());
            keep(static_cast<double>(to_text(bar).view().size() + draw(bar).view().size()));
          }
          keep(plate_sets::gym_lb.at_most(225_lb)->total());
          keep(plate_sets::gym_lb.at_least(226_lb)->total());
        }) == 0);
}

TEST_CASE("the message of a refused value is written without allocation") {
  // The memory of the exception itself comes from the runtime, not from operator new.
  CHECK(allocations_of([] {
          try {
            keep(Mass::from_kg(-1.0));
          } catch (const DomainError& error) {
            keep(error.what()[0]);
          }
        }) == 0);
}
