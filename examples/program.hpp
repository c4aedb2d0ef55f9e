// examples/program.hpp - what every program here does at its start and its end
//
// A page is printed whole or the exit status says that it was not: what goes to standard output is
// kept until the program is done, then written, and the write is checked. What a log, a file name
// or an argument brought along is shown, never obeyed by the terminal.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <csignal>
#include <cstdio>
#include <exception>
#include <iostream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>

#include "barwright/core/printable.hpp"

namespace program {

/// Why there is no answer: one line, for whoever asked.
struct Refusal : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Ends the program with this status; what there was to say is said.
struct Exit {
  int status;
};

/// Says `text` in one line on standard error.
inline void complain(std::string_view name, std::string_view text) {
  std::cerr << name << ": " << barwright::printable<std::string>(text) << '\n';
}

/// Takes what is written to std::cout, until it goes.
class Page {
 public:
  Page() : usual_(std::cout.rdbuf(text_.rdbuf())) {}
  ~Page() { std::cout.rdbuf(usual_); }
  Page(const Page&) = delete;
  Page& operator=(const Page&) = delete;

  /// Writes it to standard output, line by line as it can be shown; false where not all went out.
  [[nodiscard]] bool write() const {
    std::string shown;
    const std::string text = text_.str();
    for (std::size_t start = 0; start < text.size();) {
      const std::size_t end = text.find('\n', start);
      barwright::append_printable(shown, std::string_view(text).substr(start, end - start));
      if (end == std::string::npos) break;
      shown += '\n';
      start = end + 1;
    }
    const bool is_written = std::fwrite(shown.data(), 1, shown.size(), stdout) == shown.size();
    return std::fflush(stdout) == 0 && is_written;
  }

 private:
  std::ostringstream text_{};
  std::streambuf* usual_;
};

/// Runs `body`, which returns the exit status, and writes what it printed.
/// @param name    of the program, in front of what goes wrong
/// @param failed  the exit status when there is no answer, or when it could not be written
template <class Body>
int run(std::string_view name, int failed, Body body) {
#ifdef SIGXFSZ
  // A file that grows beyond the limit of its size is then a write that failed, and is taken away.
  std::signal(SIGXFSZ, SIG_IGN);
#endif
  const Page page;
  int status = failed;
  try {
    status = body();
  } catch (const Exit& exit) {
    status = exit.status;
  } catch (const std::exception& error) {
    complain(name, error.what());
  }
  if (page.write()) return status;
  complain(name, "what there is to say could not be written to standard output");
  return failed;
}

}  // namespace program
