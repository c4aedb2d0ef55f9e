// docs/charts/bar_svg.hpp - one sleeve of a loaded bar as a drawing in SVG, to scale
//
// A millimetre is a unit of the drawing. The sleeve is 50 mm thick and 415 mm long, and the largest
// plates measure 450 mm (the federations' rules, from memory); how large the smaller ones are is
// common practice without a source. How thick a plate is follows from its mass, as if it were solid
// cast iron of 7.2 g/cm3. So it is a drawing of no plate that is sold, in true proportion.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <barwright/plates/loading.hpp>
#include <string>

#include "svg.hpp"

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

/// One sleeve, seen from the front, the lifter's hands to the left.
inline std::string draw_bar(const bw::Loading& loading) {
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
  svg::Drawing drawing(0.0, -310.0, 640.0, 590.0, text.view());
  // As high above the middle as below it.
  const auto part = [&](double x, double width, double height, const char* fill, double rounding) {
    drawing.rectangle(x, -0.5 * height, width, height, fill, rounding);
  };
  const auto name = [&](double x, double y, const bw::Text& mass) {
    drawing.text({x, y}, mass.view(), {.size = 15.0, .reads_upwards = true});
  };
  part(0.0, grip, 28.0, "#b9bec4", 0.0);
  part(grip + shoulder, sleeve, 50.0, "#b9bec4", 4.0);
  part(grip, shoulder, 80.0, "#8e959d", 6.0);
  double x = grip + shoulder + gap;
  double word = 0.0;  // where the last one stands; the next keeps clear of it
  bool is_dark = true;
  for (const bw::MarkedMass plate : loading.plates()) {
    const Disc disc = disc_of(plate.mass());
    part(x, disc.thickness, disc.diameter, is_dark ? "#20558a" : "#4d7aa8", 3.0);
    word = std::max(x + 0.5 * disc.thickness + 5.0, word + 17.0);
    name(word, -0.5 * disc.diameter - 8.0, to_text(plate));
    x += disc.thickness + gap;
    is_dark = !is_dark;
  }
  if (has_collar) {
    part(x, collar, 90.0, "#c2661c", 8.0);
    name(std::max(x + 0.5 * collar + 5.0, word + 17.0), -53.0, to_text(loading.collars().each));
  }
  drawing.text({14.0, 262.0}, text.view(), {.size = 15.0});
  return drawing.finish();
}

}  // namespace draw_charts
