// examples/embed/web/next_session.mjs - from a handful of sets to the loaded bar, under Node
//
//   node next_session.mjs FOLDER      of build.sh
//
// The rower and her sets are invented; ../c/next_session.c is the same in C, and prints the same.
// SPDX-License-Identifier: BSL-1.0
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";

const folder = resolve(process.argv[2]);
const { default: start_library } = await import(pathToFileURL(`${folder}/library.js`));
const library = await start_library({ wasmBinary: readFileSync(`${folder}/barwright.wasm`) });

// What she did, and what is planned: six with two left, feet up. docs/json.md has all members.
const [bench, feet_up] = ["bench press", "bench press, feet up"];
const answer = library.ask({
  version: 1,
  ask: "plan_session",
  log: [
    { date: "2026-10-28", lift: bench, load_kg: 60, reps: 5, left: 2 },
    { date: "2026-11-02", lift: bench, load_kg: 62.5, reps: 5, left: 1 },
    { date: "2026-11-05", lift: feet_up, load_kg: 52.5, reps: 6, left: 3 },
    { date: "2026-11-09", lift: feet_up, load_kg: 55, reps: 6, left: 2 },
    { date: "2026-11-14", lift: bench, load_kg: 62.5, reps: 6, left: 1 },
  ],
  lift: feet_up, date: "2026-11-18", reps: 6, left: 2, safeties: "checked",
});
console.log(answer.outcome);
if (answer.outcome === "plan") {
  console.log(`${answer.load_kg} kg for ${answer.reps}, at least ${answer.stop_with_left} left, limited by ${answer.limited_by}`);
  for (const { bar } of answer.sets) console.log(bar.text);
}
for (const { text } of answer.cautions ?? []) console.log(text);
