// docs/charts/charts.hpp - the two kinds of chart that draw_charts makes
//
// Curves with their names at the right end, pushed apart so that none covers another; and rows of
// two densities each, before and after. Told apart without colour, too: dashes, and places.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include "barwright/core/estimate.hpp"
#include "barwright/curves/equations.hpp"
#include "report/text_page.hpp"
#include "svg.hpp"

namespace draw_charts {

struct Frame {
  std::string title{};
  std::string subtitle{};
  std::string x_label{};
  std::string y_label{};
  double shaded_to = 0.0;  ///< on the x axis; 0 for no shading
};

// How equations of one form are drawn.
inline svg::Stroke line_of(const barwright::LinearMultiplier&) { return {"#20558a", 1.6, "none"}; }
inline svg::Stroke line_of(const barwright::LinearShare&) { return {"#c2661c", 1.6, "8 5"}; }
inline svg::Stroke line_of(const barwright::ExponentialShare&) {
  return {"#4d7d3a", 1.6, "9 4 2 4"};
}
template <class Other>
svg::Stroke line_of(const Other&) {
  return {"#7a4d86", 1.6, "2 4"};
}

struct Curve {
  std::string name{};
  svg::Stroke line{};
  std::vector<svg::Point> points{};
};

/// What is written below the foot and beside the left edge.
inline void draw_labels(svg::Drawing& drawing, const svg::Plot& plot, const Frame& frame) {
  plot.draw_titles(drawing, frame.title, frame.subtitle);
  drawing.text({plot.left + 0.5 * plot.width, plot.top + plot.height + 44.0}, frame.x_label,
               {.anchor = "middle"});
  drawing.text({22.0, plot.top + 0.5 * plot.height}, frame.y_label,
               {.anchor = "middle", .reads_upwards = true});
}

/// Curves over the same x, each named at its right end.
inline std::string draw_labelled_curves(const Frame& frame, std::vector<Curve> curves) {
  std::sort(curves.begin(), curves.end(),
            [](const Curve& a, const Curve& b) { return a.points.back().y < b.points.back().y; });
  const double low = curves.front().points.front().y;
  const double high = curves.back().points.back().y;
  const double last_x = curves.front().points.back().x;
  const double gap = (high - low) / 26.0;  // between names
  std::vector<double> places;
  for (const Curve& curve : curves) places.push_back(curve.points.back().y);
  for (int pass = 0; pass < 100; ++pass) {
    for (std::size_t i = 1; i < places.size(); ++i) {
      const double missing = gap - (places[i] - places[i - 1]);
      if (missing <= 0.0) continue;
      places[i - 1] -= 0.5 * missing;
      places[i] += 0.5 * missing;
    }
  }
  const svg::Plot plot{.left = 70.0,
                       .top = 70.0,
                       .width = 620.0,
                       .height = 420.0,
                       .x_low = curves.front().points.front().x,
                       .x_high = last_x,
                       .y_low = 10.0 * std::floor(low / 10.0),
                       .y_high = 10.0 * std::ceil(high / 10.0)};
  svg::Drawing drawing(0.0, 0.0, 900.0, 560.0, frame.title);
  draw_labels(drawing, plot, frame);
  drawing.rectangle(plot.left, plot.top, plot.x(frame.shaded_to) - plot.left, plot.height,
                    "#f4f1ea");
  plot.draw_rows(drawing, 10.0);
  plot.draw_foot(drawing);
  for (const svg::Point& point : curves.front().points) {
    plot.draw_tick(drawing, point.x, text_page::number(point.x, 0));
  }
  for (std::size_t i = 0; i < curves.size(); ++i) {
    const svg::Stroke& stroke = curves[i].line;
    const double end = curves[i].points.back().y;
    std::vector<svg::Point> line;
    for (const svg::Point& point : curves[i].points) line.push_back(plot.at(point.x, point.y));
    drawing.line(line, stroke);
    const svg::Point name{plot.x(last_x) + 18.0, plot.y(places[i])};
    drawing.line({plot.at(last_x, end), {name.x - 4.0, name.y}}, {.colour = stroke.colour});
    drawing.text({name.x, name.y + 4.5}, curves[i].name + " " + text_page::number(end, 0),
                 {.colour = stroke.colour});
  }
  return drawing.finish();
}

/// One ratio, before and after.
struct Row {
  std::string name{};
  barwright::Estimate<double> before;
  barwright::Estimate<double> after;
};

/// Rows of two densities of a ratio each, in per cent, the first row on top.
inline std::string draw_rows(const Frame& frame, const std::vector<Row>& rows) {
  const auto density = [](const barwright::Estimate<double>& estimate, double ratio) {
    const double z = (std::log(ratio) - estimate.log_mean()) / estimate.log_sd();
    return std::exp(-0.5 * z * z) / (ratio * estimate.log_sd());
  };
  double low = 1e9;
  double high = 0.0;
  double tallest = 0.0;
  for (const Row& row : rows) {
    for (const auto* estimate : {&row.before, &row.after}) {
      low = std::min(low, estimate->interval(0.98).low);
      high = std::max(high, estimate->interval(0.98).high);
      tallest = std::max(tallest, density(*estimate, estimate->median()));
    }
  }
  const auto count = static_cast<double>(rows.size());
  const svg::Plot plot{.left = 40.0,
                       .top = 70.0,
                       .width = 820.0,
                       .height = 120.0 * count,
                       .x_low = std::floor(100.0 * low),
                       .x_high = std::ceil(100.0 * high),
                       .y_low = -0.05,
                       .y_high = count};
  svg::Drawing drawing(0.0, 0.0, 900.0, plot.height + 130.0, frame.title);
  draw_labels(drawing, plot, frame);
  plot.draw_foot(drawing);
  for (double at = 5.0 * std::ceil(plot.x_low / 5.0); at <= plot.x_high; at += 5.0) {
    drawing.line({plot.at(at, plot.y_low), plot.at(at, plot.y_high)}, {.colour = "#e2e2e2"});
    plot.draw_tick(drawing, at, text_page::number(at, 0));
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const double floor = count - 1.0 - static_cast<double>(i) + 0.12;
    for (const bool is_after : {false, true}) {
      const auto& estimate = is_after ? rows[i].after : rows[i].before;
      const std::string colour = is_after ? "#20558a" : "#8a8272";
      std::vector<svg::Point> outline{plot.at(100.0 * low, floor)};
      for (int step = 0; step <= 100; ++step) {
        const double ratio = low + (high - low) * step / 100.0;
        outline.push_back(
            plot.at(100.0 * ratio, floor + 0.78 * density(estimate, ratio) / tallest));
      }
      outline.push_back(plot.at(100.0 * high, floor));
      drawing.area(outline, colour, is_after ? 0.35 : 0.25);
      drawing.line(outline, {.colour = colour});
      const auto bar = estimate.interval(0.90);
      const double y = floor - (is_after ? 0.04 : 0.085);
      drawing.line({plot.at(100.0 * bar.low, y), plot.at(100.0 * bar.high, y)},
                   {.colour = colour, .width = 2.0});
      drawing.line({plot.at(100.0 * bar.typical - 0.08, y), plot.at(100.0 * bar.typical + 0.08, y)},
                   {.colour = colour, .width = 7.0});
    }
    drawing.text({plot.left + 8.0, plot.y(floor + 0.72)}, rows[i].name);
  }
  return drawing.finish();
}

}  // namespace draw_charts
