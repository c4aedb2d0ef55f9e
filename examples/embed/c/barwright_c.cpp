// examples/embed/c/barwright_c.cpp - the C interface: checks what comes in, catches what comes out
// SPDX-License-Identifier: BSL-1.0
#include "barwright_c.h"

#include <algorithm>
#include <exception>
#include <new>
#include <string>
#include <string_view>

#include "barwright/barwright.hpp"
#include "barwright/learn/strength_model.hpp"
#include "by_name.hpp"

namespace bw = barwright;

struct barwright_lift {
  bw::Lift value;
};
struct barwright_room {
  bw::Room value;
};
struct barwright_cautions {
  bw::CautionList value;
};
struct barwright_model {
  bw::StrengthModel value;
};
struct barwright_fit {
  bw::StrengthFit value;
};

namespace {

/// Asked rightly, but there is no answer.
struct NoAnswer {
  bw::Text text;
};

/// What fits, in whole characters of UTF-8.
template <std::size_t Size>
void copy_text(char (&to)[Size], std::string_view from) noexcept {
  const auto text = bw::BasicText<Size - 1>{}.append(from);
  std::copy_n(text.c_str(), text.view().size() + 1, to);
}

/// What `work` returns, or nothing of it when it fails, or when something failed before.
template <class Work>
auto guarded(barwright_error* error, const Work& work) noexcept -> decltype(work()) {
  using Result = decltype(work());
  if (error == nullptr || error->status != BARWRIGHT_OK) return Result();
  const auto note = [&](barwright_status status, std::string_view text) noexcept {
    error->status = status;
    copy_text(error->text, text);
  };
  try {
    return work();
  } catch (const bw::DomainError& refusal) {
    note(BARWRIGHT_REFUSED, refusal.what());
  } catch (const NoAnswer& none) {
    note(BARWRIGHT_NO_ANSWER, none.text);
  } catch (const std::bad_alloc&) {
    note(BARWRIGHT_NO_MEMORY, "there is not enough memory");
  } catch (const std::exception& fault) {
    note(BARWRIGHT_BROKEN, fault.what());
  } catch (...) {
    note(BARWRIGHT_BROKEN, "an exception of an unknown kind");
  }
  return Result();
}

[[noreturn]] void refuse(std::string_view what, std::string_view allowed, double got) {
  bw::Text message;
  message.append(what).append(" must be ").append(allowed).append("; got ").append(got);
  throw bw::DomainError(message);
}

template <class T>
const T& checked(const T* pointer, std::string_view what) {
  if (pointer == nullptr) {
    throw bw::DomainError(bw::Text{}.append(what).append(" must be there; got NULL"));
  }
  return *pointer;
}
std::string_view checked_text(const char* text, std::string_view what) {
  return &checked(text, what);
}

bw::Date date_from(barwright_date date) { return bw::Date(date.year, date.month, date.day); }

barwright_range in_kg(const bw::Range<bw::Mass>& range) {
  return {range.low.kg(), range.typical.kg(), range.high.kg()};
}

}  // namespace

extern "C" {

// ---- one set, one load

double barwright_one_rep_max(const char* equation, double load_kg, int reps, double reserve,
                             barwright_error* error) {
  return guarded(error, [&] {
    return by_name::with_equation(checked_text(equation, "an equation's name"), [&](auto& curve) {
      return bw::one_rep_max(curve, bw::Mass::from_kg(load_kg), bw::Reps(reps),
                             bw::RepsInReserve(reserve))
          .kg();
    });
  });
}

double barwright_load_for(const char* equation, double max_kg, int reps, double reserve,
                          barwright_error* error) {
  return guarded(error, [&] {
    return by_name::with_equation(checked_text(equation, "an equation's name"), [&](auto& curve) {
      return bw::load_for(curve, bw::Mass::from_kg(max_kg), bw::Reps(reps),
                          bw::RepsInReserve(reserve))
          .kg();
    });
  });
}

// ---- lifts

barwright_lift* barwright_lift_new(const char* name, barwright_error* error) {
  return guarded(error, [&] {
    return new barwright_lift{by_name::lift(checked_text(name, "a lift's name"))};
  });
}

void barwright_lift_free(barwright_lift* lift) { delete lift; }

barwright_range barwright_lift_max_from(const barwright_lift* lift, double base_max_kg,
                                        barwright_error* error) {
  return guarded(error, [&] {
    return in_kg(checked(lift, "a lift").value.max_from(bw::Mass::from_kg(base_max_kg)));
  });
}

// ---- plates

barwright_room* barwright_room_new(const char* text, barwright_error* error) {
  return guarded(error, [&] {
    return new barwright_room{bw::parse_room(checked_text(text, "a room's text"))};
  });
}

void barwright_room_free(barwright_room* room) { delete room; }

barwright_loading barwright_room_at_most(const barwright_room* room, double load_kg,
                                         barwright_error* error) {
  return guarded(error, [&] {
    const bw::Room& here = checked(room, "a room").value;
    const auto found = here.at_most(bw::Mass::from_kg(load_kg));
    if (!found) {
      const bw::Text bar = to_text(here.empty_bar().total());
      throw NoAnswer{bw::Text{}.append("there is nothing lighter than the bar, ").append(bar)};
    }
    barwright_loading loading{};
    loading.total_kg = found->total().kg();
    for (const bw::MarkedMass plate : found->plates()) {
      loading.plate_kg[loading.plates++] = plate.mass().kg();
    }
    copy_text(loading.text, to_text(*found).view());
    return loading;
  });
}

// ---- cautions

barwright_cautions* barwright_cautions_new(const barwright_lift* lift, barwright_session session,
                                           barwright_error* error) {
  return guarded(error, [&] {
    const bw::SessionFacts facts{
        .lift = checked(lift, "a lift").value,
        .reps = bw::Reps(session.reps),
        .reserve = bw::RepsInReserve(session.reserve),
        .has_spotter = session.has_spotter != 0,
        .safeties = session.safeties == BARWRIGHT_SAFETIES_CHECKED     ? bw::Safeties::checked
                    : session.safeties == BARWRIGHT_SAFETIES_UNCHECKED ? bw::Safeties::unchecked
                                                                       : bw::Safeties::none,
        .earlier_sessions = session.earlier_sessions,
        .is_max_attempt = session.reps == 1 && session.reserve < 1.0};
    return new barwright_cautions{bw::cautions_for(facts)};
  });
}

void barwright_cautions_free(barwright_cautions* cautions) { delete cautions; }

size_t barwright_cautions_size(const barwright_cautions* cautions) {
  return cautions == nullptr ? 0 : cautions->value.size();
}

const char* barwright_cautions_text(const barwright_cautions* cautions, size_t index) {
  if (index >= barwright_cautions_size(cautions)) return nullptr;
  return cautions->value[index].text.data();  // literals all
}

barwright_weight barwright_cautions_weight(const barwright_cautions* cautions, size_t index) {
  if (index >= barwright_cautions_size(cautions)) return BARWRIGHT_NOTE;
  switch (cautions->value[index].weight) {
    case bw::CautionWeight::stop: return BARWRIGHT_STOP;
    case bw::CautionWeight::warn: return BARWRIGHT_WARN;
    case bw::CautionWeight::note: break;
  }
  return BARWRIGHT_NOTE;
}

// ---- what a log says

barwright_model* barwright_model_new(const char* base_lift, const char* equation,
                                     barwright_error* error) {
  return guarded(error, [&] {
    return new barwright_model{bw::StrengthModel(
        {.reference = by_name::lift(checked_text(base_lift, "a lift's name")),
         .curve = by_name::with_equation(checked_text(equation, "an equation's name"),
                                         [](auto& curve) { return bw::CurveTable(curve); })})};
  });
}

void barwright_model_free(barwright_model* model) { delete model; }

void barwright_model_add(barwright_model* model, const barwright_lift* lift, barwright_date date,
                         double load_kg, int reps, barwright_outcome outcome, double reserve,
                         barwright_error* error) {
  guarded(error, [&] {
    checked(model, "a model");
    bw::LoggedSet set{.date = date_from(date),
                      .lift = checked(lift, "a lift").value,
                      .load = bw::Mass::from_kg(load_kg),
                      .reps = bw::Reps(reps)};
    const bw::RepsInReserve left(reserve);  // refuses what is negative
    switch (outcome) {
      case BARWRIGHT_RATED: set.reserve = bw::Range<bw::RepsInReserve>::exactly(left); break;
      case BARWRIGHT_UNRATED: break;
      case BARWRIGHT_MISSED: set.outcome = bw::Outcome::missed; break;
      default: refuse("an outcome", "rated, unrated or missed", static_cast<int>(outcome));
    }
    if (outcome != BARWRIGHT_RATED && left > bw::RepsInReserve()) {
      refuse("the reserve of a set that was missed or not rated", "0", reserve);
    }
    model->value.add(set);
  });
}

barwright_fit* barwright_fit_new(const barwright_model* model, barwright_error* error) {
  return guarded(error, [&] { return new barwright_fit{checked(model, "a model").value.fit()}; });
}

void barwright_fit_free(barwright_fit* fit) { delete fit; }

barwright_range barwright_fit_max(const barwright_fit* fit, const barwright_lift* lift,
                                  barwright_date date, double level, barwright_error* error) {
  return guarded(error, [&] {
    return in_kg(checked(fit, "a fit")
                     .value.max(checked(lift, "a lift").value, date_from(date))
                     .interval(level));
  });
}

barwright_range barwright_fit_ratio(const barwright_fit* fit, const barwright_lift* lift,
                                    double level, barwright_error* error) {
  return guarded(error, [&] {
    const bw::Range<double> ratio =
        checked(fit, "a fit").value.ratio(checked(lift, "a lift").value).interval(level);
    return barwright_range{ratio.low, ratio.typical, ratio.high};
  });
}

double barwright_fit_chance_of_missing(const barwright_fit* fit, const barwright_lift* lift,
                                       double load_kg, int reps, barwright_date date,
                                       int earlier_sets, barwright_error* error) {
  return guarded(error, [&] {
    return checked(fit, "a fit")
        .value.chance_of_missing(checked(lift, "a lift").value, bw::Mass::from_kg(load_kg),
                                 bw::Reps(reps), date_from(date), earlier_sets);
  });
}

barwright_bounded_load barwright_fit_load_for(const barwright_fit* fit, const barwright_lift* lift,
                                              int reps, double reserve, barwright_date date,
                                              int earlier_sets, double max_chance_of_missing,
                                              barwright_error* error) {
  return guarded(error, [&] {
    const bw::BoundedLoad bounded =
        checked(fit, "a fit")
            .value.load_for(
                checked(lift, "a lift").value, bw::Reps(reps), bw::RepsInReserve(reserve),
                date_from(date),
                {.max_chance_of_missing = max_chance_of_missing, .earlier_sets = earlier_sets});
    return barwright_bounded_load{bounded.load.kg(), bounded.chance_of_missing,
                                  bounded.is_bounded ? 1 : 0};
  });
}

size_t barwright_fit_sets(const barwright_fit* fit) {
  return fit == nullptr ? 0 : fit->value.reports().size();
}

int barwright_fit_is_suspicious(const barwright_fit* fit, size_t set) {
  if (set >= barwright_fit_sets(fit)) return 0;
  return fit->value.reports()[set].use == bw::SetReport::Use::suspicious ? 1 : 0;
}

}  // extern "C"
