// examples/report/review_page.hpp - a review in words: the verdict first, then what it rests on
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <ostream>
#include <string>
#include <string_view>

#include "barwright/barwright.hpp"
#include "barwright/planning.hpp"
#include "report/text_page.hpp"
#include "report/words.hpp"

namespace report {

/// Prints one review.
class ReviewPage {
 public:
  ReviewPage(std::ostream& out, const bw::BlockReview& review, const About& about)
      : out_(out), review_(review), about_(about), unit_(about.unit) {}

  void print() {
    verdict();
    heading();
    what_else();
    maxes();
    if (review_.lifter.body) say("1RMs are of body and belt together.");
    list_suspects(out_, review_.lifter, about_, false);
    what_would_change_it();
    cautions();
  }

 private:
  [[nodiscard]] std::string reference() const { return review_.lifter.base.name().str(); }
  [[nodiscard]] std::string variation() const { return review_.request.lift.name().str(); }
  void title(std::string_view text) { text_page::title(out_, text); }
  void say(std::string_view text, std::size_t hanging = 2) { paragraph(out_, text, 2, hanging); }
  void heading() {
    const bw::TrainedAmount& amount = review_.of_lift;
    out_ << about_.lifter << ", " << variation() << ", " << day(review_.from) << " to "
         << day(review_.to) << ": " << count(amount.sets, "set") << " on "
         << count(amount.days, "day") << '\n';
  }

  /// The first line.
  void verdict() {
    std::string answer;
    const bool is_close = !days_that_decide().empty();
    switch (review_.verdict()) {
      case bw::ReviewVerdict::rose: answer = is_close ? "Yes, but only just" : "Yes, so far"; break;
      case bw::ReviewVerdict::fell: answer = is_close ? "No, but only just" : "No"; break;
      case bw::ReviewVerdict::level: answer = "No meaningful change"; break;
      case bw::ReviewVerdict::unclear:
        answer = review_.weeks() < review_.lifter.rules.fewest_weeks_of_level ? "Too early to tell"
                                                                              : "Inconclusive";
        break;
    }
    paragraph(out_,
              answer + ": " + reference() + " " + text_page::change(review_.on_base) +
                  " over the block; the chance of a real gain is " +
                  chance(review_.on_base.chance_of_gain()) + ". " +
                  std::string(bw::meaning(bw::ChangeOf::period)),
              0, 0);
  }

  [[nodiscard]] bool is_plain() const { return review_.request.lift.is_plain(); }

  void what_else() {
    if (is_plain() && !review_.before) return;
    title("In this period");
    if (!is_plain())
      say("The " + variation() + " itself: " + text_page::change(review_.on_lift) + practice() +
          "; the chance of a real gain is " + chance(review_.on_lift.chance_of_gain()) + ".");
    if (review_.before) {
      const double weeks = review_.weeks_before();
      say("Before that, in the first " + number(weeks, 0) +
          " weeks of the log: " + text_page::change(*review_.before) + ", or " +
          signed_percent(review_.before->mean() / weeks) + " a week against " +
          signed_percent(review_.on_base.mean() / review_.weeks()) + " since.");
    }
    if (!is_plain()) {
      say("Correlation only: one lifter cannot train with and without the variation at the same "
          "time.");
    }
  }

  [[nodiscard]] bool is_new() const {
    return review_.lifter.fit->learning_gain(review_.request.lift).has_value();
  }
  /// What of a new lift is only practice.
  [[nodiscard]] std::string practice() const {
    const auto gain = review_.lifter.fit->learning_gain(review_.request.lift);
    if (!gain) return "";
    const bw::Range<double> range = gain->interval();
    return ", not counting what practice alone brought, about " +
           percent(bw::Range<double>(range.low - 1.0, range.typical - 1.0, range.high - 1.0), 0);
  }

  /// The 1RM of a plain lift over the period, day by day; of many days every few.
  void history() {
    constexpr std::size_t most_lines = 12;
    const std::size_t size = review_.history.size();
    const std::size_t step = (size + most_lines - 1) / most_lines;
    const auto is_shown = [&](std::size_t i) {
      return (size - 1 - i) % step == 0;
    };  // and the last
    title(step <= 1 ? "Day by day"
                    : "Day by day, " + std::to_string((size - 1) / step + 1) + " of " +
                          count(static_cast<int>(size), "day"));
    for (std::size_t i = 0; i < size; ++i) {
      if (!is_shown(i)) continue;
      out_ << "  " << padded(day(review_.history[i].date), 12)
           << max_text(review_.history[i].max.interval(), unit_) << '\n';
    }
    print_trend(out_, review_.lifter, "Trend at the end of the log");
  }

  void maxes() {
    if (is_plain()) return history();
    const bw::StrengthFit& fit = *review_.lifter.fit;
    const bw::Lift& lift = review_.request.lift;
    title("Then and now");
    const auto on_base = [&](bw::Date on) {
      return max_text(fit.max(review_.lifter.base, on).interval(), unit_);
    };
    const auto on_lift = [&](bw::Date on) { return max_text(fit.max(lift, on).interval(), unit_); };
    std::size_t first = reference().size();
    std::size_t second = variation().size();
    for (const bw::Date on : {review_.from, review_.to}) {
      first = std::max(first, on_base(on).size());
      second = std::max(second, on_lift(on).size());
    }
    out_ << "  " << padded("", 12) << padded(reference(), first + 2)
         << padded(variation(), second + 2) << "share\n";
    for (const bw::Date on : {review_.from, review_.to}) {
      out_ << "  " << padded(day(on), 12) << padded(on_base(on), first + 2)
           << padded(on_lift(on), second + 2) << percent(review_.ratio_on(on), 0) << '\n';
    }
    const bw::Mass best = fit.max(review_.lifter.base, review_.to).median();
    say("Over the whole log the share is " + percent(fit.ratio(lift).interval(), 0) +
        (is_new() ? ", once the lift is learnt" : "") + "; the catalogue has " +
        percent(lift.ratio(best), 0) + ".");
    print_trend(out_, review_.lifter, "Trend at the end of the log");
  }

  void what_would_change_it() {
    title("What would change the verdict");
    single_days();
    more_of_the_same();
    const bw::TrainedAmount& amount = review_.of_base;
    if (is_plain()) {
      say("- " + of_them(amount) + " at 2 RIR or fewer. The more of these, the surer the verdict.",
          4);
    } else if (amount.days == 0) {
      say("- The " + reference() +
              " itself was not trained in this period: everything said of it is inferred from the "
              "variation. A few hard sets of it would say more than all the rest.",
          4);
    } else {
      say("- The " + reference() + " itself: " + count(amount.sets, "set") + " on " +
              count(amount.days, "day") + " in this period, " +
              std::to_string(amount.near_failure) +
              " of them at 2 RIR or fewer. The more of these, the surer the verdict.",
          4);
    }
  }

  /// "8 of the 24 sets were", "All 24 sets were"
  [[nodiscard]] static std::string of_them(const bw::TrainedAmount& amount) {
    if (amount.near_failure == amount.sets) return "All " + count(amount.sets, "set") + " were";
    return std::to_string(amount.near_failure) + " of the " + count(amount.sets, "set") + " were";
  }

  /// The days without which the verdict would be another.
  [[nodiscard]] std::string days_that_decide() const {
    std::string days;
    for (const bw::Date each : review_.deciding_days()) {
      days += (days.empty() ? "" : ", ") + day(each);
    }
    return days;
  }

  void single_days() {
    if (review_.without.empty()) return;
    const auto [low, high] =
        std::minmax_element(review_.without.begin(), review_.without.end(),
                            [](const bw::WithoutDay& a, const bw::WithoutDay& b) {
                              return a.gain.mean() < b.gain.mean();
                            });
    std::string range = signed_percent(low->gain.mean(), 0);
    if (const std::string end = signed_percent(high->gain.mean(), 0); end != range) {
      range += " to " + end;
    }
    const std::string days = days_that_decide();
    if (days.empty()) {
      say("- No single session decides it: leaving out any one of the " +
              count(static_cast<int>(review_.without.size()), "day") + " gives " + range +
              " and the same verdict.",
          4);
    } else {
      say("- It depends on single sessions: the verdict changes if you drop " + days + " (" +
              range + ").",
          4);
    }
  }

  [[nodiscard]] static std::string at_least_one(double share) {
    return share < 0.01 ? "less than 1 %" : percent(share, 0);
  }
  void more_of_the_same() {
    const bw::Range<double> gain = review_.on_base.interval();
    const double pace = gain.typical / review_.weeks();
    switch (review_.verdict()) {
      case bw::ReviewVerdict::rose:
        say("- It would be unclear again if coming sessions took " + at_least_one(gain.low) +
                " off the gain.",
            4);
        break;
      case bw::ReviewVerdict::fell:
        say("- It would be unclear again if coming sessions brought " + at_least_one(-gain.high) +
                " back.",
            4);
        break;
      case bw::ReviewVerdict::level:
        say("- A change under " + percent(review_.lifter.rules.change_worth_speaking_of, 0) +
                " counts as level: a day's form moves the 1RM by more.",
            4);
        break;
      case bw::ReviewVerdict::unclear: {
        const double weeks = review_.weeks_until_clear();
        const double foreseeable = review_.lifter.rules.foreseeable_weeks;
        say(weeks < foreseeable ? "- At this pace, " + signed_percent(pace) +
                                      " a week, it would be clear in about " +
                                      count(static_cast<int>(std::ceil(weeks)), "more week") + "."
                                : "- At this pace, " + signed_percent(pace) +
                                      " a week, it would stay unclear for at least " +
                                      number(foreseeable, 0) + " weeks.",
            4);
        break;
      }
    }
  }

  void cautions() {
    title("Keep in mind");
    say("- " + std::string(bw::cautions::always.text), 4);
    say("- A 1RM here is an estimate, not a load to try: plan_session says what to load.", 4);
  }

  std::ostream& out_;
  const bw::BlockReview& review_;
  const About& about_;
  bw::Unit unit_;
};

}  // namespace report
