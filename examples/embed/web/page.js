// examples/embed/web/page.js - takes the form to the library, and its answer to the page
//
// Every figure and every rule comes from the library; here is only what it looks like.
// SPDX-License-Identifier: BSL-1.0
import { KeptLog } from "./log.js";
import start_library from "./library.js";

const library = await start_library();

const form = document.getElementById("question");
// The page draws a straight bar: lifts that are done with one, and changes that leave it.
const lifts = library
  .ask({ version: 1, ask: "catalogue" })
  .lifts.filter(
    ({ is_machine, is_bodyweight, is_explosive, dumbbells }) =>
      !is_machine && !is_bodyweight && !is_explosive && dumbbells === 0,
  )
  .map((lift) => ({ ...lift, changes: lift.changes.filter(({ changes_implement }) => !changes_implement) }));
const by_id = (id) => document.getElementById(id);
const repetitions = (count) => (count === 1 ? "1 rep" : `${count} reps`);

function element(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

// ---- the form ----

function offer_changes() {
  const lift = lift_in_form();
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
  const lift = lift_in_form();
  const chosen = chosen_changes();
  for (const box of boxes()) {
    const { excludes } = lift.changes.find(({ key }) => key === box.value);
    box.disabled = !box.checked && excludes.some((key) => chosen.includes(key));
    box.parentElement.classList.toggle("excluded", box.disabled);
  }
}

const lift_in_form = () => lifts.find(({ key }) => key === form.lift.value);
const rooms = { 15: "gym_kg; bar 15 kg", 20: "gym_kg", "20_and_collars": "powerlifting" };
const number_in = (field) => (field.value === "" ? null : Number(field.value));
const day = (days_ago) => new Date(Date.now() - days_ago * 86400000).toISOString().slice(0, 10);

/** The set that was typed. */
function set_in_form(lift, date) {
  const effort = form.missed.checked ? { missed: true } : { [form.said_as.value]: number_in(form.effort) };
  return { date, lift, load_kg: number_in(form.kg), reps: number_in(form.reps), ...effort };
}

function lift_wanted() {
  const lift = lift_in_form();
  const changes = lift.changes.filter(({ key }) => chosen_changes().includes(key));
  return { lift, changes, wanted: [lift.name, ...changes.map(({ name }) => name)].join(", ") };
}

/** What is asked of the session, whatever it is planned from. */
function session(wanted) {
  return {
    lift: wanted,
    date: day(0),
    sets: number_in(form.next_sets),
    reps: number_in(form.next_reps),
    left: number_in(form.next_left),
    room: rooms[form.bar.value],
    safeties: form.safeties.value,
    spotter: form.spotter.checked,
  };
}

/** By the log, and by the sets of today: with one of them, the rest of the session. */
function request_from_log() {
  const { wanted } = lift_wanted();
  const lifter = form.lifter.value.trim();
  const known = kept.lifters.find((name) => name.toLowerCase() === lifter.toLowerCase());
  const done = kept.today.filter((set) => set.lifter === lifter && set.lift === wanted);
  const others = kept.today.filter((set) => set.lifter === lifter && set.lift !== wanted);
  const without = ({ lifter: _, ...set }) => set;
  return {
    version: 1,
    ask: done.length > 0 ? "replan" : "plan_session",
    ...(known && { log_csv: kept.csv, lifter: known }),
    log: others.map(without),
    ...(done.length > 0 && { done: done.map(({ lifter: _, date, lift, ...set }) => set) }),
    ...session(wanted),
  };
}

/** By one set, done three days ago by somebody who knows the lift. */
function request_from_set() {
  const { lift, changes, wanted } = lift_wanted();
  const known = form.new.checked && changes.length > 0 ? [lift.name] : [...new Set([lift.name, wanted])];
  return {
    version: 1,
    ask: "plan_session",
    log: [set_in_form(lift.name, day(3))],
    done_before: known.map((name) => ({ lift: name, sessions: form.new.checked && changes.length === 0 ? 1 : 10 })),
    ...session(wanted),
  };
}

const request = () => (form.source.value === "log" ? request_from_log() : request_from_set());

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
  for (const name of ["kg", "reps", "next_sets", "next_reps", "next_left", "bar", "safeties"]) {
    if (given.has(name)) form[name].value = given.get(name);
  }
  for (const name of ["spotter", "new"]) form[name].checked = given.get(name) === "1";
}

// ---- the bar ----

/** One side of the bar. A plate that weighs twice as much shows twice the area. */
function draw_bar({ plates_each_side, collar, text }) {
  const plates = plates_each_side.map(({ weight }) => weight);
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
  const end = Math.max(x + (collar.weight > 0 ? 16 : 4) + 40, 300);
  box(0, shaft, 8, "#9aa39b");
  box(shaft, 7, 26, "#59635d");
  box(shaft + 7, end - shaft - 7, 15, "#b3bab2");
  for (const { x: left, width, height } of pieces) box(left, width, height, "#46525c");
  if (collar.weight > 0) box(x + 2, 14, 30, "#8a6d3b");
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

function show_figures({ base_max_kg, max_kg, lift }) {
  const base = lift_in_form().name;
  const rows = [[`1RM, ${base}`, base_max_kg]];
  if (lift !== base) rows.push([`1RM, ${lift}`, max_kg]);
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

/** Why the load is what it is, in words; the library's names for it. */
const reasons = {
  reserve: "It leaves the reps in reserve you asked for.",
  chance_of_missing: "It is held down so that a missed rep stays unlikely.",
  greatest_rise: "It asks for at most 10 % more than your sets have shown.",
  introduction: "The first sessions of a new lift are light.",
  recovery: "It is too soon for a hard session.",
  equipment: "Nothing heavier can be loaded.",
};

function show_load({ lift, sets, load_kg, reps, stop_with_left, limited_by, chances_of_missing }) {
  if (sets.length === 0) {
    by_id("load-name").textContent = lift;
    by_id("load-kg").textContent = "done";
    by_id("load-how").textContent = "All the sets of today are done.";
    by_id("bar").replaceChildren();
    by_id("bar-text").textContent = "";
    return;
  }
  const { bar } = sets[sets.length - 1];
  const chance = Math.max(...chances_of_missing);
  by_id("load-name").textContent = form.new.checked ? `First session: ${lift}` : `Next time: ${lift}`;
  by_id("load-kg").textContent = `${load_kg} kg`;
  by_id("load-how").textContent =
    `Sets of ${repetitions(reps)}. Stop each set at ${stop_with_left} RIR, even with more reps in you. ` +
    `${reasons[limited_by] ?? ""} Chance of missing the last rep: ` +
    `${chance < 0.01 ? "under 1" : (100 * chance).toFixed(0)} %. ` +
    "The load is rounded to what can be loaded.";
  by_id("bar").replaceChildren(draw_bar(bar));
  by_id("bar-text").textContent = `${bar.text}. A plate of twice the mass is drawn with twice the area.`;
}

function show_lighter_than_bar(lift) {
  by_id("load-name").textContent = `Next time: ${lift}`;
  by_id("load-kg").textContent = "lighter than the bar";
  by_id("load-how").textContent = "Take a lighter bar, or dumbbells.";
  by_id("bar").replaceChildren();
  by_id("bar-text").textContent = "";
}

function show_shares() {
  const percent = (share) => (100 * share).toFixed(0);
  const chosen = lift_in_form().changes.filter(({ key }) => chosen_changes().includes(key));
  by_id("shares").querySelector("ul").replaceChildren(
    ...chosen.map(({ name, share: { low, typical, high }, evidence }) =>
      element("li", {}, `${name}: ${percent(typical)} % (${percent(low)} to ${percent(high)} %; ${evidence})`),
    ),
  );
  show("shares", chosen.length > 0);
}

function show_cautions(cautions) {
  const looks = { stop: ["stop", "STOP"], warn: ["care", "take care"], note: ["note", "note"] };
  by_id("cautions").querySelector("ul").replaceChildren(
    ...cautions.map(({ weight, text }) =>
      element("li", { class: looks[weight][0] }, element("b", {}, looks[weight][1]), text),
    ),
  );
}

function show_answer() {
  exclude_changes();
  by_id("effort-name").textContent = form.said_as.value === "rpe" ? "RPE" : "RIR";
  const asked = request();
  const answer = library.ask(asked);
  const { outcome, refusal } = answer;
  const is_too_light = refusal?.code === "bar_too_heavy";
  const is_refused = outcome === "bad_request" || (outcome === "refused" && !is_too_light);
  by_id("message").textContent = is_refused
    ? outcome === "refused" ? `There is no plan: ${refusal.code.replaceAll("_", " ")}.` : answer.message
    : "";
  by_id("stop").textContent = outcome === "stop" ? "No load is shown: the first caution below says stop." : "";
  show("message", is_refused);
  show("stop", outcome === "stop");
  show("load", outcome === "plan" || is_too_light);
  show("figures", outcome === "plan");
  show("cautions", outcome === "plan" || outcome === "stop");
  if (is_refused) show("shares", false);
  else show_shares();
  if (outcome === "plan") {
    show_figures(answer);
    show_load(answer);
  }
  if (is_too_light) show_lighter_than_bar(asked.lift);
  if (answer.cautions) show_cautions(answer.cautions);
  by_id("answer").dataset.request = JSON.stringify(asked);
  by_id("answer").dataset.state = is_refused ? "refused" : outcome === "stop" ? "stopped" : "answered";
}

// ---- the log ----

const kept = new KeptLog(library, day(0));

/** The last sets, and what is to be said of lines that were taken in. */
function show_log(said = []) {
  const csv = kept.whole_csv;
  const rows = csv.trim().split("\n").slice(1);
  by_id("kept").replaceChildren(
    element("p", {}, rows.length === 0 ? "There is no set in it yet." : `${rows.length} sets. The last:`),
    element("ul", {}, ...rows.slice(-5).map((row) => element("li", {}, row.replaceAll(",", " ")))),
    ...(kept.is_lasting ? [] : [element("p", { class: "said" }, "This browser keeps nothing: give the log out before you leave.")]),
    ...said.slice(0, 20).map((text) => element("p", { class: "said" }, text)),
  );
  const file = new Blob([csv], { type: "text/csv" });
  URL.revokeObjectURL(by_id("give-out").href);
  by_id("give-out").href = URL.createObjectURL(file);
  show_answer();
}

by_id("keep").addEventListener("click", () => {
  const problem = kept.keep(form.lifter.value.trim(), set_in_form(lift_wanted().wanted, day(0)));
  if (!problem) form.source.value = "log";
  show_log(problem ? [problem] : []);
});
by_id("take-in").addEventListener("change", async ({ target }) => {
  const answer = kept.take_in(await target.files[0].text());
  const said =
    answer.outcome === "log"
      ? answer.reports.map(({ line, verdict, text }) => `line ${line}: ${verdict}: ${text}`)
      : [answer.message];
  if (answer.outcome === "log") {
    form.source.value = "log";
    if (!answer.lifters.includes(form.lifter.value)) form.lifter.value = answer.lifters[0] ?? form.lifter.value;
  }
  target.value = "";
  show_log(said);
});
by_id("forget").addEventListener("click", () => {
  if (!confirm("Forget every set that is kept in this browser?")) return;
  kept.forget();
  show_log();
});

form.lift.replaceChildren(...lifts.map(({ key, name }) => element("option", { value: key }, name)));
fill_from_address();
form.addEventListener("input", (event) => {
  if (event.target === form.lift) offer_changes();
  show_answer();
});
form.addEventListener("submit", (event) => event.preventDefault());
show_log();
if ("serviceWorker" in navigator) navigator.serviceWorker.register("worker.js").catch(() => {});
