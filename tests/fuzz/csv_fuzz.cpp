// tests/fuzz/csv_fuzz.cpp - whatever stands in a file: a log and a week are read, or said to be
// none
//
// The reader of logs and the examples' reader of weeks. No row is lost, every report names a line
// of the file, what was read passes its own check, reading twice gives the same, and what is
// written back is read again.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <barwright/log/log_reader.hpp>
#include <barwright/log/log_writer.hpp>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "check_week/planned_week.hpp"
#include "require.hpp"

using fuzz::require;

namespace {

void check_reports(const barwright::LineReports& reports, int lines) {
  int before = 0;
  for (const barwright::LineReport& report : reports) {
    require(report.line >= 1 && report.line <= lines, "a report names a line of the file");
    require(report.line >= before, "reports stand in the order of lines");
    require(!report.text.empty(), "a report says something");
    require(barwright::is_printable(barwright::to_text("log.csv", report)),
            "a report is shown in one line");
    before = report.line;
  }
}

void read_log(std::string_view text, int lines, const barwright::LogOptions& options) {
  const barwright::Log log = barwright::read_log(text, options);
  require(log.refused() >= 0, "no more sets than rows");
  require(log.failure.empty() == !log.entries.empty(), "sets, or a reason why there are none");
  check_reports(log.reports, lines);
  const auto refused = std::count_if(log.reports.begin(), log.reports.end(),
                                     [](const barwright::LineReport& report) {
                                       return report.verdict == barwright::Verdict::refused;
                                     });
  require(refused >= log.refused(), "a row that is not used is refused aloud");
  for (const barwright::LogEntry& entry : log.entries) {
    require(entry.line >= 2 && entry.line <= lines, "a set has its line");
    require(!entry.lifter.empty(), "a set has its lifter");
    require(!barwright::has_control(entry.lifter), "whose name holds no line break");
    require(entry.set.load >= barwright::Mass{}, "no load is below zero");
    (void)reps_to_failure(entry.set);
  }
  std::size_t of_all = 0;
  for (const std::string& lifter : log.lifters()) {
    of_all += log.sets_of(lifter).size();
  }
  require(of_all == log.entries.size(), "every set belongs to one lifter");
  for (const std::string& said : log.understood) {
    require(barwright::is_printable(said), "what was understood is shown in one line");
  }
  const barwright::Log clean = barwright::read_log(
      barwright::write_log(log), {.dumbbells = barwright::DumbbellLoads::together});
  require(clean.understood.empty(), "what is written back needs no understanding");
  for (const barwright::LineReport& report : clean.reports) {
    require(report.verdict != barwright::Verdict::refused ||
                report.text.find(" again, ") != std::string::npos,
            "what is written back is read again");
  }
  for (const std::string& lifter : log.lifters()) {
    const std::vector<barwright::NotedDay> after = clean.unread_of(lifter);
    for (const barwright::NotedDay& before : log.unread_of(lifter)) {
      const bool survives =
          std::any_of(after.begin(), after.end(), [&](const barwright::NotedDay& day) {
            const bool is_of_lift = !day.lift || (before.lift && day.lift->same_as(*before.lift));
            return is_of_lift && !(day.date < before.date) && day.hurts >= before.hurts &&
                   day.is_unwell >= before.is_unwell && day.is_missed >= before.is_missed;
          });
      require(survives, "what rows without a set say survives being written and read");
    }
  }
  const barwright::Log again = barwright::read_log(text, options);
  require(again.entries.size() == log.entries.size() && again.reports.size() == log.reports.size(),
          "reading twice gives the same");
}

void read_week(std::string_view text, int lines) {
  const check_week::PlannedWeek week = check_week::read(text, "week.csv");
  require(week.refused >= 0 && week.refused <= week.rows, "no more rows refused than there are");
  require(week.sessions.size() == week.session_names.size(), "every session has its name");
  check_reports(week.reports, lines);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto ends = std::count_if(text.begin(), text.end(),
                                  [](char letter) { return letter == '\n' || letter == '\r'; });
  const int lines = static_cast<int>(ends) + 1;
  read_log(text, lines, {});
  read_log(text, lines,
           {.columns = {{"x", "load"}, {"note", "lift"}},
            .dates = barwright::DateOrder::month_first,
            .year = 2026,
            .unit = barwright::Unit::lb,
            .dumbbells = barwright::DumbbellLoads::each,
            .lifter = "Ada"});
  read_week(text, lines);
  return 0;
}
