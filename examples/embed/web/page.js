// examples/embed/web/page.js - takes the form to the library, and its answer to the page
//
// Every figure and every rule comes from the library; here is only what it looks like.
// SPDX-License-Identifier: BSL-1.0
import { draw_bar } from "./bar.js";
import { KeptLog } from "./log.js";
import start_library from "./library.js";
import {
  chance_in_words, load_in_words, loading_in_table, loading_in_words, reasons, reps_in_words, rir_in_words, sets_and_reps,
  short, ways_out, ways_past,
} from "./words.js";

const library = await start_library();

const form = document.getElementById("question");
// Lifts without a load to plan are left out: planks, and those that end when the bar slows.
const lifts = library
  .ask({ version: 1, ask: "catalogue" })
  .lifts.filter(({ is_bodyweight, needs_body_mass, is_explosive }) => !is_explosive && (needs_body_mass || !is_bodyweight));
const by_id = (id) => document.getElementById(id);

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
const iso = (time) => new Date(time).toISOString().slice(0, 10);
/** Today by the calendar on the wall. */
const today = () => iso(Date.now() - new Date().getTimezoneOffset() * 60000);
const days_before = (date, days) => iso(Date.parse(date) - days * 86400000);
const date_in_form = () => form.date.value || today();

/** What is lifted: "barbell", "dumbbells", "stack", "machine" or "body". */
function kind_of({ is_machine, has_stack, needs_body_mass, dumbbells }, changes) {
  if (needs_body_mass) return "body";
  if (has_stack) return "stack";
  if (is_machine) return "machine";
  return dumbbells > 0 || changes.some(({ key }) => key === "dumbbells") ? "dumbbells" : "barbell";
}

/** The set that was typed. */
function set_in_form(lift, date) {
  const effort = form.missed.checked ? { missed: true } : { [form.said_as.value]: number_in(form.effort) };
  return { date, lift, load_kg: number_in(form.kg), reps: number_in(form.reps), ...effort };
}

function lift_wanted() {
  const lift = lift_in_form();
  const changes = lift.changes.filter(({ key }) => chosen_changes().includes(key));
  const wanted = [lift.name, ...changes.map(({ name }) => name)].join(", ");
  return { lift, changes, wanted, kind: kind_of(lift, changes) };
}

/** The dumbbells or the stack there are, where all of it is given; else the library's usual ones. */
function fixed_loads(kind) {
  const [lightest, heaviest, step] = [form.lightest, form.heaviest, form.step].map(number_in);
  if (!["dumbbells", "stack"].includes(kind) || [lightest, heaviest, step].includes(null)) return {};
  return { [kind]: { lightest, heaviest, step, unit: "kg" } };
}

/** What is asked of the next time, whatever it is planned from. */
function next_time({ wanted, kind }) {
  const day_and_gym = {
    lift: wanted,
    date: date_in_form(),
    room: kind === "machine" && form.machine.value !== "" ? `gym_kg; bar ${form.machine.value} kg` : rooms[form.bar.value],
    safeties: form.safeties.value,
    spotter: form.spotter.checked,
    pain: form.pain.value,
    unwell: form.unwell.value,
    ...(kind === "body" && { body_mass_kg: number_in(form.body) }),
  };
  if (form.plan.value === "attempts") return { ask: "plan_attempts", ...day_and_gym };
  return {
    ask: "plan_session",
    ...day_and_gym,
    sets: number_in(form.next_sets),
    reps: number_in(form.next_reps),
    reps_to: number_in(form.next_reps_to),
    left: number_in(form.next_left),
    left_to: number_in(form.next_left_to),
    ...(form.plan.value === "back_offs" && {
      back_offs: {
        sets: number_in(form.back_off_sets),
        drop: form.back_off_drop.value === "" ? null : number_in(form.back_off_drop) / 100,
        reps: number_in(form.back_off_reps),
      },
    }),
    ...fixed_loads(kind),
  };
}

/** By the log, and by the sets of today: with one of them, the rest of a session of today. */
function request_from_log() {
  const asked = next_time(lift_wanted());
  const lifter = form.lifter.value.trim();
  const known = kept.lifters.find((name) => name.toLowerCase() === lifter.toLowerCase());
  const sets_today = kept.today.filter((set) => set.lifter === lifter);
  const has_begun = asked.ask !== "plan_attempts" && asked.date === kept.day;
  const done = has_begun ? sets_today.filter((set) => set.lift === asked.lift) : [];
  const others = sets_today.filter((set) => !done.includes(set));
  return {
    version: 1,
    ...asked,
    ...(done.length > 0 && { ask: "replan", done: done.map(({ lifter: _, date, lift, ...set }) => set) }),
    ...(known && { log_csv: kept.csv, lifter: known }),
    log: others.map(({ lifter: _, ...set }) => set),
    ...(form.source.value === "beginner" && { experience: "novice" }),
  };
}

/** By one set, done three days ago, or before the date where that has passed, by somebody who knows the lift. */
function request_from_set() {
  const { lift, changes, wanted, kind } = lift_wanted();
  const known = form.new.checked && changes.length > 0 ? [lift.name] : [...new Set([lift.name, wanted])];
  return {
    version: 1,
    ...next_time({ wanted, kind }),
    log: [set_in_form(lift.name, days_before(date_in_form() < today() ? date_in_form() : today(), 3))],
    done_before: known.map((name) => ({ lift: name, sessions: form.new.checked && changes.length === 0 ? 1 : 10 })),
  };
}

const request = () => (form.source.value === "set" ? request_from_set() : request_from_log());

/** Shows the fields that this lift and this plan ask for. */
function fit_form() {
  const { kind } = lift_wanted();
  const has_attempts = form.plan.value === "attempts";
  const has_back_offs = form.plan.value === "back_offs";
  const base_kind = kind_of(lift_in_form(), []);
  const loads = { body: "Added to the body, kg", dumbbells: "All dumbbells together, kg", stack: "On the stack, kg" };
  by_id("kg-name").textContent = loads[base_kind] ?? "Load, kg";
  by_id("effort-name").textContent = form.said_as.value === "rpe" ? "RPE, 5 to 10" : "RIR, reps left";
  by_id("sets-name").textContent = has_back_offs ? "Top sets" : "Working sets";
  by_id("fixed-name").textContent =
    kind === "stack" ? "What the stack offers; without it, 5 to 150 kg by fives" : "The dumbbells there are; without it, a usual rack";
  show("body-field", kind === "body");
  show("next-sets", !has_attempts);
  show("next-back-offs", has_back_offs);
  show("bar-field", kind === "barbell");
  show("machine-field", kind === "machine");
  show("fixed", !has_attempts && (kind === "stack" || kind === "dumbbells"));
}

/** What somebody said of pain holds for one lifter on one day, and is no part of a link. */
function ask_again() {
  form.pain.value = "as_logged";
  form.unwell.value = "as_logged";
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
  const names = ["kg", "reps", "body", "date", "source", "lifter", "plan", "next_sets", "next_reps", "next_reps_to", "next_left", "next_left_to",
    "back_off_sets", "back_off_drop", "back_off_reps", "bar", "machine", "lightest", "heaviest", "step", "safeties"];
  for (const name of names) {
    if (given.has(name)) form[name].value = given.get(name);
  }
  for (const name of ["spotter", "new"]) form[name].checked = given.get(name) === "1";
}

// ---- the answer ----

function show(id, is_shown) {
  by_id(id).hidden = !is_shown;
}

function show_figures({ base_max_kg, max_kg, lift }) {
  const base = lift_in_form().name;
  const added = lift_in_form().needs_body_mass ? ", added to the body" : "";
  const rows = base_max_kg ? [[`1RM, ${base}${added}`, base_max_kg]] : [];
  if (lift !== base || !base_max_kg) rows.push([`1RM, ${lift}${added}`, max_kg]);
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

function show_sets(caption, rows) {
  by_id("sets").caption.textContent = caption;
  by_id("sets").tBodies[0].replaceChildren(
    ...rows.map(([name, reps, set]) =>
      element(
        "tr",
        {},
        element("th", { scope: "row" }, name),
        ...[reps, short(set.load_kg), loading_in_table(set)].map((text) => element("td", {}, text)),
      ),
    ),
  );
  show("sets", rows.length > 0);
}

const warm_ups = (sets) => sets.filter(({ is_work }) => !is_work).map((set) => ["warm-up", sets_and_reps(set.sets, set.reps), set]);

function show_loaded(name, loads, how, with_it) {
  by_id("load-name").textContent = name;
  by_id("load-kg").textContent = loads;
  by_id("load-how").textContent = how;
  by_id("bar").replaceChildren(...(with_it?.bar ? [draw_bar(with_it.bar)] : []));
  by_id("bar-text").textContent = with_it ? loaded_text(with_it) : "";
}

function loaded_text(set) {
  const words = loading_in_words(set).replace(/^./, (first) => first.toUpperCase());
  const { is_machine, has_stack } = lift_in_form();
  if (has_stack) return `${words}. Stacks differ: where yours has not this plate, take the next lighter.`;
  if (!set.bar) return `${words}.`;
  const machine = is_machine ? ' "Bar" means what the machine weighs empty.' : "";
  return `${words}.${machine} A plate of twice the mass is drawn with twice the area.`;
}

/** The chance is left out where a set of today says that the log promises too much. */
function chance_of_a_miss(chances) {
  const known = (chances ?? []).filter((chance) => chance !== undefined);
  return known.length === 0 ? "" : `Chance of missing the last rep: ${chance_in_words(Math.max(...known))}. `;
}

const when = () => (date_in_form() === today() ? "Next time" : `On ${date_in_form()}`);

function show_load(answer) {
  const { lift, sets, reps, reps_to, stop_with_left, limited_by, chances_of_missing, back_offs, sets_done } = answer;
  const after = back_offs ? [["back-off", sets_and_reps(back_offs.sets, back_offs.reps), back_offs]] : [];
  if (sets.length === 0) {
    show_sets("The rest of the session", after);
    if (!back_offs) return show_loaded(lift, "done", "All the sets of today are done.");
    return show_loaded(
      `Back-offs: ${lift}`,
      load_in_words(back_offs),
      `${sets_and_reps(back_offs.sets, back_offs.reps)}. Stop each set at ${rir_in_words(stop_with_left)}. ` +
        chance_of_a_miss([back_offs.chance_of_missing]),
      back_offs,
    );
  }
  const work = sets[sets.length - 1];
  show_loaded(
    form.new.checked ? `First session: ${lift}` : sets_done > 0 ? `The rest of the session: ${lift}` : `${when()}: ${lift}`,
    load_in_words(work),
    `Sets of ${reps_to ? `${reps} to ${reps_to} reps` : reps_in_words(reps)}. ` +
      `Stop each set at ${rir_in_words(stop_with_left)}, even with more reps in you. ${reasons[limited_by] ?? ""} ` +
      chance_of_a_miss(chances_of_missing) +
      (back_offs ? `Then ${sets_and_reps(back_offs.sets, back_offs.reps)} with ${load_in_words(back_offs)}. ` : "") +
      (form.plan.value === "back_offs" && !back_offs ? "No back-off sets: the session is an easy one already. " : "") +
      "The load is rounded to what can be loaded.",
    work,
  );
  const name = back_offs ? "top" : "work";
  const range = reps_to ? `${reps}–${reps_to}` : reps;
  show_sets("The session", [...warm_ups(sets), [name, sets_and_reps(work.sets, range), work], ...after]);
}

/** The first session of a beginner: up by feel. */
function show_first_session({ lift, sets, reps, first_session }) {
  const { steps, go_on_with_left: high, go_back_below_left: low, sets: enough } = first_session;
  if (sets.length === 0) {
    show_loaded(lift, "done", "The first session is over. Plan the next one from the log.");
    return show_sets("", []);
  }
  const [now] = sets;
  const more = enough === 2 ? "1 more set" : `${enough - 1} more sets`;
  show_loaded(
    `First session: ${lift}`,
    load_in_words(now),
    `${now.sets === 1 ? "A set" : `${now.sets} sets`} of ${reps}, then by feel. ${high} or more reps left, every rep like the first: the next step. ` +
      `${low} or more, fewer than ${high}: that is the load for today, ${more} with it. ` +
      `Fewer than ${low}, or reps unlike the first: one step back, and ${more} there. ` +
      "A missed rep, or any pain: the session is over. Add each set to the log, and the next is planned.",
    now,
  );
  show_sets("The steps, one set with each", steps.filter(({ load_kg }) => load_kg >= now.load_kg)
    .map((step, i) => [i === 0 ? "now" : "then", String(reps), step]));
}

/** Attempts, and the way up to the first of them. */
function show_attempts({ lift, attempts, sets, limited_by }) {
  const names = ["opener", "second", "third"];
  show_loaded(
    `Test day: ${lift}`,
    `${attempts[0].belt ? "body + " : ""}${attempts.map(({ load_kg }) => short(load_kg)).join(", ")} kg`,
    `Chance of a good lift: ${attempts.map(({ chance_of_success }) => chance_in_words(chance_of_success)).join(", ")}. ` +
      `${limited_by === "reserve" ? "" : (reasons[limited_by] ?? "")} ` +
      "Choose the second and third by how the one before went; after a miss, do not go up.",
    attempts[0],
  );
  show_sets("The way up, and the attempts", [...warm_ups(sets), ...attempts.map((attempt, i) => [names[i], "1", attempt])]);
}

function show_lighter_than_bar(lift) {
  show_loaded(`${when()}: ${lift}`, "lighter than the bar", "Take a lighter bar, or dumbbells.");
  show_sets("", []);
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
    ...cautions.map(({ severity, text }) =>
      element("li", { class: looks[severity][0] }, element("b", {}, looks[severity][1]), text),
    ),
  );
}

/** Where on this page a stop for pain is answered. */
const ways_on = ({ remedies }) => remedies.map((remedy) => ways_past[remedy]).filter(Boolean);

function show_answer() {
  exclude_changes();
  fit_form();
  const asked = request();
  const answer = library.ask(asked);
  const { outcome, refusal } = answer;
  const is_too_light = refusal?.code === "bar_too_heavy";
  const is_refused = outcome === "bad_request" || (outcome === "refused" && !is_too_light);
  const in_words = () => [`${refusal.message}.`, ways_out[refusal.code]].filter(Boolean).join(" ");
  by_id("message").textContent = !is_refused ? "" : outcome === "refused" ? in_words() : answer.message;
  by_id("stop").textContent = outcome === "stop" ? ["No load is shown: the first caution below says stop.", ...ways_on(answer)].join(" ") : "";
  show("message", is_refused);
  show("stop", outcome === "stop");
  show("load", outcome === "plan" || is_too_light);
  show("figures", outcome === "plan" && !answer.first_session);
  show("cautions", outcome === "plan" || outcome === "stop");
  if (is_refused) show("shares", false);
  else show_shares();
  if (outcome === "plan") {
    if (answer.first_session) show_first_session(answer);
    else if (answer.attempts) show_attempts(answer);
    else show_load(answer);
    if (!answer.first_session) show_figures(answer);
  }
  if (is_too_light) show_lighter_than_bar(asked.lift);
  if (answer.cautions) show_cautions(answer.cautions);
  by_id("answer").dataset.request = JSON.stringify(asked);
  by_id("answer").dataset.state = is_refused ? "refused" : outcome === "stop" ? "stopped" : "answered";
}

// ---- the log ----

const kept = new KeptLog(library, today());

/** The last sets, and what is to be said of lines that were taken in. */
function show_log(said = []) {
  const csv = kept.whole_csv;
  const rows = csv.trim().split("\n").slice(1);
  by_id("kept").replaceChildren(
    element("p", {}, rows.length === 0 ? "There is no set in it yet." : `${rows.length} lines. The last:`),
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
  const problem = kept.keep(form.lifter.value.trim(), set_in_form(lift_wanted().wanted, today()));
  if (!problem && form.source.value === "set") form.source.value = "log";
  show_log(problem ? [problem] : []);
});
by_id("take-in").addEventListener("change", async ({ target }) => {
  const answer = kept.take_in(await target.files[0].text());
  const said =
    answer.outcome === "log"
      ? answer.reports.map(({ line, verdict, text }) => `line ${line}: ${verdict}: ${text}`)
      : [answer.message];
  if (answer.outcome === "log") {
    ask_again();
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
form.date.value = today();
fill_from_address();
form.addEventListener("input", (event) => {
  if (event.target === form.lift) offer_changes();
  if ([form.lifter, form.date, form.source].includes(event.target)) ask_again();
  if (event.target === form.plan) form.next_sets.value = form.plan.value === "back_offs" ? 1 : 3;
  show_answer();
});
form.addEventListener("submit", (event) => event.preventDefault());
show_log();
if ("serviceWorker" in navigator) navigator.serviceWorker.register("worker.js").catch(() => {});
