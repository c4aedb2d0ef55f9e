// examples/draw_charts/gnuplot.hpp - the two kinds of chart that draw_charts makes, for gnuplot
//
// Curves with their names at the right end, pushed apart so that none covers another; and rows of
// two densities each, before and after. Told apart without colour, too: dashes, and places.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <ostream>
#include <string>
#include <tuple>
#include <vector>

#include "barwright/core/estimate.hpp"
#include "barwright/curves/equations.hpp"
#include "text_page.hpp"

namespace draw_charts {

using text_page::number;

struct Frame {
  std::string title{};
  std::string subtitle{};
  std::string x_label{};
  std::string y_label{};
  double shaded_to = 0.0;  ///< on the x axis; 0 for no shading
};

struct Line {
  const char* colour;
  int dash;
};
// How equations of one form are drawn.
constexpr Line line_of(const barwright::LinearMultiplier&) { return {"#20558a", 1}; }
constexpr Line line_of(const barwright::LinearShare&) { return {"#c2661c", 2}; }
constexpr Line line_of(const barwright::ExponentialShare&) { return {"#4d7d3a", 4}; }
template <class Other>
constexpr Line line_of(const Other&) {
  return {"#7a4d86", 3};
}

struct Point {
  double x;
  double y;
};
struct Curve {
  std::string name{};
  Line line{};
  std::vector<Point> points{};
};

inline void print_frame(std::ostream& out, const Frame& frame, int height) {
  out << "set terminal svg size 900," << height
      << " noenhanced background '#ffffff' font 'sans,13'\n"
      << "set border 1 lc rgb '#888888'\nset tics textcolor rgb '#444444'\n"
      << "set xtics nomirror scale 0.5\nset ytics nomirror scale 0\n"
      << "set grid ytics lt 1 lc rgb '#e2e2e2' lw 1\nset tmargin 5\nunset key\n"
      << "set label '" << frame.title << "' at graph 0, graph 1.12 font ',17'\n"
      << "set label '" << frame.subtitle << "' at graph 0, graph 1.055 textcolor rgb '#444444'\n"
      << "set xlabel '" << frame.x_label << "' textcolor rgb '#222222'\n"
      << "set ylabel '" << frame.y_label << "' textcolor rgb '#222222'\n";
  if (frame.shaded_to > 0.0) {
    out << "set object rectangle from graph 0, graph 0 to " << number(frame.shaded_to, 1)
        << ", graph 1 behind fillcolor rgb '#f4f1ea' fillstyle solid noborder\n";
  }
}

/// Curves over the same x, each named at its right end.
inline void print_labelled_curves(std::ostream& out, const Frame& frame,
                                  std::vector<Curve> curves) {
  std::sort(curves.begin(), curves.end(),
            [](const Curve& a, const Curve& b) { return a.points.back().y < b.points.back().y; });
  const double first_x = curves.front().points.front().x;
  const double last_x = curves.front().points.back().x;
  const double low = curves.front().points.front().y;
  const double high = curves.back().points.back().y;
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
  print_frame(out, frame, 560);
  out << "set rmargin 26\nset xrange [" << number(first_x, 0) << ':' << number(last_x, 0)
      << "]\nset yrange [" << number(10.0 * std::floor(low / 10.0), 0) << ':'
      << number(10.0 * std::ceil(high / 10.0), 0) << "]\nset xtics 1\nset ytics 10\n";
  for (std::size_t i = 0; i < curves.size(); ++i) {
    const std::string colour = std::string("rgb '") + curves[i].line.colour + "'";
    const double end = curves[i].points.back().y;
    out << "set arrow from " << number(last_x, 0) << ", " << number(end, 1)
        << " rto graph 0.02, first " << number(places[i] - end, 1) << " nohead linecolor " << colour
        << "\nset label \"" << curves[i].name << ' ' << number(end, 0) << "\" at "
        << number(last_x, 0) << ", " << number(places[i], 1) << " offset 2.6,0 textcolor " << colour
        << '\n';
  }
  for (std::size_t i = 0; i < curves.size(); ++i) {
    out << "$curve" << i << " << EOD\n";
    for (const Point& point : curves[i].points) {
      out << number(point.x, 0) << ' ' << number(point.y, 1) << '\n';
    }
    out << "EOD\n";
  }
  out << "plot ";
  for (std::size_t i = 0; i < curves.size(); ++i) {
    out << (i == 0 ? "" : ", ") << "$curve" << i << " with lines linewidth 1.6 linecolor rgb '"
        << curves[i].line.colour << "' dashtype " << curves[i].line.dash;
  }
  out << '\n';
}

/// One ratio, before and after.
struct Row {
  std::string name{};
  barwright::Estimate<double> before;
  barwright::Estimate<double> after;
};

/// Rows of two densities of a ratio each, in per cent, the first row on top.
inline void print_rows(std::ostream& out, const Frame& frame, const std::vector<Row>& rows) {
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
  print_frame(out, frame, 130 + 120 * static_cast<int>(rows.size()));
  out << "set lmargin 4\nset rmargin 4\nunset ytics\nunset grid\nset xtics 5\nset mxtics 5\n"
      << "set grid xtics lt 1 lc rgb '#e2e2e2' lw 1\nset xrange ["
      << number(std::floor(100.0 * low), 0) << ':' << number(std::ceil(100.0 * high), 0)
      << "]\nset yrange [-0.05:" << rows.size() << "]\n";
  std::string plots;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto floor = static_cast<double>(rows.size() - 1 - i) + 0.12;
    out << "set label '" << rows[i].name << "' at graph 0.01, first " << number(floor + 0.72, 2)
        << " front\n";
    for (const bool is_after : {false, true}) {
      const auto& estimate = is_after ? rows[i].after : rows[i].before;
      const std::string name = "$row" + std::to_string(i) + (is_after ? "_after" : "_before");
      const char* colour = is_after ? "'#20558a'" : "'#8a8272'";
      out << name << " << EOD\n";
      for (int step = 0; step <= 100; ++step) {
        const double ratio = low + (high - low) * step / 100.0;
        out << number(100.0 * ratio, 2) << ' '
            << number(floor + 0.78 * density(estimate, ratio) / tallest, 4) << ' '
            << number(floor, 2) << '\n';
      }
      out << "EOD\n";
      const auto bar = estimate.interval(0.90);
      const double y = floor - (is_after ? 0.04 : 0.085);
      for (const auto& [from, to, width] : {std::tuple{bar.low, bar.high, 2.0},
                                            {bar.typical - 0.0008, bar.typical + 0.0008, 7.0}}) {
        out << "set arrow from " << number(100.0 * from, 2) << ", " << number(y, 3) << " to "
            << number(100.0 * to, 2) << ", " << number(y, 3) << " nohead linewidth "
            << number(width, 1) << " linecolor rgb " << colour << " front\n";
      }
      plots += (plots.empty() ? "plot " : ", ") + name +
               " using 1:2:3 with filledcurves linecolor rgb " + colour +
               " fillstyle transparent solid " + (is_after ? "0.35" : "0.25") + " border";
    }
  }
  out << plots << '\n';
}

}  // namespace draw_charts
