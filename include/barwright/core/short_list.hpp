// barwright/core/short_list.hpp - a list with room for a fixed number of items, without allocation
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>

#include "barwright/core/error.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A short list with room for `Capacity` items and no allocation.
template <class T, std::size_t Capacity>
class ShortList {
 public:
  [[nodiscard]] static constexpr std::size_t capacity() noexcept { return Capacity; }
  [[nodiscard]] constexpr std::size_t size() const noexcept { return size_; }
  [[nodiscard]] constexpr bool empty() const noexcept { return size_ == 0; }
  [[nodiscard]] constexpr const T* begin() const noexcept { return items_; }
  [[nodiscard]] constexpr const T* end() const noexcept { return items_ + size_; }
  /// @pre index < size()
  [[nodiscard]] constexpr const T& operator[](std::size_t index) const noexcept {
    return items_[index];
  }

  /// Inserts before `index`, which is at most size().
  /// @throws DomainError when the list is full.
  constexpr void insert(std::size_t index, const T& item) {
    if (size_ == Capacity) {
      detail::fail(ErrorCode::too_many, "a short list", "no longer than its capacity",
                   static_cast<double>(size_ + 1));
    }
    for (std::size_t i = size_; i > index; --i) items_[i] = items_[i - 1];
    items_[index] = item;
    ++size_;
  }
  constexpr void append(const T& item) { insert(size_, item); }
  constexpr void drop_last() noexcept {
    if (size_ > 0) --size_;
  }

 private:
  T items_[Capacity]{};
  std::size_t size_ = 0;
};

}  // namespace barwright::inline BARWRIGHT_ABI
