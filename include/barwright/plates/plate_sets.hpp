// barwright/plates/plate_sets.hpp - the sets of bar, collars and plates that gyms and federations
// use
//
// Each with its source: rule books, or common practice.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <string_view>

#include "barwright/core/mass.hpp"
#include "barwright/core/source.hpp"
#include "barwright/plates/loading.hpp"
#include "barwright/plates/room.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// The sets of bar, collars and plates that gyms and federations use.
namespace plate_sets {

/// A 20 kg bar, spring clips not counted.
inline constexpr Room gym_kg(Bar(20, Unit::kg), {Unit::kg, {25, 20, 15, 10, 5, 2.5, 1.25}});
/// A 45 lb bar, spring clips not counted. Of 35 and 25 lb a rack mostly has one pair: nobody loads
/// 35 + 35 + 35 where there is 45 + 45 + 10 + 5.
inline constexpr Room gym_lb(Bar(45, Unit::lb),
                             {Plate(45, Unit::lb), Plate(35, Unit::lb, 1), Plate(25, Unit::lb, 1),
                              Plate(10, Unit::lb), Plate(5, Unit::lb), Plate(2.5, Unit::lb)});

/// Bar and collars together 25 kg.
inline constexpr Room powerlifting = Room(gym_kg).with(Collars(2.5, Unit::kg));
/// With the 50 kg plates that the rules also allow.
inline constexpr Room powerlifting_with_50 = powerlifting.with(Plate(50, Unit::kg));
/// With the small plates for record attempts only.
inline constexpr Room powerlifting_record(Bar(20, Unit::kg),
                                          {Unit::kg, {25, 20, 15, 10, 5, 2.5, 1.25, 0.5, 0.25}},
                                          Collars(2.5, Unit::kg));

/// Bar and collars together 25 kg; steps of 1 kg.
inline constexpr Room weightlifting_men(Bar(20, Unit::kg),
                                        {Unit::kg, {25, 20, 15, 10, 5, 2.5, 2, 1.5, 1, 0.5}},
                                        Collars(2.5, Unit::kg));
/// Bar and collars together 20 kg.
inline constexpr Room weightlifting_women = weightlifting_men.with(Bar(15, Unit::kg));

/// A room with the name it has here, for programs that let one be chosen.
struct Named {
  std::string_view name;
  const Room* room;
  Source source;
};

inline constexpr Source gym_source = common_practice("spring clips not counted");
inline constexpr Source powerlifting_source{
    .citation = "International Powerlifting Federation, technical rules",
    .evidence = Evidence::standard,
    .reading = Reading::read,
    .note =
        "bar and collars 25 kg together and the plates read in a national copy; 20 kg and 2 x "
        "2.5 kg, and the sizes of the record plates, from memory"};
inline constexpr Source weightlifting_source{
    .citation = "International Weightlifting Federation, technical rules",
    .evidence = Evidence::standard,
    .reading = Reading::read,
    .note = "bars, collars and plates read in pages of a national federation and Olympic bodies"};

inline constexpr std::array all{
    Named{"gym_kg", &gym_kg, gym_source},
    Named{"gym_lb", &gym_lb, gym_source},
    Named{"powerlifting", &powerlifting, powerlifting_source},
    Named{"powerlifting_with_50", &powerlifting_with_50, powerlifting_source},
    Named{"powerlifting_record", &powerlifting_record, powerlifting_source},
    Named{"weightlifting_men", &weightlifting_men, weightlifting_source},
    Named{"weightlifting_women", &weightlifting_women, weightlifting_source},
};

/// The set of this name; null when there is none.
[[nodiscard]] constexpr const Room* find(std::string_view name) noexcept {
  for (const Named& set : all) {
    if (set.name == name) return set.room;
  }
  return nullptr;
}

}  // namespace plate_sets

}  // namespace barwright::inline BARWRIGHT_ABI
