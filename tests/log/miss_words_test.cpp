// tests/log/miss_words_test.cpp - a note that says that the last rep was missed is no full set
//
// Which words say so is common practice, no source.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/log/miss_words.hpp"

#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "barwright/log/log_reader.hpp"

using namespace barwright;
using namespace barwright::literals;

TEST_CASE(
    "what a coach writes of a set that was not finished is a miss, and clear words only are") {
  struct Row {
    std::string_view note;
    MissInNote kind;
    int reps = 1;
  };
  const Row rows[] = {
      {"couldn't finish", MissInNote::clear},
      {"Couldn\xE2\x80\x99t finish the last rep", MissInNote::clear},
      {"could not finish", MissInNote::clear},
      {"didn't finish", MissInNote::clear},
      {"spotter took two", MissInNote::clear, 2},
      {"spotter took 2", MissInNote::clear, 2},
      {"spotter took the last rep", MissInNote::clear},
      {"Spotter helped.", MissInNote::clear},
      {"spotter helped with the last two", MissInNote::clear, 2},
      {"needed the spotter", MissInNote::clear},
      {"bailed", MissInNote::clear},
      {"had to bail", MissInNote::clear},
      {"got stuck", MissInNote::clear},
      {"heavy - got stuck halfway", MissInNote::clear},
      {"stuck in the hole", MissInNote::clear},
      {"failed last", MissInNote::clear},
      {"failed the last two", MissInNote::clear, 2},
      {"not good, failed last rep", MissInNote::clear},
      {"missed last rep, grip", MissInNote::clear},
      {"last rep failed", MissInNote::clear},
      {"Almost! Missed the last rep", MissInNote::clear},
      {"No. Failed last rep.", MissInNote::clear},
      {"missed a session last week, failed the sixth here", MissInNote::may_be},
      {"safeties caught it", MissInNote::clear},
      {"The safeties caught the bar", MissInNote::clear},
      {"pins caught it", MissInNote::clear},
      {"stapled", MissInNote::clear},
      {"got stapled by this", MissInNote::clear},
      {"got pinned", MissInNote::clear},
      {"spotter took it", MissInNote::clear},
      {"spotter finished it", MissInNote::clear},
      {"couldn't lock out", MissInNote::clear},
      {"couldn't lock it out", MissInNote::clear},
      {"failed to lock out", MissInNote::clear},
      {"didn't get the last one", MissInNote::clear},
      {"came up a rep short", MissInNote::clear},
      {"two reps short", MissInNote::clear, 2},
      {"roll of shame", MissInNote::clear},
      {"got 5 of 6", MissInNote::clear},
      {"only 5 out of 6 reps", MissInNote::clear},
      {"got 4 of 6.", MissInNote::clear, 2},
      // Another set may be meant, or it went up after all.
      {"failed last week", MissInNote::may_be},
      {"failed 115 after", MissInNote::may_be},
      {"missed the second", MissInNote::may_be},
      {"bailed on the next set", MissInNote::may_be},
      {"got stuck but ground it out", MissInNote::may_be},
      {"couldn't finish the warm-up", MissInNote::may_be},
      {"spotter helped with the lift-off", MissInNote::may_be},
      {"missed?", MissInNote::may_be},
      // What else it may be.
      {"dropped it", MissInNote::may_be},
      {"dropped the bar", MissInNote::may_be},
      {"only got four", MissInNote::may_be},
      {"failed on 5", MissInNote::may_be},
      {"failed on rep 5", MissInNote::may_be},
      {"missed the 6th", MissInNote::may_be},
      {"dumped it", MissInNote::may_be},
      {"could only manage four", MissInNote::may_be},
      {"rolled it off me", MissInNote::may_be},
      {"stalled at the knee", MissInNote::may_be},
      {"grip gave out", MissInNote::may_be},
      {"got 5 of 6 with the belt", MissInNote::may_be},
      {"bailed on cardio", MissInNote::may_be},
      {"safeties caught it?", MissInNote::may_be},
      {"with help", MissInNote::may_be},
      {"red lights", MissInNote::may_be},
      {"no lift, depth", MissInNote::may_be},
      // No miss at all.
      {"", MissInNote::none},
      {"spotter ready", MissInNote::none},
      {"spotter not needed", MissInNote::none},
      {"no help needed", MissInNote::none},
      {"not stuck", MissInNote::none},
      {"almost got stuck", MissInNote::none},
      {"nearly failed the last rep", MissInNote::none},
      {"didn't get stuck", MissInNote::none},
      {"no missed reps", MissInNote::none},
      {"never failed", MissInNote::none},
      {"stuck to the plan", MissInNote::none},
      {"missed a session last week", MissInNote::none},
      {"finished strong", MissInNote::none},
      {"fast", MissInNote::none},
      {"unfailing", MissInNote::none},
      {"got stuck in traffic", MissInNote::none},
      {"stuck in a meeting till six", MissInNote::none},
      {"missed the bus", MissInNote::none},
      {"missed yesterday's session", MissInNote::none},
      {"missed yesterday", MissInNote::none},
      {"missed Monday", MissInNote::none},
      {"missed last week", MissInNote::none},
      {"missed two weeks with a cold", MissInNote::none},
      {"missed out on sleep", MissInNote::none},
      {"missed breakfast", MissInNote::none},
      {"missed my warm-up", MissInNote::none},
      {"week 5 of 6", MissInNote::none},
      {"day 2 of 4", MissInNote::none},
      {"set 3 of 5", MissInNote::none},
      {"did 3 of 5 sets", MissInNote::none},
      {"got 3 of 5 sets in before closing", MissInNote::none},
      {"got 6 of 6", MissInNote::none},
      {"safeties set at 9", MissInNote::none},
      {"checked the safeties", MissInNote::none},
      {"shoulder blades pinned", MissInNote::none},
      {"with spotter just in case", MissInNote::none},
      {"no lift-off today", MissInNote::none},
      {"dropped it from the top", MissInNote::none},
      {"no reps left in the tank", MissInNote::none},
      {"short rest", MissInNote::none},
      {"session cut short by a meeting", MissInNote::none},
      {"only did three sets", MissInNote::none},
      {"rested on the safeties between reps", MissInNote::none},
  };
  for (const Row& row : rows) {
    CAPTURE(row.note);
    const NotedMiss miss = miss_in_note(row.note);
    CHECK(miss.kind == row.kind);
    CHECK(miss.reps == row.reps);
  }
}

TEST_CASE("a comma ends what was missed and what was denied, and is no way to hide a miss") {
  for (const std::string_view note :
       {"no, failed the last", "no, bailed", "missed the last, gym was hot",
        "missed last, training alone", "failed last, grip", "got stuck to chest",
        "shoulders pinned me", "a rep short of the target", "one rep short of five",
        "didn't get last rep", "got five of six", "came up short, slept badly",
        "pins caught my bar", "needed help, tired"}) {
    CAPTURE(note);
    CHECK(miss_in_note(note).kind == MissInNote::clear);
  }
  CHECK(miss_in_note("missed the last two, training partner away").reps == 2);
  for (const std::string_view note :
       {"missed one, sleep was bad", "missed, day was long", "missed the last one this week",
        "missed one this session", "missed lifting alone", "missed my training max",
        "missed yesterday's top single", "easy? no, missed last rep"}) {
    CAPTURE(note);
    CHECK(miss_in_note(note).kind == MissInNote::may_be);
  }
  for (const std::string_view note :
       {"no, never failed", "missed one session", "missed two workouts, feeling fresh",
        "missed the last session", "missed some sleep", "missed my training yesterday",
        "missed this week, back now", "not stuck, not slow"}) {
    CAPTURE(note);
    CHECK(miss_in_note(note).kind == MissInNote::none);
  }
}

TEST_CASE(
    "what else is written of a rep that did not go, or of a hand on the bar, is asked about") {
  for (const std::string_view note : {"last rep didn't go",
                                      "last one didn't go",
                                      "it wouldn't go",
                                      "got 5/6",
                                      "only got 5/6",
                                      "spotter tapped",
                                      "partner took last",
                                      "Partner took the last two",
                                      "coach helped",
                                      "with spotter just in case and he took it",
                                      "dad had to help",
                                      "friend lifted it off",
                                      "not locked out",
                                      "no lockout",
                                      "half rep",
                                      "trapped under the bar",
                                      "got crushed",
                                      "bar dropped on chest",
                                      "stuck it halfway",
                                      "stuck with the bar on my chest",
                                      "needed help racking",
                                      "needed help with the last rep",
                                      "grip went",
                                      "stopped short",
                                      "stuck at 3",
                                      "couldn't get another",
                                      "assisted",
                                      "stopped short of the target",
                                      "the last would not go",
                                      "bar didn't move",
                                      "couldn't lock it",
                                      "crushed me",
                                      "needed a little help"}) {
    CAPTURE(note);
    CHECK(miss_in_note(note).kind == MissInNote::may_be);
  }
  for (const std::string_view note :
       {"didn't go to the gym on Sunday", "week 5/6", "felt 7/10", "made 6/6", "got 3/5 sets",
        "partner took a video", "coach helped with my setup", "he lifted 200 after",
        "partner took his turn", "coach took notes", "locked out hard", "no lockout issues",
        "crushed it", "got crushed by work", "no half rep", "spotter tapped me off",
        "bar path good"}) {
    CAPTURE(note);
    CHECK(miss_in_note(note).kind == MissInNote::none);
  }
}

TEST_CASE("the words of a miss that are said of other things hold no load") {
  for (const std::string_view note :
       {// left on purpose, or on another scale
        "a rep short of failure", "2 reps short of failure", "one rep short of my PR",
        "stopped short of failure", "stopped one rep short of failure", "hit 9 of 10",
        "couldn't do another", "came up short of breath",
        // things, places and people
        "pins caught my eye", "needed help loading the bar", "couldn't finish my shake",
        "needed help moving house", "got stuck in the rain, needed help with the tyre",
        "missed my belt", "I missed my protein shake", "only got 4 hours of sleep",
        "only managed 5 hours sleep", "only got 5h sleep", "couldn't do cardio",
        "couldn't get my usual rack", "gave up sugar", "stuck at 80 for weeks",
        "stuck at 80 kg for a while", "failed to sleep well", "couldn't get to sleep",
        "got stuck at work", "stuck to form", "stuck with the plan",
        // nobody had to help, and nothing failed
        "with spotter", "lift off with spotter", "with spotter ready", "red lights: none",
        "missed reps: 0", "all reps made, nothing failed", "none missed", "zero missed",
        "no reps missed", "assisted warmup", "grip went chalky", "hips pinned down",
        "shoulders pinned", "shoulders pinned back", "elbows pinned in, fast"}) {
    CAPTURE(note);
    CHECK(miss_in_note(note).kind == MissInNote::none);
  }
  // and of the rep all the same
  for (const std::string_view note :
       {"couldn't do the last", "only got 4", "gave up on the last rep", "stuck at the knee",
        "couldn't finish my set", "red light", "pinned down by the bar", "failed to get it up",
        "missed it, belt was loose", "only managed 4 of them", "couldn't get past the knee",
        "couldn't get to the rack", "couldn't get to lockout"}) {
    CAPTURE(note);
    CHECK(miss_in_note(note).kind != MissInNote::none);
  }
}

TEST_CASE("a set that the spotter finished is a missed one, with the reps that went up alone") {
  struct Row {
    std::string_view reps;
    std::string_view rir;
    std::string_view note;
    int counted;  // reps tried of the last set, the last of them missed
    Outcome outcome;
    bool is_asked;
  };
  const Row rows[] = {
      {"5", "", "spotter took two", 4, Outcome::missed, false},
      {"5", "0", "spotter took one", 5, Outcome::missed, false},
      {"5", "", "couldn't finish", 5, Outcome::missed, false},
      {"3x5", "", "spotter took the last two", 4, Outcome::missed, false},
      {"1", "", "spotter took two", 1, Outcome::missed, false},
      {"5", "spotter took two", "", 4, Outcome::missed, false},
      // A rating that leaves some contradicts it: asked about, and missed until then. Other words
      // are asked about.
      {"5", "2", "couldn't finish", 5, Outcome::missed, true},
      {"5", "2", "spotter took two", 4, Outcome::missed, true},
      {"5", "", "dropped it", 5, Outcome::completed, true},
      {"5", "", "almost got stuck", 5, Outcome::completed, false},
      {"5", "", "spotter ready", 5, Outcome::completed, false},
  };
  for (const Row& row : rows) {
    CAPTURE(row.note);
    const Log log = read_log("date,lift,load,unit,reps,rir,note\n2026-09-24,squat,100,kg," +
                             std::string(row.reps) + "," + std::string(row.rir) + "," +
                             std::string(row.note) + "\n");
    REQUIRE(!log.entries.empty());
    const LoggedSet& last = log.entries.back().set;
    CHECK(last.reps == Reps(row.counted));
    CHECK(last.outcome == row.outcome);
    CHECK(last.may_be_missed == (row.is_asked && row.outcome == Outcome::completed));
    if (row.outcome == Outcome::missed) CHECK(reps_to_failure(last) == row.counted - 1);
    bool is_asked = false;
    for (const LineReport& report : log.reports) {
      is_asked = is_asked || report.text.find("was the last rep missed?") != std::string::npos;
    }
    CHECK(is_asked == row.is_asked);
  }
  // Of a set that hurt, too, the pain counts before all else.
  for (const std::string_view row : {",sharp pain - couldn't finish", "sharp pain - bailed,"}) {
    const Log log = read_log("date,lift,load,unit,reps,rir,note\n2026-09-24,squat,100,kg,5," +
                             std::string(row) + "\n");
    REQUIRE(log.entries.size() == 1);
    CHECK(log.entries[0].set.has_pain);
    CHECK(log.entries[0].set.outcome == Outcome::missed);
  }
}

TEST_CASE("reps made of reps asked for are asked about where the set had as many") {
  struct Row {
    std::string_view note;
    int reps;  // of the set
    MissInNote kind;
  };
  const Row rows[] = {
      {"4/5", 5, MissInNote::may_be},
      {"4/5", 4, MissInNote::may_be},
      {"4 of 5", 5, MissInNote::may_be},
      {"4 out of 5 reps", 5, MissInNote::may_be},
      {"4/5, grip", 5, MissInNote::may_be},
      {"only 4", 5, MissInNote::may_be},
      {"just four reps", 5, MissInNote::may_be},
      {"got 4 of 5", 5, MissInNote::clear},
      {"4/5", 8, MissInNote::none},
      {"4/5", 0, MissInNote::none},
      {"5/5", 5, MissInNote::none},
      {"felt 8/10", 8, MissInNote::none},
      {"RPE 8/10", 8, MissInNote::none},
      {"set 4/5", 5, MissInNote::none},
      {"week 4 of 5", 5, MissInNote::none},
      {"4 of 5 sets", 5, MissInNote::none},
      {"only 4 hours of sleep", 5, MissInNote::none},
      {"only 3 weeks to go", 5, MissInNote::none},
      {"only 5", 5, MissInNote::none},
  };
  for (const Row& row : rows) {
    CAPTURE(row.note);
    CAPTURE(row.reps);
    CHECK(miss_in_note(row.note, row.reps).kind == row.kind);
  }
  const Log log = read_log("date,lift,load,unit,reps,note\n2026-09-24,squat,100,kg,5,4/5\n");
  REQUIRE(log.entries.size() == 1);
  CHECK(log.entries[0].set.may_be_missed);
  CHECK(log.entries[0].complaint == "4/5");
}

TEST_CASE(
    "a spot that was needed, failure on the last rep and a bar that slipped are asked about") {
  CHECK(miss_in_note("one rep shy").kind == MissInNote::clear);
  CHECK(miss_in_note("two reps shy of the target").reps == 2);
  CHECK(miss_in_note("got stuck").kind == MissInNote::clear);
  for (const std::string_view note : {"needed a spot",
                                      "needed a spot on rep 5",
                                      "failure on last rep",
                                      "hit failure at rep 4",
                                      "died halfway",
                                      "died on the last rep",
                                      "spotter touched it",
                                      "spotter nudged it",
                                      "legs gave out",
                                      "bar slipped",
                                      "couldn't hold it",
                                      "had help",
                                      "one short",
                                      "racked it early",
                                      "last rep partial",
                                      "ended up on the pins",
                                      "ran out of gas",
                                      "fell forward",
                                      "spotter had to step in",
                                      "help on the last one",
                                      "partial rep",
                                      "needed a hand",
                                      "had to dump it",
                                      "couldn't lock the last",
                                      "had to set it on the pins",
                                      "spotter had a finger on it",
                                      "buried on the sixth"}) {
    CAPTURE(note);
    CHECK(miss_in_note(note).kind == MissInNote::may_be);
  }
  for (const std::string_view note : {"to failure on the last set",
                                      "no failure on the last",
                                      "phone died on me",
                                      "needed a spot at the rack",
                                      "got a spot in the rack",
                                      "someone took my bench",
                                      "coach took my phone",
                                      "he took the seat",
                                      "they took all the dumbbells",
                                      "coach took a look",
                                      "one short pause",
                                      "one rep shy of failure",
                                      "spotter had to leave",
                                      "couldn't hold a conversation",
                                      "short of failure on purpose",
                                      "no help needed",
                                      "never needed a spot",
                                      "coach took a picture",
                                      "mate took a call",
                                      "stuck to tempo",
                                      "missed Monday's session",
                                      "missed my coach"}) {
    CAPTURE(note);
    CHECK(miss_in_note(note).kind == MissInNote::none);
  }
}
