// examples/embed/web/library.js - the library as one function from a request to its answer
//
// Requests go in through the module's heap, never its small stack, and no more of them than it has
// room for: what is too long is refused here, and the module lives on.
// SPDX-License-Identifier: BSL-1.0
import start_module from "./barwright.mjs";

const most_bytes = 8 * 1024 * 1024;

/** Starts the module; `options` are emscripten's, such as the bytes of the module under Node. */
export default async function start_library(options = {}) {
  const module = await start_module(options);
  const refused = (message) => JSON.stringify({ version: 1, outcome: "bad_request", message });

  /** The answer to a request, both of them JSON as docs/json.md describes it. */
  function answer(request) {
    const size = module.lengthBytesUTF8(request);
    if (size > most_bytes) return refused(`a request must be no longer than ${most_bytes} bytes; got ${size}`);
    const memory = module._malloc(size + 1);
    if (memory === 0) return refused("there is not enough memory");
    let text = 0;
    try {
      module.stringToUTF8(request, memory, size + 1);
      text = module._barwright_answer(memory, size);
      return text === 0 ? refused("there is not enough memory") : module.UTF8ToString(text);
    } finally {
      module._barwright_free(text);
      module._free(memory);
    }
  }

  return {
    answer,
    /** The same from and to JavaScript's own values. */
    ask: (request) => JSON.parse(answer(JSON.stringify(request))),
  };
}
