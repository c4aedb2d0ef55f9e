// examples/svg.hpp - a drawing in SVG, and a plot on one
//
// Shapes, text and scales, so that a program draws its charts itself: text from outside stands in
// them as text and can be nothing else. SVG 1.1 and XML 1.0, of the W3C.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/core/printable.hpp"
#include "report/text_page.hpp"

namespace svg {

/// `text` as it stands between tags and in attributes, with what cannot be shown escaped.
inline std::string escaped(std::string_view text) {
  std::string result;
  for (const char c : barwright::printable<std::string>(text)) {
    switch (c) {
      case '&': result += "&amp;"; break;
      case '<': result += "&lt;"; break;
      case '>': result += "&gt;"; break;
      case '"': result += "&quot;"; break;
      case '\'': result += "&#39;"; break;
      default: result += c;
    }
  }
  return result;
}

struct Point {
  double x;
  double y;
};

/// How a line is drawn. Dashes tell lines apart without colour.
struct Stroke {
  std::string colour = "#222222";
  double width = 1.0;
  std::string dashes = "none";  ///< "8 6": lengths of dash and gap
};

struct Font {
  double size = 13.0;
  std::string colour = "#222222";
  std::string anchor = "start";  ///< start, middle or end stands at the place given
  bool reads_upwards = false;
};

enum class Mark { dot, diamond, triangle };

/// Shapes in the order in which they are drawn, later ones on top.
class Drawing {
 public:
  /// @param title  what a screen reader says
  Drawing(double left, double top, double width, double height, std::string_view title) {
    text_ = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"" + list({left, top}) + " " +
            list({width, height}) + "\"" + attribute("width", width) + attribute("height", height) +
            " font-family=\"sans-serif\" role=\"img\">\n  <title>" + escaped(title) + "</title>\n";
    rectangle(left, top, width, height, "#ffffff");
  }

  void rectangle(double x, double y, double width, double height, std::string_view fill,
                 double rounding = 0.0) {
    text_ += "  <rect" + attribute("x", x) + attribute("y", y) + attribute("width", width) +
             attribute("height", height) + (rounding > 0.0 ? attribute("rx", rounding) : "") +
             attribute("fill", fill) + "/>\n";
  }
  void line(const std::vector<Point>& points, const Stroke& stroke) {
    text_ += "  <polyline" + attribute("points", list(points)) + attribute("fill", "none") +
             attribute("stroke", stroke.colour) + attribute("stroke-width", stroke.width) +
             attribute("stroke-dasharray", stroke.dashes) + "/>\n";
  }
  void area(const std::vector<Point>& corners, std::string_view fill, double opacity) {
    text_ += "  <polygon" + attribute("points", list(corners)) + attribute("fill", fill) +
             attribute("fill-opacity", opacity) + "/>\n";
  }
  void mark(Mark mark, Point at, std::string_view fill) {
    constexpr double r = 4.0;
    if (mark == Mark::dot) {
      text_ += "  <circle" + attribute("cx", at.x) + attribute("cy", at.y) + attribute("r", r) +
               attribute("fill", fill) + "/>\n";
    } else if (mark == Mark::diamond) {
      area({{at.x, at.y - r}, {at.x + r, at.y}, {at.x, at.y + r}, {at.x - r, at.y}}, fill, 1.0);
    } else {
      area({{at.x, at.y - r}, {at.x + r, at.y + r}, {at.x - r, at.y + r}}, fill, 1.0);
    }
  }
  void text(Point at, std::string_view text, const Font& font = {}) {
    const std::string place =
        font.reads_upwards
            ? attribute("transform", "translate(" + list({at.x, at.y}) + ") rotate(-90)")
            : attribute("x", at.x) + attribute("y", at.y);
    text_ += "  <text" + place + attribute("font-size", font.size) +
             attribute("fill", font.colour) + attribute("text-anchor", font.anchor) + ">" +
             escaped(text) + "</text>\n";
  }

  [[nodiscard]] std::string finish() const { return text_ + "</svg>\n"; }

 private:
  static std::string number(double value) { return text_page::number(value, 2); }
  static std::string list(Point at) { return number(at.x) + " " + number(at.y); }
  static std::string list(const std::vector<Point>& points) {
    std::string result;
    for (const Point& at : points) {
      result += (result.empty() ? "" : " ") + number(at.x) + "," + number(at.y);
    }
    return result;
  }
  static std::string attribute(std::string_view name, std::string_view value) {
    return " " + std::string(name) + "=\"" + escaped(value) + "\"";
  }
  static std::string attribute(std::string_view name, double value) {
    return attribute(name, std::string_view(number(value)));
  }

  std::string text_{};
};

/// A step of 1, 2 or 5 times a power of ten that cuts `span` into at most `most` pieces.
inline double round_step(double span, int most) {
  const double least = span / most;
  const double power = std::pow(10.0, std::floor(std::log10(least)));
  for (const double step : {1.0, 2.0, 5.0}) {
    if (step * power >= least * (1.0 - 1e-9)) return step * power;
  }
  return 10.0 * power;
}

/// A rectangle of the drawing with a scale on each of two sides.
struct Plot {
  double left;
  double top;
  double width;
  double height;
  double x_low;
  double x_high;
  double y_low;
  double y_high;
  double font = 13.0;

  [[nodiscard]] double x(double value) const {
    return left + width * (value - x_low) / (x_high - x_low);
  }
  [[nodiscard]] double y(double value) const {
    return top + height * (y_high - value) / (y_high - y_low);
  }
  [[nodiscard]] Point at(double x_value, double y_value) const { return {x(x_value), y(y_value)}; }

  /// A grey line across at each multiple of `step`, with its number to the left.
  void draw_rows(Drawing& drawing, double step) const {
    for (double value = step * std::ceil(y_low / step - 1e-9); value <= y_high + 1e-9 * step;
         value += step) {
      drawing.line({{left, y(value)}, {left + width, y(value)}}, {.colour = "#e2e2e2"});
      drawing.text({left - 8.0, y(value) + (4.5 / 13.0) * font}, text_page::number(value, 1),
                   {.size = font, .colour = "#444444", .anchor = "end"});
    }
  }
  /// The line at the foot, and a tick with `label` at `value`.
  void draw_foot(Drawing& drawing) const {
    drawing.line({{left, top + height}, {left + width, top + height}}, {.colour = "#888888"});
  }
  void draw_tick(Drawing& drawing, double value, std::string_view label) const {
    drawing.line({{x(value), top + height}, {x(value), top + height + 5.0}}, {.colour = "#888888"});
    drawing.text({x(value), top + height + 7.0 + font}, label,
                 {.size = font, .colour = "#444444", .anchor = "middle"});
  }
  void draw_titles(Drawing& drawing, std::string_view title, std::string_view subtitle) const {
    drawing.text({left, 28.0}, title, {.size = 17.0});
    drawing.text({left, 50.0}, subtitle, {.colour = "#444444"});
  }
};

}  // namespace svg
