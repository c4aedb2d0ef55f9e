// examples/draw_charts/bar_svg.hpp - one sleeve of a loaded bar as a drawing in SVG, to scale
//
// A millimetre is a unit of the drawing. The sleeve is 50 mm thick and 415 mm long, and the largest
// plates measure 450 mm (the federations' rules, recalled); how large the smaller ones are is
// common practice without a source. How thick a plate is follows from its mass, as if it were solid
// cast iron of 7.2 g/cm3. So it is a drawing of no plate that is sold, in true proportion.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <barwright/core/text.hpp>
#include <barwright/plates/loading.hpp>
#include <ostream>
#include <string_view>

namespace draw_charts {

namespace bw = barwright;

/// How much of a disc there is, in mm.
struct Disc {
  double diameter;
  double thickness;
};

[[nodiscard]] constexpr Disc disc_of(bw::Mass plate) {
  struct Usual {
    double from_kg;
    double diameter;
  };
  constexpr Usual usual[] = {{18.0, 450.0}, {14.0, 400.0}, {9.0, 325.0}, {4.0, 230.0},
                             {2.0, 190.0},  {1.0, 160.0},  {0.0, 130.0}};
  double diameter = 0.0;
  for (const Usual& size : usual) {
    if (diameter == 0.0 && plate.kg() >= size.from_kg) diameter = size.diameter;
  }
  constexpr double grams_per_mm3 = 7.2e-3;
  constexpr double quarter_pi = 0.78539816339744831;
  const double thickness = 1000.0 * plate.kg() / (grams_per_mm3 * quarter_pi * diameter * diameter);
  return {diameter, thickness};
}

class Drawing {
 public:
  explicit Drawing(std::ostream& out) : out_(out) {}

  /// A rectangle from `x` to the right, as high above the middle as below it.
  void bar(double x, double width, double height, const char* fill, double rounding) {
    out_ << "  <rect x=\"" << tenth(x) << "\" y=\"" << tenth(-0.5 * height) << "\" width=\""
         << tenth(width) << "\" height=\"" << tenth(height) << "\" rx=\"" << tenth(rounding)
         << "\" fill=\"" << fill << "\"/>\n";
  }
  /// A word that reads upwards from (x, y).
  void upwards(double x, double y, const bw::Text& text) {
    out_ << "  <text transform=\"translate(" << tenth(x) << ',' << tenth(y)
         << ") rotate(-90)\" font-size=\"15\">" << text << "</text>\n";
  }
  void below(double x, double y, std::string_view text) {
    out_ << "  <text x=\"" << tenth(x) << "\" y=\"" << tenth(y) << "\" font-size=\"15\">" << text
         << "</text>\n";
  }

 private:
  [[nodiscard]] static bw::Text tenth(double value) { return bw::Text{}.append_rounded(value, 1); }
  std::ostream& out_;
};

/// One sleeve, seen from the front, the lifter's hands to the left.
inline void draw_svg(std::ostream& out, const bw::Loading& loading) {
  constexpr double grip = 70.0;  // what is shown of the bar
  constexpr double shoulder = 25.0;
  constexpr double gap = 3.0;
  constexpr double usual_sleeve = 415.0;
  constexpr double collar = 40.0;
  double stack = 0.0;
  for (const bw::MarkedMass plate : loading.plates()) {
    stack += disc_of(plate.mass()).thickness + gap;
  }
  const bool has_collar = !loading.collars().each.is_zero();
  const double sleeve = std::max(usual_sleeve, stack + (has_collar ? collar + gap : 0.0) + 15.0);
  const auto text = bw::to_text(loading);
  out << "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 -310 640 590\" width=\"640\" "
         "height=\"590\" font-family=\"sans-serif\" fill=\"#222222\">\n  <title>"
      << text << "</title>\n  <rect x=\"0\" y=\"-310\" width=\"100%\" height=\"100%\" "
      << "fill=\"#ffffff\"/>\n";
  Drawing drawing(out);
  drawing.bar(0.0, grip, 28.0, "#b9bec4", 0.0);
  drawing.bar(grip + shoulder, sleeve, 50.0, "#b9bec4", 4.0);
  drawing.bar(grip, shoulder, 80.0, "#8e959d", 6.0);
  double x = grip + shoulder + gap;
  double word = 0.0;  // where the last one stands; the next keeps clear of it
  bool is_dark = true;
  for (const bw::MarkedMass plate : loading.plates()) {
    const Disc disc = disc_of(plate.mass());
    drawing.bar(x, disc.thickness, disc.diameter, is_dark ? "#20558a" : "#4d7aa8", 3.0);
    word = std::max(x + 0.5 * disc.thickness + 5.0, word + 17.0);
    drawing.upwards(word, -0.5 * disc.diameter - 8.0, to_text(plate));
    x += disc.thickness + gap;
    is_dark = !is_dark;
  }
  if (has_collar) {
    drawing.bar(x, collar, 90.0, "#c2661c", 8.0);
    drawing.upwards(std::max(x + 0.5 * collar + 5.0, word + 17.0), -53.0,
                    to_text(loading.collars().each));
  }
  drawing.below(14.0, 262.0, text.view());
  out << "</svg>\n";
}

}  // namespace draw_charts
