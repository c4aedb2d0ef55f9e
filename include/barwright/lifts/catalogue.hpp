// barwright/lifts/catalogue.hpp - the lifts and modifiers whose figures are known, and how well
//
// The bench press, squat, deadlift and overhead press with their usual changes, and a few more base
// lifts for counting a week. Every ratio comes with the findings it was chosen from, read or
// recalled; where studies disagree the range spans them all. No study seen reports how far single
// lifters lie from the mean ratio, so the ends of every range are this library's assumption: about
// five points either side of the likeliest value, and wider where findings disagree. A group's
// standard deviation in kilograms is never taken for the spread of a ratio.
//
// Feet-up and flat-back pressing have no published ratio. Their figures are common practice, no
// source. Whoever has logged sets of a variation should replace its ratio by their own.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <initializer_list>
#include <iosfwd>
#include <optional>
#include <span>
#include <string_view>

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/core/source.hpp"
#include "barwright/lifts/variation.hpp"

namespace barwright::inline BARWRIGHT_ABI {

// ---- sources ------------------------------------------------------------------------------------

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
    "the abstract seen gives only the gain on the second day", Reading::recalled);
inline constexpr Source ferrari_2017 =
    study("Ferrari et al. 2017, Open Sports Sci J 10:81-86",
          "15 + 15 men; bench press, triceps extension, curl and row at 60, 75 and 90 %",
          "repetitions did not differ among these lifts; no bench variation was tested");
inline constexpr Source swinton_2011 =
    study("Swinton et al. 2011, J Strength Cond Res 25(7):2000-2009", "19 male powerlifters; 1RM");
inline constexpr Source lake_2017 =
    study("Lake et al. 2017, Sports 5(4):82", "11 men proficient in both lifts; 1RM");
inline constexpr Source lockie_2018 =
    study("Lockie et al. 2018, J Strength Cond Res 32(1):150-161",
          "31 strength-trained men and women; 1RM", "", Reading::recalled);
inline constexpr Source gullett_2009 =
    study("Gullett et al. 2009, J Strength Cond Res 23(1):284-292",
          "15 healthy trained men and women; 70 % of each 1RM", "", Reading::recalled);
inline constexpr Source glassbrook_2017 =
    study("Glassbrook et al. 2017, J Strength Cond Res",
          "18 powerlifters, weightlifters and recreational lifters");
inline constexpr Source wong_2013 =
    study("Wong et al. 2013, J Sports Sci Med 12:38-43", "29 physically active students; 6RM");
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
    .reading = Reading::recalled,
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

// ---- base lifts: what is known ------------------------------------------------------------------

inline constexpr std::array<std::string_view, 2> bench_press_aliases{"bench", "flat bench press"};
inline constexpr std::array bench_press_notes{
    caution("Press with a spotter, or inside safeties checked for this body position: with the bar "
            "lowered onto them, neck and chest are clear. Deaths on record are mostly bench "
            "presses done alone.",
            safety_reports),
};

inline constexpr std::array<std::string_view, 2> squat_aliases{"back squat", "barbell squat"};
inline constexpr std::array squat_notes{
    caution("A free-weight lift with the bar on the shoulders needs a spotter.", handbook_spotting),
    caution("Inside safeties, check that the deepest position just clears them.", inference),
};
inline constexpr std::array<std::string_view, 2> deadlift_aliases{"conventional deadlift",
                                                                  "barbell deadlift"};
inline constexpr std::array<std::string_view, 5> overhead_press_aliases{
    "OHP", "shoulder press", "military press", "standing press", "standing overhead press"};
inline constexpr std::array overhead_press_findings{
    found("seated overhead press against flat bench press, men", 0.716, garcia_ramos_2019),
    found("seated overhead press against flat bench press, women", 0.822, garcia_ramos_2019),
};
inline constexpr std::array overhead_press_notes{
    caution("A free-weight lift over the head needs a spotter.", handbook_spotting),
    remark("Dumbbell shoulder press 6RM = 0.42 x bench press 6RM + 5.84 kg, error 6.5 to 8.5 %; "
           "whether one dumbbell or both is not stated. Valid inside that group only.",
           wong_2013),
};

inline constexpr std::array leg_press_notes{
    caution("Its stops are all that catches a missed repetition: set and try them before any plate "
            "goes on.",
            common_practice("what runs in a frame is caught by its stops")),
};

inline constexpr std::array<std::string_view, 3> barbell_row_aliases{"row", "bent-over row",
                                                                     "bent row"};
inline constexpr std::array<std::string_view, 2> bench_pull_aliases{"prone row", "bench row"};
inline constexpr std::array<std::string_view, 1> pull_up_aliases{"chin-up"};
inline constexpr std::array<std::string_view, 2> romanian_deadlift_aliases{"RDL",
                                                                           "stiff-leg deadlift"};
inline constexpr std::array<std::string_view, 2> biceps_curl_aliases{"curl", "barbell curl"};
inline constexpr std::array<std::string_view, 1> leg_curl_aliases{"hamstring curl"};

}  // namespace detail

/// Base lifts. Which muscles they count for is common practice; that the bench press counts half a
/// set for lower back, glutes and quadriceps (arch and leg drive) is this library's assumption.
namespace lifts {

inline constexpr BaseLift bench_press{
    .key = "bench_press",
    .name = "bench press",
    .aliases = detail::bench_press_aliases,
    .family = LiftFamily::horizontal_press,
    .region = Region::upper_body,
    .muscles = Muscles::of({MuscleGroup::chest},
                           {MuscleGroup::front_shoulders, MuscleGroup::triceps,
                            MuscleGroup::lower_back, MuscleGroup::glutes, MuscleGroup::quadriceps}),
    .notes = detail::bench_press_notes,
};
inline constexpr BaseLift squat{
    .key = "squat",
    .name = "squat",
    .aliases = detail::squat_aliases,
    .family = LiftFamily::squat,
    .region = Region::lower_body,
    .muscles = Muscles::of({MuscleGroup::quadriceps, MuscleGroup::glutes},
                           {MuscleGroup::hamstrings, MuscleGroup::lower_back, MuscleGroup::trunk}),
    .notes = detail::squat_notes,
};
inline constexpr BaseLift deadlift{
    .key = "deadlift",
    .name = "deadlift",
    .aliases = detail::deadlift_aliases,
    .family = LiftFamily::deadlift,
    .region = Region::lower_body,
    .muscles = Muscles::of({MuscleGroup::glutes, MuscleGroup::hamstrings, MuscleGroup::lower_back},
                           {MuscleGroup::quadriceps, MuscleGroup::upper_back, MuscleGroup::lats,
                            MuscleGroup::trunk, MuscleGroup::forearms}),
};
inline constexpr BaseLift overhead_press{
    .key = "overhead_press",
    .name = "overhead press",
    .aliases = detail::overhead_press_aliases,
    .family = LiftFamily::overhead_press,
    .region = Region::upper_body,
    .muscles = Muscles::of({MuscleGroup::front_shoulders},
                           {MuscleGroup::side_shoulders, MuscleGroup::triceps,
                            MuscleGroup::lower_back, MuscleGroup::trunk, MuscleGroup::glutes}),
    .notes = detail::overhead_press_notes,
    .findings = detail::overhead_press_findings,
};
inline constexpr BaseLift barbell_row{
    .key = "barbell_row",
    .name = "barbell row",
    .aliases = detail::barbell_row_aliases,
    .family = LiftFamily::pull,
    .region = Region::upper_body,
    .muscles = Muscles::of({MuscleGroup::upper_back, MuscleGroup::lats},
                           {MuscleGroup::rear_shoulders, MuscleGroup::biceps, MuscleGroup::forearms,
                            MuscleGroup::lower_back, MuscleGroup::hamstrings}),
};
inline constexpr BaseLift bench_pull{
    .key = "bench_pull",
    .name = "bench pull",
    .aliases = detail::bench_pull_aliases,
    .family = LiftFamily::pull,
    .region = Region::upper_body,
    .muscles =
        Muscles::of({MuscleGroup::upper_back, MuscleGroup::lats},
                    {MuscleGroup::rear_shoulders, MuscleGroup::biceps, MuscleGroup::forearms}),
};
inline constexpr BaseLift pull_up{
    .key = "pull_up",
    .name = "pull-up",
    .aliases = detail::pull_up_aliases,
    .family = LiftFamily::pull,
    .region = Region::upper_body,
    .is_bodyweight = true,
    .muscles = Muscles::of({MuscleGroup::lats},
                           {MuscleGroup::upper_back, MuscleGroup::biceps, MuscleGroup::forearms}),
};
inline constexpr BaseLift dip{
    .key = "dip",
    .name = "dip",
    .family = LiftFamily::horizontal_press,
    .region = Region::upper_body,
    .is_bodyweight = true,
    .muscles =
        Muscles::of({MuscleGroup::chest, MuscleGroup::triceps}, {MuscleGroup::front_shoulders}),
};
inline constexpr BaseLift push_up{
    .key = "push_up",
    .name = "push-up",
    .family = LiftFamily::horizontal_press,
    .region = Region::upper_body,
    .is_bodyweight = true,
    .muscles = Muscles::of({MuscleGroup::chest}, {MuscleGroup::front_shoulders,
                                                  MuscleGroup::triceps, MuscleGroup::trunk}),
};
inline constexpr BaseLift leg_press{
    .key = "leg_press",
    .name = "leg press",
    .family = LiftFamily::squat,
    .region = Region::lower_body,
    .is_machine = true,
    .muscles = Muscles::of({MuscleGroup::quadriceps}, {MuscleGroup::glutes}),
    .notes = detail::leg_press_notes,
};
inline constexpr BaseLift romanian_deadlift{
    .key = "romanian_deadlift",
    .name = "Romanian deadlift",
    .aliases = detail::romanian_deadlift_aliases,
    .family = LiftFamily::deadlift,
    .region = Region::lower_body,
    .muscles = Muscles::of({MuscleGroup::hamstrings, MuscleGroup::glutes},
                           {MuscleGroup::lower_back, MuscleGroup::forearms}),
};
inline constexpr BaseLift leg_curl{
    .key = "leg_curl",
    .name = "leg curl",
    .aliases = detail::leg_curl_aliases,
    .family = LiftFamily::single_joint,
    .region = Region::lower_body,
    .is_machine = true,
    .muscles = Muscles::of({MuscleGroup::hamstrings}, {}),
};
inline constexpr BaseLift biceps_curl{
    .key = "biceps_curl",
    .name = "biceps curl",
    .aliases = detail::biceps_curl_aliases,
    .family = LiftFamily::single_joint,
    .region = Region::upper_body,
    .muscles = Muscles::of({MuscleGroup::biceps}, {MuscleGroup::forearms}),
};

}  // namespace lifts

// ---- modifiers: what is known -------------------------------------------------------------------

namespace detail {

inline constexpr std::array<std::string_view, 1> on_bench_press{"bench_press"};
inline constexpr std::array<std::string_view, 1> on_overhead_press{"overhead_press"};
inline constexpr std::array<std::string_view, 1> on_squat{"squat"};
inline constexpr std::array<std::string_view, 1> on_deadlift{"deadlift"};

// Said of every press without leg drive or arch.
inline constexpr Note last_rep_note = caution(
    "The last repetition can be missed without warning: the loss shows at lockout. Keep "
    "more in reserve than on the flat bench, and safeties or a spotter ready.",
    practice);
inline constexpr Note recheck_safeties_note = caution(
    "Check the safeties again lying like this: without an arch to give up, the height that "
    "lets the bar touch the chest and the height that clears it nearly coincide. Clearing "
    "neck and face comes first.",
    inference);
inline constexpr Note training_lift_note =
    remark("A training lift only: in competition feet, head, shoulders and buttocks stay down.",
           competition_rules);
inline constexpr Note spares_back_note = benefit(
    "Asks less of lower back and hips than pressing with leg drive, so it suits the day "
    "after lower-body work.",
    practice);
inline constexpr Note near_max_note = remark(
    "Near the max the triceps and front shoulders do more of the work, at lower percentages "
    "the chest.",
    practice);
inline constexpr std::array fewer_reps_findings{
    only("at the same percentage fewer repetitions are left than on the flat bench", practice),
    found("repetitions at the same percentage, among four upper-body lifts", 1.0, ferrari_2017),
};
inline constexpr Range<double> fewer_reps{0.80, 0.90, 1.00};

inline constexpr std::array<std::string_view, 3> feet_up_aliases{"legs up", "feet on the bench",
                                                                 "without leg drive"};
inline constexpr std::array feet_up_findings{
    found("at a max of 100 kg (two 20 kg or 45 lb plates a side)", 0.95, practice),
    found("at a max of 140 kg (three plates a side)", 0.90, practice),
    only("no max was measured; at the same load chest, shoulders, triceps, trunk and hip flexors "
         "were all more active feet-up",
         muyor_2019),
    only("leg drive made no difference to the gain in 5 weeks of training", leg_drive_2021),
    only("near 0.95, from 0.88 to 1.00, for feet-up and flat-back together would cover the "
         "neighbouring published results",
         inference),
};
inline constexpr std::array feet_up_notes{
    last_rep_note,
    recheck_safeties_note,
    caution("Feet off the floor take away the widest support: put a foot down rather than save a "
            "repetition that tips.",
            inference),
    spares_back_note,
    near_max_note,
    remark("The pull of the hip flexors on the lower back was left open by the one study.",
           muyor_2019),
    training_lift_note,
};

inline constexpr std::array<std::string_view, 3> flat_back_aliases{"no arch", "no retraction",
                                                                   "without retraction"};
inline constexpr std::array flat_back_findings{
    found("flat back without shoulder-blade retraction, on top of feet-up: likelier the low end of "
          "5 to 10 %",
          {0.90, 0.95, 0.95}, practice),
    found("flat back against a moderate arch", 1.002, garcia_ramos_2021_arch),
    found("flat back against arched back", {0.96, 0.965, 0.97}, bartolomei_2024),
};
inline constexpr std::array flat_back_notes{
    requirement("Push-ups and dips first, to learn how the shoulder blades move.", practice),
    remark("It starts near 50 % of the estimated max, not 70 %: the movement without retraction is "
           "new even to a strong presser.",
           practice),
    last_rep_note,
    recheck_safeties_note,
    benefit("Pays off for lifters whose upper arm stops level with the bench or just above it when "
            "the bar is at the chest.",
            practice),
    benefit("Adds little for very long arms, whose press is deep already.", practice),
    near_max_note,
};

inline constexpr std::array<std::string_view, 3> incline_aliases{"incline press", "inclined",
                                                                 "incline bench"};
inline constexpr std::array incline_findings{
    found("incline against flat, wide grip, competitors", 0.823, saeterbakken_2017),
    found("incline against flat, men", 0.931, garcia_ramos_2019),
    found("incline against flat, women", 0.916, garcia_ramos_2019),
};
inline constexpr std::array incline_notes{
    remark("The studies disagree: expect the lower end from skilled flat-bench pressers and steep "
           "benches.",
           inference),
};

inline constexpr std::array<std::string_view, 3> wedged_incline_aliases{
    "wedged", "incline wedged against the seat", "seat-wedged incline"};
inline constexpr std::array wedged_incline_findings{
    only("about 5 % less than the same incline unwedged: the incline's ratio times 0.95", practice),
    found("incline against flat, wide grip, competitors", 0.823, saeterbakken_2017),
    found("incline against flat, men", 0.931, garcia_ramos_2019),
    found("incline against flat, women", 0.916, garcia_ramos_2019),
};
inline constexpr std::array wedged_incline_notes{last_rep_note, recheck_safeties_note,
                                                 spares_back_note};

inline constexpr std::array<std::string_view, 2> decline_aliases{"decline press", "declined"};
inline constexpr std::array decline_findings{
    found("decline against flat, wide grip, competitors; not significant", 0.975,
          saeterbakken_2017_grip),
};

inline constexpr std::array<std::string_view, 2> close_grip_aliases{"narrow grip", "narrow"};
inline constexpr std::array close_grip_findings{
    found("narrow against medium grip, competitors", 0.951, saeterbakken_2017_grip),
    found("narrow against medium grip, recreational", 0.952, larsen_2021),
    found("narrow against wide grip, competitors", 0.898, saeterbakken_2017_grip),
    found("narrow against wide grip, recreational", 0.944, larsen_2021),
    found("close against wide grip, women", 1.047, wilk_2019),
    found("close against wide grip, women", 1.043, gepfert_2019),
    found("1.5 shoulder widths or less against wider", {0.95, 1.0, 1.05}, green_comfort_2007),
};
inline constexpr std::array close_grip_notes{
    benefit("More of the work for the triceps.", practice),
    remark("Narrower than 1.5 shoulder widths may be kinder to the shoulder than wider.",
           green_comfort_2007),
};

inline constexpr std::array wide_grip_findings{
    found("wide against medium grip, competitors (1 / 0.945)", 1.058, saeterbakken_2017_grip),
    found("wide against medium grip, recreational (1 / 0.992)", 1.008, larsen_2021),
    found("wide against close grip, women (1 / 1.047)", 0.955, wilk_2019),
    found("wide against close grip, women (1 / 1.043)", 0.959, gepfert_2019),
    only("the two moderate widths of six beat narrow and very wide", wagner_1992),
};
inline constexpr std::array wide_grip_notes{
    caution("A grip above 1.5 shoulder widths may raise the risk to shoulder joint, collarbone end "
            "and chest muscle.",
            green_comfort_2007),
    remark("In competition the grip is at most 81 cm wide.", competition_rules),
};

inline constexpr std::array<std::string_view, 3> dumbbells_aliases{"dumbbell", "with dumbbells",
                                                                   "db"};
inline constexpr std::array dumbbells_findings{
    found("both dumbbells together against the barbell", 0.83, saeterbakken_2011),
    found("both dumbbells together against a guided rail", 0.86, saeterbakken_2011),
};
inline constexpr std::array dumbbells_notes{
    remark("The ratio is for both dumbbells together: halve it for each.", saeterbakken_2011),
    caution("Safeties do not catch dumbbells: have help getting heavy ones into place, and end the "
            "set before one must be dropped.",
            practice),
};

inline constexpr std::array<std::string_view, 3> guided_rail_aliases{"smith", "smith machine",
                                                                     "rail"};
inline constexpr std::array guided_rail_findings{
    found("guided rail against barbell", 0.97, saeterbakken_2011),
};
inline constexpr std::array guided_rail_notes{
    caution("Set the stops of the rail before the first repetition.", practice),
};

inline constexpr std::array<std::string_view, 3> exercise_ball_aliases{"ball", "swiss ball",
                                                                       "stability ball"};
inline constexpr std::array exercise_ball_findings{
    found("exercise ball against stable bench, no difference", 1.00, goodman_2008),
    found("exercise ball against stable bench", 0.92, saeterbakken_2013_surface),
};
inline constexpr std::array unstable_surface_notes{
    caution("The surface can move or give way: light loads, a spotter, and equipment rated for "
            "lifter and load together.",
            practice),
};
inline constexpr std::array<std::string_view, 2> balance_cushion_aliases{"cushion", "balance disc"};
inline constexpr std::array balance_cushion_findings{
    found("balance cushion against stable bench", 0.93, saeterbakken_2013_surface),
};

inline constexpr std::array<std::string_view, 3> dead_start_aliases{"dead stop", "pin press",
                                                                    "from pins"};
inline constexpr std::array dead_start_findings{
    found("lifting phase only against touch-and-go, men", 0.928, garcia_ramos_2021_dead_start),
    found("lifting phase only against touch-and-go, women", 0.929, garcia_ramos_2021_dead_start),
};
inline constexpr std::array<std::string_view, 2> pause_aliases{"paused", "with pause"};
inline constexpr std::array pause_findings{
    only("no ratio was found; it lies between the dead start (0.93) and touch-and-go (1)",
         inference),
};
inline constexpr std::array<std::string_view, 3> slow_lowering_aliases{"slow eccentric", "tempo",
                                                                       "slow negative"};
inline constexpr std::array slow_lowering_findings{
    only("4 s or 6 s of lowering gives a lower max than 2 s; by how much was not seen", wilk_2020),
};
inline constexpr std::array<std::string_view, 3> partial_range_aliases{"partial", "partials",
                                                                       "board press"};
inline constexpr std::array partial_range_findings{
    only("the max rises as the range falls; by how much was not seen", martinez_cava_2019),
    found("partial against full range", 1.118, mookerjee_1999),
};

inline constexpr std::array partial_range_notes{
    requirement("Pins of a rack at the height where the press is to start, or a board on the chest "
                "and somebody to hold it.",
                practice),
};

inline constexpr std::array<std::string_view, 2> seated_aliases{"sitting", "seat"};
inline constexpr std::array seated_findings{
    found("seated against standing, with dumbbells (1 / 0.90)", 1.111, saeterbakken_2013_overhead),
    only("no ratio was found for the barbell", inference),
};
inline constexpr std::array seated_notes{
    benefit("Asks less of lower back and hips than standing, so it suits the day after lower-body "
            "work.",
            practice),
};
inline constexpr std::array overhead_dumbbells_findings{
    found("standing, dumbbells against barbell", 0.93, saeterbakken_2013_overhead),
};

inline constexpr std::array<std::string_view, 1> front_squat_aliases{"front"};
inline constexpr std::array front_squat_findings{
    found("front against back squat, testing loads", 0.785, gullett_2009),
    found("often quoted", {0.80, 0.825, 0.85}, practice),
};
inline constexpr std::array<std::string_view, 1> high_bar_aliases{"high-bar squat"};
inline constexpr std::array high_bar_findings{
    only("the low bar position carries more; by how much was not seen", glassbrook_2017),
};
inline constexpr std::array<std::string_view, 1> box_squat_aliases{"box"};
inline constexpr std::array no_ratio_findings{only("no ratio was found", inference)};

inline constexpr std::array<std::string_view, 3> hexagonal_bar_aliases{"hex bar", "trap bar",
                                                                       "hexagonal"};
inline constexpr std::array hexagonal_bar_findings{
    found("hexagonal bar against conventional", 1.082, swinton_2011),
    found("hexagonal bar against conventional", 1.060, lake_2017),
};
inline constexpr std::array<std::string_view, 3> high_handles_aliases{
    "high handle", "hex bar high handles", "high-handle hexagonal bar"};
inline constexpr std::array high_handles_findings{
    found("hexagonal bar by its high handles against conventional", 1.147, lockie_2018),
};
inline constexpr std::array<std::string_view, 1> sumo_aliases{"sumo deadlift"};

}  // namespace detail

/// Changes to the base lifts. Ratios and rep stretches without a remark rest on the findings listed
/// with them; a rep stretch that is not set is 1, from 0.9 to 1.1: an assumption.
namespace modifiers {

// -- bench press --

/// Feet off the floor: on the bench or in the air.
inline constexpr Modifier feet_up =
    Modifier("feet_up", "feet up",
             StrengthScaling(Mass::from_kg(100), {0.90, 0.95, 1.00}, Mass::from_kg(140),
                             {0.85, 0.90, 0.95}),
             Evidence::common_practice, detail::feet_up_findings)
        .with_rep_stretch(detail::fewer_reps, Evidence::assumption, detail::fewer_reps_findings)
        .with_aliases(detail::feet_up_aliases)
        .with_lifts(detail::on_bench_press)
        .with_setup(Setup::feet)
        .with_muscles(MuscleShift::of(
            {MuscleGroup::trunk, MuscleGroup::hip_flexors},
            {MuscleGroup::lower_back, MuscleGroup::glutes, MuscleGroup::quadriceps}))
        .with_notes(detail::feet_up_notes);

/// No arch and no shoulder-blade retraction. The studies compared arches and kept the retraction.
inline constexpr Modifier flat_back =
    Modifier("flat_back", "flat back", {0.90, 0.95, 1.02}, Evidence::common_practice,
             detail::flat_back_findings)
        .with_rep_stretch(detail::fewer_reps, Evidence::assumption, detail::fewer_reps_findings)
        .with_starting_share(0.50)
        .with_aliases(detail::flat_back_aliases)
        .with_lifts(detail::on_bench_press)
        .with_setup(Setup::back)
        .with_muscles(MuscleShift::of({}, {MuscleGroup::lower_back}))
        .with_notes(detail::flat_back_notes);

inline constexpr Modifier incline =
    Modifier("incline", "incline", {0.80, 0.88, 0.95}, Evidence::published,
             detail::incline_findings)
        .with_aliases(detail::incline_aliases)
        .with_lifts(detail::on_bench_press)
        .with_setup(Setup::bench_angle)
        .with_muscles(MuscleShift::of({MuscleGroup::front_shoulders}, {}))
        .with_notes(detail::incline_notes);

/// An incline press wedged against the seat; the ratio is to the flat bench press, and includes the
/// incline.
inline constexpr Modifier wedged_incline =
    Modifier("wedged_incline", "incline, wedged against the seat",
             stacked(incline.ratio_figure().value, {0.93, 0.95, 0.97}, Stacking::bounds),
             Evidence::common_practice, detail::wedged_incline_findings)
        .with_rep_stretch(detail::fewer_reps, Evidence::assumption, detail::fewer_reps_findings)
        .with_aliases(detail::wedged_incline_aliases)
        .with_lifts(detail::on_bench_press)
        .with_setup(Setup::bench_angle | Setup::feet)
        .with_muscles(MuscleShift::of(
            {MuscleGroup::front_shoulders},
            {MuscleGroup::lower_back, MuscleGroup::glutes, MuscleGroup::quadriceps}))
        .with_notes(detail::wedged_incline_notes);

inline constexpr Modifier decline =
    Modifier("decline", "decline", {0.93, 0.975, 1.02}, Evidence::published,
             detail::decline_findings)
        .with_aliases(detail::decline_aliases)
        .with_lifts(detail::on_bench_press)
        .with_setup(Setup::bench_angle)
        .with_muscles(MuscleShift::of({}, {MuscleGroup::front_shoulders}));

/// Against the lifter's usual grip.
inline constexpr Modifier close_grip =
    Modifier("close_grip", "close grip", {0.90, 0.95, 1.05}, Evidence::published,
             detail::close_grip_findings)
        .with_aliases(detail::close_grip_aliases)
        .with_lifts(detail::on_bench_press)
        .with_setup(Setup::grip_width)
        .with_muscles(MuscleShift::of({MuscleGroup::triceps}, {}))
        .with_notes(detail::close_grip_notes);

/// Against the lifter's usual grip.
inline constexpr Modifier wide_grip = Modifier("wide_grip", "wide grip", {0.95, 1.00, 1.06},
                                               Evidence::published, detail::wide_grip_findings)
                                          .with_lifts(detail::on_bench_press)
                                          .with_setup(Setup::grip_width)
                                          .with_notes(detail::wide_grip_notes);

/// Both dumbbells together.
inline constexpr Modifier dumbbells = Modifier("dumbbells", "dumbbells", {0.78, 0.83, 0.88},
                                               Evidence::published, detail::dumbbells_findings)
                                          .with_aliases(detail::dumbbells_aliases)
                                          .with_lifts(detail::on_bench_press)
                                          .with_setup(Setup::implement | Setup::grip_width)
                                          .with_notes(detail::dumbbells_notes);

/// A bar that runs on rails.
inline constexpr Modifier guided_rail = Modifier("guided_rail", "guided rail", {0.92, 0.97, 1.02},
                                                 Evidence::published, detail::guided_rail_findings)
                                            .with_aliases(detail::guided_rail_aliases)
                                            .with_lifts(detail::on_bench_press)
                                            .with_setup(Setup::implement)
                                            .with_notes(detail::guided_rail_notes);

/// On a large ball in place of the bench. Starting at 50 % is an assumption.
inline constexpr Modifier exercise_ball =
    Modifier("exercise_ball", "exercise ball", {0.90, 0.96, 1.01}, Evidence::published,
             detail::exercise_ball_findings)
        .with_starting_share(0.50)
        .with_aliases(detail::exercise_ball_aliases)
        .with_lifts(detail::on_bench_press)
        .with_setup(Setup::surface | Setup::feet | Setup::bench_angle)
        .with_muscles(MuscleShift::of({MuscleGroup::trunk}, {}))
        .with_notes(detail::unstable_surface_notes);

/// On air-filled cushions on the bench. Starting at 50 % is an assumption.
inline constexpr Modifier balance_cushion =
    Modifier("balance_cushion", "balance cushion", {0.88, 0.93, 0.98}, Evidence::published,
             detail::balance_cushion_findings)
        .with_starting_share(0.50)
        .with_aliases(detail::balance_cushion_aliases)
        .with_lifts(detail::on_bench_press)
        .with_setup(Setup::surface)
        .with_muscles(MuscleShift::of({MuscleGroup::trunk}, {}))
        .with_notes(detail::unstable_surface_notes);

/// Lifted from supports at chest height, without lowering the bar first.
inline constexpr Modifier dead_start = Modifier("dead_start", "dead start", {0.88, 0.93, 0.97},
                                                Evidence::published, detail::dead_start_findings)
                                           .with_aliases(detail::dead_start_aliases)
                                           .with_lifts(detail::on_bench_press)
                                           .with_setup(Setup::lowering | Setup::turnaround);

/// The bar lowered, held still on the chest, then pressed. Only its bounds are known.
inline constexpr Modifier pause =
    Modifier("pause", "paused", {0.93, 0.97, 1.00}, Evidence::assumption, detail::pause_findings)
        .with_aliases(detail::pause_aliases)
        .with_lifts(detail::on_bench_press)
        .with_setup(Setup::turnaround);

/// Four to six seconds of lowering. Only the direction is known.
inline constexpr Modifier slow_lowering =
    Modifier("slow_lowering", "slow lowering", {0.85, 0.95, 1.00}, Evidence::assumption,
             detail::slow_lowering_findings)
        .with_rep_stretch({0.70, 0.90, 1.00})
        .with_aliases(detail::slow_lowering_aliases)
        .with_lifts(detail::on_bench_press)
        .with_setup(Setup::lowering);

/// The upper part of the press, from pins or boards. How much more depends on how much is left out.
inline constexpr Modifier partial_range =
    Modifier("partial_range", "partial range", {1.00, 1.10, 1.30}, Evidence::assumption,
             detail::partial_range_findings)
        .with_aliases(detail::partial_range_aliases)
        .with_lifts(detail::on_bench_press)
        .with_setup(Setup::range_of_motion)
        .with_notes(detail::partial_range_notes);

// -- overhead press --

inline constexpr Modifier seated =
    Modifier("seated", "seated", {1.00, 1.05, 1.12}, Evidence::assumption, detail::seated_findings)
        .with_aliases(detail::seated_aliases)
        .with_lifts(detail::on_overhead_press)
        .with_setup(Setup::posture)
        .with_muscles(MuscleShift::of({}, {MuscleGroup::lower_back, MuscleGroup::glutes}))
        .with_notes(detail::seated_notes);

/// Both dumbbells together.
inline constexpr Modifier overhead_dumbbells =
    Modifier("overhead_dumbbells", "dumbbells", {0.88, 0.93, 0.98}, Evidence::published,
             detail::overhead_dumbbells_findings)
        .with_aliases(detail::dumbbells_aliases)
        .with_lifts(detail::on_overhead_press)
        .with_setup(Setup::implement | Setup::grip_width)
        .with_notes(detail::dumbbells_notes);

// -- squat --

inline constexpr Modifier front_squat = Modifier("front_squat", "front squat", {0.75, 0.81, 0.87},
                                                 Evidence::published, detail::front_squat_findings)
                                            .with_aliases(detail::front_squat_aliases)
                                            .with_lifts(detail::on_squat)
                                            .with_setup(Setup::bar_position);

/// For a lifter whose usual squat is low-bar. Only the direction is known.
inline constexpr Modifier high_bar = Modifier("high_bar", "high bar", {0.88, 0.95, 1.00},
                                              Evidence::assumption, detail::high_bar_findings)
                                         .with_aliases(detail::high_bar_aliases)
                                         .with_lifts(detail::on_squat)
                                         .with_setup(Setup::bar_position);

/// Nothing is known about its ratio.
inline constexpr Modifier box_squat = Modifier("box_squat", "box squat", {0.80, 0.95, 1.10},
                                               Evidence::assumption, detail::no_ratio_findings)
                                          .with_aliases(detail::box_squat_aliases)
                                          .with_lifts(detail::on_squat)
                                          .with_setup(Setup::turnaround | Setup::range_of_motion);

// -- deadlift --

inline constexpr Modifier hexagonal_bar =
    Modifier("hexagonal_bar", "hexagonal bar", {1.02, 1.07, 1.12}, Evidence::published,
             detail::hexagonal_bar_findings)
        .with_aliases(detail::hexagonal_bar_aliases)
        .with_lifts(detail::on_deadlift)
        .with_setup(Setup::implement | Setup::stance)
        .with_muscles(MuscleShift::of({MuscleGroup::quadriceps}, {MuscleGroup::lower_back}));

/// The hexagonal bar by its raised handles; the ratio is to the conventional deadlift.
inline constexpr Modifier high_handles =
    Modifier("high_handles", "hexagonal bar, high handles", {1.08, 1.15, 1.22}, Evidence::published,
             detail::high_handles_findings)
        .with_aliases(detail::high_handles_aliases)
        .with_lifts(detail::on_deadlift)
        .with_setup(Setup::implement | Setup::stance | Setup::range_of_motion)
        .with_muscles(MuscleShift::of({MuscleGroup::quadriceps}, {MuscleGroup::lower_back}));

/// Nothing is known about its ratio within one person.
inline constexpr Modifier sumo =
    Modifier("sumo", "sumo", {0.90, 1.00, 1.10}, Evidence::assumption, detail::no_ratio_findings)
        .with_aliases(detail::sumo_aliases)
        .with_lifts(detail::on_deadlift)
        .with_setup(Setup::stance | Setup::grip_width);

}  // namespace modifiers

// ---- learning -----------------------------------------------------------------------------------

namespace detail {

inline constexpr Source soares_caldeira_2009 =
    study("Soares-Caldeira et al. 2009, J Strength Cond Res 23(7):2039-2045",
          "27 women, trained then detrained; 5 test days");
inline constexpr Source ritti_dias_2011 =
    study("Ritti-Dias et al. 2011, J Strength Cond Res 25",
          "30 men, with and without experience; 4 test days",
          "an abstract copied on another page was read; title and volume recalled");
inline constexpr Source mookerjee_1999_retest =
    study("Mookerjee & Ratamess 1999, J Strength Cond Res 13(1):76-81",
          "5 strength-trained men; partial bench press, second day");

inline constexpr std::array learning_findings{
    found("bench press, women", 1.057, soares_caldeira_2009),
    found("squat, women", 1.054, soares_caldeira_2009),
    found("bench press, men without experience", 1.101, ritti_dias_2011),
    found("squat, men without experience", 1.112, ritti_dias_2011),
    only("no such change in experienced men", ritti_dias_2011),
    found("partial bench press, second day", 1.048, mookerjee_1999_retest),
};

}  // namespace detail

/// By how much the max on a lift rises over its first three or four sessions from practice alone:
/// 5 to 10 % in most findings, nothing in people who knew the lift. It is not strength.
inline constexpr Figure learning_gain{.value = {1.00, 1.06, 1.12},
                                      .evidence = Evidence::published,
                                      .findings = detail::learning_findings};

// ---- looking things up --------------------------------------------------------------------------

namespace detail {

inline constexpr std::array all_lifts{
    &lifts::bench_press, &lifts::squat,      &lifts::deadlift,          &lifts::overhead_press,
    &lifts::barbell_row, &lifts::bench_pull, &lifts::pull_up,           &lifts::dip,
    &lifts::push_up,     &lifts::leg_press,  &lifts::romanian_deadlift, &lifts::leg_curl,
    &lifts::biceps_curl};

inline constexpr std::array all_modifiers{&modifiers::feet_up,
                                          &modifiers::flat_back,
                                          &modifiers::incline,
                                          &modifiers::wedged_incline,
                                          &modifiers::decline,
                                          &modifiers::close_grip,
                                          &modifiers::wide_grip,
                                          &modifiers::dumbbells,
                                          &modifiers::guided_rail,
                                          &modifiers::exercise_ball,
                                          &modifiers::balance_cushion,
                                          &modifiers::dead_start,
                                          &modifiers::pause,
                                          &modifiers::slow_lowering,
                                          &modifiers::partial_range,
                                          &modifiers::seated,
                                          &modifiers::overhead_dumbbells,
                                          &modifiers::front_squat,
                                          &modifiers::high_bar,
                                          &modifiers::box_squat,
                                          &modifiers::hexagonal_bar,
                                          &modifiers::high_handles,
                                          &modifiers::sumo};

/// `text` in lower case with single spaces for spaces, hyphens and underscores, none at the ends.
[[nodiscard]] constexpr Text normalised(std::string_view text) noexcept {
  Text plain;
  bool gap = false;
  for (const char c : text) {
    if (c == ' ' || c == '-' || c == '_' || c == '\t' || c == '\r' || c == '\n') {
      gap = true;
      continue;
    }
    if (gap && !plain.view().empty()) plain.append(" ");
    gap = false;
    const char lower = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    plain.append(std::string_view(&lower, 1));
  }
  return plain;
}

/// The fewest letters inserted, left out, replaced or swapped with their neighbour that turn one
/// text into the other. Letters after the 64th do not count.
[[nodiscard]] constexpr std::size_t edit_distance(std::string_view a, std::string_view b) noexcept {
  constexpr std::size_t longest = 64;
  a = a.substr(0, longest);
  b = b.substr(0, longest);
  std::array<std::array<std::size_t, longest + 1>, 3> rows{};  // two back, one back, this one
  for (std::size_t j = 0; j <= b.size(); ++j) rows[1][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    rows[2][0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      std::size_t least = rows[1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      if (rows[1][j] + 1 < least) least = rows[1][j] + 1;
      if (rows[2][j - 1] + 1 < least) least = rows[2][j - 1] + 1;
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] &&
          rows[0][j - 2] + 1 < least) {
        least = rows[0][j - 2] + 1;
      }
      rows[2][j] = least;
    }
    rows[0] = rows[1];
    rows[1] = rows[2];
  }
  return rows[1][b.size()];
}

// Base lifts keep their texts in members, modifiers behind functions.
[[nodiscard]] constexpr std::string_view key_of(const BaseLift& lift) noexcept { return lift.key; }
[[nodiscard]] constexpr std::string_view key_of(const Modifier& m) noexcept { return m.key(); }
[[nodiscard]] constexpr std::string_view name_of(const BaseLift& lift) noexcept {
  return lift.name;
}
[[nodiscard]] constexpr std::string_view name_of(const Modifier& m) noexcept { return m.name(); }
[[nodiscard]] constexpr std::span<const std::string_view> aliases_of(const BaseLift& l) noexcept {
  return l.aliases;
}
[[nodiscard]] constexpr std::span<const std::string_view> aliases_of(const Modifier& m) noexcept {
  return m.aliases();
}

/// How far `text`, normalised, is from the nearest of an item's key, name and aliases: wrong
/// letters in a thousand, so that a short name is not near to everything.
template <class Item>
[[nodiscard]] constexpr std::size_t distance_to(std::string_view text, const Item& item) noexcept {
  std::size_t least = 1000;
  const auto consider = [&](std::string_view other) noexcept {
    const Text plain = normalised(other);
    const std::size_t longer =
        text.size() > plain.view().size() ? text.size() : plain.view().size();
    const std::size_t distance = longer == 0 ? 0 : 1000 * edit_distance(text, plain) / longer;
    if (distance < least) least = distance;
  };
  consider(name_of(item));
  consider(key_of(item));
  for (const std::string_view alias : aliases_of(item)) consider(alias);
  return least;
}

/// Whether two names have the same letters, written apart, together or with a hyphen.
[[nodiscard]] constexpr bool same_letters(std::string_view a, std::string_view b) noexcept {
  const Text left = normalised(a);
  const Text right = normalised(b);
  const auto next = [](std::string_view& text) noexcept {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    const char letter = text.empty() ? '\0' : text.front();
    if (!text.empty()) text.remove_prefix(1);
    return letter;
  };
  for (std::string_view l = left.view(), r = right.view();;) {
    const char letter = next(l);
    if (letter != next(r)) return false;
    if (letter == '\0') return true;
  }
}

template <class Item>
[[nodiscard]] constexpr bool is_called(std::string_view text, const Item& item) noexcept {
  if (same_letters(text, key_of(item)) || same_letters(text, name_of(item))) return true;
  for (const std::string_view alias : aliases_of(item)) {
    if (same_letters(text, alias)) return true;
  }
  return false;
}

}  // namespace detail

/// Names, nearest first.
using NameList = ShortList<std::string_view, 8>;

namespace catalogue {

/// All base lifts.
[[nodiscard]] constexpr Handles<BaseLift> lifts() noexcept { return detail::all_lifts; }

/// All modifiers.
[[nodiscard]] constexpr Handles<Modifier> modifiers() noexcept { return detail::all_modifiers; }

/// The base lift with this key, name or alias, whatever its case, spaces, hyphens and underscores:
/// "Bench-Press", "benchpress" and "bench" are one. Null when there is none.
[[nodiscard]] constexpr const BaseLift* find_lift(std::string_view text) noexcept {
  for (const BaseLift& lift : lifts()) {
    if (detail::is_called(text, lift)) return &lift;
  }
  return nullptr;
}

/// The modifier with this key, name or alias that applies to `base`; null when there is none. Lifts
/// have modifiers of the same name with figures of their own: dumbbells.
[[nodiscard]] constexpr const Modifier* find_modifier(std::string_view text,
                                                      const BaseLift& base) noexcept {
  for (const Modifier& modifier : modifiers()) {
    if (modifier.applies_to(base) && detail::is_called(text, modifier)) return &modifier;
  }
  return nullptr;
}

/// For a change named without its lift: the first base lift that has a modifier of this name, with
/// it; nothing when no lift has one.
[[nodiscard]] constexpr std::optional<Lift> find_lift_with(std::string_view modifier) noexcept {
  for (const BaseLift& base : lifts()) {
    if (const Modifier* found = find_modifier(modifier, base)) return base + *found;
  }
  return std::nullopt;
}

}  // namespace catalogue

namespace detail {

template <class Item, class Filter>
[[nodiscard]] constexpr NameList nearest(std::string_view text, Handles<Item> items,
                                         std::size_t count, Filter filter) {
  const Text plain = normalised(text);
  NameList names;
  std::array<std::size_t, NameList::capacity()> distances{};
  if (count > names.capacity()) count = names.capacity();
  for (const Item& item : items) {
    if (!filter(item)) continue;
    const std::size_t distance = distance_to(plain, item);
    std::size_t place = names.size();
    while (place > 0 && distance < distances[place - 1]) --place;
    if (place == count) continue;
    if (names.size() == count) names.drop_last();
    for (std::size_t i = names.size(); i > place; --i) distances[i] = distances[i - 1];
    distances[place] = distance;
    names.insert(place, name_of(item));
  }
  return names;
}

}  // namespace detail

namespace catalogue {

/// The base lifts whose names are nearest to a misspelt one, nearest first; at most 8.
[[nodiscard]] constexpr NameList nearest_lift_names(std::string_view text, std::size_t count = 3) {
  return detail::nearest(text, lifts(), count, [](const BaseLift&) { return true; });
}

/// The modifiers of `base` whose names are nearest to a misspelt one, nearest first; at most 8.
[[nodiscard]] constexpr NameList nearest_modifier_names(std::string_view text, const BaseLift& base,
                                                        std::size_t count = 3) {
  return detail::nearest(text, modifiers(), count,
                         [&](const Modifier& modifier) { return modifier.applies_to(base); });
}

}  // namespace catalogue

// ---- describing a lift --------------------------------------------------------------------------

namespace detail {

/// Prints words from several pieces of text as one paragraph, the first line indented by `indent`
/// spaces, the others by `hanging`.
template <class Traits>
void print_paragraph(std::basic_ostream<char, Traits>& out, std::size_t indent, std::size_t hanging,
                     std::initializer_list<std::string_view> parts) {
  constexpr std::size_t width = 92;
  constexpr std::string_view spaces = "                ";
  out << spaces.substr(0, indent);
  std::size_t column = indent;
  bool line_is_empty = true;
  for (std::string_view part : parts) {
    while (!part.empty()) {
      const std::size_t start = part.find_first_not_of(' ');
      if (start == std::string_view::npos) break;
      const std::size_t end = part.find(' ', start);
      const std::string_view word = part.substr(start, end - start);
      part = end == std::string_view::npos ? std::string_view{} : part.substr(end);
      if (!line_is_empty && column + 1 + word.size() > width) {
        out << '\n' << spaces.substr(0, hanging);
        column = hanging;
        line_is_empty = true;
      }
      if (!line_is_empty) {
        out << ' ';
        ++column;
      }
      out << word;
      column += word.size();
      line_is_empty = false;
    }
  }
  out << '\n';
}

/// "95 % (90 to 100 %)", or "97 %" when both ends are the same.
[[nodiscard]] inline Text percent_text(const Range<double>& share) noexcept {
  Text text;
  text.append_rounded(100.0 * share.typical, 1).append(" %");
  if (share.is_exact()) return text;
  return text.append(" (")
      .append_rounded(100.0 * share.low, 1)
      .append(" to ")
      .append_rounded(100.0 * share.high, 1)
      .append(" %)");
}

/// "90.3 kg (81 to 102 kg)"
[[nodiscard]] inline Text mass_text(const Range<Mass>& mass, Unit unit) noexcept {
  return Text{}
      .append(to_text(mass.typical, unit, 1))
      .append(" (")
      .append_rounded(mass.low.in(unit), 1)
      .append(" to ")
      .append(to_text(mass.high, unit, 1))
      .append(")");
}

/// "published, read in the source"
[[nodiscard]] constexpr Text standing_text(const Source& source) noexcept {
  Text text;
  text.append(to_text(source.evidence));
  if (source.reading == Reading::not_applicable) return text;
  if (source.evidence == Evidence::assumption) {  // no source says it: it was inferred from some
    return text.append(source.reading == Reading::read ? " from sources that were read"
                                                       : " from sources recalled, not checked");
  }
  return text.append(", ").append(to_text(source.reading));
}

template <class Traits>
void print_source(std::basic_ostream<char, Traits>& out, std::size_t indent, const Source& source) {
  if (source.citation.empty()) return;
  print_paragraph(out, indent, indent,
                  {source.citation, source.population.empty() ? "" : "-", source.population,
                   source.note.empty() ? "" : "-", source.note});
}

template <class Traits>
void print_findings(std::basic_ostream<char, Traits>& out, std::span<const Finding> findings) {
  for (const Finding& finding : findings) {
    Text value;
    if (finding.value) value.append(percent_text(*finding.value)).append(":");
    Text standing;
    standing.append("[").append(standing_text(finding.source)).append("]");
    print_paragraph(out, 4, 6, {"-", value, finding.what, standing});
    print_source(out, 6, finding.source);
  }
}

template <class Traits>
void print_notes(std::basic_ostream<char, Traits>& out, std::string_view title,
                 const NoteList& notes) {
  if (notes.empty()) return;
  out << title << '\n';
  for (const Note& note : notes) {
    Text standing;
    standing.append("[").append(standing_text(note.source)).append("]");
    print_paragraph(out, 2, 4, {"-", note.text, standing});
    print_source(out, 4, note.source);
  }
}

template <class Traits>
void print_muscles(std::basic_ostream<char, Traits>& out, std::string_view title,
                   const Muscles& muscles, Involvement involvement) {
  out << title;
  const char* before = "";
  for (const MuscleGroup group : all_muscle_groups) {
    if (muscles[group] != involvement) continue;
    out << before << to_text(group);
    before = ", ";
  }
  out << (*before == '\0' ? "none\n" : "\n");
}

}  // namespace detail

/// Prints what is known about a lift for a lifter with this max on its base lift: every figure with
/// its evidence, whether it was read or recalled, and its sources; then muscles, requirements, who
/// gains, and cautions.
/// @param best  the max on the base lift, unmodified; more than 0 kg
/// @param unit  what masses are printed in
template <class Traits>
void describe(std::basic_ostream<char, Traits>& out, const Lift& lift, Mass best,
              Unit unit = Unit::kg) {
  detail::require_reference_max(best);
  const BaseLift& base = lift.base();
  const Text reference = to_text(best, unit, 1);
  out << lift.name() << " (" << to_text(base.family) << ", " << to_text(base.region) << ")\n"
      << "Max on the " << base.name << ": " << reference << "\n";
  if (!base.findings.empty()) {
    out << "\nBeside other lifts\n";
    detail::print_findings(out, base.findings);
  }
  if (!lift.is_plain()) {
    out << "\nShare of the max\n";
    for (const Modifier& modifier : lift.modifiers()) {
      const Text share = detail::percent_text(modifier.ratio(best));
      Text name;
      name.append(modifier.name()).append(":");
      Text standing;
      standing.append("[").append(to_text(modifier.ratio_figure().evidence)).append("]");
      detail::print_paragraph(out, 2, 4, {name, share, standing});
      detail::print_findings(out, modifier.ratio_figure().findings);
    }
    if (lift.modifiers().size() == 1) {
      out << "  max: " << detail::mass_text(lift.max_from(best), unit) << '\n';
    } else {
      out << "  together, all at their worst or best:  "
          << detail::percent_text(lift.ratio(best, Stacking::bounds)) << '\n'
          << "  together, nine lifters in ten:         "
          << detail::percent_text(lift.ratio(best, Stacking::spread)) << '\n'
          << "  max, all at their worst or best:       "
          << detail::mass_text(lift.max_from(best, Stacking::bounds), unit) << '\n'
          << "  max, nine lifters in ten:              "
          << detail::mass_text(lift.max_from(best, Stacking::spread), unit) << '\n';
    }
    detail::print_paragraph(out, 2, 2,
                            {"The likeliest value first; the ends of each range are an assumption "
                             "where no finding names them. Your own logged sets know better."});
    out << "\nRepetitions at the same share of its own max\n";
    const Finding* printed = nullptr;  // modifiers may share their findings: once is enough
    for (const Modifier& modifier : lift.modifiers()) {
      const Text stretch = detail::percent_text(modifier.rep_stretch().value);
      Text name;
      name.append(modifier.name()).append(":");
      Text standing;
      standing.append("[").append(to_text(modifier.rep_stretch().evidence)).append("]");
      detail::print_paragraph(out, 2, 4, {name, stretch, "of those beyond the first", standing});
      const std::span<const Finding> findings = modifier.rep_stretch().findings;
      if (findings.data() != printed) detail::print_findings(out, findings);
      printed = findings.data();
    }
    out << "\nA lifter new to it starts near "
        << Text{}.append_rounded(100 * lift.starting_share(), 0) << " % of its estimated max.\n";
  }
  out << "\nMuscles\n";
  detail::print_muscles(out, "  direct:   ", lift.muscles(), Involvement::direct);
  detail::print_muscles(out, "  indirect: ", lift.muscles(), Involvement::indirect);
  out << '\n';
  detail::print_notes(out, "First", lift.requirements());
  detail::print_notes(out, "When to choose it", lift.notes(NoteKind::benefit));
  detail::print_notes(out, "Remarks", lift.notes(NoteKind::remark));
  detail::print_notes(out, "Cautions", lift.cautions());
  detail::print_paragraph(out, 0, 0,
                          {"These figures describe others, not you, and promise no safety. A "
                           "qualified coach, a clinician where there is pain or illness, and the "
                           "rules of the gym or federation come first."});
}

}  // namespace barwright::inline BARWRIGHT_ABI
