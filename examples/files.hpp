// examples/files.hpp - files read whole and written whole, or not at all
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <cstdio>
#include <filesystem>
#include <string>
#include <string_view>
#include <system_error>

#include "barwright/core/printable.hpp"
#include "barwright/log/fields.hpp"

namespace files {

/// How large a file may be that is read: as large as a log of a squad's years, or of any size.
enum class Size { usual, any };
inline constexpr std::size_t usual_bytes = std::size_t{16} << 20U;

/// What a file holds; of standard input for "-". Only plain files are opened, as a pipe or a device
/// may have no end.
inline barwright::Parsed<std::string> read_whole(const std::string& path, Size size = Size::usual) {
  const auto problem = [](const char* text) {
    return barwright::Parsed<std::string>{.value = std::nullopt, .problem = text};
  };
  const bool is_input = path == "-";
  std::error_code unknown;
  const std::filesystem::file_status there = std::filesystem::status(path, unknown);
  if (!is_input && std::filesystem::is_directory(there)) return problem("this is a directory");
  if (!is_input && std::filesystem::exists(there) && !std::filesystem::is_regular_file(there)) {
    return problem(
        "this must be a plain file, not a device, pipe or socket; standard input is read as -");
  }
  std::FILE* const file = is_input ? stdin : std::fopen(path.c_str(), "rb");
  if (file == nullptr) return problem("this file cannot be opened");
  barwright::Parsed<std::string> result{.value = std::string(), .problem = {}};
  std::string part(std::size_t{1} << 16U, '\0');
  while (result.value) {
    const std::size_t count = std::fread(part.data(), 1, part.size(), file);
    result.value->append(part, 0, count);
    if (size == Size::usual && result.value->size() > usual_bytes) {
      result = problem("this is more than 16 MB; --any-size reads it all the same");
    } else if (count < part.size()) {
      if (std::ferror(file) != 0) result = problem("this file cannot be read");
      break;
    }
  }
  if (!is_input) (void)std::fclose(file);
  return result;
}

/// Why `path` is no name for a plain file; empty when it is one. A file that is there already must
/// be a plain one: what a link stands for may be anybody's.
inline std::string why_no_plain_file(const std::string& path) {
  if (path.empty()) return "a file must have a name";
  if (!barwright::is_printable(path)) {
    return "the name of a file must not hold line breaks or control characters";
  }
  if (path.front() == '|') return "this must be a file, not a pipe";
  std::error_code unknown;
  const std::filesystem::file_status there = std::filesystem::symlink_status(path, unknown);
  if (std::filesystem::is_directory(there)) return "this is a directory";
  if (std::filesystem::is_symlink(there)) return "this is a link; name the file itself";
  if (std::filesystem::exists(there) && !std::filesystem::is_regular_file(there)) {
    return "this must be a plain file, not a device, pipe or socket";
  }
  return {};
}

/// Writes `content` to `path`: first beside it, under a name of its own, then renamed, so that at
/// no time half of it stands there. Renaming replaces a link that was put there meanwhile, and not
/// what it stands for. Empty when it is there; else what went wrong, and nothing changed.
inline std::string write_whole(const std::string& path, std::string_view content) {
  if (std::string problem = why_no_plain_file(path); !problem.empty()) return problem;
  std::error_code error;
  std::string part;
  std::FILE* file = nullptr;
  for (int i = 0; i < 100 && file == nullptr; ++i) {
    part = path + ".part" + std::to_string(i);
    file = std::fopen(part.c_str(), "wbx");  // x: never one that is there
  }
  if (file == nullptr) return "nothing can be written there";
  const bool is_written = std::fwrite(content.data(), 1, content.size(), file) == content.size() &&
                          std::fflush(file) == 0;
  const bool is_closed = std::fclose(file) == 0;
  if (is_written && is_closed) std::filesystem::rename(part, path, error);
  if (is_written && is_closed && !error) return {};
  std::filesystem::remove(part, error);
  return "it could not be written whole; is the disk full?";
}

}  // namespace files
