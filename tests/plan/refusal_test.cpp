#include "barwright/plan/refusal.hpp"

#include <doctest/doctest.h>

#include <set>
#include <string>

#include "barwright/core/date.hpp"
#include "barwright/core/mass.hpp"

using namespace barwright;
using namespace barwright::literals;

TEST_CASE("every reason why there is no plan is a sentence of its own, with its figures") {
  struct Row {
    Refusal refusal;
    const char* says;  // somewhere in it
  };
  const Row rows[] = {
      {{.code = RefusalCode::no_strength}, "no set of the squat"},
      {{.code = RefusalCode::log_too_old, .days = 214}, "214 days"},
      {{.code = RefusalCode::log_goes_on, .date = Date(2026, 11, 25)}, "2026-11-25"},
      {{.code = RefusalCode::other_lift}, "not of the squat"},
      {{.code = RefusalCode::bodyweight_lift}, "The squat is done with the body"},
      {{.code = RefusalCode::explosive_lift}, "the bar slows"},
      {{.code = RefusalCode::bar_too_heavy, .wanted = 15_kg, .lightest = 20_kg}, "15 kg"},
      {{.code = RefusalCode::dumbbells_too_heavy, .wanted = 7_kg, .lightest = 10_kg}, "10 kg"},
      {{.code = RefusalCode::body_too_heavy, .wanted = 60_kg, .lightest = 72_kg}, "Take 12 kg off"},
      {{.code = RefusalCode::no_body_mass}, "what the lifter weighs"},
      {{.code = RefusalCode::stack_too_heavy, .wanted = 4_kg, .lightest = 5_kg}, "5 kg"},
      {{.code = RefusalCode::no_bar_in_block}, "with a barbell"},
      {{.code = RefusalCode::not_in_log}, "The log has no set of the squat"},
      {{.code = RefusalCode::too_few_days, .days = 1}, "has 1"},
      {{.code = RefusalCode::too_many_days, .days = 100}, "100 days"},
  };
  std::set<std::string> all;
  for (const Row& row : rows) {
    const std::string text = message(row.refusal, "squat");
    CAPTURE(text);
    CHECK(text.find(row.says) != std::string::npos);
    CHECK((text.front() >= 'A' && text.front() <= 'Z'));
    CHECK(text.back() != '.');
    CHECK(text.find('_') == std::string::npos);
    all.insert(text);
  }
  CHECK(all.size() == std::size(rows));
  // For how many reps the lightest there is would do, and loads in the unit of the room.
  CHECK(message({.code = RefusalCode::bar_too_heavy,
                 .wanted = 40_lb,
                 .lightest = 45_lb,
                 .reps_with_lightest = 3},
                "squat", Unit::lb)
            .find("45 lb with collars, is heavier than the load to use, 40 lb. Do sets of 3") !=
        std::string::npos);
}
