// tests/version_test.cpp - the version is written in version.hpp, and the pages say the same
//
// CMake reads it there, and the packages have it from CMake; what the pages say is typed.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <barwright/core/text.hpp>
#include <barwright/version.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

using namespace barwright;

TEST_CASE("README.md and the newest of the changes say the version of the header") {
  const auto contents_of = [](const char* page) {
    std::ifstream file(std::filesystem::path(BARWRIGHT_TEST_DATA) / "../.." / page);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
  };
  const std::string version = Text{}
                                  .append(BARWRIGHT_VERSION_MAJOR)
                                  .append(".")
                                  .append(BARWRIGHT_VERSION_MINOR)
                                  .append(".")
                                  .append(BARWRIGHT_VERSION_PATCH)
                                  .str();
  CHECK(contents_of("README.md").find("\nVersion " + version + ":") != std::string::npos);
  const std::string changes = contents_of("docs/CHANGELOG.md");
  const std::size_t newest = changes.find("\n## ");
  REQUIRE(newest != std::string::npos);
  CHECK(changes.compare(newest, version.size() + 5, "\n## " + version + "\n") == 0);
}
