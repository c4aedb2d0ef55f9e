// barwright/training/plan_cautions.hpp - what is said of a plan because of who and what it is for
//
// caution.hpp says what follows from the facts of a session. These follow from what is known of the
// lifter: pain, a max that cannot be right, a log that contradicts itself, more work than is done
// in a day. Planners add them to the others: plan/stops.hpp.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/core/source.hpp"
#include "barwright/training/caution.hpp"

namespace barwright::inline BARWRIGHT_ABI::cautions {

/// Where the sets of a log contradict each other and nothing tells which are right.
inline constexpr Caution doubtful_log{
    Severity::warn,
    "The log contradicts itself: its last session is far above all before, or too few sets are "
    "left to tell which are right. Find out what was lifted before loading this.",
    assumption("a typing error is likelier than such a jump")};

/// Where what stands as reps in reserve was taken as RPE.
inline constexpr Caution reads_like_rpe{
    Severity::warn,
    "The log's reps in reserve read like RPE and were taken as RPE, 8 as 2 left. If they are reps "
    "in reserve, say so, and the load may rise.",
    assumption("working sets are rated 6 to 10 on the one scale and seldom on the other"),
    "reads_like_rpe"};

/// Where it may be RPE, and nothing tells.
inline constexpr Caution may_be_rpe{
    Severity::warn,
    "The log's reps in reserve are high: are they RPE? Then this load is too heavy. Until somebody "
    "says which they are it goes up by a small step at most.",
    assumption("working sets are seldom stopped with six and more in reserve"), "may_be_rpe"};

/// Where a set of the last weeks was left out because it is too light to fit the others.
inline constexpr Caution light_set_left_out{
    Severity::warn,
    "A set of the last weeks that is far lighter than the others was left out as a slip. If it was "
    "as hard as it says, the usual load is too heavy: find out first.",
    assumption("a typing error is likelier than so bad a day, but the day is the danger"),
    "light_set_left_out"};

/// Where what hangs from the belt is, by the log, always about what the lifter weighs.
inline constexpr Caution body_in_loads{
    Severity::warn,
    "The log's loads are about what the lifter weighs. Is the body in them? A log of this lift "
    "says what hangs from the belt; with the body in it, a load by it is far too heavy.",
    assumption("few hang nearly their own weight from the belt, and nobody always"),
    "body_in_loads"};

/// Where a rep of the lift was missed on the day of attempts.
inline constexpr Caution missed_today{
    Severity::stop,
    "A rep of this lift was missed today: no attempt at a max. Another day, rested, with the miss "
    "in the log.",
    common_practice("a missed rep ends the day's heavy work; on the platform a coach decides"),
    "missed_today"};

/// Where a note, or a row that could not be read, leaves open whether a rep was missed.
inline constexpr Caution may_be_missed{
    Severity::warn,
    "Was a rep missed? A note of the last session, or a line that could not be read, may say so. "
    "Until the log says missed or completed, the next session is no heavier.",
    assumption("a miss that is overlooked is the danger; a load held for one session is not"),
    "may_be_missed"};

/// The same of a session longer ago, where the plan is another one for it.
inline constexpr Caution doubted_set{
    Severity::warn,
    "A note of an earlier session leaves open whether a rep was missed. The lighter reading holds, "
    "and this plan is another one for it, until the log says missed or completed as the outcome "
    "of that set.",
    assumption("of two readings of a log the lighter holds"), "doubted_set"};

/// Where a log goes on after the day that is planned.
inline constexpr Caution later_sets{
    Severity::warn,
    "The log has sets after this day, which are left out; pain in them counts. Are the dates "
    "right?",
    assumption("a date typed wrongly is likelier than a past day planned anew")};

/// Where a block is to begin on a day on which the lift was done already.
inline constexpr Caution block_begun{
    Severity::warn,
    "The log has sets of this lift on the first day. They are part of its session: what stands "
    "here is what is left of it. Do no more, or begin on another day.",
    common_practice("one session of a lift a day"), "block_begun"};

/// Where the first day of a block has had a whole session of the lift.
inline constexpr Caution block_day_done{
    Severity::stop,
    "The log already has every working set of this lift on the first day: that session is done. "
    "Begin on another day.",
    common_practice("one hard session of a lift a day"), "block_day_done"};

/// Where the introduction of a new lift was left off for some time.
inline constexpr Caution introduction_interrupted{
    Severity::warn,
    "A gap in the introduction of this lift, or a long one since: it goes back by a session, and "
    "after more than four weeks it begins anew; one that was finished, after three months.",
    assumption("what was learnt of a movement in one to three sessions is soon lost"),
    "introduction_interrupted"};

/// Where something hurt lately in a lift for the other half of the body.
inline constexpr Caution pain_elsewhere{
    Severity::warn,
    "It hurt lately in another lift. If it was the back, the chest or a joint this lift loads too: "
    "no load until somebody qualified has looked at it.",
    assumption("a note does not say where it hurt"), "pain_elsewhere"};

/// Where a note names a joint and does not say that it hurts.
inline constexpr Caution may_hurt{
    Severity::warn,
    "A note names a joint or a muscle and does not say whether it hurts. Does it? If this lift "
    "loads it: no load until somebody qualified has looked at it.",
    assumption("nobody notes a joint for nothing"), "may_hurt"};

/// Where a note speaks of the whole person: no lift is apart from that.
inline constexpr Caution unwell{
    Severity::stop,
    "The log, or what was said today, speaks of dizziness, fainting, chest pain, trouble with "
    "breathing or sight, headache, numbness or dark urine. No lift at all until a doctor has "
    "looked into it. With chest pain, or after passing out, get help at once.",
    {.citation = "ACSM's Guidelines for Exercise Testing and Prescription, 9th ed. 2014",
     .population = "adults",
     .evidence = Evidence::handbook,
     .reading = Reading::from_memory,
     .note = "signs to be looked at by a doctor before exercise; which words of a log they are is "
             "this library's"},
    "unwell"};

/// Where a note spoke of the whole person some time ago: training on is no answer.
inline constexpr Caution unwell_before{
    Severity::warn,
    "Some time ago the log spoke of dizziness, fainting, chest pain, trouble with breathing or "
    "sight, headache, numbness or dark urine. Has a doctor looked into it? Ask before the first "
    "set; if nobody has, do not lift.",
    assumption("time alone is no answer to such a sign; how long it is asked about is this "
               "library's choice"),
    "unwell_before"};

inline constexpr Caution pain{Severity::stop,
                              "It hurt: no load until somebody qualified has looked at it. Pain is "
                              "not a missed rep, and not soreness.",
                              assumption("common sense; no load is worth an injury"), "pain"};
/// Where something hurt some time ago, and training went on since.
inline constexpr Caution pain_before{
    Severity::note,
    "It hurt some time ago, in this lift or another of its half of the body, and training went on. "
    "If it is still felt: no load until somebody qualified has looked at it.",
    assumption("training on is an answer, but no word that it is well"), "pain_before"};
inline constexpr Caution stated_max_above_log{
    Severity::stop, "The stated 1RM is above anything the log supports. Is the figure right?",
    assumption("a log of many sets errs less than one figure"), "stated_max_above_log"};
inline constexpr Caution doubtful_max{
    Severity::stop, "Few lifters anywhere reach a 1RM like the one stated. Is the figure right?",
    assumption("above it a typing error is likelier than the lift"), "doubtful_max"};
inline constexpr Caution press_above_bench_press{
    Severity::stop,
    "The stated 1RM is above what the log shows of the bench press, and hardly anybody presses "
    "more overhead than on a bench. Is the figure right?",
    common_practice("an overhead press is about two thirds of a bench press"),
    "press_above_bench_press"};
inline constexpr Caution doubtful_log_max{
    Severity::stop,
    "By the log, the 1RM is one that few lifters anywhere reach. Are its loads right, and in the "
    "unit it says?",
    assumption("above it a typing error is likelier than the lift"), "doubtful_log_max"};
inline constexpr Caution too_many_plates{
    Severity::stop, "That many plates do not fit on a sleeve. Is the figure right?",
    assumption("a sleeve of 415 mm holds about twelve of the usual width"), "too_many_plates"};
inline constexpr Caution too_much_work{
    Severity::stop,
    "That is more work than any handbook puts into one session, and muscle can break down after "
    "it. Are the sets and reps right?",
    assumption("breakdown of muscle after unaccustomed volume to failure is on record; the limits "
               "are this library's"),
    "too_much_work"};

}  // namespace barwright::inline BARWRIGHT_ABI::cautions
