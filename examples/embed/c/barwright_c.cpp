// examples/embed/c/barwright_c.cpp - the C interface: checks what comes in, catches what comes out
// SPDX-License-Identifier: BSL-1.0
#include "barwright_c.h"

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <cstdlib>
#include <exception>
#include <limits>
#include <new>
#include <string>
#include <string_view>
#include <system_error>

#include "barwright/barwright.hpp"
#include "barwright/plan/json.hpp"

namespace bw = barwright;

struct barwright_room {
  bw::Room value;
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

template <class T>
const T& checked(const T* pointer, std::string_view what) {
  if (pointer == nullptr) {
    throw bw::DomainError(bw::ErrorCode::out_of_range, what, "given", "NULL");
  }
  return *pointer;
}
std::string_view checked_text(const char* text, std::string_view what) {
  return &checked(text, what);
}

/// A copy that the caller gives back to std::free; nullptr without memory.
char* handed_over(const std::string& text) noexcept {
  char* const copy = static_cast<char*>(std::malloc(text.size() + 1));
  if (copy != nullptr) std::copy_n(text.c_str(), text.size() + 1, copy);
  return copy;
}

/// The value at "sets[3].load_kg"; nullptr where there is none.
const bw::json::Value* find_at(const bw::json::Value& whole, std::string_view place) {
  const bw::json::Value* value = &whole;
  while (value != nullptr && !place.empty()) {
    if (place[0] == '[') {
      std::size_t index = 0;
      const auto read = std::from_chars(place.data() + 1, place.data() + place.size(), index);
      const std::size_t end = static_cast<std::size_t>(read.ptr - place.data());
      if (read.ec != std::errc{} || end == place.size() || place[end] != ']') return nullptr;
      const auto* const items = value->array();
      value = items != nullptr && index < items->size() ? &(*items)[index] : nullptr;
      place.remove_prefix(end + 1);
    } else {
      if (place[0] == '.') place.remove_prefix(1);
      const std::string_view name = place.substr(0, place.find_first_of(".["));
      value = value->find(name);
      place.remove_prefix(name.size());
      if (name.empty()) return nullptr;
    }
  }
  return value;
}

/// Calls `use` with the value at a place, where there is one.
template <class Use>
void with_value_at(const char* answer, const char* place, const Use& use) noexcept {
  if (answer == nullptr || place == nullptr) return;
  try {
    const bw::json::ReadResult read = bw::json::read(answer);
    const bw::json::Value* const value = read.value ? find_at(*read.value, place) : nullptr;
    if (value != nullptr) use(*value);
  } catch (...) {  // no memory: nothing is found
  }
}

}  // namespace

extern "C" {

// ---- one set

double barwright_one_rep_max(const char* equation, double load_kg, int reps, double reserve,
                             barwright_error* error) {
  return guarded(error, [&] {
    return bw::one_rep_max(bw::parse_curve(checked_text(equation, "an equation's name")),
                           bw::Mass::from_kg(load_kg), bw::Reps(reps), bw::RepsInReserve(reserve))
        .kg();
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
    copy_text(loading.text, to_text(*found).str());
    return loading;
  });
}

// ---- the planner

char* barwright_answer(const char* request, size_t size) {
  if (request == nullptr) return nullptr;
  try {
    return handed_over(bw::json::answer(std::string_view(request, size)));
  } catch (...) {  // no memory for the answer
    return nullptr;
  }
}

void barwright_free(char* text) { std::free(text); }

double barwright_number(const char* answer, const char* place) {
  double number = std::numeric_limits<double>::quiet_NaN();
  with_value_at(answer, place, [&](const bw::json::Value& value) {
    if (value.number() != nullptr) number = *value.number();
  });
  return number;
}

char* barwright_text(const char* answer, const char* place) {
  char* text = nullptr;
  with_value_at(answer, place, [&](const bw::json::Value& value) {
    if (value.string() != nullptr) text = handed_over(*value.string());
  });
  return text;
}

}  // extern "C"
