// barwright/training/spacing_rule.hpp - when two hard days are too close together
//
// Inferred from published recovery: 48 hours between hard sessions of a muscle group, 72 after
// failure. A pooled analysis of 278 effects found no general fatigue of muscles that did not work,
// so none is assumed unless asked for.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/core/effort.hpp"
#include "barwright/core/source.hpp"
#include "barwright/lifts/muscles.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline constexpr Source spacing_source{
    .citation =
        "Belcher et al. 2019, Appl Physiol Nutr Metab 44(10):1033-1042; Moran-Navarro et "
        "al. 2017, Eur J Appl Physiol 117(12):2387-2399; Madsen & Bosak 2014 and Mitchell "
        "et al. 2014, Med Sci Sports Exerc 46(5 Suppl), abstracts 1462 and 1457",
    .population = "12 and 10 trained men, 13 women, 18 adolescents; squat, bench press, deadlift",
    .evidence = Evidence::assumption,
    .reading = Reading::read,
    .note =
        "abstracts or summaries of them; after sets to failure the bench press was no longer "
        "significantly slower on the next day and the squat was for up to 72 hours (Belcher), "
        "maxes were down at 24 hours and not at 48 (Madsen), about half had their bench press "
        "back at 24 to 72 hours (Mitchell), and failure slowed recovery by 24 to 48 hours "
        "(Moran-Navarro). The split of 48 and 72, and what counts as hard, are inferred"};

inline constexpr Source cross_muscle_source{
    .citation = "Behm et al. 2021, Sports Med 51(9):1893-1907",
    .population = "278 effects in 50 clusters of studies, measured minutes after the work",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note =
        "abstract; the pooled effect on muscles that did not work is -0.02 (-0.14 to 0.09): no "
        "general effect, perhaps one on endurance. No study of the next day was found"};

/// When two days are too close. The defaults are explained by `spacing_source`.
struct SpacingRule {
  int hours_between = 48;        ///< wanted between hard sessions of a muscle group
  int hours_after_failure = 72;  ///< wanted when the earlier one went to failure
  /// A set that leaves at most this many is hard (assumption).
  RepsInReserve most_reserve_of_hard_set{3.0};
  /// What a hard set must ask of a group for its spacing to count. Sets that only help are left to
  /// the overlap: the recovery studies trained and tested the same lift.
  Involvement least_involvement = Involvement::direct;
  /// Whether Sunday is followed by the same week's Monday.
  bool week_repeats = true;
  /// What a set counts in the overlap for a group that only braced, in per cent; one half, as for a
  /// group that helps, would be 50 (`bracing_source`).
  int bracing_percent = 10;
  /// How much of each set the muscles that did not work are taken to feel in the overlap, in per
  /// cent. None by default, as the pooled evidence finds none (`cross_muscle_source`).
  int cross_muscle_percent = 0;
};

}  // namespace barwright::inline BARWRIGHT_ABI
