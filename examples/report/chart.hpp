// examples/report/chart.hpp - the two 1RMs over time, drawn in SVG
//
// A line is the max on a day of average form, by all sets before and after; the band around it
// holds it with a probability of 90 %; a point is one set by itself, read with the lifter's own
// curve, bias of ratings and loss from set to set. Blue and orange, full and dashed,
// dots and diamonds: told apart without colour, too.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
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
  std::vector<Series> series{};  ///< at most two; the first is there from the first day to the last
  std::optional<bw::Date> from{};  ///< of the block that is reviewed
  std::optional<bw::Date> to{};
  bw::Unit unit = bw::Unit::kg;
  bool is_small = false;  ///< among the loads of a sheet
};

/// What one set says of the max by itself; nothing where it was not rated.
/// @param earlier_sets  of the lift on that day, which made it harder
inline std::optional<bw::Mass> max_by_itself(const bw::StrengthFit& fit, const bw::LoggedSet& set,
                                             int earlier_sets) {
  const auto stated = bw::reps_to_failure(set);
  if (!stated || !(set.load > bw::Mass{})) return std::nullopt;
  const double bias = set.outcome == bw::Outcome::completed ? fit.rating_bias().mean : 0.0;
  return set.load * (std::exp(fit.set_loss().mean() * earlier_sets) /
                     fit.share_of_max(set.lift, set.date, *stated + bias));
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
  if (review.request.lift.is_plain()) {
    return {.title = about.lifter + ": max on the " + base.name().str(),
            .series = {series_of(review.lifter, base)},
            .from = review.from,
            .to = review.to,
            .unit = about.unit};
  }
  return {.title = about.lifter + ": max on the " + base.name().str() + " and with " +
                   fields_of_change(review.request.lift),
          .series = {series_of(review.lifter, base), series_of(review.lifter, review.request.lift)},
          .from = review.from,
          .to = review.to,
          .unit = about.unit};
}

/// The last weeks of a lift for a sheet, or of its base lift where that is trained more; nothing
/// where there are too few days to see anything.
inline std::optional<Chart> small_chart(const bw::LearntLifter& learnt, const bw::Lift& lift,
                                        bw::Unit unit) {
  const auto fewest_days = static_cast<std::size_t>(learnt.rules.fewest_shown_days);
  if (!learnt.fit) return std::nullopt;
  for (const bw::Lift& shown : {lift, learnt.base}) {
    const bool is_done = std::any_of(learnt.sets.begin(), learnt.sets.end(),
                                     [&](const auto& set) { return set.lift.same_as(shown); });
    if (!is_done) continue;
    Series series = series_of(learnt, shown);
    if (series.bands.size() < fewest_days) continue;
    const bw::Date first = series.bands.back().date - learnt.rules.shown_days;
    std::erase_if(series.bands, [&](const auto& band) { return band.date < first; });
    std::erase_if(series.points, [&](const auto& point) { return point.date < first; });
    if (series.bands.size() < fewest_days) continue;
    return Chart{.title = "1RM, " + shown.name().str() + ", " + std::string(bw::to_text(unit)),
                 .series = {std::move(series)},
                 .unit = unit,
                 .is_small = true};
  }
  return std::nullopt;
}

/// The days that are named below the chart: Mondays, or the first days of months.
inline std::vector<bw::Date> named_days(bw::Date first, bw::Date last, int weeks_between) {
  const int months_between = (last - first) / 365 + 1;
  const bool by_months = last - first > 200;
  std::vector<bw::Date> days;
  for (bw::Date day = first; day <= last; day = day + 1) {
    const int months = 12 * day.year() + day.month();
    const bool is_named = by_months ? day.day() == 1 && months % months_between == 0
                                    : (day - bw::Date(1970, 1, 5)) % (7 * weeks_between) == 0;
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

/// How the first series and the second are drawn.
struct Look {
  std::string_view colour;
  std::string_view dashes;
  svg::Mark mark;
};
inline constexpr Look looks[] = {{"#20558a", "none", svg::Mark::dot},
                                 {"#c2661c", "9 5", svg::Mark::diamond}};

/// Draws one chart.
class ChartDrawing {
 public:
  explicit ChartDrawing(const Chart& chart)
      : chart_(chart),
        first_(chart.series.front().bands.front().date),
        last_(chart.series.front().bands.back().date),
        plot_(make_plot()),
        drawing_(0.0, 0.0, chart.is_small ? 480.0 : 1000.0, chart.is_small ? 250.0 : 600.0,
                 chart.title) {}

  [[nodiscard]] std::string draw() {
    if (chart_.is_small) {
      drawing_.text({4.0, 18.0}, chart_.title, {.size = plot_.font});
    } else {
      plot_.draw_titles(drawing_, chart_.title,
                        "max on a day of average form, " + std::string(bw::to_text(chart_.unit)) +
                            "; band: 90 %; points: single sets; triangles: at least so much");
    }
    if (chart_.from && chart_.to) shade_block();
    plot_.draw_rows(drawing_, step_);
    plot_.draw_foot(drawing_);
    for (const bw::Date day : named_days(first_, last_, chart_.is_small ? 4 : 2)) {
      plot_.draw_tick(drawing_, place(day), short_day(day, last_ - first_ > 200));
    }
    for (std::size_t i = 0; i < chart_.series.size(); ++i) draw_band(chart_.series[i], looks[i]);
    for (std::size_t i = 0; i < chart_.series.size(); ++i) draw_points(chart_.series[i], looks[i]);
    for (std::size_t i = 0; i < chart_.series.size(); ++i) draw_line(i);
    return drawing_.finish();
  }

 private:
  [[nodiscard]] double value(bw::Mass mass) const { return mass.in(chart_.unit); }
  [[nodiscard]] double place(bw::Date day) const { return static_cast<double>(day - first_); }

  [[nodiscard]] svg::Plot make_plot() {
    double low = value(chart_.series.front().bands.front().max.low);
    double high = low;
    const auto widen = [&](bw::Mass mass) {
      low = std::min(low, value(mass));
      high = std::max(high, value(mass));
    };
    for (const Series& series : chart_.series) {
      for (const Series::Band& band : series.bands) {
        widen(band.max.low);
        widen(band.max.high);
      }
      for (const Series::Point& point : series.points) widen(point.max);
    }
    step_ = svg::round_step(std::max(high - low, 1.0), chart_.is_small ? 4 : 8);
    const double y_low = step_ * std::floor(low / step_);
    svg::Plot plot{.left = 60.0,
                   .top = 70.0,
                   .width = 910.0,
                   .height = 440.0,
                   .x_low = -2.0,
                   .x_high = place(last_) + 2.0,
                   .y_low = y_low,
                   .y_high = std::max(y_low + step_, step_ * std::ceil(high / step_))};
    if (chart_.is_small) {
      plot.left = 50.0;
      plot.top = 34.0;
      plot.width = 395.0;
      plot.height = 180.0;
      plot.font = 19.0;
    }
    return plot;
  }

  void shade_block() {
    const double from = std::clamp(place(*chart_.from), plot_.x_low, plot_.x_high);
    const double to = std::clamp(place(*chart_.to), from, plot_.x_high);
    drawing_.rectangle(plot_.x(from), plot_.top, plot_.x(to) - plot_.x(from), plot_.height,
                       "#f4f1ea");
    drawing_.text({plot_.x(from) + 6.0, plot_.top + plot_.height - 8.0}, "block reviewed",
                  {.colour = "#7a725f"});
  }

  void draw_band(const Series& series, const Look& look) {
    std::vector<svg::Point> corners;
    for (const Series::Band& band : series.bands) {
      corners.push_back(plot_.at(place(band.date), value(band.max.high)));
    }
    for (auto band = series.bands.rbegin(); band != series.bands.rend(); ++band) {
      corners.push_back(plot_.at(place(band->date), value(band->max.low)));
    }
    drawing_.area(corners, look.colour, 0.15);
  }

  void draw_points(const Series& series, const Look& look) {
    for (const Series::Point& point : series.points) {
      drawing_.mark(point.is_at_least ? svg::Mark::triangle : look.mark,
                    plot_.at(place(point.date), value(point.max)), look.colour);
    }
  }

  /// The line, and its key below the foot.
  void draw_line(std::size_t number) {
    const Look& look = looks[number];
    const svg::Stroke stroke{
        .colour = std::string(look.colour), .width = 3.0, .dashes = std::string(look.dashes)};
    std::vector<svg::Point> line;
    for (const Series::Band& band : chart_.series[number].bands) {
      line.push_back(plot_.at(place(band.date), value(band.max.typical)));
    }
    drawing_.line(line, stroke);
    if (chart_.is_small) return;
    const double key = plot_.top + plot_.height + 50.0 + 20.0 * static_cast<double>(number);
    drawing_.line({{plot_.left, key - 4.5}, {plot_.left + 40.0, key - 4.5}}, stroke);
    drawing_.mark(look.mark, {plot_.left + 20.0, key - 4.5}, look.colour);
    drawing_.text({plot_.left + 50.0, key}, chart_.series[number].name);
  }

  const Chart& chart_;
  bw::Date first_;
  bw::Date last_;
  double step_ = 1.0;
  svg::Plot plot_;
  svg::Drawing drawing_;
};

inline std::string to_svg(const Chart& chart) { return ChartDrawing(chart).draw(); }

}  // namespace report
