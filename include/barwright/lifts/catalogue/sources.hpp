// barwright/lifts/catalogue/sources.hpp - what the catalogue rests on: studies, rule books,
// practice
//
// Each source says who was studied and how it came in here: read, or from memory. The functions at
// the end make findings and notes of them.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <string_view>

#include "barwright/core/range.hpp"
#include "barwright/core/source.hpp"
#include "barwright/lifts/findings.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

[[nodiscard]] constexpr Source study(std::string_view citation, std::string_view population,
                                     std::string_view note = {},
                                     Reading reading = Reading::read) noexcept {
  return {.citation = citation,
          .population = population,
          .evidence = Evidence::published,
          .reading = reading,
          .note = note};
}

inline constexpr Source saeterbakken_2017 = study(
    "Saeterbakken et al. 2017, J Hum Kinet 57:61-71",
    "12 national and international bench-press competitors, men; wide grip; 6RM",
    "the abstract gives the incline as 18.5-21.5 % lower, but by its own means the flat press is "
    "21.5 % above the incline: the incline is 17.7 % below the flat press");
inline constexpr Source saeterbakken_2017_grip =
    study("Saeterbakken et al. 2017, J Hum Kinet 57:61-71",
          "12 national and international bench-press competitors, men; 6RM");
inline constexpr Source garcia_ramos_2019 =
    study("Garcia-Ramos, Suzovic & Perez-Castilla 2019, Sports Biomech",
          "12 men and 12 women, sport-science students; 1RM", "the bench angle was not seen");
inline constexpr Source larsen_2021 =
    study("Larsen, Gomo & van den Tillaar 2021, Front Sports Act Living 2:637066",
          "14 recreationally bench-trained men; 1RM");
inline constexpr Source wilk_2019 = study(
    "Wilk et al. 2019, J Hum Kinet", "20 trained women; 1RM",
    "the wide grip was a fixed distance (81 cm), which may be why the sign is opposite to men");
inline constexpr Source gepfert_2019 =
    study("Gepfert et al., J Hum Sport Exerc (year not seen)", "20 trained women; 1RM",
          "probably shares lifters with Wilk 2019: not independent");
inline constexpr Source green_comfort_2007 =
    study("Green & Comfort 2007, Strength Cond J 29(5):10-14", "review",
          "a grip above 1.5 shoulder widths may raise the risk to shoulder and chest muscle");
inline constexpr Source wagner_1992 =
    study("Wagner et al. 1992, Int J Sport Biomech 8(1):1-10",
          "24 experienced male weight trainers; six grip widths, 1RM");
inline constexpr Source saeterbakken_2011 =
    study("Saeterbakken, van den Tillaar & Fimland 2011, J Sports Sci 29(5):533-538",
          "12 resistance-trained men; 1RM");
inline constexpr Source goodman_2008 =
    study("Goodman et al. 2008, J Strength Cond Res 22(1):88-94", "13 familiarised lifters; 1RM");
inline constexpr Source saeterbakken_2013_surface =
    study("Saeterbakken & Fimland 2013, J Strength Cond Res 27(4):1101-1107",
          "16 resistance-trained men; 6RM");
inline constexpr Source saeterbakken_2013_overhead = study(
    "Saeterbakken & Fimland 2013, J Strength Cond Res 27(7):1824-1831", "15 healthy men; 1RM");
inline constexpr Source garcia_ramos_2021_arch =
    study("Garcia-Ramos et al. 2021, Sports Biomech 20(3):261-273",
          "11 competitive male powerlifters; 1RM", "a moderate arch against none; not significant");
inline constexpr Source bartolomei_2024 = study(
    "Bartolomei et al. 2024, J Strength Cond Res 38(7):1200-1205", "15 highly trained lifters; 1RM",
    "arched 4.2 kg heavier (95 % interval 0.0 to 8.4); the group's mean was not seen, so the "
    "ratio assumes it was 105 to 125 kg");
inline constexpr Source muyor_2019 =
    study("Muyor et al. 2019, PLoS ONE 14(6):e0218209",
          "20 trained young men; 60 % of the feet-down 1RM in both positions");
inline constexpr Source leg_drive_2021 =
    study("a 2021 study of 5 weeks of leg-drive training (authors and journal not seen)",
          "23 recreationally active men");
inline constexpr Source garcia_ramos_2021_dead_start =
    study("Garcia-Ramos, Janicijevic & Jukic 2021, Sports Health 13(4):373-379",
          "87 men and 26 women; 1RM");
inline constexpr Source wilk_2020 =
    study("Wilk et al. 2020, J Sports Sci Med 19:317-322", "21 strength-trained women; 1RM");
inline constexpr Source martinez_cava_2019 =
    study("Martinez-Cava et al. 2019, J Sports Sci Med 18:645-652",
          "42 strength-trained men; two thirds and one third of the range; 1RM");
inline constexpr Source mookerjee_1999 = study(
    "Mookerjee & Ratamess 1999, J Strength Cond Res 13(1):76-81", "5 strength-trained men; 1RM",
    "the abstract seen gives only the gain on the second day", Reading::from_memory);
inline constexpr Source ferrari_2017 =
    study("Ferrari et al. 2017, Open Sports Sci J 10:81-86",
          "15 + 15 men; bench press, triceps extension, curl and row at 60, 75 and 90 %",
          "reps did not differ among these lifts; no bench variation was tested");
inline constexpr Source swinton_2011 =
    study("Swinton et al. 2011, J Strength Cond Res 25(7):2000-2009", "19 male powerlifters; 1RM");
inline constexpr Source lake_2017 =
    study("Lake et al. 2017, Sports 5(4):82", "11 men proficient in both lifts; 1RM");
inline constexpr Source lockie_2018 =
    study("Lockie et al. 2018, J Strength Cond Res 32(1):150-161",
          "31 strength-trained men and women; 1RM", "", Reading::from_memory);
inline constexpr Source gullett_2009 =
    study("Gullett et al. 2009, J Strength Cond Res 23(1):284-292",
          "15 healthy trained men and women; 70 % of each 1RM", "", Reading::from_memory);
inline constexpr Source glassbrook_2017 =
    study("Glassbrook et al. 2017, J Strength Cond Res",
          "18 powerlifters, weightlifters and recreational lifters");
inline constexpr Source wong_2013 =
    study("Wong et al. 2013, J Sports Sci Med 12:38-43", "29 physically active students; 6RM");
inline constexpr Source ebben_2011 =
    study("Ebben et al. 2011, J Strength Cond Res 25(10):2891-2894",
          "14 men and 9 women, recreationally fit; peak force under the hands",
          "the order of the variations was read in the abstract, the figure is from memory",
          Reading::from_memory);
inline constexpr Source competition_rules{
    .citation = "International Powerlifting Federation, technical rules, bench press, 2023",
    .population = "",
    .evidence = Evidence::standard,
    .reading = Reading::read,
    .note = ""};
inline constexpr Source safety_reports =
    study("Lombardi & Troxel 2003, Med Sci Sports Exerc 35(5 Suppl):S203, and their 2012 poster",
          "US deaths and injuries in weight training");
inline constexpr Source handbook_spotting{
    .citation = "Haff & Triplett (eds) 2016, Essentials of Strength Training and Conditioning",
    .population = "",
    .evidence = Evidence::handbook,
    .reading = Reading::from_memory,
    .note = ""};
inline constexpr Source dysreflexia{
    .citation =
        "Consortium for Spinal Cord Medicine 2001, Acute management of autonomic dysreflexia",
    .population = "people with spinal cord injury at or above the sixth thoracic vertebra",
    .evidence = Evidence::handbook,
    .reading = Reading::from_memory,
    .note = ""};
inline constexpr Source practice = common_practice("");
inline constexpr Source inference = assumption("");

[[nodiscard]] constexpr Finding found(std::string_view what, double ratio,
                                      const Source& source) noexcept {
  Range<double> value;
  value.low = value.typical = value.high = ratio;
  return {.what = what, .value = value, .source = source};
}
[[nodiscard]] constexpr Finding found(std::string_view what, const Range<double>& ratio,
                                      const Source& source) noexcept {
  return {.what = what, .value = ratio, .source = source};
}
/// A finding without a figure: a direction, or that nothing is known.
[[nodiscard]] constexpr Finding only(std::string_view what, const Source& source) noexcept {
  return {.what = what, .value = {}, .source = source};
}

[[nodiscard]] constexpr Note requirement(std::string_view text, const Source& source) noexcept {
  return {.kind = NoteKind::requirement, .text = text, .source = source};
}
[[nodiscard]] constexpr Note caution(std::string_view text, const Source& source) noexcept {
  return {.kind = NoteKind::caution, .text = text, .source = source};
}
[[nodiscard]] constexpr Note benefit(std::string_view text, const Source& source) noexcept {
  return {.kind = NoteKind::benefit, .text = text, .source = source};
}
[[nodiscard]] constexpr Note remark(std::string_view text, const Source& source) noexcept {
  return {.kind = NoteKind::remark, .text = text, .source = source};
}

inline constexpr Source soares_caldeira_2009 =
    study("Soares-Caldeira et al. 2009, J Strength Cond Res 23(7):2039-2045",
          "27 women, trained then detrained; 5 test days");
inline constexpr Source ritti_dias_2011 =
    study("Ritti-Dias et al. 2011, J Strength Cond Res 25",
          "30 men, with and without experience; 4 test days",
          "an abstract copied on another page was read; title and volume from memory");
inline constexpr Source mookerjee_1999_retest =
    study("Mookerjee & Ratamess 1999, J Strength Cond Res 13(1):76-81",
          "5 strength-trained men; partial bench press, second day");

}  // namespace detail

}  // namespace barwright::inline BARWRIGHT_ABI
