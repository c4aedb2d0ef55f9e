// examples/embed/web/page.js - takes the form to the library, and its answer to the page
//
// Every figure and every rule comes from the library; here is only what it looks like.
// SPDX-License-Identifier: BSL-1.0
import start_library from "./library.js";

const library = await start_library();

const form = document.getElementById("question");
const { lifts } = library.catalogue();
const by_id = (id) => document.getElementById(id);
const repetitions = (count) => (count === 1 ? "1 repetition" : `${count} repetitions`);

function element(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

// ---- the form ----

function offer_changes() {
  const lift = lifts.find(({ key }) => key === form.lift.value);
  by_id("changes").replaceChildren(
    ...lift.changes.map(({ key, name }) =>
      element("label", { class: "check" }, element("input", { type: "checkbox", name: "change", value: key }), name),
    ),
  );
}

const boxes = () => [...form.querySelectorAll("input[name=change]")];
const chosen_changes = () => boxes().filter((box) => box.checked).map((box) => box.value);

/** A change that cannot go together with one that is chosen cannot be chosen. */
function exclude_changes() {
  const lift = lifts.find(({ key }) => key === form.lift.value);
  const chosen = chosen_changes();
  for (const box of boxes()) {
    const { excludes } = lift.changes.find(({ key }) => key === box.value);
    box.disabled = !box.checked && excludes.some((key) => chosen.includes(key));
    box.parentElement.classList.toggle("excluded", box.disabled);
  }
}

/** The form as the query that the library reads. */
function query() {
  const parts = {
    lift: form.lift.value,
    changes: chosen_changes().join(","),
    kg: form.kg.value,
    reps: form.reps.value,
    [form.said_as.value]: form.effort.value,
    next_reps: form.next_reps.value,
    next_left: form.next_left.value,
    bar: form.bar.value,
    safeties: form.safeties.value,
    spotter: form.spotter.checked ? "1" : "0",
    new: form.new.checked ? "1" : "0",
  };
  return Object.entries(parts).map(([name, value]) => `${name}=${value}`).join("&");
}

/** Fills the form from the address of the page, so that a question can be kept as a link. */
function fill_from_address() {
  const given = new URLSearchParams(location.search);
  const changes = (given.get("changes") ?? "").split(",");
  if (given.has("lift")) form.lift.value = given.get("lift");
  if (form.lift.selectedIndex < 0) form.lift.selectedIndex = 0;
  offer_changes();
  for (const box of boxes()) box.checked = changes.includes(box.value);
  for (const said_as of ["left", "rpe"]) {
    if (!given.has(said_as)) continue;
    form.said_as.value = said_as;
    form.effort.value = given.get(said_as);
  }
  for (const name of ["kg", "reps", "next_reps", "next_left", "bar", "safeties"]) {
    if (given.has(name)) form[name].value = given.get(name);
  }
  for (const name of ["spotter", "new"]) form[name].checked = given.get(name) === "1";
}

// ---- the bar ----

/** One side of the bar. A plate that weighs twice as much shows twice the area. */
function draw_bar({ plates, collar, text }) {
  const svg = "http://www.w3.org/2000/svg";
  const add = (parent, name, attributes, content = "") => {
    const made = document.createElementNS(svg, name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    made.textContent = content;
    parent.append(made);
    return made;
  };
  const area_of_a_kilogram = 190;
  const tallest = Math.max(60, ...plates.map((plate) => 16.5 * plate ** 0.7));
  const middle = tallest / 2 + 4;
  const shaft = 60;
  const drawing = document.createElementNS(svg, "svg");
  const box = (x, width, height, fill) =>
    add(drawing, "rect", { x, y: middle - height / 2, width, height, rx: 2, fill });
  const pieces = [];
  let x = shaft + 9;
  for (const plate of plates) {
    const height = 16.5 * plate ** 0.7;
    const width = (area_of_a_kilogram * plate) / height;
    const mark = String(plate);
    const place = Math.max(width, 7 * mark.length + 4) + 2;
    pieces.push({ x: x + (place - width) / 2, width, height, mark, centre: x + place / 2 });
    x += place;
  }
  const end = Math.max(x + (collar > 0 ? 16 : 4) + 40, 300);
  box(0, shaft, 8, "#9aa39b");
  box(shaft, 7, 26, "#59635d");
  box(shaft + 7, end - shaft - 7, 15, "#b3bab2");
  for (const { x: left, width, height } of pieces) box(left, width, height, "#46525c");
  if (collar > 0) box(x + 2, 14, 30, "#8a6d3b");
  const below = middle + tallest / 2 + 16;
  for (const { centre, mark } of pieces) {
    add(drawing, "text", { x: centre, y: below, "text-anchor": "middle", "font-size": 12, fill: "#26302b" }, mark);
  }
  if (pieces.length > 0) {
    add(drawing, "text", { x: 0, y: below, "font-size": 12, fill: "#5b665f" }, "each side");
  }
  drawing.setAttribute("viewBox", `0 0 ${end} ${below + 6}`);
  drawing.setAttribute("style", `max-width: ${1.3 * end}px`);
  drawing.setAttribute("role", "img");
  drawing.setAttribute("aria-label", text);
  return drawing;
}

// ---- the answer ----

function show(id, is_shown) {
  by_id(id).hidden = !is_shown;
}

function show_figures({ base, lift, reference, max, load }) {
  const rows = [[`max, ${base}`, reference]];
  if (lift !== base) rows.push([`max, ${lift}`, max]);
  if (load) {
    rows.push([`load for ${repetitions(Number(form.next_reps.value))} with ${form.next_left.value} left`, load]);
  }
  by_id("figures").tBodies[0].replaceChildren(
    ...rows.map(([name, { low, typical, high }]) =>
      element(
        "tr",
        {},
        element("th", { scope: "row" }, name),
        ...[typical, low, high].map((value) => element("td", {}, value.toFixed(1))),
      ),
    ),
  );
}

function show_load({ lift, loading, reps, stop_with }) {
  by_id("load-name").textContent = form.new.checked ? `First session: ${lift}` : `Next time: ${lift}`;
  by_id("bar").replaceChildren();
  by_id("bar-text").textContent = "";
  if (!loading) {
    by_id("load-kg").textContent = "lighter than the bar";
    by_id("load-how").textContent = "Take a lighter bar, or something else than a bar.";
    return;
  }
  by_id("load-kg").textContent = `${loading.kg} kg`;
  by_id("load-how").textContent =
    `Sets of ${repetitions(reps)}. End each set with ${stop_with} left, whatever the plan says. ` +
    "The load is rounded down to what the plates make.";
  by_id("bar").append(draw_bar(loading));
  by_id("bar-text").textContent = `${loading.text}. A plate of twice the mass is drawn with twice the area.`;
}

function show_answer() {
  exclude_changes();
  by_id("effort-name").textContent = form.said_as.value === "rpe" ? "Rating" : "Repetitions left";
  const answer = library.answer(query());
  const is_refused = "refused" in answer;
  const is_stopped = !is_refused && !answer.load;
  by_id("message").textContent = is_refused ? answer.refused : "";
  by_id("stop").textContent = is_stopped ? "No load is shown for this plan: the first caution below says stop." : "";
  show("message", is_refused);
  show("stop", is_stopped);
  show("load", !is_refused && !is_stopped);
  show("figures", !is_refused);
  show("shares", !is_refused && answer.changes.length > 0);
  show("cautions", !is_refused);
  if (!is_refused) {
    show_figures(answer);
    if (answer.load) show_load(answer);
    const percent = (share) => (100 * share).toFixed(0);
    by_id("shares").querySelector("ul").replaceChildren(
      ...answer.changes.map(({ name, low, typical, high, evidence }) =>
        element("li", {}, `${name}: ${percent(typical)} % (${percent(low)} to ${percent(high)} %; ${evidence})`),
      ),
    );
    const looks = { STOP: "stop", "take care": "care", note: "note" };
    by_id("cautions").querySelector("ul").replaceChildren(
      ...answer.cautions.map(({ weight, text }) =>
        element("li", { class: looks[weight] }, element("b", {}, weight), text),
      ),
    );
  }
  by_id("answer").dataset.state = is_refused ? "refused" : is_stopped ? "stopped" : "answered";
}

form.lift.replaceChildren(...lifts.map(({ key, name }) => element("option", { value: key }, name)));
fill_from_address();
form.addEventListener("input", (event) => {
  if (event.target === form.lift) offer_changes();
  show_answer();
});
form.addEventListener("submit", (event) => event.preventDefault());
show_answer();
