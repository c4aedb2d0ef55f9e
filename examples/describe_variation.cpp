// examples/describe_variation.cpp - what is known about a variation of a lift, as a coach reads it
//
// Without arguments, of an invented rower who benches 100 kg and spares legs and lower back. --list
// lists all lifts and changes there are; --help says how to ask.
// SPDX-License-Identifier: BSL-1.0
#include <barwright/barwright.hpp>
#include <barwright/lifts/list.hpp>
#include <barwright/log/lift_fields.hpp>
#include <iostream>
#include <string>
#include <string_view>
#include <vector>

#include "arguments.hpp"
#include "program.hpp"

using namespace barwright;

namespace {

constexpr std::string_view usage =
    R"(usage: describe_variation [MAX kg|lb LIFT [MODIFIER...]] | --list [WORD...]
as in: describe_variation 120 kg "bench press" incline pause
       describe_variation --list press

What is known about a variation of a lift: its 1RM beside the base lift's and who says
so, how many reps it allows, the muscles, what to be able to do first, and cautions.

  MAX       the 1RM on the base lift, and its unit
  LIFT      the base lift
  MODIFIER  what is changed, one or several
  --list    all lifts, each with what can be changed about it; with words, those that have
            all of them in a name, the family or the muscles worked directly

Without arguments: an invented rower who benches 100 kg, feet up and flat back. A name
that is not known is answered with the nearest ones.
)";

std::string listed(const NameList& names) {
  std::string text = names.empty() ? "; no changes to it are known" : "; nearest:";
  for (const std::string_view name : names) text.append(" \"").append(name).append("\"");
  return text;
}

/// The lift as it is named on the command line.
Lift named_lift(std::string_view base_name, const std::vector<std::string_view>& changes) {
  const BaseLift* base = catalogue::find_lift(base_name);
  if (base == nullptr) {
    std::string text = "unknown lift \"" + std::string(base_name) + '"';
    const auto changed = catalogue::find_lift_with(base_name);
    if (const auto whole = changed ? changed : fields::lift_in_one_breath(base_name)) {
      text.append("; ask for the lift, then for what is changed: \"");
      text.append(whole->base().name).append("\"");
      for (const Modifier& each : whole->modifiers()) {
        text.append(" \"").append(each.name()).append("\"");
      }
    } else if (base_name.find(',') != base_name.npos) {
      text += "; give each name by itself, as in \"squat\" \"front squat\"";
    } else {
      text += listed(catalogue::nearest_lift_names(base_name));
    }
    throw program::Refusal(text);
  }
  Lift lift = *base;
  for (const std::string_view change : changes) {
    const Modifier* modifier = catalogue::find_modifier(change, *base);
    if (modifier == nullptr) {
      throw program::Refusal("unknown change to the " + std::string(base->name) + ": \"" +
                             std::string(change) + '"' +
                             listed(catalogue::nearest_modifier_names(change, *base)));
    }
    lift = lift + *modifier;
  }
  return lift;
}

/// One line for each lift and each change; of a change, the share of the max it leaves.
int print_list(const std::vector<std::string_view>& words) {
  std::string all;
  for (const std::string_view word : words) all.append(all.empty() ? "" : " ").append(word);
  const auto found = catalogue::list(all);
  if (found.empty()) {
    throw program::Refusal("unknown lift or change \"" + all + "\"; --list alone lists them all");
  }
  const BaseLift* last = nullptr;
  for (const ListedLift& each : found) {
    // A change stands under its lift, whether that was looked for or not.
    if (each.change != nullptr && each.lift != last) std::cout << each.lift->name << '\n';
    last = each.lift;
    std::cout << to_line(each) << '\n';
  }
  return 0;
}

int run(int argc, char** argv) {
  arguments::help_if_asked(argc, argv, usage);
  if (argc > 1 && std::string_view(argv[1]) == "--list") return print_list({argv + 2, argv + argc});
  const std::vector<std::string_view> args = arguments::with_units_apart(argc, argv);
  const bool is_whole = args.size() >= 3 && arguments::is_unit(args[1]);
  if (!args.empty() && !is_whole) arguments::refuse(usage);

  if (args.empty()) {
    std::cout
        << "An invented rower, who spares legs and lower back for tomorrow's water session:\n\n";
    const Lift lift = lifts::bench_press + modifiers::feet_up + modifiers::flat_back;
    describe(std::cout, lift, Mass::from_kg(100), Unit::kg);
  } else {
    const Unit unit = args[1] == "lb" ? Unit::lb : Unit::kg;
    const auto max = arguments::number_from<double>(args[0], "a max must be a number");
    const Lift lift = named_lift(args[2], {args.begin() + 3, args.end()});
    describe(std::cout, lift, Mass::from(max, unit), unit);
  }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  return program::run("describe_variation", 1, [&] { return run(argc, argv); });
}
