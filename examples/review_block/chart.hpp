// examples/review_block/chart.hpp - the two maxes over time: as text, or as SVG or PNG by gnuplot
//
// A line is the max on a day of average form, by all sets before and after; the band around it
// holds it with a probability of 90 %; a point is one set by itself, read with the lifter's own
// stretch of the curve, bias of ratings and loss from set to set. gnuplot is given the data and its
// orders through a pipe. Blue and orange, full and dashed, dots and diamonds: told apart without
// colour, too.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <optional>
#include <ostream>
#include <sstream>
#include <string>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/learn/strength_model.hpp"
#include "review_block/review.hpp"
#include "text_page.hpp"

namespace review_block {

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

inline Series series_of(const lifter_model::Learnt& learnt, const bw::Lift& lift) {
  Series series{.name = std::string(lift.name().view())};
  std::map<bw::Date, int> sets;
  for (const bw::LoggedSet& set : learnt.sets) {
    if (!(set.lift == lift)) continue;
    const auto max = max_by_itself(learnt.fit, set, sets[set.date]++);
    if (!max) continue;
    const double most_counted = learnt.fit.settings().priors.most_counted_reserve;
    series.points.push_back({.date = set.date,
                             .max = *max,
                             .is_at_least = set.outcome == bw::Outcome::completed &&
                                            set.reserve->typical.count() > most_counted});
  }
  for (const auto& day : learnt.fit.history(lift)) {
    const bool is_there = lift.is_plain() || day.date >= sets.begin()->first;
    if (is_there) series.bands.push_back({day.date, day.max.interval()});
  }
  return series;
}

inline Chart make_chart(const Review& review, bw::Unit unit) {
  return {.title = review.question.lifter + ": max on the " +
                   std::string(review.reference().name().view()) + " and with " +
                   std::string(review.question.lift.name().view())
                       .substr(review.reference().name().view().size() + 2),
          .reference = series_of(review.learnt, review.reference()),
          .variation = series_of(review.learnt, review.question.lift),
          .from = review.from,
          .to = review.to,
          .unit = unit};
}

// ---- as text

/// One line for each lift and week, drawn to scale from left to right.
inline void print_chart(std::ostream& out, const Chart& chart) {
  constexpr int width = 62;
  constexpr std::size_t most_weeks = 30;
  const auto value = [&](bw::Mass mass) { return mass.in(chart.unit); };
  double low = value(chart.reference.bands.front().max.low);
  double high = low;
  for (const Series* series : {&chart.reference, &chart.variation}) {
    for (const Series::Band& band : series->bands) {
      low = std::min(low, value(band.max.low));
      high = std::max(high, value(band.max.high));
    }
  }
  const double step = high - low > 40.0 ? 10.0 : 5.0;
  low = step * std::floor(low / step);
  high = step * std::ceil(high / step);
  const auto column = [&](double at) {
    return static_cast<std::size_t>(std::lround((at - low) / (high - low) * (width - 1)));
  };

  text_page::title(
      out, "The chart: max on a day of average form, " + std::string(bw::to_text(chart.unit)));
  out << "  ---o--- " << chart.reference.name << "   ===x=== " << chart.variation.name
      << "   (90 % each)\n\n";
  std::string scale(14 + width + 4, ' ');
  std::string marks(width, ' ');
  for (double at = low; at <= high + 0.5 * step; at += step) {
    const std::string text = text_page::number(at, 0);
    scale.replace(14 + column(at), text.size(), text);
    marks[column(at)] = '.';
  }
  scale.erase(scale.find_last_not_of(' ') + 1);
  out << scale << '\n';
  // The last day of each week, or of each second, third ... of a long log.
  std::vector<bw::Date> days;
  for (const Series::Band& band : chart.reference.bands) {
    const auto week = [](bw::Date date) { return (date - bw::Date(1970, 1, 5)) / 7; };
    if (!days.empty() && week(days.back()) == week(band.date)) days.pop_back();
    days.push_back(band.date);
  }
  const std::size_t stride = (days.size() + most_weeks - 1) / most_weeks;
  for (std::size_t i = (days.size() - 1) % stride; i < days.size(); i += stride) {
    std::string label = text_page::day(days[i]);
    for (const Series* series : {&chart.reference, &chart.variation}) {
      const auto band =
          std::find_if(series->bands.begin(), series->bands.end(),
                       [&](const Series::Band& other) { return other.date == days[i]; });
      if (band == series->bands.end()) continue;
      const bool is_reference = series == &chart.reference;
      std::string line = marks;
      const std::size_t first = column(value(band->max.low));
      const std::size_t last = column(value(band->max.high));
      line.replace(first, last - first + 1, last - first + 1, is_reference ? '-' : '=');
      line[column(value(band->max.typical))] = is_reference ? 'o' : 'x';
      out << "  " << text_page::padded(label, 12) << line << '\n';
      label.clear();
    }
  }
}

// ---- by gnuplot

/// `text` in gnuplot's single quotes.
inline std::string quoted(const std::string& text) {
  std::string result = "'";
  for (const char c : text) result += c == '\'' ? std::string("''") : std::string(1, c);
  return result + "'";
}

/// The orders and data from which gnuplot draws `chart` into `file`, by what the name ends in.
inline std::string gnuplot_script(const Chart& chart, const std::string& file) {
  const bool is_svg = file.size() >= 4 && file.compare(file.size() - 4, 4, ".svg") == 0;
  const auto value = [&](bw::Mass mass) { return text_page::number(mass.in(chart.unit), 2); };
  const auto date = [](bw::Date day) { return "\"" + text_page::day(day) + "\""; };
  const bw::Date first = chart.reference.bands.front().date;
  const bw::Date last = chart.reference.bands.back().date;
  std::ostringstream script;
  script << "set terminal " << (is_svg ? "svg size 1000,600" : "pngcairo size 1500,900")
         << " noenhanced background '#ffffff' font 'sans," << (is_svg ? 13 : 18) << "'\n"
         << "set output " << quoted(file) << '\n';
  for (const Series* series : {&chart.reference, &chart.variation}) {
    const std::string name = series == &chart.reference ? "reference" : "variation";
    script << '$' << name << " << EOD\n";
    for (const Series::Band& band : series->bands) {
      script << text_page::day(band.date) << ' ' << value(band.max.low) << ' '
             << value(band.max.typical) << ' ' << value(band.max.high) << '\n';
    }
    script << "EOD\n";
    for (const bool is_at_least : {false, true}) {
      script << '$' << name << (is_at_least ? "_at_least" : "_sets") << " << EOD\n";
      for (const Series::Point& point : series->points) {
        if (point.is_at_least != is_at_least) continue;
        script << text_page::day(point.date) << ' ' << value(point.max) << '\n';
      }
      script << text_page::day(first) << " NaN\nEOD\n";  // gnuplot wants at least one line
    }
  }
  const bool is_long = last - first > 200;
  script << "blue = '#20558a'\norange = '#c2661c'\n"
         << "set xdata time\nset timefmt '%Y-%m-%d'\n"
         << "set xrange [" << date(first - 2) << ':' << date(last + 2) << "]\n"
         << "set xtics format '" << (is_long ? "%b %Y" : "%d %b") << "'"
         << (is_long ? "" : " 1209600") << " nomirror scale 0.5\n"
         << "set ytics nomirror scale 0\nset border 1 lc rgb '#888888'\n"
         << "set grid ytics lt 1 lc rgb '#e2e2e2' lw 1\nset tics textcolor rgb '#444444'\n"
         << "set label 3 " << quoted(chart.title) << " at graph 0, graph 1.1 font ',"
         << (is_svg ? 17 : 24) << "'\n"
         << "set label 1 "
         << quoted("max on a day of average form, " + std::string(bw::to_text(chart.unit)) +
                   "; band: 90 %; points: single sets; triangles: at least so much")
         << " at graph 0, graph 1.045 textcolor rgb '#444444'\n"
         << "set tmargin 5\nset rmargin 4\n"
         << "set object 1 rectangle from " << date(chart.from) << ", graph 0 to " << date(chart.to)
         << ", graph 1 behind fillcolor rgb '#f4f1ea' fillstyle solid noborder\n"
         << "set label 2 'block reviewed' at " << date(chart.from)
         << ", graph 0.03 offset 0.7,0 textcolor rgb '#8a8272'\n"
         << "set key bmargin left horizontal reverse Left samplen 3 maxcols 1 noautotitle "
            "textcolor rgb '#222222'\n"
         << "plot ";
  struct Look {
    const char* data;
    const Series& series;
    const char* colour;
    int point;
    int dash;
  };
  const Look looks[] = {{"$reference", chart.reference, "blue", 7, 1},
                        {"$variation", chart.variation, "orange", 13, 2}};
  for (const Look& look : looks) {
    script << look.data << " using 1:2:4 with filledcurves linecolor rgb " << look.colour
           << " fillstyle transparent solid 0.15 noborder, ";
  }
  for (const Look& look : looks) {
    script << look.data << "_sets using 1:2 with points linecolor rgb " << look.colour
           << " pointtype " << look.point << " pointsize "
           << (look.point == 7 || is_svg ? 0.75 : 1.1) << ", " << look.data
           << "_at_least using 1:2 with points linecolor rgb " << look.colour
           << " pointtype 8 pointsize " << (is_svg ? 0.75 : 1.5) << ", ";
  }
  for (const Look& look : looks) {
    script << look.data << " using 1:3 with lines linecolor rgb " << look.colour
           << " linewidth 3 dashtype " << look.dash << " title " << quoted(look.series.name)
           << (look.dash == 1 ? ", " : "\n");
  }
  return script.str();
}

inline bool has_gnuplot() { return std::system("command -v gnuplot >/dev/null 2>&1") == 0; }

/// Draws `chart` into `file`; false when gnuplot could not.
inline bool draw_chart(const Chart& chart, const std::string& file) {
  if (!std::ofstream(file, std::ios::app)) return false;  // else gnuplot draws on standard output
  std::FILE* pipe = popen("gnuplot", "w");
  if (pipe == nullptr) return false;
  const std::string script = gnuplot_script(chart, file);
  const bool is_written = std::fwrite(script.data(), 1, script.size(), pipe) == script.size();
  return pclose(pipe) == 0 && is_written;
}

}  // namespace review_block
