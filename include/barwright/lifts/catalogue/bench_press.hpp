// barwright/lifts/catalogue/bench_press.hpp - the bench press and what is changed about it
//
// Feet-up and flat-back pressing have no published ratio: their figures are common practice, no
// source. That the press counts half a set for lower back, glutes and quadriceps (arch and leg
// drive) is an assumption.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <string_view>

#include "barwright/core/mass.hpp"
#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/catalogue/shared.hpp"
#include "barwright/lifts/catalogue/sources.hpp"
#include "barwright/lifts/modifier.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline constexpr std::array<std::string_view, 2> bench_press_aliases{"bench", "flat bench press"};
inline constexpr std::array bench_press_notes{
    caution("Press with a spotter, or inside safeties checked for this body position: with the bar "
            "lowered onto them, neck and chest are clear. Deaths on record are mostly bench "
            "presses done alone.",
            safety_reports),
};

// With the legs strapped to the bench, as people with impaired legs press.
inline constexpr std::array<std::string_view, 1> para_bench_press_aliases{"para bench"};
inline constexpr std::array para_bench_press_notes{
    caution("Never alone: with the legs strapped nobody can put a foot down, sit up or roll the "
            "bar off. One spotter at each end of the bar, or safeties checked lying strapped in.",
            inference),
    caution("Have somebody check the straps before each set, and the bar taken out and put back by "
            "the spotters.",
            practice),
    caution("With an injury of the spinal cord in the upper back or neck: a pounding headache, "
            "flushing or sweating can be autonomic dysreflexia. Stop, sit up, loosen the straps "
            "and get help at once.",
            dysreflexia),
    caution(
        "Where the skin feels little, pad the bench and the straps, and look for pressure marks "
        "after the session.",
        practice),
};

inline constexpr std::array<std::string_view, 1> on_bench_press{"bench_press"};
inline constexpr std::array<std::string_view, 3> feet_up_aliases{"legs up", "feet on the bench",
                                                                 "without leg drive"};
inline constexpr std::array feet_up_findings{
    found("at a 1RM of 100 kg (two 20 kg or 45 lb plates a side)", 0.95, practice),
    found("at a 1RM of 140 kg (three plates a side)", 0.90, practice),
    only("no 1RM was measured; at the same load chest, shoulders, triceps, trunk and hip flexors "
         "were all more active feet-up",
         muyor_2019),
    only("leg drive made no difference to the gain in 5 weeks of training", leg_drive_2021),
    only("0.95 (0.88 to 1.00) for feet-up and flat-back together would cover the nearest published "
         "results",
         inference),
};
inline constexpr std::array feet_up_notes{
    last_rep_note,
    recheck_safeties_note,
    caution("Feet off the floor give up your widest base: put a foot down rather than save a rep "
            "that tips.",
            inference),
    spares_back_note,
    near_max_note,
    remark("The one study left open how the hip flexors pull on the lower back.", muyor_2019),
    training_lift_note,
};
inline constexpr std::array<std::string_view, 3> flat_back_aliases{"no arch", "no retraction",
                                                                   "without retraction"};
inline constexpr std::array flat_back_findings{
    found("flat back without shoulder-blade retraction, on top of feet-up: 5 to 10 % less, more "
          "likely 5",
          {0.90, 0.95, 0.95}, practice),
    found("flat back against a moderate arch", 1.002, garcia_ramos_2021_arch),
    found("flat back against arched back", {0.96, 0.965, 0.97}, bartolomei_2024),
};
inline constexpr std::array flat_back_notes{
    requirement("Push-ups and dips first, to learn how the shoulder blades move.", practice),
    remark("Start near 50 % of the estimated 1RM, not 70 %: pressing without retraction is new "
           "even to a strong presser.",
           practice),
    last_rep_note,
    recheck_safeties_note,
    benefit("Pays off for lifters whose upper arm stops level with the bench, or just above it, "
            "when the bar touches the chest.",
            practice),
    benefit("Adds little for very long arms: their press is already deep.", practice),
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
    remark("The studies disagree: expect the lower end from skilled flat-bench pressers and on "
           "steep benches.",
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
    benefit("More of the work goes to the triceps.", practice),
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
    caution("A grip wider than 1.5 shoulder widths may raise the risk to the shoulder joint, the "
            "collarbone and the chest muscle.",
            green_comfort_2007),
    remark("In competition the grip is at most 81 cm wide.", competition_rules),
};
inline constexpr std::array dumbbells_findings{
    found("both dumbbells together against the barbell", 0.83, saeterbakken_2011),
    found("both dumbbells together against a guided rail", 0.86, saeterbakken_2011),
};
inline constexpr std::array<std::string_view, 3> guided_rail_aliases{"smith", "smith machine",
                                                                     "rail"};
inline constexpr std::array guided_rail_findings{
    found("guided rail against barbell", 0.97, saeterbakken_2011),
};
inline constexpr std::array guided_rail_notes{
    caution("Set the rail's stops before the first rep.", practice),
};
inline constexpr std::array<std::string_view, 3> exercise_ball_aliases{"ball", "swiss ball",
                                                                       "stability ball"};
inline constexpr std::array exercise_ball_findings{
    found("exercise ball against stable bench, no difference", 1.00, goodman_2008),
    found("exercise ball against stable bench", 0.92, saeterbakken_2013_surface),
};
inline constexpr std::array unstable_surface_notes{
    caution("The surface can move or give way: use light loads, a spotter, and equipment rated for "
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
    only("lowering for 4 s or 6 s gives a lower 1RM than 2 s; the text read does not say by how "
         "much",
         wilk_2020),
};
inline constexpr std::array<std::string_view, 3> partial_range_aliases{"partial", "partials",
                                                                       "board press"};
inline constexpr std::array partial_range_findings{
    only("the 1RM rises as the range gets shorter; the text read does not say by how much",
         martinez_cava_2019),
    found("partial against full range", 1.118, mookerjee_1999),
};
inline constexpr std::array partial_range_notes{
    requirement("Rack pins at the height where the press starts, or a board on the chest and "
                "somebody to hold it.",
                practice),
};

}  // namespace detail

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

/// Lying with the legs on the bench and strapped: no leg drive, no arch from the feet. A lift of
/// its own, as whoever does it has no max with the feet on the floor.
inline constexpr BaseLift para_bench_press{
    .key = "para_bench_press",
    .name = "para bench press",
    .aliases = detail::para_bench_press_aliases,
    .family = LiftFamily::horizontal_press,
    .region = Region::upper_body,
    .muscles =
        Muscles::of({MuscleGroup::chest}, {MuscleGroup::front_shoulders, MuscleGroup::triceps}),
    .notes = detail::para_bench_press_notes,
    .findings = detail::no_ratio_findings,
};

}  // namespace lifts

/// Ratios and rep stretches without a remark rest on the findings listed with them; a rep stretch
/// that is not set is 1, from 0.9 to 1.1: an assumption.
namespace modifiers {

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
                                          .with_dumbbells(2)
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

}  // namespace modifiers

}  // namespace barwright::inline BARWRIGHT_ABI
