// tests/lifts/list_test.cpp - the list of all lifts and changes, and what is found in it
// SPDX-License-Identifier: BSL-1.0
#include "barwright/lifts/list.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

using namespace barwright;

namespace {

/// "bench press, feet up; dip"
std::string found(std::string_view words) {
  std::string names;
  for (const ListedLift& each : catalogue::list(words)) {
    names.append(names.empty() ? "" : "; ").append(each.lift->name);
    if (each.change != nullptr) names.append(", ").append(each.change->name());
  }
  return names;
}

bool has(std::string_view text, std::string_view words) {
  return text.find(words) != std::string_view::npos;
}

}  // namespace

TEST_CASE("without a word every lift and every change of it is listed, lifts before changes") {
  const std::vector<ListedLift> all = catalogue::list();
  std::size_t count = catalogue::lifts().size();
  for (const Modifier& modifier : catalogue::modifiers()) count += modifier.lifts().size();
  CHECK(all.size() == count);
  CHECK(all.front().lift == &lifts::bench_press);
  CHECK(all.front().change == nullptr);
  const BaseLift* last = nullptr;
  for (const ListedLift& each : all) {
    REQUIRE(each.lift != nullptr);
    if (each.change == nullptr) {
      last = each.lift;
    } else {
      CHECK(each.lift == last);
      CHECK(each.change->applies_to(*each.lift));
    }
  }
}

TEST_CASE("a word finds lifts by any name, by family and by the muscle worked directly") {
  const std::string presses = found("press");
  for (const std::string_view name : {"bench press", "bench press, feet up", "overhead press",
                                      "leg press", "push press", "dip"}) {
    CAPTURE(std::string(name));
    CHECK(has(presses, name));
  }
  CHECK_FALSE(has(presses, "squat"));
  CHECK(found("military") == "overhead press; overhead press, seated; overhead press, dumbbells");
  CHECK(found("chin-up") == "pull-up");
  CHECK(found("Chin Ups") == "pull-up");
  CHECK(found("explosive") == "power clean; power clean, from the hang; push press");
  CHECK(has(found("lats"), "lat pulldown"));
  CHECK(has(found("machine"), "leg curl"));
  CHECK(has(found("bodyweight"), "plank"));
}

TEST_CASE("several words are all looked for, in a lift and what is changed about it together") {
  CHECK(found("paused squat") == "squat, paused");
  CHECK(found("squat pause") == "squat, paused");
  CHECK(found("deficit") == "deadlift, deficit");
  CHECK(found("rack pulls") == "deadlift, from blocks");
  CHECK(found("bench dumbbell") == "bench press, dumbbells");
  CHECK(found("dumbbells").substr(0, 22) == "bench press, dumbbells");
  CHECK(found("bench squat").empty());
  CHECK(found("caber").empty());
}

TEST_CASE("a line says of a change what it leaves of the max, and who says so") {
  const auto line = [](std::string_view words) { return to_line(catalogue::list(words).front()); };
  CHECK(line("paused squat") ==
        "  paused                            92 % (83 to 100 %)      assumption");
  CHECK(has(line("bench incline wedged"), "common practice, no source"));
  CHECK(has(line("bench press"), "horizontal press; also bench, flat bench press"));
  CHECK(has(line("leg curl"), "single-joint lift, machine; also hamstring curl"));
  CHECK(has(line("pull-up"), "pull, bodyweight; also chin-up"));
  CHECK(has(line("dumbbell row"), "pull, one dumbbell; also DB row"));
  for (const ListedLift& each : catalogue::list()) {
    CAPTURE(to_line(each));
    CHECK(to_line(each).size() <= 98);
  }
}
