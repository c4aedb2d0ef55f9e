// tests/log/kept_logs_test.cpp - logs as clubs keep them: every readable set read, nothing misread
//
// All logs, lifters and loads are invented. What is expected is what the one who typed it meant,
// and where that cannot be known, that it is asked.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <barwright/log/log_reader.hpp>
#include <barwright/log/log_writer.hpp>
#include <barwright/log/own_lifts.hpp>
#include <string>
#include <string_view>
#include <vector>

using namespace barwright;

namespace {

/// What was read, as it is written back, without the first line.
std::string rows(const Log& log) {
  CHECK(log.failure == "");
  const std::string csv = write_log(log.entries);
  return csv.substr(csv.find('\n') + 1);
}

bool says(const Log& log, std::string_view part) {
  for (const std::string& text : log.understood) {
    if (text.find(part) != std::string::npos) return true;
  }
  return false;
}

bool reports(const Log& log, Verdict verdict, int line, std::string_view part) {
  for (const LineReport& report : log.reports) {
    const bool is_it = report.verdict == verdict && report.line == line;
    if (is_it && report.text.find(part) != std::string::npos) return true;
  }
  return false;
}

/// The last day that rows without a set say something of.
std::optional<Date> last_unread(const Log& log, std::string_view lifter, bool NotedDay::*says) {
  std::optional<Date> last;
  for (const NotedDay& day : log.unread_of(lifter)) {
    if (day.*says && (!last || *last < day.date)) last = day.date;
  }
  return last;
}

/// The same text in UTF-16, least byte first or last.
std::string utf_16(std::string_view text, bool is_big_endian, bool has_mark) {
  std::string bytes;
  const auto put = [&](unsigned code) {
    const char high = static_cast<char>(code >> 8U);
    const char low = static_cast<char>(code & 0xFFU);
    bytes += is_big_endian ? high : low;
    bytes += is_big_endian ? low : high;
  };
  if (has_mark) put(0xFEFF);
  while (!text.empty()) {
    const auto [code, size] = detail::first_character(text);
    put(static_cast<unsigned>(code));
    text.remove_prefix(size);
  }
  return bytes;
}

constexpr std::string_view two_sets =
    "2026-09-24,Ana,squat,,100,kg,5,2,completed,\n"
    "2026-09-26,Ana,squat,,102.5,kg,5,1,completed,\n";

}  // namespace

// ---- what parts fields, decimals, dates

TEST_CASE("1: the plain log, and the same with our own names for all columns") {
  const Log log = read_log(
      "date,lifter,lift,load,unit,reps,rir\n2026-09-24,Ana,squat,100,kg,5,2\n"
      "2026-09-26,Ana,squat,102.5,kg,5,1\n");
  CHECK(rows(log) == two_sets);
  CHECK(log.understood.empty());
}

TEST_CASE("2: a spreadsheet set to German: semicolons, decimal commas, points in dates") {
  const Log log = read_log(
      "Date;Athlete;Exercise;Weight (kg);Reps;RIR\r\n24.09.2026;Ana;Squat;100;5;2\r\n"
      "26.09.2026;Ana;Squat;102,5;5;1\r\n");
  CHECK(rows(log) == two_sets);
  CHECK(says(log, "a comma in a number is its decimal sign"));
  CHECK(says(log, "the day comes first in its dates, as line 2"));
  CHECK(says(log, "Weight (kg) is the load"));
}

TEST_CASE("3: a spreadsheet set to French, tabs, without the zeros of the months") {
  const Log log = read_log(
      "day\tname\tlift\tload kg\treps\tleft\n24/9/2026\tAna\tsquat\t100,0\t5\t2\n"
      "26/9/2026\tAna\tsquat\t102,5\t5\t1\n");
  CHECK(rows(log) == two_sets);
}

TEST_CASE("4: American dates and pounds") {
  const Log log = read_log(
      "Date,Athlete,Exercise,Weight (lbs),Reps,RPE\n9/24/2026,Bo,Bench,225,5,8\n"
      "9/8/26,Bo,Bench,230,5,8.5\n");
  CHECK(rows(log) ==
        "2026-09-24,Bo,bench press,,225,lb,5,2,completed,\n"
        "2026-09-08,Bo,bench press,,230,lb,5,1-2,completed,\n");
  CHECK(says(log, "the month comes first in its dates, as line 2"));
}

TEST_CASE("5: dates that could be either are asked about, and read as told") {
  const std::string text =
      "date,lifter,lift,load,unit,reps\n04/09/2026,Ana,squat,100,kg,5\n"
      "06/09/2026,Ana,squat,100,kg,5\n";
  CHECK(read_log(text).failure.find("whether the day or the month comes first") !=
        std::string::npos);
  CHECK(read_log(text, {.dates = DateOrder::day_first}).entries[0].set.date == Date(2026, 9, 4));
  CHECK(read_log(text, {.dates = DateOrder::month_first}).entries[0].set.date == Date(2026, 4, 9));
}

TEST_CASE("6: between points the day comes first, told or not") {
  const Log log = read_log("date,lifter,lift,load,unit,reps\n04.09.2026,Ana,squat,100,kg,5\n");
  REQUIRE(log.entries.size() == 1);
  CHECK(log.entries[0].set.date == Date(2026, 9, 4));
  CHECK(says(log, "the day comes first"));
}

TEST_CASE("7: lines that contradict each other about it are named, not chosen between") {
  const std::string text =
      "date,lifter,lift,load,unit,reps\n24/09/2026,Ana,squat,100,kg,5\n"
      "09/26/2026,Ana,squat,100,kg,5\n";
  CHECK(read_log(text).failure.find("line 2 has the day first, line 3 the month") !=
        std::string::npos);
  const Log told = read_log(text, {.dates = DateOrder::day_first});
  CHECK(told.entries.size() == 1);
  CHECK(reports(told, Verdict::refused, 3, "a day that exists"));
}

TEST_CASE("8: dates without a year want one") {
  const std::string text = "date,lifter,lift,load,unit,reps\n24/09,Ana,squat,100,kg,5\n";
  CHECK(read_log(text).failure.find("without a year") != std::string::npos);
  const Log log = read_log(text, {.year = 2026});
  REQUIRE(log.entries.size() == 1);
  CHECK(log.entries[0].set.date == Date(2026, 9, 24));
  CHECK(says(log, "of 2026"));
}

TEST_CASE("9: the year first with one figure for the month, and a time of day after it") {
  const Log log = read_log(
      "date,lifter,lift,load,unit,reps,rir\n2026-9-24,Ana,squat,100,kg,5,2\n"
      "2026/09/26 18:30,Ana,squat,102.5,kg,5,1\n");
  CHECK(rows(log) == two_sets);
  CHECK(log.understood.empty());
}

TEST_CASE("10: months by their names") {
  const Log log = read_log(
      "date,lifter,lift,load,unit,reps,rir\n24 Sep 2026,Ana,squat,100,kg,5,2\n"
      "\"September 26, 2026\",Ana,squat,102.5,kg,5,1\n");
  CHECK(rows(log) == two_sets);
}

TEST_CASE("11: a comma between thousands is no decimal comma: it is refused with both readings") {
  const Log log = read_log(
      "date;lifter;lift;load;unit;reps\n2026-09-24;Ana;squat;1,250;lb;5\n"
      "2026-09-24;Ana;squat;1.250,5;lb;5\n2026-09-24;Ana;squat;225,5;lb;5\n");
  CHECK(log.entries.size() == 1);
  CHECK(reports(log, Verdict::refused, 2, "1.25 or 1250"));
  CHECK(reports(log, Verdict::refused, 3, "a load must be a number"));
}

TEST_CASE("12: where commas part the fields, a decimal comma is refused, not half read") {
  const Log quoted =
      read_log("date,lifter,lift,load,unit,reps\n2026-09-24,Ana,squat,\"102,5\",kg,5\n");
  CHECK(quoted.entries.empty());
  CHECK(reports(quoted, Verdict::refused, 2, "point"));
  const Log open = read_log("date,lifter,lift,load,unit,reps\n2026-09-24,Ana,squat,102,5,kg,5\n");
  CHECK(open.entries.empty());
}

// ---- encodings and line ends

TEST_CASE("13 to 16: UTF-16 with and without its mark, either byte first") {
  const std::string_view text =
      "date\tlifter\tlift\tload\tunit\treps\n"
      "2026-09-24\tZo\xC3\xAB \xE7\x8E\x8B\tsquat\t100\tkg\t5\n";
  for (const bool is_big_endian : {false, true}) {
    for (const bool has_mark : {false, true}) {
      const Log log = read_log(utf_16(text, is_big_endian, has_mark));
      REQUIRE(log.entries.size() == 1);
      CHECK(log.entries[0].lifter == "Zo\xC3\xAB \xE7\x8E\x8B");
    }
  }
}

TEST_CASE("half a pair in UTF-16 is read as a replacement character, an odd byte as no text") {
  std::string bytes =
      utf_16("date,lifter,lift,load,unit,reps\n2026-09-24,?,squat,100,kg,5\n", false, true);
  bytes.replace(bytes.find('?'), 2, std::string("\x00\xD8", 2));
  const Log log = read_log(bytes);
  REQUIRE(log.entries.size() == 1);
  CHECK(log.entries[0].lifter == "\xEF\xBF\xBD");
  CHECK(read_log(bytes + "x").failure.find("not plain text") != std::string::npos);
}

TEST_CASE("17: the code page of western Europe, said") {
  const Log log = read_log("date,lifter,lift,load,unit,reps\n2026-09-24,J\xF6rg,squat,100,kg,5\n");
  REQUIRE(log.entries.size() == 1);
  CHECK(log.entries[0].lifter == "J\xC3\xB6rg");
  CHECK(says(log, "Windows-1252"));
}

TEST_CASE("18: UTF-8 with a byte order mark, old line ends, blank lines") {
  const Log log = read_log(
      "\xEF\xBB\xBF\r\rDATE,LIFTER,LIFT,LOAD,UNIT,REPS,RIR\r\r2026-09-24,Ana,squat,100,KG,5,2\r"
      ",,,,,,\r2026-09-26,ana,squat,102.5,kg,5,1\r");
  CHECK(rows(log) == two_sets);
}

// ---- columns in other words

TEST_CASE("19: a log of one lifter has no column for names") {
  const Log log =
      read_log("date,exercise,weight kg,reps\n2026-09-24,squat,100,5\n", {.lifter = "Ana Lund"});
  REQUIRE(log.entries.size() == 1);
  CHECK(log.entries[0].lifter == "Ana Lund");
  CHECK(says(log, "all sets are those of Ana Lund"));
}

TEST_CASE("20: odd names of columns are told once") {
  const std::string text = "Datum;Wer;Was;Last;Anzahl\n24.09.2026;Ana;squat;100;5\n";
  CHECK(read_log(text).failure.find("the column \"date\" is missing") != std::string::npos);
  const Log log = read_log(text, {.columns = {{"datum", "date"},
                                              {"Wer", "lifter"},
                                              {"was", "exercise"},
                                              {"Last", "weight"},
                                              {"anzahl", "reps"}},
                                  .unit = Unit::kg});
  REQUIRE(log.entries.size() == 1);
  CHECK(log.entries[0].set.load == Mass::from_kg(100));
}

TEST_CASE("21: of two columns that could be one, the stronger name is it, and the other is named") {
  const Log log = read_log(
      "Day,Date,Lifter,Name,Lift,Load,Unit,Reps,Bodyweight\n"
      "Thu,2026-09-24,Ana,Ana L,squat,100,kg,5,62\n");
  REQUIRE(log.entries.size() == 1);
  CHECK(log.entries[0].lifter == "Ana");
  CHECK(says(log, "the column \"Day\" is not used"));
  CHECK(read_log("date,lifter,lift,weight,weight,reps\n").failure.find("twice") !=
        std::string::npos);
}

TEST_CASE("22: a unit nobody has said is asked for") {
  const std::string text = "date,lifter,lift,weight,reps\n2026-09-24,Ana,squat,100,5\n";
  CHECK(read_log(text).failure.find("kg or lb") != std::string::npos);
  CHECK(read_log(text, {.unit = Unit::lb}).entries[0].unit == Unit::lb);
}

TEST_CASE("23: a misspelt column that would change what rows mean is not passed over") {
  CHECK(read_log("date,lifter,lift,load,unit,reps,efort\n").failure.find("is it \"effort\"?") !=
        std::string::npos);
}

// ---- fields as people write them

TEST_CASE("24: units in the field, and reserves in all the ways they are said") {
  const Log log = read_log(
      "date,lifter,lift,weight,reps,effort\n"
      "2026-09-24,Ana,squat,100 kg,5,@8\n"
      "2026-09-25,Ana,squat,225lbs,5,RPE 8\n"
      "2026-09-26,Ana,squat,100kg,5 reps,2 RIR\n"
      "2026-09-27,Ana,squat,100kg,x5,8-9\n"
      "2026-09-28,Ana,squat,100kg,5,failed\n"
      "2026-09-29,Ana,squat,100kg,5,to failure\n"
      "2026-09-30,Ana,squat,100kg,5,\n");
  CHECK(rows(log) ==
        "2026-09-24,Ana,squat,,100,kg,5,2,completed,\n"
        "2026-09-25,Ana,squat,,225,lb,5,2,completed,\n"
        "2026-09-26,Ana,squat,,100,kg,5,2,completed,\n"
        "2026-09-27,Ana,squat,,100,kg,5,1-2,completed,\n"
        "2026-09-28,Ana,squat,,100,kg,5,,missed,\n"
        "2026-09-29,Ana,squat,,100,kg,5,0,completed,\n"
        "2026-09-30,Ana,squat,,100,kg,5,,completed,\n");
  CHECK(log.reports.empty());
}

TEST_CASE("25: several sets in a row; what was left is that of the last") {
  const Log log = read_log(
      "date,lifter,lift,load,unit,sets,reps,rir\n"
      "2026-09-24,Ana,squat,100,kg,,3x5,2\n"
      "2026-09-26,Ana,squat,100,kg,2,5,1\n"
      "2026-09-28,Ana,squat,100,kg,,5/5/4,failed\n"
      "2026-09-30,Ana,squat,100,kg,3,2x5,1\n"
      "2026-10-02,Ana,squat,100,kg,,21x5,1\n");
  CHECK(rows(log) ==
        "2026-09-24,Ana,squat,,100,kg,5,,completed,\n2026-09-24,Ana,squat,,100,kg,5,,completed,\n"
        "2026-09-24,Ana,squat,,100,kg,5,2,completed,\n"
        "2026-09-26,Ana,squat,,100,kg,5,,completed,\n2026-09-26,Ana,squat,,100,kg,5,1,completed,\n"
        "2026-09-28,Ana,squat,,100,kg,5,,completed,\n2026-09-28,Ana,squat,,100,kg,5,,completed,\n"
        "2026-09-28,Ana,squat,,100,kg,4,,missed,\n");
  CHECK(log.rows == 5);
  CHECK(log.refused() == 2);
  CHECK(says(log, "3 rows are several sets"));
}

TEST_CASE("BW and BW+10 are what hangs from the belt, of lifts that move the body") {
  // [common practice, no source]
  const Log log = read_log(
      "date,lift,load,unit,reps\n2026-09-24,chins,BW,,8\n2026-09-25,pull-up,BW+10,kg,5\n"
      "2026-09-26,dip,bodyweight + 12.5 kg,,5\n2026-09-27,weighted chins,bw+10lb,,5\n"
      "2026-09-28,squat,BW+10,kg,5\n2026-09-29,strict press,40,kg,5\n");
  REQUIRE(log.failure == "");
  REQUIRE(log.entries.size() == 5);
  CHECK(log.entries[0].set.lift.same_as(lifts::pull_up));
  CHECK(log.entries[0].set.load == Mass{});
  CHECK(log.entries[1].set.load == Mass::from_kg(10));
  CHECK(log.entries[2].set.load == Mass::from_kg(12.5));
  CHECK(log.entries[3].set.load == Mass::from_lb(10));
  CHECK(reports(log, Verdict::refused, 6, "a load must be"));
  CHECK(log.entries[4].set.lift.same_as(lifts::overhead_press));
}

TEST_CASE("7,5 reps may be two sets or a decimal comma: where it can be either it is asked") {
  const std::string head = "date;lift;load;unit;reps\n2026-09-24;squat;100;kg;";
  for (const char* const reps : {"7,5", "10,5"}) {
    CAPTURE(reps);
    const Log log = read_log(head + reps + "\n");
    CHECK(log.entries.empty());
    CHECK(reports(log, Verdict::refused, 2, "Two sets, or a decimal comma?"));
  }
  CHECK(read_log(head + "7/5\n").entries.size() == 2);
  CHECK(read_log(head + "7,5,5\n").entries.size() == 3);
  CHECK(read_log(head + "12,10\n").entries.size() == 2);
  // Where commas part the fields none is a decimal sign.
  CHECK(read_log("date,lift,load,unit,reps\n2026-09-24,squat,100,kg,\"7,5\"\n").entries.size() ==
        2);
}

TEST_CASE("26: 8-10 reps are a plan, not what was done: doubtful, the fewer taken") {
  const Log log = read_log("date,lifter,lift,load,unit,reps\n2026-09-24,Ana,squat,60,kg,8-10\n");
  REQUIRE(log.entries.size() == 1);
  CHECK(log.entries[0].set.reps == Reps(8));
  CHECK(reports(log, Verdict::doubtful, 2, "The fewer are taken"));
}

TEST_CASE("27: one column for the lift and what changes it, plurals and short words") {
  const Log log = read_log(
      "date,lifter,exercise,load,unit,reps\n2026-09-24,Ana,Front Squats,60,kg,5\n"
      "2026-09-24,Ana,paused bench press,50,kg,5\n2026-09-24,Ana,Sumo deadlift,90,kg,5\n"
      "2026-09-24,Ana,OHP,35,kg,5\n2026-09-24,Ana,Nordic thing,35,kg,5\n"
      "2026-09-24,Ana,DL,100,kg,5\n2026-09-24,Ana,Paused BP,50,kg,5\n");
  CHECK(rows(log) ==
        "2026-09-24,Ana,squat,front squat,60,kg,5,,completed,\n"
        "2026-09-24,Ana,bench press,paused,50,kg,5,,completed,\n"
        "2026-09-24,Ana,deadlift,sumo,90,kg,5,,completed,\n"
        "2026-09-24,Ana,overhead press,,35,kg,5,,completed,\n"
        "2026-09-24,Ana,deadlift,,100,kg,5,,completed,\n"
        "2026-09-24,Ana,bench press,paused,50,kg,5,,completed,\n");
  CHECK(says(log, "Front Squats is the squat, front squat"));
  CHECK(!says(log, "OHP is"));  // an alias of the catalogue
  CHECK(reports(log, Verdict::refused, 6, "unknown lift"));
}

TEST_CASE("28: dumbbells of one hand, told by the field, or by who reads the log") {
  const std::string text =
      "date,lifter,lift,load,unit,reps\n2026-09-24,Ana,DB bench press,20 each,kg,8\n"
      "2026-09-25,Ana,DB bench press,2x20,kg,8\n2026-09-26,Ana,DB bench press,40,kg,8\n";
  for (const LogEntry& entry : read_log(text).entries) CHECK(entry.set.load == Mass::from_kg(40));
  CHECK(says(read_log(text), "loads of one dumbbell were doubled"));
  const std::string plain =
      "date,lifter,lift,load,unit,reps\n2026-09-24,Ana,dumbbell bench,20,kg,8\n"
      "2026-09-24,Ana,bench press,60,kg,8\n";
  const Log each = read_log(plain, {.dumbbells = DumbbellLoads::each});
  REQUIRE(each.entries.size() == 2);
  CHECK(each.entries[0].set.load == Mass::from_kg(40));
  CHECK(each.entries[1].set.load == Mass::from_kg(60));
  CHECK(says(read_log(plain), "taken for both together"));
  CHECK(read_log("date,lifter,lift,load,unit,reps\n2026-09-24,Ana,squat,50 each,kg,8\n")
            .entries.empty());
}

TEST_CASE("a club's own lift is read by its name alone, or among the modifiers") {
  const OwnLifts own =
      read_own_lifts("name,lift,low,typical,high\ntowel press,bench press,90,96,102\n");
  const Log log = read_log(
      "date,lifter,lift,modifiers,load,unit,reps\n2026-09-24,Ana,Towel press,,50,kg,5\n"
      "2026-09-25,Ana,bench,towel press,50,kg,5\n",
      {.own_lifts = own.modifiers()});
  CHECK(rows(log) ==
        "2026-09-24,Ana,bench press,towel press,50,kg,5,,completed,\n"
        "2026-09-25,Ana,bench press,towel press,50,kg,5,,completed,\n");
}

TEST_CASE("29: outcomes in other words; a miss that stands in the note only is asked about") {
  const Log log = read_log(
      "date,lifter,lift,load,unit,reps,made,notes\n2026-09-24,Ana,squat,100,kg,1,no,\n"
      "2026-09-25,Ana,squat,95,kg,1,yes,\n2026-09-26,Ana,squat,100,kg,2,,missed the second\n"
      "2026-09-27,Ana,squat,90,kg,2,perhaps,\n");
  CHECK(rows(log) ==
        "2026-09-24,Ana,squat,,100,kg,1,,missed,\n2026-09-25,Ana,squat,,95,kg,1,,completed,\n"
        "2026-09-26,Ana,squat,,100,kg,2,,,missed the second\n");
  CHECK(reports(log, Verdict::doubtful, 4, "was the last rep missed?"));
  CHECK(log.refused() == 1);
}

TEST_CASE("a note that is only \"failed\" is a missed set, which no load may rest on") {
  const Log log = read_log(
      "date,lifter,lift,load,unit,reps,rir,notes\n2026-09-24,Ana,squat,115,kg,1,,Failed\n"
      "2026-09-25,Ana,squat,110,kg,1,1,failed\n2026-09-26,Ana,squat,110,kg,1,,missed 115 after\n"
      "2026-09-27,Ana,squat,105,kg,5,@10,Missed last rep\n2026-09-28,Ana,squat,105,kg,5,0,fail\n");
  CHECK(rows(log) ==
        "2026-09-24,Ana,squat,,115,kg,1,,missed,\n2026-09-25,Ana,squat,,110,kg,1,,missed,\n"
        "2026-09-26,Ana,squat,,110,kg,1,,,missed 115 "
        "after\n2026-09-27,Ana,squat,,105,kg,5,0,missed,\n"
        "2026-09-28,Ana,squat,,105,kg,5,0,missed,\n");
  // What was left contradicts it, or another set may be meant.
  CHECK(reports(log, Verdict::doubtful, 3, "was the last rep missed?"));
  CHECK(reports(log, Verdict::doubtful, 4, "was the last rep missed?"));
  CHECK_FALSE(reports(log, Verdict::doubtful, 2, "was the last rep missed?"));
  CHECK(says(log, "a missed set"));
}

TEST_CASE("a line that is only a remark is no set that is missing; of pain it is told") {
  const Log log = read_log(
      "date,lifter,lift,load,unit,reps,notes\n2026-09-24,Ana,squat,100,kg,5,\n"
      "2026-09-25,Ana,,,,,flu\n2026-09-26,Ana,,,,,shoulder pain\n"
      "2026-09-27,Ana,squat,heavy,kg,5,hurt my back\n2026-09-28,Ana,,,,,\n");
  CHECK(log.entries.size() == 1);
  CHECK(log.rows == 5);
  CHECK(log.remarks == 2);
  CHECK(log.refused() == 2);
  CHECK(reports(log, Verdict::remark, 3, "a remark without a set"));
  CHECK_FALSE(reports(log, Verdict::remark, 3, "pain"));
  CHECK(reports(log, Verdict::remark, 4, "speaks of pain"));
  CHECK(reports(log, Verdict::refused, 5, "a load must be"));
  CHECK(reports(log, Verdict::remark, 5, "speaks of pain"));
  CHECK(reports(log, Verdict::refused, 6, "no set in this line"));
  // Many remarks are no reason to doubt the sets.
  CHECK_FALSE(read_log("date,lift,load,unit,reps,note\n2026-09-24,squat,100,kg,5,\n"
                       "2026-09-25,,,,,flu\n2026-09-26,,,,,still flu\n")
                  .needs_confirmation());
  CHECK(read_log("date,lift,load,unit,reps,note\n2026-09-25,,,,,flu\n").failure ==
        "there are no sets in it");
}

TEST_CASE("30: where a fifth of the rows is refused, somebody is to confirm it") {
  std::string text = "date,lifter,lift,load,unit,reps\n";
  for (int day = 10; day < 18; ++day) {
    text += "2026-09-" + std::to_string(day) + ",Ana,squat,100,kg,5\n";
  }
  CHECK(!read_log(text).needs_confirmation());
  CHECK(!read_log(text + "?,Ana,squat,100,kg,5\n").needs_confirmation());
  CHECK(read_log(text + "?,Ana,squat,100,kg,5\n?,Bo,squat,100,kg,5\n").needs_confirmation());
}

TEST_CASE("what stands in a column of an unknown name is not lost") {
  // [assumption: whoever wrote a miss anywhere meant it]
  const std::string head = "date,lifter,lift,load,unit,reps,how it went,minutes\n";
  const Log log = read_log(head +
                           "2026-09-21,Ana,squat,95,kg,5,good,\n"
                           "2026-09-22,Ana,squat,100,kg,5,failed the last rep,\n"
                           "2026-09-23,Ana,squat,95,kg,5,missed the bus,\n");
  REQUIRE(log.entries.size() == 3);
  CHECK_FALSE(log.entries[0].set.may_be_missed);
  CHECK(log.entries[1].set.may_be_missed);
  CHECK(log.entries[1].complaint == "failed the last rep");
  CHECK_FALSE(log.entries[2].set.may_be_missed);
  // A column with nothing in it is not worth a word.
  CHECK(says(log,
             "columns not used: how it went; one that is a column of this log can be named, as "
             "in \"how it went=note\""));
  // Named, it is certain.
  LogOptions options;
  options.columns = {{"how it went", "note"}};
  const Log named =
      read_log(head + "2026-09-22,Ana,squat,100,kg,5,failed the last rep,\n", options);
  CHECK(named.entries[0].set.outcome == Outcome::missed);
  CHECK_FALSE(says(named, "not used"));
}

TEST_CASE("pain counts where it stands in a row that is refused, or in a column that is not read") {
  const std::string head = "date,lifter,lift,load,unit,reps,note,how it felt\n";
  const std::string good =
      "2026-09-20,Ana,squat,100,kg,5,,\n2026-09-21,Ana,squat,100,kg,5,,\n"
      "2026-09-21,Bo,squat,100,kg,5,,\n";
  const auto day_after = [&](const std::string& row, std::string_view lifter = "Ana") {
    return last_unread(read_log(head + good + row), lifter, &NotedDay::hurts);
  };
  const Date day(2026, 9, 22);
  CHECK_FALSE(day_after(""));
  CHECK(day_after("2026-09-22,Ana,squat,100,kg,0,sharp pain - stopped,\n") == day);
  CHECK(day_after("2026-09-22,Ana,squat,,,,knee hurt, no set,\n") == day);  // a comma too many
  CHECK(day_after("2026-09-22,Ana,sqat,100,kg,5,knee hurt,\n") == day);
  CHECK(day_after("2026-09-22,Ana,squat,100,kg,five,,knee hurt\n") == day);
  CHECK(day_after("2026-09-22,ana ,squat,100,kg,pain,,\n") == day);
  // Without a day that can be read it is the lifter's last; without a lifter it is anybody's.
  CHECK(day_after("?,Ana,squat,100,kg,0,sharp pain,\n") == Date(2026, 9, 21));
  CHECK(day_after("2026-09-22,,squat,100,kg,5,sharp pain,\n") == day);
  // Another's pain, and a name that only looks like it.
  CHECK_FALSE(day_after("2026-09-22,Bo,squat,100,kg,0,sharp pain,\n"));
  CHECK_FALSE(day_after("2026-09-22,Hurtado,squat,100,kg,0,,\n"));

  const Log felt = read_log(head + good + "2026-09-22,Ana,squat,100,kg,5,,knee hurt\n");
  CHECK(felt.entries.back().set.has_pain);
  CHECK_FALSE(felt.entries.front().set.has_pain);

  // A joint with a complaint is asked about there, too; a muscle group is none.
  struct Row {
    std::string_view said;
    bool may_hurt;
  };
  for (const Row& row : {Row{"left shoulder clicky", true}, Row{"no knee pain once warm", true},
                         Row{"shoulder", false}, Row{"back again", false}, Row{"fine", false}}) {
    CAPTURE(row.said);
    const Log log =
        read_log(head + good + "2026-09-22,Ana,squat,100,kg,5,," + std::string(row.said) + "\n");
    CHECK(log.entries.back().set.may_hurt == row.may_hurt);
    CHECK_FALSE(log.entries.back().set.has_pain);
  }

  // A column that asks for it by its name is answered by any word but no.
  const Log asked = read_log(
      "date,lift,load,unit,reps,Injury?\n2026-09-20,squat,100,kg,5,\n"
      "2026-09-21,squat,100,kg,5,no\n2026-09-22,squat,100,kg,5,0/10\n"
      "2026-09-23,squat,100,kg,5,left knee\n");
  REQUIRE(asked.entries.size() == 4);
  for (const LogEntry& entry : asked.entries) {
    CHECK(entry.set.has_pain == (entry.set.date == Date(2026, 9, 23)));
  }
}

TEST_CASE("a miss counts where it stands in a row that is refused, and pain beside dizziness") {
  const std::string head = "date,lifter,lift,load,unit,reps,outcome,note\n";
  const std::string good = "2026-09-20,Ana,squat,100,kg,5,,\n2026-09-21,Ana,squat,100,kg,5,,\n";
  const auto log_with = [&](const std::string& row) { return read_log(head + good + row); };
  const Date day(2026, 9, 22);
  for (const char* const row :
       {"2026-09-22,Ana,squat,100,kg,five,,missed the last rep\n",
        "2026-09-22,Ana,squat,100,kg,0,failed,\n", "2026-09-22,Ana,sqat,100,kg,5,missed,\n",
        "2026-09-22,Ana,squat,a lot,kg,5,,failed on 5\n", "2026-09-22,Ana,squat,100,kg,failed,,\n",
        "2026-09-22,Ana,,,,,,missed rep\n"}) {
    CAPTURE(row);
    const Log log = log_with(row);
    CHECK(last_unread(log, "Ana", &NotedDay::is_missed) == day);
    CHECK_FALSE(last_unread(log, "Bo", &NotedDay::is_missed));
    CHECK_FALSE(last_unread(log, "Ana", &NotedDay::hurts));
    CHECK(reports(log, Verdict::remark, 4, "a missed rep"));
    CHECK(last_unread(read_log(write_log(log)), "Ana", &NotedDay::is_missed) == day);
  }
  for (const char* const row :
       {"2026-09-22,Ana,squat,100,kg,five,,\n", "2026-09-22,Ana,squat,100,kg,five,completed,easy\n",
        "2026-09-22,Ana,,,,,,missed the bus\n", "2026-09-22,Ana,,,,,,missed yesterday's session\n",
        "2026-09-22,Ana,,,,,,felt a failure at work\n",
        "2026-09-22,Ana,squat,100,kg,five,,got stuck in traffic\n",
        // of what is planned nowhere here
        "2026-09-22,Ana,calf raise,40,kg,12,failed,\n",
        "2026-09-22,Ana,assisted chin,20,kg,8,,failed the last rep\n",
        // of no session that anybody knows
        ",Ana,,,,,,last spring I failed the last rep twice\n"}) {
    CAPTURE(row);
    CHECK_FALSE(last_unread(log_with(row), "Ana", &NotedDay::is_missed));
  }
  // A row whose day could not be read is taken to be of the day of the set before it, and stays
  // there.
  const std::string later = "2026-09-25,Ana,squat,100,kg,5,,\n";
  CHECK(last_unread(log_with("26/11/205,Ana,squat,100,kg,5,missed,\n" + later), "Ana",
                    &NotedDay::is_missed) == Date(2026, 9, 21));
  const Log both = log_with("2026-09-22,Ana,squat,100,kg,five,,dizzy and the knee hurt\n");
  CHECK(last_unread(both, "Ana", &NotedDay::hurts) == day);
  CHECK(last_unread(both, "Ana", &NotedDay::is_unwell) == day);
  const Log again = read_log(write_log(both));
  CHECK(last_unread(again, "Ana", &NotedDay::hurts) == day);
  CHECK(last_unread(again, "Ana", &NotedDay::is_unwell) == day);
}

TEST_CASE(
    "how hard a set was in words counts no reps: the set is kept, not rated, and asked about") {
  const auto rated = [](const std::string& rir, const std::string& rpe = "") {
    return read_log("date,lift,load,unit,reps,rir,rpe\n2026-09-24,squat,100,kg,5," + rir + "," +
                    rpe + "\n");
  };
  for (const char* const word :
       {"easy", "Hard", "moderate", "very hard", "max effort", "all-out", "pretty easy"}) {
    CAPTURE(word);
    for (const Log& log : {rated(word), rated("", word)}) {
      REQUIRE(log.entries.size() == 1);
      CHECK(log.refused() == 0);
      CHECK_FALSE(log.entries[0].set.reserve);
      CHECK(log.entries[0].set.outcome == Outcome::completed);
      CHECK(reports(log, Verdict::doubtful, 2, "How many reps were left?"));
    }
  }
  // A figure in the other column is one.
  CHECK(rated("easy", "7").entries[0].set.reserve->typical == RepsInReserve(3));
  CHECK(rated("3", "easy").entries[0].set.reserve->typical == RepsInReserve(3));
  // Words of a failure are what they were, and may say it at length.
  CHECK(rated("to failure").entries[0].set.reserve->typical == RepsInReserve(0));
  for (const char* const miss : {"failed", "missed last rep", "last rep failed"}) {
    CHECK(rated(miss).entries[0].set.outcome == Outcome::missed);
    CHECK(rated("", miss).entries[0].set.outcome == Outcome::missed);
  }
  // Of others nobody knows whether the set was made, and of an odd figure what it counts.
  for (const char* const other :
       {"nearly failed", "not easy", "with help", "7/10", "2ish", "60 kg"}) {
    CAPTURE(other);
    CHECK(rated(other).entries.empty());
  }
  CHECK(rated("pain").entries[0].set.has_pain);
}

TEST_CASE("a row that could not be read keeps its lift, whose lifts alone it concerns") {
  const std::string head = "date,lifter,lift,load,unit,reps,outcome,note\n";
  const std::string good = "2026-09-20,Ana,squat,100,kg,5,,\n2026-09-21,Ana,squat,100,kg,5,,\n";
  struct Row {
    std::string_view row;
    const BaseLift* lift;  // null: any
    bool NotedDay::*says;
    bool is_refused = true;
  };
  const BaseLift* const bench = &lifts::bench_press;
  const Row rows[] = {
      {"2026-09-22,Ana,bench press,100,kg,five,missed,", bench, &NotedDay::is_missed},
      {"2026-09-22,Ana,Paused Bench,100,kg,five,,failed the last rep", bench, &NotedDay::is_missed},
      {"2026-09-22,Ana,bench press,100,kg,0,,sharp pain", bench, &NotedDay::hurts},
      {"2026-09-22,Ana,bench press,100,kg,0,,dizzy", bench, &NotedDay::is_unwell},
      // a comma too many, behind the lift
      {"2026-09-22,Ana,bench press,100,kg,5,,elbow hurt, stopped", bench, &NotedDay::hurts},
      // a lift with a note is a remark on the lift
      {"2026-09-22,Ana,bench press,,,,,elbow hurts", bench, &NotedDay::hurts, false},
      {"2026-09-22,Ana,bench press,,,,,bailed", bench, &NotedDay::is_missed, false},
      // of any lift: misspelt, without one, in another's column
      {"2026-09-22,Ana,bnech press,100,kg,5,missed,", nullptr, &NotedDay::is_missed},
      {"2026-09-22,Ana,,100,kg,5,missed,", nullptr, &NotedDay::is_missed},
      {"2026-09-22,Ana,100,bench press,kg,5,,elbow hurts", nullptr, &NotedDay::hurts},
      {"2026-09-22,Ana,,,,,,elbow hurts", nullptr, &NotedDay::hurts, false},
      {"2026-09-22,Ana,bench press,100,kg,five,,\"elbow hurts\nand more", nullptr,
       &NotedDay::hurts},
  };
  for (const Row& row : rows) {
    CAPTURE(row.row);
    const Log log = read_log(head + good + std::string(row.row) + "\n");
    CHECK((log.refused() > 0) == row.is_refused);
    const Log again = read_log(write_log(log));
    CHECK(again.refused() == 0);
    for (const Log* const each : {&log, &again}) {
      const std::vector<NotedDay> days = each->unread_of("Ana");
      REQUIRE(days.size() == 1);
      CHECK(days[0].date == Date(2026, 9, 22));
      CHECK(days[0].*row.says);
      CHECK(days[0].lift.has_value() == (row.lift != nullptr));
      if (days[0].lift && row.lift != nullptr) CHECK(days[0].lift->same_as(*row.lift));
    }
  }
  // A lift with a note that says nothing of the kind lacks its load and reps.
  CHECK(read_log(head + good + "2026-09-22,Ana,bench press,,,,,gym was full\n").refused() == 1);
}

TEST_CASE("who says what the ratings are is not asked whether the high ones are of another scale") {
  const std::string log = "date,lift,load,unit,reps,rir\n2026-09-20,squat,100,kg,5,8\n";
  CHECK(reports(read_log(log), Verdict::doubtful, 2, "Read as written"));
  CHECK_FALSE(
      reports(read_log(log, {.ratings_are_told = true}), Verdict::doubtful, 2, "Read as written"));
}

TEST_CASE("a note that names no lifter counts for everybody, and the report says so") {
  const std::string head = "date,lifter,lift,load,unit,reps,note\n";
  const std::string good = "2026-09-21,Ana,squat,100,kg,5,\n2026-09-21,Bo,squat,100,kg,5,\n";
  for (const char* const row :
       {"2026-09-22,,,,,,missed the last rep\n", "2026-09-22,,squat,100,kg,5,bailed\n"}) {
    CAPTURE(row);
    const Log log = read_log(head + good + row);
    CHECK(reports(log, Verdict::remark, 4, "for everybody, as no lifter is named"));
    for (const char* const lifter : {"Ana", "Bo"}) {
      CHECK(last_unread(log, lifter, &NotedDay::is_missed) == Date(2026, 9, 22));
    }
  }
  const Log named = read_log(head + good + "2026-09-22,Bo,,,,,missed the last rep\n");
  CHECK_FALSE(reports(named, Verdict::remark, 4, "everybody"));
  CHECK_FALSE(last_unread(named, "Ana", &NotedDay::is_missed));
}

TEST_CASE("pain in rows that give no set survives being written and read") {
  const std::string head = "date,lifter,lift,load,unit,reps,note\n";
  const std::string good =
      "2026-09-20,Ana,squat,100,kg,5,\n2026-09-21,Ana,squat,100,kg,5,\n"
      "2026-09-21,=Bo,squat,100,kg,5,\n";
  for (const char* const row :
       {"2026-09-22,ana,squat,100,kg,0,sharp pain - stopped\n", "2026-09-22,Ana,,,,,knee hurt\n",
        "2026-09-22,=bo,sqat,100,kg,5,knee hurt\n", "?,Ana,squat,100,kg,0,sharp pain\n",
        "2026-09-22,,squat,100,kg,5,sharp pain\n", "?,,squat,100,kg,5,sharp pain\n",
        "2026-09-22,Cy,squat,100,kg,0,pain\n"}) {
    CAPTURE(row);
    const Log log = read_log(head + good + row + row);
    const std::string clean = write_log(log);
    CAPTURE(clean);
    const Log again = read_log(clean);
    CHECK(again.refused() == 0);
    CHECK(again.entries.size() == log.entries.size());
    CHECK(again.unread.size() == 1);
    for (const char* const lifter : {"Ana", "=Bo"}) {
      CHECK(last_unread(again, lifter, &NotedDay::hurts) ==
            last_unread(log, lifter, &NotedDay::hurts));
    }
    CHECK(write_log(again) == clean);
  }
  // In the order of the lines.
  const Log log = read_log(head + "2026-09-19,Ana,squat,100,kg,0,pain\n" + good);
  CHECK(write_log(log).find("note\n2026-09-19,Ana,squat,,,,,,,pain\n2026-09-20,Ana,squat") !=
        std::string::npos);
}

TEST_CASE("31: what was read is written back clean, and reads the same again") {
  const Log log = read_log(
      "Date;Athlete;Exercise;Weight (kg);Reps;Effort;Notes\n24.09.2026;Zo\xEB;Sumo deadlifts;"
      "102,5;3x5;@8,5;sharp pain in the knee\n");
  CHECK(log.entries.size() == 3);
  const std::string clean = write_log(log.entries);
  const Log again = read_log(clean);
  CHECK(write_log(again.entries) == clean);
  CHECK(again.understood.empty());
  CHECK(again.entries.back().set.has_pain);
}
