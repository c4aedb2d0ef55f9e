// examples/squad_log.hpp - a squad's training log from a file, and what is wrong with it on the
// screen
//
// What barwright/log/log_reader.hpp reads from a text, read from a file or from standard input.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <ostream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/log/log_reader.hpp"
#include "files.hpp"

namespace squad_log {

namespace bw = barwright;
using namespace bw::fields;
using bw::Parsed;

/// A log, and what reports call it.
struct Log : bw::Log {
  std::string name{};
};

inline Log read(std::string_view text, std::string name, const bw::LogOptions& options = {}) {
  return {bw::read_log(text, options), std::move(name)};
}

/// Reads a log from a file; "-" is standard input.
inline Log read_file(const std::string& path, files::Size size = files::Size::usual,
                     const bw::LogOptions& options = {}) {
  const auto text = files::read_whole(path, size);
  if (text.value) return read(*text.value, path, options);
  Log log;
  log.name = path;
  log.failure = text.problem;
  return log;
}

/// Says what is to be said about all lines.
inline void print_reports(std::ostream& out, std::string_view name,
                          const bw::LineReports& reports) {
  for (const bw::LineReport& report : reports) out << bw::to_text(name, report) << '\n';
  if (reports.left_out() > 0) {
    out << bw::printable<std::string>(name) << ": and " << reports.left_out()
        << " reports more, which are left out\n";
  }
}

/// Says once how a log was read, where it could have been read otherwise, and what is to be said of
/// its lines.
inline void print_reading(std::ostream& out, const Log& log) {
  for (const std::string& text : log.understood) {
    out << bw::printable<std::string>(log.name) << ": read as: " << bw::printable<std::string>(text)
        << '\n';
  }
  print_reports(out, log.name, log.reports);
}

/// What to say of "--lift bench press", of which the second word is taken for the name of a log.
inline std::string missing_quotes(const std::string& lift, const std::string& log) {
  const std::string both = lift + " " + log;
  if (bw::catalogue::find_lift(both) == nullptr) return "";
  return ". Quote names with spaces: --lift \"" + both + "\"";
}

}  // namespace squad_log
