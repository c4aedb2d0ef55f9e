// examples/embed/web/words.js - what the library answers, in a coach's words
// SPDX-License-Identifier: BSL-1.0

export const short = (number) => String(Number(number.toFixed(2)));

export const reps_in_words = (count) => (count === 1 ? "1 rep" : `${count} reps`);

export const sets_and_reps = (sets, reps) => (sets === 1 ? String(reps) : `${sets} × ${reps}`);

export const chance_in_words = (chance) => `${chance < 0.01 ? "under 1" : (100 * chance).toFixed(0)} %`;

/** How many dumbbells a load is. */
const dumbbells_of = ({ load_kg, dumbbell }) => Math.round(load_kg / (dumbbell.weight * (dumbbell.unit === "kg" ? 1 : 0.45359237)));

/** What to load, in words. */
export function loading_in_words(set) {
  const { bar, dumbbell, pin, belt } = set;
  if (bar) return bar.text;
  if (pin) return `the pin at ${short(pin.weight)} ${pin.unit}`;
  if (belt) return belt.length === 0 ? "the body alone" : `${plates_in_words(belt)} kg hung from the body`;
  return `${dumbbells_of(set) === 1 ? "one dumbbell" : "two dumbbells, each"} of ${short(dumbbell.weight)} ${dumbbell.unit}`;
}

const plates_in_words = (plates) => plates.map(({ weight }) => short(weight)).join(" + ");

/** The same in a line of the table, where a bar is known. */
export function loading_in_table(set) {
  if (!set.bar) return loading_in_words(set);
  const { plates_each_side } = set.bar;
  return plates_each_side.length === 0 ? "no plates" : `${plates_in_words(plates_each_side)} a side`;
}

/** A load as it is called: "62.5 kg", "2 × 30 kg", "body + 10 kg". */
export function load_in_words(set) {
  if (set.belt) return set.belt.length === 0 ? "body alone" : `body + ${short(set.load_kg)} kg`;
  const each = set.dumbbell ? `${short(set.dumbbell.weight)} ${set.dumbbell.unit}` : `${short(set.load_kg)} kg`;
  return set.dumbbell && dumbbells_of(set) > 1 ? `2 × ${each}` : each;
}

/** Why the load is what it is, in words; the library's names for it. */
export const reasons = {
  reserve: "It leaves the reps in reserve you asked for.",
  chance_of_missing: "It is held down so that a missed rep stays unlikely.",
  greatest_rise: "It asks for at most 10 % more than your sets have shown.",
  ratings: "It goes no more than a step beyond what your last ratings say.",
  usual_curve: "No set of yours tells how many reps you do at a share of your max: it goes by the usual curve.",
  layoff: "It is lighter after the layoff.",
  held_after_miss: "A rep was missed last time: it is no heavier.",
  held_after_failure: "A set went to failure last time: it is no heavier.",
  missed_today: "A rep was missed today: it is lighter.",
  today: "It goes by the sets of today.",
  introduction: "The first sessions of a new lift are light.",
  recovery: "It is too soon for a hard session.",
  equipment: "Nothing heavier can be loaded.",
};

/** "2 RIR", "2 to 3 RIR": a half is not counted by anybody. */
export const rir_in_words = (left) =>
  Number.isInteger(left) ? `${left} RIR` : `${Math.floor(left)} to ${Math.ceil(left)} RIR`;

/** What to do on this page where the library has no plan; the library's names for why. */
export const ways_out = {
  no_strength: "Type in a set, or plan a beginner's first session.",
};

/** What to do on this page under a stop that an answer would lift; the library's names for that. */
export const ways_past = {
  have_pain_seen: "Once somebody qualified has looked and the lift is allowed: answer \u201cDoes it hurt?\u201d above.",
  see_doctor: "Once a doctor has looked into it and lifting is allowed: answer \u201cDizzy, faint, chest pain or the like?\u201d above.",
};
