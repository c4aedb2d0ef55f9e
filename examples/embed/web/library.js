// examples/embed/web/library.js - the WebAssembly module as functions from text to values
//
// Text goes in through the module's heap, never its small stack, and no more of it than the module
// takes: what is too long is refused here, and the module lives on.
// SPDX-License-Identifier: BSL-1.0
import start_module from "./barwright.mjs";

/** Starts the module; `options` are emscripten's, such as the bytes of the module under Node. */
export default async function start_library(options = {}) {
  const module = await start_module(options);

  function taken(text) {
    if (text === 0) return { refused: "there is not enough memory" };
    try {
      return JSON.parse(module.UTF8ToString(text));
    } finally {
      module._free(text);
    }
  }

  return {
    /** The lifts and changes there are to choose from. */
    catalogue: () => taken(module._catalogue()),

    /** What the library answers to a question, or {refused: why}. */
    answer(question) {
      const most = module._question_limit();
      const size = module.lengthBytesUTF8(question);
      if (size > most) return { refused: `a question must be no longer than ${most} bytes; got ${size}` };
      const memory = module._malloc(size + 1);
      if (memory === 0) return { refused: "there is not enough memory" };
      try {
        module.stringToUTF8(question, memory, size + 1);
        return taken(module._answer(memory));
      } finally {
        module._free(memory);
      }
    },
  };
}
