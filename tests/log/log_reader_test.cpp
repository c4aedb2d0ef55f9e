// The reader of training logs, against what people really type. The expected answers follow from
// the format described in barwright/log/log_reader.hpp.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/log/log_reader.hpp"

#include <doctest/doctest.h>

#include <optional>
#include <string>
#include <string_view>

using namespace barwright;

namespace {

constexpr std::string_view header = "date,lifter,lift,modifiers,load,unit,reps,rir,outcome\n";

Log read(const std::string& rows) { return read_log(std::string(header) + rows); }

/// The only report of a log of one row.
LineReport only_report(const std::string& row) {
  const Log log = read(row);
  REQUIRE(log.reports.size() == 1);
  return log.reports[0];
}

bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

/// Sessions of one set each, three days apart, with one load; rows 2 to count + 1.
std::string steady_sessions(int count, const std::string& load) {
  std::string rows;
  for (int i = 0; i < count; ++i) {
    rows += to_text(Date(2026, 9, 1) + 3 * i).str() + ",Ana,bench press,," + load +
            ",kg,6,2,completed\n";
  }
  return rows;
}

}  // namespace

TEST_CASE("a lift and what changes it may be said in one breath") {
  const auto lift = [](const std::string& text, const std::string& changes = "") {
    const Log log = read("2026-11-25,Ana,\"" + text + "\"," + changes + ",60,kg,6,2,completed\n");
    REQUIRE(log.entries.size() == 1);
    return log.entries[0].set.lift;
  };
  const Lift close_grip = lifts::bench_press + modifiers::close_grip;
  for (const char* text : {"close grip bench press", "bench press close grip", "Close-grip bench",
                           "bench press (close grip)", "close-grip bench presses"}) {
    CHECK(lift(text) == close_grip);
  }
  CHECK(lift("squat, front squat") == lifts::squat + modifiers::front_squat);
  CHECK(lift("Front Squats") == lifts::squat + modifiers::front_squat);
  CHECK(lift("Bench; feet up + flat back") ==
        lifts::bench_press + modifiers::feet_up + modifiers::flat_back);
  CHECK(lift("bench press, incline, wedged against the seat") ==
        lifts::bench_press + modifiers::wedged_incline);
  CHECK(lift("incline DB bench") == lifts::bench_press + modifiers::dumbbells + modifiers::incline);
  CHECK(lift("sumo deadlift") == lifts::deadlift + modifiers::sumo);
  CHECK(lift("paused bench", "feet up") ==
        lifts::bench_press + modifiers::pause + modifiers::feet_up);
  CHECK(lift("Pullups") == Lift(lifts::pull_up));
  CHECK(lift("barbell rows") == Lift(lifts::barbell_row));
}

TEST_CASE("what is no lift and its changes is refused with what is known") {
  const auto problem = [](const std::string& lift) {
    return only_report("2026-11-25,Ana,\"" + lift + "\",,60,kg,6,2,completed\n").text;
  };
  CHECK(has(problem("green bench press"), "nearest: bench press"));
  CHECK(has(problem("incline"), "belongs among the modifiers"));
  CHECK(has(problem("paused"), "belongs among the modifiers"));
  CHECK(problem("squat, deadlift") == "a lift must be one name; got 2");
  CHECK(problem("squat, front squat, deadlift") == "a lift must be one name; got 3");
  CHECK(problem("front squat, squat") == "a lift must be one name; got 2");
  CHECK(has(problem("squatt"), "nearest: squat"));
  CHECK(read("2026-11-25,Ana,\"squat,\",,60,kg,6,2,completed\n").entries.empty());
}

TEST_CASE("a rep that was tried and missed counts as one") {
  const std::string hint = "A rep that was tried and missed counts: reps 1, outcome missed";
  // That it was missed counts although the row is refused: a second report says so.
  const auto refusal = [](const std::string& row) {
    const Log log = read(row);
    REQUIRE(log.reports.size() == 2);
    CHECK(has((log.reports.begin() + 1)->text, "a missed rep"));
    return log.reports[0].text;
  };
  CHECK(has(refusal("2026-11-25,Ana,squat,,60,kg,0,,missed\n"), hint));
  CHECK(!has(refusal("2026-11-25,Ana,squat,,60,kg,-1,,missed\n"), hint));
  CHECK(!has(only_report("2026-11-25,Ana,squat,,60,kg,0,,completed\n").text, hint));
  CHECK(read("2026-11-25,Ana,squat,,60,kg,1,,missed\n").reports.empty());
}

TEST_CASE("a row is one set, and every field of it arrives") {
  const Log log =
      read("2026-11-25,Ana Lund,bench press,feet up; flat back,102.5,kg,6,2,completed\n");
  REQUIRE(log.entries.size() == 1);
  CHECK(log.reports.empty());
  CHECK(log.failure.empty());
  const LoggedSet& set = log.entries[0].set;
  CHECK(log.entries[0].line == 2);
  CHECK(log.entries[0].lifter == "Ana Lund");
  CHECK(set.date == Date(2026, 11, 25));
  CHECK(set.lift == lifts::bench_press + modifiers::feet_up + modifiers::flat_back);
  CHECK(set.load == Mass::from_kg(102.5));
  CHECK(set.reps == Reps(6));
  CHECK(set.reserve == Range<RepsInReserve>::exactly(RepsInReserve(2.0)));
  CHECK(set.outcome == Outcome::completed);
}

TEST_CASE("columns may stand in any order, others are ignored, and capitals do not matter") {
  const Log log = read_log(
      "Note,Reps,UNIT,load,Lift,lifter,weather,date\n"
      "\"short, but \"\"good\"\"\",5,lb,225,Bench-Press,Ana,rain,2026-11-25\n");
  REQUIRE(log.entries.size() == 1);
  const LoggedSet& set = log.entries[0].set;
  CHECK(set.load == Mass::from_lb(225));
  CHECK(set.lift == Lift(lifts::bench_press));
  CHECK_FALSE(set.reserve.has_value());
  CHECK(set.outcome == Outcome::completed);
}

TEST_CASE("byte order marks, foreign line ends and blank lines change nothing") {
  const std::string row = "2026-11-25,Ana,squat,,100,kg,5,2,missed";
  for (const std::string end : {"\n", "\r\n", "\r"}) {
    CAPTURE(end);
    std::string text = "\xEF\xBB\xBF" + end + std::string(header.substr(0, header.size() - 1));
    text += end + end + row + end + "  " + end + ",,,,,,,," + end + end;
    const Log log = read_log(text);
    CHECK(log.rows == 1);
    REQUIRE(log.entries.size() == 1);
    CHECK(log.entries[0].line == 4);
  }
  CHECK(read("2026-11-25,Ana,squat,,100,kg,5,2,").entries.size() == 1);  // no line end at the end
}

TEST_CASE("fields may be parted by semicolons or tabs, as some spreadsheets do") {
  for (const char delimiter : {';', '\t'}) {
    std::string text = std::string(header) + "2026-11-25,Ana,squat,,100,kg,5,2,completed\n";
    for (char& letter : text) letter = letter == ',' ? delimiter : letter;
    CHECK(read_log(text).entries.size() == 1);
  }
}

TEST_CASE("lines are counted rightly past quoted line breaks") {
  const Log log = read_log(
      "date,lifter,lift,load,unit,reps,note\n"
      "2026-11-25,Ana,squat,100,kg,5,\"first line\nsecond\n\nfourth\"\n"
      "2026-11-25,Ana,squat,100,kg,0,\n");
  CHECK(log.entries.size() == 1);
  REQUIRE(log.reports.size() == 1);
  CHECK(log.reports[0].line == 6);
}

TEST_CASE("a quotation mark never closed costs its own line, not the rest of the file") {
  const std::string good = "2026-11-25,Ana,squat,,100,kg,5,2,completed\n";
  const std::string bad = "2026-11-25,\"Ana,squat,,100,kg,5,2,completed\n";
  const Log log = read(good + bad + good + good);
  CHECK(log.rows == 4);
  CHECK(log.entries.size() == 3);
  REQUIRE(log.reports.size() == 1);
  CHECK(log.reports[0].line == 3);
  CHECK(has(log.reports[0].text, "quotation mark"));
  // With a second one further down it is closed, but in the wrong place.
  const Log twice = read(good + bad + good + bad + good);
  CHECK(twice.entries.size() == 3);
  CHECK(twice.refused() == 2);
}

TEST_CASE("a missing column is named, with those that were found") {
  const Log log = read_log("date,lifter,lift,reps,unit,rir\n");
  CHECK(log.entries.empty());
  CHECK(has(log.failure, "the column \"load\" is missing"));
  CHECK(read_log("date,what,load,unit,reps\n").question == LogQuestion::column);
  CHECK(read_log("one,two\n").question == LogQuestion::none);
  CHECK(has(log.failure, "found: date, lifter, lift, reps, unit, rir"));
}

TEST_CASE("a misspelt column is named with the one it resembles, even an optional one") {
  const Log log = read_log("date,lifter,lift,modifers,load,unit,reps,rir,outcome\n");
  CHECK(has(log.failure, "\"modifers\" is not known; is it \"modifiers\"?"));
  const Log needed = read_log("dat,lifter,lift,load,unit,reps\n");
  CHECK(has(needed.failure, "\"dat\" is not known; is it \"date\"?"));
  CHECK(has(read_log("date,date,lifter,lift,load,unit,reps\n").failure, "twice"));
}

TEST_CASE("files that are no logs say so") {
  CHECK(has(read_log("").failure, "nothing in it"));
  CHECK(has(read_log("\n\n").failure, "nothing in it"));
  CHECK(has(read_log(header).failure, "no sets"));
  CHECK(has(read_log("\xFF\xFE"
                     "d")
                .failure,
            "UTF-8"));
  CHECK(has(read("x,,,,,,,,\n").failure, "not one line"));
}

TEST_CASE("a bad line is reported by line, column, value and what is allowed") {
  const Log log = read(
      "2026-11-25,Ana,squat,,100,kg,5,2,completed\n"
      "2026-11-25,Ana,squat,,100,kg,0,2,completed\n");
  CHECK(log.entries.size() == 1);
  CHECK(log.rows == 2);
  CHECK(log.refused() == 1);
  REQUIRE(log.reports.size() == 1);
  CHECK(to_text("club.csv", log.reports[0]) ==
        "club.csv:3: refused: reps \"0\": reps must be a whole number from 1 to 100; got "
        "0");
}

TEST_CASE("every bad field of a line is reported") {
  const Log log = read("2026-02-30,,bensh,,-5,stone,six,31,maybe\n");
  CHECK(log.entries.empty());
  CHECK(log.refused() == 1);
  REQUIRE(log.reports.size() == 8);
  const std::string_view columns[] = {"lifter", "date", "lift",    "unit",
                                      "load",   "reps", "outcome", "rir"};
  for (std::size_t i = 0; i < 8; ++i) {
    CHECK(log.reports[i].column == columns[i]);
    CHECK(log.reports[i].verdict == Verdict::refused);
    CHECK(log.reports[i].line == 2);
  }
}

TEST_CASE("what is no number is told from what is out of range") {
  const auto load = [](const std::string& text) {
    return only_report("2026-11-25,Ana,squat,,\"" + text + "\",kg,5,2,completed\n").text;
  };
  CHECK(has(load("62,5"), "point"));
  CHECK(has(load("60 lb"), "without its unit"));  // the unit says kg
  CHECK(has(load(""), "number"));
  CHECK(has(load("-1"), "from 0 to"));
  CHECK(has(load("10000000"), "from 0 to"));
  CHECK(has(load("-80"), "from 0 to"));
  for (const char* text : {"1e2", "nan", "inf"}) CHECK(has(load(text), "must be a number"));
  const auto reps = [](const std::string& text) {
    return only_report("2026-11-25,Ana,squat,,60,kg," + text + ",2,completed\n").text;
  };
  for (const char* bad : {"0", "101", "-3", "5.5", "", "five", "nan", "1e9"}) {
    CAPTURE(bad);
    CHECK(has(reps(bad), "whole number from 1 to 100"));
  }
}

TEST_CASE("only dates that exist are dates") {
  for (const char* bad : {"2026-02-29", "31.11.2026", "2026-13-05", "46351", "", "yesterday"}) {
    CAPTURE(bad);
    const LineReport report = only_report(std::string(bad) + ",Ana,squat,,60,kg,5,2,completed\n");
    CHECK(report.column == "date");
    CHECK(report.value == bad);
  }
}

TEST_CASE("misspelt lifts and modifiers are answered with the nearest names") {
  CHECK(has(only_report("2026-11-25,Ana,bench pres,,60,kg,5,2,\n").text, "bench press"));
  CHECK(has(only_report("2026-11-25,Ana,bench,feat up,60,kg,5,2,\n").text, "feet up"));
  CHECK(has(only_report("2026-11-25,Ana,squat,feet up,60,kg,5,2,\n").text,
            "; known: front squat, high bar, box squat, safety bar or paused"));
  CHECK(has(only_report("2026-11-25,Ana,barbell row,feet up,60,kg,5,2,\n").text,
            "no changes to it are known"));
}

TEST_CASE("a word of a lift's name brings the lifts that have it, and a strange one all lifts") {
  const auto lift = [](const std::string& text) {
    return only_report("2026-11-25,Ana," + text + ",,60,kg,5,2,\n").text;
  };
  for (const char* name : {"bench press", "overhead press", "leg press", "push press"}) {
    CAPTURE(name);
    CHECK(has(lift("press"), name));
  }
  CHECK(!has(lift("press"), "there are"));
  for (const BaseLift& each : catalogue::lifts()) {
    CAPTURE(std::string(each.name));
    CHECK(has(lift("snatch"), each.name));
  }
}

TEST_CASE("a lifter's usual unit is that of most of their loads") {
  const std::string kg = "2026-11-25,Ana,squat,,60,kg,5,2,\n";
  const std::string lb = "2026-11-26,Ana,squat,,135,lb,5,2,\n";
  CHECK(read(kg + kg + lb).usual_unit("Ana") == Unit::kg);
  CHECK(read(kg + lb + lb).usual_unit("Ana") == Unit::lb);
  CHECK(read(lb).usual_unit("Bo") == Unit::kg);
}

TEST_CASE("modifiers that cannot go together are refused") {
  const LineReport report = only_report("2026-11-25,Ana,bench,incline + decline,60,kg,5,2,\n");
  CHECK(report.column == "modifiers");
  CHECK(has(report.text, "go together"));
}

TEST_CASE("modifiers are parted by semicolons, pluses or quoted commas") {
  for (const char* text : {"feet up; flat back", "feet up + flat back", "\"feet up, flat back\"",
                           "flat-back;feet_up;"}) {
    CAPTURE(text);
    const Log log = read("2026-11-25,Ana,bench," + std::string(text) + ",60,kg,5,2,\n");
    REQUIRE(log.entries.size() == 1);
    CHECK(log.entries[0].set.lift ==
          lifts::bench_press + modifiers::feet_up + modifiers::flat_back);
  }
}

TEST_CASE("a reserve is a number, a half, a range, or nothing") {
  const auto reserve = [](const std::string& text) {
    const Log log = read("2026-11-25,Ana,squat,,60,kg,5," + text + ",completed\n");
    REQUIRE(log.entries.size() == 1);
    return log.entries[0].set.reserve;
  };
  const auto range = [](double low, double typical, double high) {
    return Range<RepsInReserve>(RepsInReserve(low), RepsInReserve(typical), RepsInReserve(high));
  };
  CHECK(reserve("2") == range(2, 2, 2));
  CHECK(reserve("2.5") == range(2.5, 2.5, 2.5));
  CHECK(reserve("2-3") == range(2, 2.5, 3));
  CHECK(reserve("2 - 4") == range(2, 3, 4));
  CHECK(reserve("1\xE2\x80\x93"
                "2") == range(1, 1.5, 2));
  CHECK(reserve("0") == range(0, 0, 0));
  CHECK_FALSE(reserve("").has_value());
  for (const char* bad : {"-1", "31", "2.3", "3-2", "2+", "a few", "-", "2-"}) {
    CAPTURE(bad);
    const LineReport report =
        only_report("2026-11-25,Ana,squat,,60,kg,5," + std::string(bad) + ",completed\n");
    CHECK(report.verdict == Verdict::refused);
    CHECK(report.column == "rir");
  }
}

TEST_CASE("a rating of exertion may stand in place of a reserve") {
  const auto log_of = [](const std::string& rir, const std::string& rpe) {
    return read_log("date,lifter,lift,load,unit,reps,rir,rpe\n2026-11-25,Ana,squat,60,kg,5," + rir +
                    "," + rpe + "\n");
  };
  const Log half = log_of("", "8.5");  // between one and two left
  REQUIRE(half.entries.size() == 1);
  REQUIRE(half.entries[0].set.reserve.has_value());
  CHECK(half.entries[0].set.reserve->low == RepsInReserve(1.0));
  CHECK(half.entries[0].set.reserve->high == RepsInReserve(2.0));

  const Log agreeing = log_of("2", "8");
  REQUIRE(agreeing.entries.size() == 1);
  CHECK(agreeing.reports.empty());

  const Log contradicting = log_of("4", "9");
  CHECK(contradicting.entries.empty());
  REQUIRE(contradicting.reports.size() == 1);
  CHECK(has(contradicting.reports[0].text, "contradicts"));

  const Log uncounted = log_of("", "4");
  REQUIRE(uncounted.entries.size() == 1);
  CHECK_FALSE(uncounted.entries[0].set.reserve.has_value());
  REQUIRE(uncounted.reports.size() == 1);
  CHECK(uncounted.reports[0].verdict == Verdict::remark);

  CHECK(log_of("", "11").refused() == 1);
}

TEST_CASE("a rating typed as a reserve is named, and read as written") {
  const Log log = read("2026-11-25,Ana,squat,,60,kg,5,8,completed\n");
  REQUIRE(log.entries.size() == 1);
  CHECK(log.entries[0].set.reserve->typical == RepsInReserve(8.0));
  REQUIRE(log.reports.size() == 1);
  CHECK(log.reports[0].verdict == Verdict::doubtful);
  CHECK(has(log.reports[0].text, "rating of exertion"));
}

TEST_CASE("a missed set has nothing left, whatever the row says") {
  const Log log = read("2026-11-25,Ana,squat,,60,kg,5,2,missed\n");
  REQUIRE(log.entries.size() == 1);
  CHECK_FALSE(log.entries[0].set.reserve.has_value());
  CHECK(log.reports.size() == 1);
  CHECK(reps_to_failure(log.entries[0].set) == 4.0);
}

TEST_CASE("a row with a field too many or too few is refused") {
  CHECK(has(only_report("2026-11-25,Ana,squat,,60,kg,5,2\n").text, "9 fields"));
  CHECK(has(only_report("2026-11-25,Ana,squat,,60,5,kg,5,2,completed\n").text, "quotation marks"));
  CHECK(read("2026-11-25,Ana,squat,,60,kg,5,2,completed,,\n").entries.size() == 1);
}

TEST_CASE("sets across are alike; the same line after other days was entered twice") {
  const std::string set = "2026-11-25,Ana,squat,,60,kg,5,2,completed\n";
  const std::string other = "2026-11-27,Ana,squat,,60,kg,5,2,completed\n";
  CHECK(read(set + set + set).entries.size() == 3);
  const Log log = read(set + set + other + set);
  CHECK(log.entries.size() == 3);
  REQUIRE(log.refused() == 1);
  CHECK(log.reports[0].line == 5);
  CHECK(has(log.reports[0].text, "line 2 again"));
}

TEST_CASE("with a column that numbers the sets, the same line was entered twice for certain") {
  const std::string set = "2026-11-25,Ana,squat,60,kg,5,1\n";
  const Log log = read_log("date,lifter,lift,load,unit,reps,set\n" + set + set);
  CHECK(log.entries.size() == 1);
  CHECK(log.refused() == 1);
}

TEST_CASE("dates out of order are used, and named") {
  const auto row = [](const std::string& date) {
    return date + ",Ana,squat,,60,kg,5,2,completed\n";
  };
  const Log log =
      read(row("2026-11-02") + row("2026-11-05") + row("2026-11-03") + row("2026-11-07"));
  CHECK(log.entries.size() == 4);
  REQUIRE(log.reports.size() == 1);
  CHECK(log.reports[0].line == 4);
  CHECK(log.reports[0].verdict == Verdict::remark);
  // Kept newest first, a log is in order.
  CHECK(read(row("2026-11-07") + row("2026-11-05") + row("2026-11-02")).reports.empty());
}

TEST_CASE("a lifter is one person however the name is typed, and a near name is named") {
  const std::string lone = "2026-11-27,Anna,squat,,60,kg,5,2,completed\n";
  std::string rows;
  for (int i = 1; i <= 5; ++i) {
    const std::string date = "2026-11-0" + std::to_string(i);
    rows += date + ",Ana,squat,,60,kg,5,2,completed\n" + date + ",ANA,squat,,60,kg,5,2,completed\n";
  }
  const Log log = read(rows + lone);
  CHECK(log.lifters() == std::vector<std::string>{"Ana", "Anna"});
  CHECK(log.sets_of("Ana").size() == 10);
  const auto groups = log.by_lifter();
  REQUIRE(groups.size() == 2);
  CHECK(groups[0].size() == 10);
  CHECK(groups[0].back()->line == 11);
  REQUIRE(groups[1].size() == 1);
  CHECK(groups[1][0]->lifter == "Anna");
  REQUIRE(log.reports.size() == 1);
  CHECK(has(log.reports[0].text, "did you mean Ana?"));
}

TEST_CASE("every row is counted once: used or refused") {
  const Log log = read(steady_sessions(6, "80") + "nonsense\n" +
                       "2026-10-01,Ana,bench press,,80,kg,600,2,completed\n");
  CHECK(log.rows == 8);
  CHECK(log.refused() == 2);
  CHECK(static_cast<int>(log.sets_of("Ana").size()) + log.refused() == log.rows);
}

TEST_CASE("that something hurt is taken from the note, whatever that column is called") {
  for (const std::string column : {"note", "Notes", "comment", "COMMENTS"}) {
    CAPTURE(column);
    const Log log = read_log("date,lifter,lift,load,unit,reps," + column +
                             "\n"
                             "2026-11-25,Ana,squat,60,kg,5,sharp pain in left shoulder - stopped\n"
                             "2026-11-26,Ana,squat,60,kg,5,easy\n");
    REQUIRE(log.entries.size() == 2);
    CHECK(log.entries[0].set.has_pain);
    CHECK_FALSE(log.entries[1].set.has_pain);
  }
  // Where there are two such columns, the first is read, and neither is an error.
  const Log both = read_log(
      "date,lifter,lift,load,unit,reps,notes,comments\n"
      "2026-11-25,Ana,squat,60,kg,5,hurt,\n");
  REQUIRE(both.entries.size() == 1);
  CHECK(both.entries[0].set.has_pain);
}

TEST_CASE("a name holds no line break and no control character, and is no book") {
  for (const std::string& name : {std::string("\"Eve\n!id\""), std::string("Eve\x1B[2J"),
                                  std::string(201, 'x'), std::string("\xC2\x9BJ")}) {
    const LineReport report = only_report("2026-11-25," + name + ",squat,,60,kg,5,2,\n");
    CHECK(report.column == "lifter");
    CHECK(report.verdict == Verdict::refused);
    CHECK(is_printable(to_text("club.csv", report)));
  }
  CHECK(read("2026-11-25,Andr\xE9,squat,,60,kg,5,2,\n").entries.size() == 1);  // no UTF-8
}

TEST_CASE("a report is one line, whatever stands in the file and in its name") {
  const LineReport report = only_report("2026-11-25,Ana,\"squat\nSTOP \x1B[2J\",,60,kg,5,2,\n");
  CHECK(to_text("a\nb.csv", report).starts_with(R"(a\nb.csv:2: refused: lift "squat\nSTOP \x)"));
}

TEST_CASE("a file of nonsense is counted, and its first lines are named") {
  std::string rows;
  for (int i = 0; i < 30'000; ++i) rows += "x" + std::to_string(i) + "\n";
  const Log log = read(rows);
  CHECK(log.refused() == 30'000);
  CHECK(log.reports.size() == LineReports::most);
  CHECK(log.reports.left_out() == 30'000 - LineReports::most);
}

TEST_CASE("a long field is refused, in whatever column it stands") {
  const std::string long_text(10'000, 'q');
  for (std::size_t column = 0; column < 9; ++column) {
    CAPTURE(column);
    std::string row;
    const std::string_view good[] = {"2026-11-25", "Ana", "squat", "",         "60",
                                     "kg",         "5",   "2",     "completed"};
    for (std::size_t i = 0; i < 9; ++i) {
      row += (i == 0 ? "" : ",") + (i == column ? long_text : std::string(good[i]));
    }
    const LineReport report = only_report(row + "\n");
    CHECK(report.verdict == Verdict::refused);
    CHECK(to_text("c", report).size() < 2000);
  }
}

TEST_CASE("loads whose unit nobody can know are asked about once, not refused row by row") {
  const auto read = [](std::string rows, std::optional<Unit> unit = {}) {
    return read_log("date,lift,load,unit,reps,rir\n" + rows, {.unit = unit});
  };
  std::string half;   // two of four rows without one
  std::string empty;  // a column with nothing in it
  std::string few;    // one of ten
  for (int day = 1; day <= 10; ++day) {
    const std::string date = "2026-11-" + std::string(day < 10 ? "0" : "") + std::to_string(day);
    few += date + ",squat,60," + (day == 4 ? "" : "kg") + ",5,2\n";
    if (day > 4) continue;
    half += date + ",squat,60," + (day % 2 == 0 ? "" : "kg") + ",5,2\n";
    empty += date + ",squat,60,,5,2\n";
  }
  for (const std::string& rows : {half, empty}) {
    const Log asked = read(rows);
    CHECK(asked.question == LogQuestion::unit);
    CHECK(asked.entries.empty());
    CHECK(asked.reports.size() == 0);
    CHECK(read(rows, Unit::kg).entries.size() == 4);
  }
  CHECK(read(half).failure ==
        "2 of 4 rows do not say whether their load is kg or lb; say the unit of those");
  // The unit that is said is that of the rows without one, and of no others.
  CHECK(read(half, Unit::lb).entries[0].set.load == Mass::from_kg(60));
  CHECK(read(half, Unit::lb).entries[1].set.load == Mass::from_lb(60));
  // One row among many is refused by its line.
  const Log one = read(few);
  CHECK(one.question == LogQuestion::none);
  CHECK(one.entries.size() == 9);
  REQUIRE(one.reports.size() == 1);
  CHECK(one.reports[0].column == "unit");
  CHECK(has(one.reports[0].text, "kg or lb"));
}
