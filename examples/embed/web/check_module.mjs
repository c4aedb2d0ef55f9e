// examples/embed/web/check_module.mjs - the module under Node, asked what nobody should ask
//
//   node check_module.mjs FOLDER      of build.sh
//
// SPDX-License-Identifier: BSL-1.0
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";

const folder = resolve(process.argv[2]);
const { default: start_library } = await import(pathToFileURL(`${folder}/library.js`));
const library = await start_library({ wasmBinary: readFileSync(`${folder}/barwright.wasm`) });

const question =
  "lift=bench_press&changes=feet_up&kg=100&reps=5&left=2&next_reps=6&next_left=2&bar=20&spotter=1";
const before = library.answer(question);
assert.ok(before.loading.kg > 60 && before.loading.kg < 100, JSON.stringify(before));

// Long questions are refused, and the module lives on: just beyond the limit, 5 MB, 50 MB, and names
// of four bytes a letter.
for (const long of ["x".repeat(65537), "x".repeat(5e6), "lift=" + "y".repeat(5e7), "\u{1F600}".repeat(2e6)]) {
  assert.match(library.answer(long).refused, /^a question must be no longer than 65536 bytes; got \d+$/);
  assert.deepEqual(library.answer(question), before);
}
// The longest that is allowed is read, and refused for what it says.
assert.match(library.answer("x".repeat(65536)).refused, /^a load must be a number; got nothing/);
assert.match(library.answer("\u{1F600}".repeat(16384)).refused, /^a load must be a number; got nothing/);

// Numbers have digits and a decimal point.
for (const kg of ["0x10", "62,5", "inf", "nan", " 62.5", "62.5 ", "+62.5", "1e999", ""]) {
  assert.match(library.answer(question.replace("kg=100", `kg=${kg}`)).refused, /^a load must be /, kg);
}
assert.match(library.answer(question.replace("bar=20", "bar=gym_lb")).refused, /^a bar must be 15, 20 /);

// A long answer comes whole, again and again.
for (let i = 0; i < 1000; ++i) assert.ok(library.catalogue().lifts.length > 3);
assert.deepEqual(library.answer(question), before);
console.log("the module holds");
