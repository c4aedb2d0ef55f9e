// examples/squad_sheet/html.hpp - a squad's day as one HTML file, for paper, tablet and phone
//
// Nothing is loaded from elsewhere, and nothing runs: style, drawings and text stand in the file.
// Stops and cautions stand first, the load is large enough to be read at arm's length, and there
// are boxes to write down what was done. HTML of the WHATWG, CSS paged media of the W3C.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>

#include "report/chart.hpp"
#include "squad_sheet/sheet.hpp"
#include "svg.hpp"

namespace squad_sheet {

inline constexpr std::string_view style = R"(
  body { font: 1rem/1.4 sans-serif; color: #111; background: #fff; margin: 1rem auto; max-width: 60rem;
         padding: 0 1rem }
  h1 { font-size: 1.5rem } h2 { font-size: 1.4rem; border-bottom: 3px solid #111; margin: 2rem 0 0 }
  h3 { font-size: 1.1rem; margin: 1rem 0 .2rem }
  .do { font-size: 1.7rem; font-weight: bold; margin: .1rem 0 }
  .stop { border: 4px solid #111; padding: .5rem .8rem; margin: .3rem 0 } .stop strong { font-size: 1.3rem }
  .lift { display: grid; grid-template-columns: minmax(0, 3fr) minmax(0, 2fr); gap: 0 1.5rem;
          border-bottom: 1px solid #777; padding-bottom: .8rem }
  .lift > h3, .lift > .wide { grid-column: 1 / -1 }
  .bar svg { width: 100%; height: auto }
  .bar div svg { max-height: 9rem } .paper { display: none }
  table { border-collapse: collapse; width: 100%; margin: .4rem 0 }
  caption { text-align: left; font-weight: bold } th, td { text-align: left; padding: .15rem .6rem .15rem 0 }
  .done td { border: 1px solid #555; height: 1.9rem; min-width: 3rem } .done th { padding-right: .5rem }
  ul { margin: .3rem 0; padding-left: 1.2rem } footer { margin-top: 2rem }
  @media (max-width: 40rem) { .lift { display: block } .do { font-size: 1.5rem } }
  @page { margin: 10mm 12mm }
  @media print { body { margin: 0; max-width: none; padding: 0; font-size: 10.5pt; line-height: 1.25 }
                 .screen { display: none } .paper { display: inline; font-size: 10.5pt; font-weight: normal }
                 h2 { margin: 0; break-after: avoid } h3 { margin: .4rem 0 0; break-after: avoid }
                 .lifter, .lift, .stop { break-inside: avoid } .lift { padding-bottom: .3rem }
                 .do { font-size: 17pt } p, table { margin: .2rem 0 } th, td { padding: 0 .6rem 0 0 }
                 .done td { height: 1.3rem } .done caption { display: none }
                 .lift { grid-template-columns: minmax(0, 9fr) minmax(0, 11fr) } p.paper { font-size: 9pt }
                 .bar { display: grid; grid-template-columns: minmax(0, 2fr) minmax(0, 3fr); gap: 0 .6rem } }
)";

/// One sleeve, the hands to the left: a block for each plate in the order in which they go on, the
/// taller the heavier, with its figure.
inline std::string draw_sleeve(const bw::Loading& loading) {
  constexpr double wide = 34.0;
  const auto plates = static_cast<double>(loading.plates().size());
  const auto text = bw::to_text(loading);
  svg::Drawing drawing(0.0, -70.0, 110.0 + std::max(plates, 4.0) * (wide + 3.0), 140.0,
                       text.view());
  drawing.rectangle(0.0, -7.0, 60.0, 14.0, "#8a8a8a");
  drawing.rectangle(60.0, -20.0, 12.0, 40.0, "#555555");
  drawing.rectangle(72.0, -10.0, 30.0 + std::max(plates, 4.0) * (wide + 3.0), 20.0, "#b5b5b5");
  double x = 75.0;
  for (const bw::MarkedMass plate : loading.plates()) {
    const double kg = std::min(plate.mass().kg(), 25.0);
    const double height = 44.0 + 88.0 * std::sqrt(kg / 25.0);
    drawing.rectangle(x, -0.5 * height, wide, height, "#333333", 3.0);
    drawing.text({x + 0.5 * wide, 5.5}, bw::Text{}.append(plate.value()).str(),
                 {.size = 15.0, .colour = "#ffffff", .anchor = "middle"});
    x += wide + 3.0;
  }
  return drawing.finish();
}

/// Writes a sheet as HTML. Text from outside passes through `say`, which escapes it.
class HtmlSheet {
 public:
  explicit HtmlSheet(const Sheet& sheet) : sheet_(sheet) {}

  [[nodiscard]] std::string write() {
    const std::string title = "Training on " + report::day_of_week(sheet_.date);
    html_ =
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>";
    say(title);
    html_ += "</title>\n<style>" + std::string(style) + "</style>\n</head>\n<body>\n<main>\n";
    tag("h1", title, " class=\"screen\"");
    int number = 0;
    const std::string* lifter = nullptr;
    for (const Entry& entry : sheet_.entries) {
      if (lifter == nullptr || *lifter != entry.lifter) {
        if (lifter != nullptr) end_of_lifter();
        const std::string id = "lifter" + std::to_string(++number);
        html_ +=
            "<section class=\"lifter\" aria-labelledby=\"" + id + "\">\n<h2 id=\"" + id + "\">";
        say(entry.lifter);
        html_ += " <span class=\"paper\">";
        say(report::day_of_week(sheet_.date));
        html_ += "</span></h2>\n";
      }
      lifter = &entry.lifter;
      lift(entry);
    }
    if (lifter != nullptr) end_of_lifter();
    html_ += "</main>\n<footer>\n";
    tag("h2", "Keep in mind");
    html_ += "<ul>\n";
    for (const std::string& line : to_keep_in_mind(sheet_)) tag("li", line);
    return html_ + "</ul>\n</footer>\n</body>\n</html>\n";
  }

 private:
  /// A figure and its sign stay on one line.
  void say(std::string_view text) {
    std::string escaped = svg::escaped(text);
    for (std::size_t at = 0; (at = escaped.find(" %", at)) != std::string::npos;) {
      escaped.replace(at, 1, "&nbsp;");
    }
    html_ += escaped;
  }
  void tag(std::string_view name, std::string_view text, std::string_view attributes = "") {
    html_ += '<' + std::string(name) + std::string(attributes) + '>';
    say(text);
    html_ += "</" + std::string(name) + ">\n";
  }

  /// A lifter's paper may be handed out by itself.
  void end_of_lifter() {
    tag("p",
        "Keep in mind what stands at the end of the sheet. " +
            std::string(bw::cautions::always.text),
        " class=\"paper\"");
    html_ += "</section>\n";
  }

  void lift(const Entry& entry) {
    html_ += "<article class=\"lift\">\n";
    tag("h3", entry.request.lift.name().str());
    if (!entry.is_planned()) {
      html_ += "<p class=\"stop wide\"><strong>";
      html_ += entry.is_stopped() ? "STOP. " : "No load. ";
      html_ += "</strong>";
      say(why_no_load(entry));
      html_ += "</p>\n</article>\n";
      return;
    }
    see_to(entry);
    const bw::SessionPlan& plan = *entry.result.plan;
    html_ += "<div>\n";
    tag("p", to_do(entry), " class=\"do\"");
    std::string text = to_leave(entry) + ".";
    if (const std::vector<double>& chances = plan.chances_of_missing; !chances.empty()) {
      text += " Chance of a miss: " +
              report::chance(*std::max_element(chances.begin(), chances.end())) + ".";
    }
    tag("p", text);
    way_up(entry);
    html_ += "</div>\n<div class=\"bar\">\n";
    const bw::LoadedWith& work = plan.sets.back().with;
    html_ += "<div>";
    if (work.bar) html_ += draw_sleeve(*work.bar);
    tag("p", report::way_to_load(work));
    html_ += "</div>\n";
    chart(entry);
    html_ += "</div>\n";
    boxes(plan);
    html_ += "</article>\n";
  }

  void see_to(const Entry& entry) {
    const auto lines = to_see_to(entry);
    if (lines.empty()) return;
    html_ += "<ul class=\"wide\">\n";
    for (const std::string& line : lines) tag("li", line);
    html_ += "</ul>\n";
  }

  void way_up(const Entry& entry) {
    const bw::SessionPlan& plan = *entry.result.plan;
    if (plan.sets.size() < 2) return;
    html_ +=
        "<table>\n<caption>Warm-up</caption>\n<tr><th scope=\"col\">load</th>"
        "<th scope=\"col\">reps</th><th scope=\"col\">with</th></tr>\n";
    for (const bw::PlannedSet& set : plan.sets) {
      if (set.is_work) continue;
      html_ += "<tr>";
      tag("td", load_text(entry, set.with));
      tag("td", sets_text(set.sets, set.reps));
      tag("td", report::loaded_with(set.with));
      html_ += "</tr>\n";
    }
    html_ += "</table>\n";
  }

  /// How the max went in the last weeks, where there are enough of them.
  void chart(const Entry& entry) {
    const bw::Lift& lift = entry.request.lift;
    const auto learnt =
        bw::learn_lifter(entry.log, bw::Lift(lift.base()), sheet_.date, entry.facts);
    if (const auto drawn = report::small_chart(learnt, lift, entry.unit)) {
      html_ += report::to_svg(*drawn);
    }
  }

  /// Room to write down what was done: with it the log goes on.
  void boxes(const bw::SessionPlan& plan) {
    html_ +=
        "<table class=\"done wide\">\n<caption>Done</caption>\n<tr><th scope=\"col\">set</th>"
        "<th scope=\"col\">load</th><th scope=\"col\">reps</th><th scope=\"col\">RIR</th>"
        "<th scope=\"col\">note, any pain</th></tr>\n";
    for (int set = 1; set <= plan.work_sets; ++set) {
      html_ += "<tr><th scope=\"row\">" + std::to_string(set) +
               "</th><td></td><td></td><td></td><td></td></tr>\n";
    }
    html_ += "</table>\n";
  }

  const Sheet& sheet_;
  std::string html_{};
};

inline std::string to_html(const Sheet& sheet) { return HtmlSheet(sheet).write(); }

}  // namespace squad_sheet
