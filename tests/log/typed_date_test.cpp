#include "barwright/log/typed_date.hpp"

#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "barwright/core/date.hpp"

using namespace barwright;

TEST_CASE("a day that is typed is taken where it can be one day only") {
  struct Row {
    std::string_view typed;
    std::string_view day;  // else what the answer says
  };
  const Row rows[] = {
      {"2026-11-30", "2026-11-30"},
      {" 2026-11-30 ", "2026-11-30"},
      {"30/11/2026", "2026-11-30"},
      {"30.11.2026", "2026-11-30"},
      {"4.9.2026", "2026-09-04"},  // between points the day comes first: nobody writes otherwise
      {"11/30/2026", "2026-11-30"},
      {"30 Nov 2026", "2026-11-30"},
      {"Nov 30, 2026", "2026-11-30"},
      {"30/11/26", "2026-11-30"},
      {"5/5/2026", "2026-05-05"},  // the same by both readings
      {"4/9/2026", "2026-09-04 or 2026-04-09"},
      {"04-09-2026", "2026-09-04 or 2026-04-09"},
      {"30/11", "must have its year"},
      {"31/11/2026", "must be a day that exists"},
      {"30.02.2026", "must be a day that exists"},
      {"13/13/2026", "must be a day that exists"},
      {"tomorrow", "must be a day that exists"},
      {"", "must be a day that exists"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.typed);
    const auto day = fields::to_typed_date(row.typed);
    if (day.value) {
      CHECK(to_text(*day.value).str() == row.day);
    } else {
      CAPTURE(day.problem);
      CHECK(day.problem.find(row.day) != std::string::npos);
    }
  }
}
