// examples/embed/web/bar.js - one side of a loaded bar, drawn to scale
// SPDX-License-Identifier: BSL-1.0

const area_of_a_kilogram = 190;
const shaft = 50;
const narrowest = 281; // pixels that a phone has for it
const height_of = (plate) => 16.5 * plate ** 0.7;

/** Where the plates go, with marks of that size. */
function laid_out(plates, collar, size) {
  const pieces = [];
  let x = shaft + 9;
  for (const plate of plates) {
    const height = height_of(plate);
    const width = (area_of_a_kilogram * plate) / height;
    const mark = String(plate);
    const place = Math.max(width, 0.58 * size * mark.length + 4) + 2;
    pieces.push({ x: x + (place - width) / 2, width, height, mark, centre: x + place / 2 });
    x += place;
  }
  return { pieces, x, end: Math.max(x + (collar.weight > 0 ? 16 : 4) + 40, narrowest) };
}

/** One side of the bar. A plate that weighs twice as much shows twice the area. */
export function draw_bar({ plates_each_side, collar, text }) {
  const plates = plates_each_side.map(({ weight }) => weight);
  const svg = "http://www.w3.org/2000/svg";
  const add = (parent, name, attributes, content = "") => {
    const made = document.createElementNS(svg, name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    made.textContent = content;
    parent.append(made);
    return made;
  };
  const tallest = Math.max(60, ...plates.map(height_of));
  const middle = tallest / 2 + 4;
  // The marks of a long row of plates are drawn larger, as a phone shows it smaller.
  let size = 12;
  let { pieces, x, end } = laid_out(plates, collar, size);
  for (let i = 0; i < 3; ++i) {
    size = Math.max(12, (12.1 * end) / narrowest);
    ({ pieces, x, end } = laid_out(plates, collar, size));
  }
  const drawing = document.createElementNS(svg, "svg");
  const box = (x, width, height, fill) =>
    add(drawing, "rect", { x, y: middle - height / 2, width, height, rx: 2, fill });
  box(0, shaft, 8, "#9aa39b");
  box(shaft, 7, 26, "#59635d");
  box(shaft + 7, end - shaft - 7, 15, "#b3bab2");
  for (const { x: left, width, height } of pieces) box(left, width, height, "#46525c");
  if (collar.weight > 0) box(x + 2, 14, 30, "#8a6d3b");
  const below = middle + tallest / 2 + 4 + size;
  for (const { centre, mark } of pieces) {
    add(drawing, "text", { x: centre, y: below, "text-anchor": "middle", "font-size": size, fill: "#26302b" }, mark);
  }
  if (pieces.length > 0) {
    add(drawing, "text", { x: 0, y: below, "font-size": size, fill: "#5b665f" }, "each side");
  }
  drawing.setAttribute("viewBox", `0 0 ${end} ${below + 6}`);
  drawing.setAttribute("style", `max-width: ${1.3 * end}px`);
  drawing.setAttribute("role", "img");
  drawing.setAttribute("aria-label", text);
  return drawing;
}
