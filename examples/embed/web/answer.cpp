// examples/embed/web/answer.cpp - from a set that was typed in to a variation's load and its plates
//
// An interval here holds the value in about nine of ten cases: of lifters whose rating is off as
// ratings are, whose repetitions run out sooner or later than the equation has it, on a day that
// may be a good or a bad one, and who lose on the variation what others lose.
// SPDX-License-Identifier: BSL-1.0
#include "answer.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <exception>
#include <optional>
#include <system_error>

#include "barwright/barwright.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/normal.hpp"

namespace bw = barwright;

namespace {

// ---- JSON ----

std::string quoted(std::string_view text) {
  std::string json = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') json += '\\';
    json += static_cast<unsigned char>(c) < ' ' ? ' ' : c;
  }
  return json + '"';
}

std::string number(double value) { return std::string(bw::Text{}.append(value).view()); }

std::string range(const bw::Range<bw::Mass>& mass) {
  return "{\"low\":" + number(mass.low.kg()) + ",\"typical\":" + number(mass.typical.kg()) +
         ",\"high\":" + number(mass.high.kg()) + "}";
}

/// The JSON of each item, as an array.
template <class Items, class Print>
std::string array(const Items& items, const Print& print) {
  std::string json;
  for (const auto& item : items) json += (json.empty() ? "" : ",") + print(item);
  return "[" + json + "]";
}

// ---- the question ----

/// The value of a name in a query; empty where it is not there.
std::string_view value_of(std::string_view query, std::string_view name) {
  while (!query.empty()) {
    const std::size_t end = std::min(query.find('&'), query.size());
    const std::string_view pair = query.substr(0, end);
    query.remove_prefix(std::min(end + 1, query.size()));
    if (pair.substr(0, pair.find('=')) == name && pair.size() > name.size()) {
      return pair.substr(name.size() + 1);
    }
  }
  return {};
}

[[noreturn]] void refuse(std::string_view what, std::string_view allowed, std::string_view got) {
  throw bw::DomainError(bw::Text{}
                            .append(what)
                            .append(" must be ")
                            .append(allowed)
                            .append("; got ")
                            .append(got.empty() ? "nothing" : got));
}

/// A number with a decimal point, whatever the host's locale writes.
double number_of(std::string_view query, std::string_view name, std::string_view what) {
  const std::string_view text = value_of(query, name);
  const char* const end = text.data() + text.size();
  double value = 0.0;
  const auto read = std::from_chars(text.data(), end, value);
  if (read.ec != std::errc{} || read.ptr != end) refuse(what, "a number", text);
  return value;
}

bw::Reps reps_of(std::string_view query, std::string_view name) {
  const double count = number_of(query, name, "repetitions");
  if (!(count >= 1.0 && count <= 100.0) || count != std::floor(count)) {
    refuse("repetitions", "a whole number from 1 to 100", value_of(query, name));
  }
  return bw::Reps(static_cast<int>(count));
}

/// What was left: as it was counted, or as a rating says.
bw::Range<bw::RepsInReserve> reserve_of(std::string_view query) {
  if (value_of(query, "rpe").empty()) {
    return bw::Range<bw::RepsInReserve>::exactly(
        bw::RepsInReserve(number_of(query, "left", "repetitions in reserve")));
  }
  const bw::Rpe rating(number_of(query, "rpe", "a rating of perceived exertion"));
  const bw::RepsInReserve typical = typical_reserve(rating);  // refused where there is none
  return bw::reps_in_reserve(rating).value_or(bw::Range<bw::RepsInReserve>::exactly(typical));
}

bw::Lift lift_of(std::string_view query) {
  const std::string_view key = value_of(query, "lift");
  const bw::BaseLift* base = bw::catalogue::find_lift(key);
  if (base == nullptr) refuse("a lift", "one of the list", key);
  bw::Lift lift = *base;
  std::string_view changes = value_of(query, "changes");
  while (!changes.empty()) {
    const std::size_t end = std::min(changes.find(','), changes.size());
    const bw::Modifier* change = bw::catalogue::find_modifier(changes.substr(0, end), *base);
    if (change == nullptr) refuse("a change", "one of the list", changes.substr(0, end));
    lift = lift + *change;
    changes.remove_prefix(std::min(end + 1, changes.size()));
  }
  return lift;
}

bw::Safeties safeties_of(std::string_view query) {
  const std::string_view text = value_of(query, "safeties");
  return text == "checked"     ? bw::Safeties::checked
         : text == "unchecked" ? bw::Safeties::unchecked
                               : bw::Safeties::none;
}

bool is_on(std::string_view query, std::string_view name) { return value_of(query, name) == "1"; }

bw::Room room_of(std::string_view query) {
  const std::string_view text = value_of(query, "bar");
  if (text == "15") return bw::plate_sets::gym_kg.with(bw::Bar(15, bw::Unit::kg));
  if (text == "20_and_collars") return bw::plate_sets::powerlifting;
  if (text != "20") refuse("a bar", "15, 20 or 20_and_collars", text);
  return bw::plate_sets::gym_kg;
}

// ---- the answer ----

/// A factor that is known but for its error: its 90 % interval.
bw::Range<double> factor(double log_sd) { return bw::Estimate<double>(0.0, log_sd).interval(); }

/// What was lifted, and what is wanted.
struct Question {
  bw::Mass load;
  bw::Reps reps;
  bw::Range<bw::RepsInReserve> left;
  bw::Lift lift;
  bw::Reps next_reps;
  bw::RepsInReserve next_left;

  /// The repetitions to failure the set stood for: the rating at its word, and how far it may be
  /// off. Those that were done are sure.
  [[nodiscard]] bw::Range<double> to_failure() const {
    const double said = left.typical.count();
    const bw::RatingError error = bw::rating_error(left.typical, reps);
    const double half = bw::normal_quantile(0.95) * error.standard_deviation;
    const double done = reps.count();
    return {done + std::clamp(left.low.count() + error.bias - half, 0.0, said), done + said,
            done + left.high.count() + error.bias + half};
  }
};

/// The curve of a lifter whose repetitions run out `stretch` times as late.
auto curve_of(double stretch) {
  return bw::stretched(bw::anchored(bw::equations::wathen), stretch);
}

bw::Mass max_by(const Question& question, double to_failure, double stretch) {
  return question.load.whole_of(curve_of(stretch).fraction(to_failure));
}
/// For the same effort with the lift as it was done: the lifter's own curve goes both ways.
bw::Mass load_by(const Question& question, double to_failure, double stretch) {
  const auto curve = question.lift.curve(curve_of(stretch));
  return bw::load_for(curve, max_by(question, to_failure, stretch), question.next_reps,
                      question.next_left);
}

/// How far a mass moves, as a factor, when each uncertain thing takes its ends; then by one day's
/// form, and by `ratio`.
template <class MassBy>
bw::Range<bw::Mass> with_interval(const Question& question, const MassBy& mass_by,
                                  const bw::Range<double>& ratio) {
  // Between lifters, and from one day to another: docs/strength-model.md has both with sources.
  const bw::Range<double> stretch = factor(0.20);
  const bw::Range<double> day = factor(0.042);
  const bw::Range<double> reps = question.to_failure();
  const bw::Mass middle = mass_by(question, reps.typical, 1.0);
  const auto of_middle = [&](bw::Mass a, bw::Mass b) {
    return bw::Range<double>(std::min({a / middle, b / middle, 1.0}), 1.0,
                             std::max({a / middle, b / middle, 1.0}));
  };
  bw::Range<double> share =
      stacked(of_middle(mass_by(question, reps.low, 1.0), mass_by(question, reps.high, 1.0)),
              of_middle(mass_by(question, reps.typical, stretch.low),
                        mass_by(question, reps.typical, stretch.high)),
              bw::Stacking::spread);
  share = stacked(share, day, bw::Stacking::spread);
  share = stacked(share, ratio, bw::Stacking::spread);
  return {middle * share.low, middle * share.typical, middle * share.high};
}

std::string change_json(const bw::Modifier& change, bw::Mass best) {
  const bw::Range<double> share = change.ratio(best);
  return "{\"name\":" + quoted(change.name()) + ",\"low\":" + number(share.low) +
         ",\"typical\":" + number(share.typical) + ",\"high\":" + number(share.high) +
         ",\"evidence\":" + quoted(to_text(change.ratio_figure().evidence)) + "}";
}

std::string loading_json(const bw::Loading& loading) {
  return "{\"kg\":" + number(loading.total().kg()) + ",\"text\":" + quoted(to_text(loading)) +
         ",\"collar\":" + number(loading.collars().each.mass().kg()) + ",\"plates\":" +
         array(loading.plates(), [](bw::MarkedMass plate) { return number(plate.mass().kg()); }) +
         "}";
}

std::string answer(std::string_view query) {
  const Question question{
      .load = bw::Mass::from_kg(number_of(query, "kg", "a load")),
      .reps = reps_of(query, "reps"),
      .left = reserve_of(query),
      .lift = lift_of(query),
      .next_reps = reps_of(query, "next_reps"),
      .next_left = bw::RepsInReserve(number_of(query, "next_left", "repetitions in reserve"))};
  if (!(question.load > bw::Mass{})) refuse("a load", "more than 0 kg", value_of(query, "kg"));
  const bool is_new = is_on(query, "new");

  const auto same = bw::Range<double>::exactly(1.0);
  const bw::Range<bw::Mass> reference = with_interval(question, max_by, same);
  const bw::Range<double> ratio = question.lift.ratio(reference.typical, bw::Stacking::spread);
  const bw::Range<bw::Mass> max = with_interval(question, max_by, ratio);
  const bw::Range<bw::Mass> load = with_interval(question, load_by, ratio);

  // Somebody new to the lift starts lighter and stops earlier.
  bw::Mass today = load.typical;
  bw::Reps reps = question.next_reps;
  bw::RepsInReserve stop_with = question.next_left;
  if (is_new) {
    const bw::Exposure first =
        bw::introduce(bw::anchored(bw::equations::wathen), question.lift, reference.typical,
                      question.next_reps, question.next_left)[0];
    today = std::min(first.load, today);
    reps = first.reps;
    stop_with = first.least_reserve;
  }
  const bw::CautionList cautions =
      bw::cautions_for({.lift = question.lift,
                        .reps = reps,
                        .reserve = stop_with,
                        .has_spotter = is_on(query, "spotter"),
                        .safeties = safeties_of(query),
                        .earlier_sessions = is_new ? 0 : 4,
                        .is_max_attempt = reps.count() == 1 && stop_with == bw::RepsInReserve()});

  std::string json =
      "{\"lift\":" + quoted(question.lift.name()) +
      ",\"base\":" + quoted(question.lift.base().name) + ",\"reference\":" + range(reference) +
      ",\"max\":" + range(max) + ",\"changes\":" +
      array(question.lift.modifiers(),
            [&](const bw::Modifier& change) { return change_json(change, reference.typical); }) +
      ",\"cautions\":" + array(cautions, [](const bw::Caution& caution) {
        return "{\"weight\":" + quoted(to_text(caution.weight)) +
               ",\"text\":" + quoted(caution.text) + "}";
      });
  if (cautions.says_stop()) return json + "}";  // such loads are not for showing
  json += ",\"load\":" + range(load) + ",\"reps\":" + std::to_string(reps.count()) +
          ",\"stop_with\":" + number(stop_with.count());
  const std::optional<bw::Loading> loading = room_of(query).at_most(today);
  if (loading) json += ",\"loading\":" + loading_json(*loading);
  return json + "}";
}

bool is_with_straight_bar(const bw::BaseLift& lift) {
  constexpr std::string_view keys[] = {
      "bench_press", "squat",          "deadlift",    "barbell_row",
      "bench_pull",  "overhead_press", "biceps_curl", "romanian_deadlift"};
  return std::find(std::begin(keys), std::end(keys), lift.key) != std::end(keys);
}

std::string change_choice_json(const bw::Modifier& change, const bw::BaseLift& base) {
  std::string excluded;
  for (const bw::Modifier& other : bw::catalogue::modifiers()) {
    if (other.key() != change.key() && other.applies_to(base) && change.excludes(other)) {
      excluded += (excluded.empty() ? "" : ",") + quoted(other.key());
    }
  }
  return "{\"key\":" + quoted(change.key()) + ",\"name\":" + quoted(change.name()) +
         ",\"excludes\":[" + excluded + "]}";
}

}  // namespace

std::string catalogue_json() {
  std::string lifts;
  for (const bw::BaseLift& lift : bw::catalogue::lifts()) {
    if (!is_with_straight_bar(lift)) continue;
    std::string changes;
    for (const bw::Modifier& change : bw::catalogue::modifiers()) {
      if (!change.applies_to(lift) || change.sets_any_of(bw::Setup::implement)) continue;
      changes += (changes.empty() ? "" : ",") + change_choice_json(change, lift);
    }
    lifts += (lifts.empty() ? "" : ",") + ("{\"key\":" + quoted(lift.key)) +
             ",\"name\":" + quoted(lift.name) + ",\"changes\":[" + changes + "]}";
  }
  return "{\"lifts\":[" + lifts + "]}";
}

std::string answer_json(std::string_view query) try {
  if (query.size() > longest_question) {
    refuse("a question", "no longer than " + std::to_string(longest_question) + " bytes",
           std::to_string(query.size()));
  }
  return answer(query);
} catch (const std::exception& error) {
  return "{\"refused\":" + quoted(error.what()) + "}";
}
