// examples/squad_sheet/sheet.hpp - a squad's day as data, as text and as CSV
//
// One entry for each lifter and lift, in the order in which they are to be read; html.hpp draws the
// same for paper and for a phone.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <ostream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/log/log_writer.hpp"
#include "barwright/planning.hpp"
#include "program.hpp"
#include "report/day_words.hpp"
#include "report/words.hpp"
#include "squad_sheet/asked.hpp"

namespace squad_sheet {

namespace bw = barwright;

/// One lift of one lifter, and what came of it.
struct Entry {
  std::string lifter{};
  bw::Unit unit = bw::Unit::kg;
  bw::SessionRequest request;
  bw::SquadResult result{};
  std::vector<bw::LoggedSet> log{};  ///< the lifter's
  bw::LifterFacts facts{};           ///< and what is known beside it
  std::vector<report::Complaint> complaints{};

  /// A caution's text, and the set of the log that it rests on, quoted.
  [[nodiscard]] std::string with_note(const bw::Caution& caution) const {
    std::string text(caution.text);
    if (report::noted_for(caution) == nullptr) return text;
    const report::About about{.complaints = complaints, .unit = unit};
    const bw::Lifter known =
        bw::noted_lifter(log, bw::Lift(request.lift.base()), request.date, facts);
    const std::string noted = report::where_it_is_noted(caution, known, request.date, about);
    if (!noted.empty()) text += " " + noted + (noted.back() == '.' ? "" : ".");
    return text;
  }
  [[nodiscard]] bool is_stopped() const { return result.plan && result.plan->is_stopped(); }
  [[nodiscard]] bool is_planned() const { return result.plan && !result.plan->is_stopped(); }
};

/// The sheet of one day.
struct Sheet {
  bw::Date date;
  std::vector<Entry> entries{};
};

/// What a sheet has room for. More is no squad, and takes the machine for minutes.
inline constexpr std::size_t most_entries = 1000;

/// Plans what is asked for everybody it is meant for.
/// @throws program::Refusal where that is too much for a sheet.
/// @param usual  the day, the bound and what would catch a miss, for all of them
/// @param room   as typed; empty: the usual gym in the unit of each lifter's log
/// @param ratings  what the log's reps in reserve are
inline Sheet plan_sheet(const bw::Log& log, const AskedTable& asked,
                        const bw::SessionRequest& usual, const std::string& room,
                        bw::RatingScale ratings) {
  const std::vector<std::string> lifters = log.lifters();
  std::vector<std::vector<bw::LoggedSet>> sets;
  std::vector<bw::Unit> units;  // that most of a lifter's loads are written in
  std::vector<std::vector<report::Complaint>> complaints;
  std::vector<bw::SquadMember> squad;
  std::size_t count = 0;
  for (const auto& entries : log.by_lifter()) {
    sets.push_back(bw::Log::sets_of(entries));
    units.push_back(bw::Log::usual_unit(entries));
    complaints.push_back(report::complaints_of(entries));
  }
  for (std::size_t i = 0; i < lifters.size(); ++i) {
    bw::SquadMember member{.name = lifters[i], .log = sets[i], .facts = {.ratings = ratings}};
    member.facts.noted = log.unread_of(lifters[i]);
    member.facts.body_mass = asked.body_of(lifters[i]);
    for (const Asked& each : asked.rows) {
      const bool has_trained = std::any_of(sets[i].begin(), sets[i].end(), [&](const auto& set) {
        return set.lift.base().same_as(each.lift.base());
      });
      const bool is_named = bw::fields::plain(each.lifter) == bw::fields::plain(lifters[i]);
      if (each.lifter.empty() ? !has_trained : !is_named) continue;
      bw::SessionRequest request = usual;
      request.lift = each.lift;
      request.sets = each.sets;
      request.reps = each.reps;
      request.reserve = each.reserve;
      request.room = !room.empty()              ? bw::parse_room(room)
                     : units[i] == bw::Unit::lb ? bw::plate_sets::gym_lb
                                                : bw::plate_sets::gym_kg;
      member.requests.push_back(request);
    }
    count += member.requests.size();
    squad.push_back(std::move(member));
  }
  if (count > most_entries) {
    throw program::Refusal("a sheet has room for " + std::to_string(most_entries) +
                           " lifts; these are " + std::to_string(count) +
                           ". Name who trains what with --asked");
  }
  Sheet sheet{.date = usual.date};
  for (bw::SquadResult& result : bw::plan_squad(squad)) {
    const bw::SquadMember& member = squad[result.member];
    sheet.entries.push_back({.lifter = member.name,
                             .unit = units[result.member],
                             .request = member.requests[result.request],
                             .result = std::move(result),
                             .log = {member.log.begin(), member.log.end()},
                             .facts = member.facts,
                             .complaints = complaints[result.member]});
  }
  return sheet;
}

/// Why there is no load; empty where there is one.
inline std::string why_no_load(const Entry& entry) {
  if (entry.is_planned()) return {};
  if (!entry.result.fault.empty()) return bw::printable<std::string>(entry.result.fault);
  if (entry.result.refusal) {
    std::string text =
        bw::message(*entry.result.refusal, entry.request.lift.base().name, entry.unit);
    switch (entry.result.refusal->code) {
      case bw::RefusalCode::no_body_mass:
        return text + ", in a column \"body (kg)\" of the --asked file";
      case bw::RefusalCode::no_strength:
        return text + ". plan_session takes a stated max, or plans a beginner's first session";
      case bw::RefusalCode::log_too_old: return text + ". plan_session takes a stated max";
      case bw::RefusalCode::bar_too_heavy: return text + ": --room \"gym_kg; bar 15 kg\"";
      default: return text;
    }
  }
  std::string text;
  for (const bw::Caution& caution : entry.result.plan->cautions) {
    if (caution.severity != bw::Severity::stop) continue;
    text += (text.empty() ? "" : " ") + entry.with_note(caution);
  }
  for (const bw::Remedy remedy : entry.result.plan->remedies) {
    if (remedy != bw::Remedy::keep_reserve) continue;
    text += " Here that is " + report::rir(*entry.result.plan->least_alone) + ".";
  }
  return text;
}

/// "62.5 kg"; of what hangs from a belt "10 kg on the belt", or "the body alone".
inline std::string load_text(const Entry& entry, const bw::LoadedWith& with) {
  if (with.belt && with.belt->plates.empty()) return "the body alone";
  return report::load_text(with.logged(), entry.unit) + (with.belt ? " on the belt" : "");
}
/// "3 x 6", "6"
inline std::string sets_text(int sets, bw::Reps reps) {
  return sets > 1 ? report::sets_of(sets, reps) : std::to_string(reps.count());
}
/// "3 x 6 with 62.5 kg"
inline std::string to_do(const Entry& entry) {
  const bw::SessionPlan& plan = *entry.result.plan;
  return report::sets_of(plan.work_sets, plan.reps) + " with " +
         load_text(entry, plan.sets.back().with);
}
inline std::string to_leave(const Entry& entry) {
  const bw::SessionPlan& plan = *entry.result.plan;
  return (plan.work_sets > 1 ? "Stop each set at " : "Stop at ") + report::rir(plan.reserve);
}
/// What to see to before the first set.
inline std::vector<std::string> to_see_to(const Entry& entry) {
  std::vector<std::string> lines;
  if (!entry.is_planned()) return lines;
  const bw::SessionPlan& plan = *entry.result.plan;
  if (const bw::Exposure* const today = plan.exposure()) {
    lines.push_back("New lift: introductory session " + std::to_string(today->number) + " of " +
                    std::to_string(plan.introduction->size()) + ".");
  }
  const std::string begun = report::begun_text(plan);
  if (!begun.empty()) lines.push_back(begun);
  if (plan.recovery.is_too_soon()) {
    for (const std::string& line : report::to_lines(plan.recovery.conflicts, {})) {
      lines.push_back("Not recovered: " + line);
    }
  }
  for (const bw::Caution& caution : plan.cautions) {
    if (caution.severity == bw::Severity::warn) lines.push_back(entry.with_note(caution));
  }
  return lines;
}
/// What is to be kept in mind, each once: what holds for all, then with the lifts it is for, or
/// with the lifters where it is not for all who do the lift.
inline std::vector<std::string> to_keep_in_mind(const Sheet& sheet) {
  struct Kept {
    std::string_view text;
    std::vector<const Entry*> entries;
  };
  std::vector<Kept> kept;
  std::vector<const Entry*> planned;
  for (const Entry& entry : sheet.entries) {
    if (!entry.result.plan) continue;
    planned.push_back(&entry);
    for (const bw::Caution& caution : entry.result.plan->cautions) {
      if (caution.severity != bw::Severity::note) continue;
      auto same = std::find_if(kept.begin(), kept.end(),
                               [&](const Kept& each) { return each.text == caution.text; });
      if (same == kept.end()) same = kept.insert(same, {.text = caution.text, .entries = {}});
      same->entries.push_back(&entry);
    }
  }
  const auto is_for_all = [&](const Kept& each) { return each.entries.size() == planned.size(); };
  std::stable_partition(kept.begin(), kept.end(), is_for_all);
  const auto count_of = [](const std::vector<const Entry*>& entries, const bw::Lift& lift) {
    return std::count_if(entries.begin(), entries.end(),
                         [&](const Entry* each) { return each->request.lift.same_as(lift); });
  };
  std::vector<std::string> lines;
  for (const Kept& each : kept) {
    std::vector<std::string> names;
    for (const Entry* const entry : each.entries) {
      const bw::Lift& lift = entry->request.lift;
      const bool is_whole_lift = count_of(each.entries, lift) == count_of(planned, lift);
      std::string name = (is_whole_lift ? "" : entry->lifter + ", ") + lift.name().str();
      if (std::find(names.begin(), names.end(), name) == names.end()) {
        names.push_back(std::move(name));
      }
    }
    std::string line;
    if (!is_for_all(each)) {
      for (const std::string& name : names) line += (line.empty() ? "" : "; ") + name;
      line += ": ";
    }
    lines.push_back(line + std::string(each.text));
  }
  return lines;
}

// ---- text

inline void print_text(std::ostream& out, const Sheet& sheet) {
  out << "Training on " << report::day_of_week(sheet.date) << '\n';
  const std::string* lifter = nullptr;
  for (const Entry& entry : sheet.entries) {
    if (lifter == nullptr || *lifter != entry.lifter) report::title(out, entry.lifter);
    lifter = &entry.lifter;
    const std::string name = entry.request.lift.name().str() + ": ";
    if (!entry.is_planned()) {
      report::paragraph(
          out, name + (entry.is_stopped() ? "STOP. " : "no load. ") + why_no_load(entry), 2, 6);
      continue;
    }
    const bw::SessionPlan& plan = *entry.result.plan;
    report::paragraph(out, name + to_do(entry) + ". " + to_leave(entry) + ".", 2, 6);
    std::string way_up;
    for (const bw::PlannedSet& set : plan.sets) {
      if (set.is_work) continue;
      way_up += (way_up.empty() ? "" : ", ") + load_text(entry, set.with) + " x " +
                std::to_string(set.reps.count());
    }
    if (!way_up.empty()) report::paragraph(out, "warm-up " + way_up, 6, 8);
    report::paragraph(out, report::way_to_load(plan.sets.back().with), 6, 8);
    for (const std::string& line : to_see_to(entry)) report::paragraph(out, "! " + line, 6, 8);
  }
  report::title(out, "Keep in mind");
  for (const std::string& line : to_keep_in_mind(sheet)) {
    report::paragraph(out, "- " + line, 2, 4);
  }
}

// ---- CSV

/// A field of text from outside. A first character that a spreadsheet would take for a formula gets
/// an apostrophe in front.
inline std::string text_field(std::string_view text) {
  std::string field = bw::printable<std::string>(text);
  if (bw::looks_like_formula(field)) field.insert(0, 1, '\'');
  return bw::csv_field(field);
}

/// One row for each line of a session: the warm-ups, then the work sets.
inline void print_csv(std::ostream& out, const Sheet& sheet) {
  out << "date,lifter,lift,what,load,unit,sets,reps,leave,each side,note\n";
  for (const Entry& entry : sheet.entries) {
    const std::string head = report::day(sheet.date) + ',' + text_field(entry.lifter) + ',' +
                             text_field(entry.request.lift.name().str()) + ',';
    if (!entry.is_planned()) {
      out << head << (entry.is_stopped() ? "stop" : "no load") << ",,,,,,,"
          << text_field(why_no_load(entry)) << "\n";
      continue;
    }
    const bw::SessionPlan& plan = *entry.result.plan;
    std::string notes;
    for (const std::string& line : to_see_to(entry)) notes += (notes.empty() ? "" : " ") + line;
    for (const bw::PlannedSet& set : plan.sets) {
      out << head << (set.is_work ? "work" : "warm-up") << ','
          << report::number(set.with.logged().in(entry.unit), 2) << ',' << bw::to_text(entry.unit)
          << ',' << set.sets << ',' << set.reps.count() << ','
          << (set.is_work ? report::number(plan.reserve.count(), 1) : "") << ','
          << text_field(report::loaded_with(set.with)) << ','
          << (set.is_work ? text_field(notes) : "") << "\n";
    }
  }
}

}  // namespace squad_sheet
