// barwright/learn/log_checksum.hpp - whether a log is still the one that something was made from
//
// A fit that was saved beside a log is of that log as it was. Both have a checksum; where they
// differ, somebody has changed a set, taken one away or added one. FNV-1a with 64 bits, the same in
// every run and on every machine: it finds slips and updates, not somebody who means to deceive.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstdint>
#include <cstring>
#include <span>

#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// The same bits as another type: not every standard library that the page is built with has
/// `std::bit_cast`.
template <class To, class From>
requires(sizeof(To) == sizeof(From)) [[nodiscard]] To same_bits(const From& from) noexcept {
  To to{};
  std::memcpy(&to, &from, sizeof to);
  return to;
}

/// FNV-1a, 64 bits.
class Digest {
 public:
  constexpr Digest() noexcept = default;
  constexpr explicit Digest(std::uint64_t so_far) noexcept : mixed_(so_far) {}

  constexpr Digest& add_byte(unsigned char byte) noexcept {
    mixed_ = (mixed_ ^ byte) * 0x100000001b3;
    return *this;
  }
  constexpr Digest& add(std::uint64_t value) noexcept {
    for (int byte = 0; byte < 8; ++byte) {
      add_byte(static_cast<unsigned char>(value >> (8 * byte)));
    }
    return *this;
  }
  Digest& add(double value) noexcept {
    return add(same_bits<std::uint64_t>(value + 0.0));  // one zero, not two
  }
  [[nodiscard]] constexpr std::uint64_t value() const noexcept { return mixed_; }

 private:
  std::uint64_t mixed_ = 0xcbf29ce484222325;
};

}  // namespace detail

/// What is remembered of a log to know it again: how many sets it has, and a number that depends on
/// all that a fit reads of them, in their order. What was noted of pain is not in it.
struct LogChecksum {
  std::uint64_t sets = 0;
  std::uint64_t digest = detail::Digest{}.value();

  /// Takes one more set.
  void add(const LoggedSet& set) noexcept {
    detail::Digest mixed(digest);
    mixed.add(static_cast<std::uint64_t>(static_cast<std::int64_t>(set.date.days_since_1970())))
        .add(set.lift.id().hash())
        .add(set.load.kg())
        .add(static_cast<std::uint64_t>(set.reps.count()))
        .add_byte(set.outcome == Outcome::missed ? 1 : 0)
        .add_byte(set.reserve ? 1 : 0);
    if (set.reserve) {
      mixed.add(set.reserve->low.count())
          .add(set.reserve->typical.count())
          .add(set.reserve->high.count());
    }
    digest = mixed.value();
    ++sets;
  }

  friend constexpr bool operator==(const LogChecksum&, const LogChecksum&) noexcept = default;
};

/// The checksum of a log. That of the first sets of a longer one tells whether it only grew.
[[nodiscard]] inline LogChecksum checksum_of(std::span<const LoggedSet> log) noexcept {
  LogChecksum checksum;
  for (const LoggedSet& set : log) checksum.add(set);
  return checksum;
}

}  // namespace barwright::inline BARWRIGHT_ABI
