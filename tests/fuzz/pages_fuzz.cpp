// tests/fuzz/pages_fuzz.cpp - from the text of a file to the page, as the programs go
//
// Whatever a log holds, each lifter of it gets a session, a block and a review, or a refusal; what
// is printed is made of numbers and of text that a terminal shows, and a chart is whole.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/log/log_reader.hpp"
#include "barwright/planning.hpp"
#include "report/block_page.hpp"
#include "report/chart.hpp"
#include "report/refusals.hpp"
#include "report/review_page.hpp"
#include "report/session_page.hpp"
#include "report/words.hpp"
#include "require.hpp"
#include "squad_log.hpp"

namespace bw = barwright;
using fuzz::require;

namespace {

constexpr std::size_t most_sets = 24;  // a fit takes longer with more, and finds no more

/// Whether `word` stands in `text` by itself.
bool has_word(std::string_view text, std::string_view word) {
  const auto is_letter = [&](std::size_t i) {
    return i < text.size() && std::isalnum(static_cast<unsigned char>(text[i])) != 0;
  };
  for (std::size_t at = text.find(word); at != text.npos; at = text.find(word, at + 1)) {
    if (!is_letter(at + word.size()) && (at == 0 || !is_letter(at - 1))) return true;
  }
  return false;
}

/// A page holds lines that can be shown, and no number that is none.
/// @param lifter  may be called anything
void require_page(std::string text, const std::string& lifter) {
  require(!text.empty(), "a page says something");
  for (std::size_t at = text.find(lifter); !lifter.empty() && at != text.npos;
       at = text.find(lifter, at)) {
    text.erase(at, lifter.size());
  }
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    require(bw::is_printable(line), "a line can be shown");
    for (const std::string_view word : {"nan", "-nan", "inf", "-inf"}) {
      require(!has_word(line, word), "a figure is a number");
    }
  }
}

void plan(const std::vector<bw::LoggedSet>& sets, const bw::Lift& lift, bw::Date today,
          const report::About& about) {
  constexpr auto& curve = bw::equations::wathen;
  const bw::LearntLifter lifter =
      bw::learn_lifter(sets, lift.base(), today, bw::LifterFacts{.curve = curve});
  const auto session = bw::plan_session(lifter, {.lift = lift, .date = today});
  std::ostringstream page;
  if (session) {
    require(std::isfinite(session->load().kg()), "a load is a number");
    require(session->is_stopped() == session->sets.empty(), "under a stop there are no loads");
    require(!session->cautions.empty(), "no load without its cautions");
    report::SessionPage(page, lifter, *session, curve.facts, about).print();
  } else {
    page << report::to_text(session.refusal(), lifter, lift, about);
  }
  require_page(page.str(), about.lifter);

  const auto block = bw::plan_block(lifter, {.lift = lift, .start = today + 1});
  std::ostringstream block_page;
  if (block) {
    report::BlockPage(block_page, lifter, *block, curve.facts, about).print();
  } else {
    block_page << report::to_text(block.refusal(), lifter, lift, about);
  }
  require_page(block_page.str(), about.lifter);
}

void review(const std::vector<bw::LoggedSet>& sets, const bw::Lift& lift,
            const report::About& about) {
  const bw::ReviewRequest request{.lift = lift};
  const auto review = bw::review_block(sets, request);
  std::ostringstream page;
  if (review) {
    const report::Chart chart = report::make_chart(*review, about);
    report::ReviewPage(page, *review, about).print();
    const std::string drawing = report::to_svg(chart);
    require(drawing.ends_with("</svg>\n"), "a drawing is whole");
    require(drawing.find("<script") == drawing.npos, "and holds names as text");
  } else {
    page << report::to_text(review.refusal(), request, sets, about);
  }
  require_page(page.str(), about.lifter);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const squad_log::Log log = squad_log::read(text, "log.csv");
  for (const bw::LineReport& each : log.reports) {
    require(bw::is_printable(bw::to_text(log.name, each)), "a report is shown in one line");
  }
  if (!log.failure.empty() || log.entries.size() > most_sets) return 0;
  for (const std::string& lifter : log.lifters()) {
    report::About about{.lifter = lifter, .unit = log.usual_unit(lifter)};
    for (const bw::LogEntry& entry : log.entries) {
      if (entry.lifter == lifter) about.lines.push_back(entry.line);
    }
    const std::vector<bw::LoggedSet> sets = log.sets_of(lifter);
    bw::Date last = sets.front().date;
    for (const bw::LoggedSet& set : sets) last = std::max(last, set.date);
    if (bw::Date(bw::Date::last_year, 1, 1) < last) continue;  // a block would leave the calendar
    plan(sets, sets.back().lift, last + 1, about);
    review(sets, sets.back().lift, about);
  }
  return 0;
}
