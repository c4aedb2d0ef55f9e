// examples/report/chart.hpp - the two 1RMs over time, drawn in SVG
//
// A line is the max on a day of average form, by all sets before and after; the band around it
// holds it with a probability of 90 %; a point is one set by itself, read with the lifter's own
// stretch of the curve, bias of ratings and loss from set to set. Blue and orange, full and dashed,
// dots and diamonds: told apart without colour, too.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/planning.hpp"
#include "report/text_page.hpp"
#include "report/words.hpp"
#include "svg.hpp"

namespace report {

/// One lift over time.
struct Series {
  struct Band {
    bw::Date date;
    bw::Range<bw::Mass> max;
  };
  struct Point {
    bw::Date date;
    bw::Mass max{};
    bool is_at_least = false;  ///< more was left than a rating counts
  };
  std::string name{};
  std::vector<Band> bands{};
  std::vector<Point> points{};
};

struct Chart {
  std::string title{};
  Series reference{};
  Series variation{};
  bw::Date from;
  bw::Date to;
  bw::Unit unit = bw::Unit::kg;
};

/// What one set says of the max by itself; nothing where it was not rated.
/// @param earlier_sets  of the lift on that day, which made it harder
inline std::optional<bw::Mass> max_by_itself(const bw::StrengthFit& fit, const bw::LoggedSet& set,
                                             int earlier_sets) {
  const auto stated = bw::reps_to_failure(set);
  if (!stated || !(set.load > bw::Mass{})) return std::nullopt;
  const double bias = set.outcome == bw::Outcome::completed ? fit.rating_bias().mean : 0.0;
  const double place = 1.0 + (*stated + bias - 1.0) / fit.stretch(set.lift).median();
  return set.load *
         std::exp(fit.set_loss().mean() * earlier_sets - fit.settings().curve.log_fraction(place));
}

inline Series series_of(const bw::LearntLifter& learnt, const bw::Lift& lift) {
  Series series{.name = lift.name().str()};
  std::map<bw::Date, int> sets;
  for (const bw::LoggedSet& set : learnt.sets) {
    if (!set.lift.same_as(lift)) continue;
    const auto max = max_by_itself(*learnt.fit, set, sets[set.date]++);
    if (!max) continue;
    const double most_counted = learnt.fit->settings().priors.most_counted_reserve;
    series.points.push_back({.date = set.date,
                             .max = *max,
                             .is_at_least = set.outcome == bw::Outcome::completed &&
                                            set.reserve->typical.count() > most_counted});
  }
  for (const auto& day : learnt.fit->history(lift)) {
    const bool is_there = lift.is_plain() || day.date >= sets.begin()->first;
    if (is_there) series.bands.push_back({day.date, day.max.interval()});
  }
  return series;
}

/// "feet up, flat back"
inline std::string fields_of_change(const bw::Lift& lift) {
  return bw::fields::names_of_changes(lift, ", ");
}

inline Chart make_chart(const bw::BlockReview& review, const About& about) {
  const bw::Lift& base = review.lifter.base;
  return {.title = about.lifter + ": max on the " + base.name().str() + " and with " +
                   fields_of_change(review.request.lift),
          .reference = series_of(review.lifter, base),
          .variation = series_of(review.lifter, review.request.lift),
          .from = review.from,
          .to = review.to,
          .unit = about.unit};
}

/// The days that are named below the chart: every second Monday, or the first days of months.
inline std::vector<bw::Date> named_days(bw::Date first, bw::Date last) {
  const int months_between = (last - first) / 365 + 1;
  const bool by_months = last - first > 200;
  std::vector<bw::Date> days;
  for (bw::Date day = first; day <= last; day = day + 1) {
    const int months = 12 * day.year() + day.month();
    const bool is_named = by_months ? day.day() == 1 && months % months_between == 0
                                    : (day - bw::Date(1970, 1, 5)) % 14 == 0;
    if (is_named) days.push_back(day);
  }
  return days;
}

inline std::string short_day(bw::Date day, bool with_year) {
  static constexpr const char* months[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                           "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const std::string month = months[day.month() - 1];
  return with_year ? month + " " + std::to_string(day.year())
                   : std::to_string(day.day()) + " " + month;
}

/// The drawing of `chart`.
inline std::string to_svg(const Chart& chart) {
  const auto value = [&](bw::Mass mass) { return mass.in(chart.unit); };
  const bw::Date first = chart.reference.bands.front().date;
  const bw::Date last = chart.reference.bands.back().date;
  const auto place = [&](bw::Date day) { return static_cast<double>(day - first); };
  struct Look {
    const Series& series;
    std::string colour;
    std::string dashes;
    svg::Mark mark;
  };
  const Look looks[] = {{chart.reference, "#20558a", "none", svg::Mark::dot},
                        {chart.variation, "#c2661c", "9 5", svg::Mark::diamond}};

  double low = value(chart.reference.bands.front().max.low);
  double high = low;
  const auto widen = [&](bw::Mass mass) {
    low = std::min(low, value(mass));
    high = std::max(high, value(mass));
  };
  for (const Look& look : looks) {
    for (const Series::Band& band : look.series.bands) {
      widen(band.max.low);
      widen(band.max.high);
    }
    for (const Series::Point& point : look.series.points) widen(point.max);
  }
  const double step = svg::round_step(std::max(high - low, 1.0), 8);
  const svg::Plot plot{
      .left = 60.0,
      .top = 70.0,
      .width = 910.0,
      .height = 440.0,
      .x_low = -2.0,
      .x_high = place(last) + 2.0,
      .y_low = step * std::floor(low / step),
      .y_high = step * std::max(std::floor(low / step) + 1.0, std::ceil(high / step))};

  svg::Drawing drawing(0.0, 0.0, 1000.0, 600.0, chart.title);
  plot.draw_titles(drawing, chart.title,
                   "max on a day of average form, " + std::string(bw::to_text(chart.unit)) +
                       "; band: 90 %; points: single sets; triangles: at least so much");
  const double from = std::clamp(place(chart.from), plot.x_low, plot.x_high);
  const double to = std::clamp(place(chart.to), from, plot.x_high);
  drawing.rectangle(plot.x(from), plot.top, plot.x(to) - plot.x(from), plot.height, "#f4f1ea");
  drawing.text({plot.x(from) + 6.0, plot.top + plot.height - 8.0}, "block reviewed",
               {.colour = "#7a725f"});
  plot.draw_rows(drawing, step);
  plot.draw_foot(drawing);
  for (const bw::Date day : named_days(first, last)) {
    plot.draw_tick(drawing, place(day), short_day(day, last - first > 200));
  }
  for (const Look& look : looks) {
    std::vector<svg::Point> corners;
    for (const Series::Band& band : look.series.bands) {
      corners.push_back(plot.at(place(band.date), value(band.max.high)));
    }
    for (auto band = look.series.bands.rbegin(); band != look.series.bands.rend(); ++band) {
      corners.push_back(plot.at(place(band->date), value(band->max.low)));
    }
    drawing.area(corners, look.colour, 0.15);
  }
  for (const Look& look : looks) {
    for (const Series::Point& point : look.series.points) {
      drawing.mark(point.is_at_least ? svg::Mark::triangle : look.mark,
                   plot.at(place(point.date), value(point.max)), look.colour);
    }
  }
  double key = plot.top + plot.height + 50.0;
  for (const Look& look : looks) {
    const svg::Stroke stroke{.colour = look.colour, .width = 3.0, .dashes = look.dashes};
    std::vector<svg::Point> line;
    for (const Series::Band& band : look.series.bands) {
      line.push_back(plot.at(place(band.date), value(band.max.typical)));
    }
    drawing.line(line, stroke);
    drawing.line({{plot.left, key - 4.5}, {plot.left + 40.0, key - 4.5}}, stroke);
    drawing.mark(look.mark, {plot.left + 20.0, key - 4.5}, look.colour);
    drawing.text({plot.left + 50.0, key}, look.series.name);
    key += 20.0;
  }
  return drawing.finish();
}

}  // namespace report
