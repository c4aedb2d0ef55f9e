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

const request = {
  version: 1, ask: "plan_session", lift: "bench press", date: "2026-11-25", stated_max_kg: 100, spotter: true,
};
const before = library.answer(JSON.stringify(request));
assert.equal(JSON.parse(before).outcome, "plan", before);
const lives_on = () => assert.equal(library.answer(JSON.stringify(request)), before);
lives_on();

// Long requests are refused, and the module lives on: just beyond the limit, far beyond it, and in
// letters of four bytes.
for (const long of ["x".repeat(8388609), "x".repeat(5e7), "\u{1F600}".repeat(2.2e6)]) {
  assert.match(JSON.parse(library.answer(long)).message, /^a request must be no longer than 8388608 bytes; got \d+$/);
  lives_on();
}
// What is not too long is read, and refused for what it is.
for (const long of ["x".repeat(5e6), "[".repeat(5e6), `"${"\u{1F600}".repeat(2e6)}`, `[${"1,".repeat(2e6)}1]`, "\0"]) {
  assert.equal(JSON.parse(library.answer(long)).outcome, "bad_request");
  lives_on();
}
// Half of a surrogate pair is no text; the answer is one all the same.
assert.equal(library.ask({ ...request, lift: "\ud83d" }).outcome, "bad_request");

// A large log is learnt from, and a long answer comes whole, again and again.
const day = (ago) => new Date(Date.UTC(2026, 10, 25 - ago)).toISOString().slice(0, 10);
const log = Array.from({ length: 600 }, (_, i) => (
  { date: day(3 + Math.floor(i / 4)), lift: request.lift, load_kg: 80, reps: 5, left: 2 }));
assert.equal(library.ask({ ...request, stated_max_kg: null, log }).outcome, "plan");
for (let i = 0; i < 200; ++i) {
  assert.ok(library.ask({ version: 1, ask: "catalogue" }).lifts.length > 3);
}
lives_on();
console.log("the module holds");
