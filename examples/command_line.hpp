// examples/command_line.hpp - a program whose options CLI11 reads
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <CLI/CLI.hpp>

#include "program.hpp"

namespace program {

/// As program::run, with the command line read into `Options`, which `declare` has told CLI11 of.
template <class Options, class Declare, class Body>
int run(const char* name, int failed, int argc, char** argv, Declare declare, Body body) {
  return run(name, failed, [&] {
    CLI::App app("", name);
    Options options;
    declare(app, options);
    try {
      app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
      return app.exit(error) == 0 ? 0 : failed;
    }
    return static_cast<int>(body(options));
  });
}

}  // namespace program
