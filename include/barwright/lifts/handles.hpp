// barwright/lifts/handles.hpp - a list of things that lie elsewhere, read as if they lay in it
//
// Base lifts and modifiers are static objects that nobody copies; a lift and the catalogue point at
// them. `Handles` lets such a row of pointers be read like a row of the things themselves.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <span>  // and the tags of iterators: <iterator> is three times as long

#include "barwright/version.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A view of things through pointers to them. None of the pointers is null.
///
///     for (const Modifier& modifier : lift.modifiers()) use(modifier.name());
template <class T>
class Handles {
 public:
  class iterator {
   public:
    using iterator_concept = std::random_access_iterator_tag;
    using iterator_category = std::random_access_iterator_tag;
    using value_type = T;
    using difference_type = std::ptrdiff_t;
    using pointer = const T*;
    using reference = const T&;

    constexpr iterator() noexcept = default;
    constexpr explicit iterator(const T* const* at) noexcept : at_(at) {}
    [[nodiscard]] constexpr const T& operator*() const noexcept { return **at_; }
    [[nodiscard]] constexpr const T* operator->() const noexcept { return *at_; }
    [[nodiscard]] constexpr const T& operator[](difference_type n) const noexcept {
      return *at_[n];
    }
    constexpr iterator& operator++() noexcept { return *this += 1; }
    constexpr iterator& operator--() noexcept { return *this -= 1; }
    constexpr iterator operator++(int) noexcept { return iterator(at_++); }
    constexpr iterator operator--(int) noexcept { return iterator(at_--); }
    constexpr iterator& operator+=(difference_type n) noexcept {
      at_ += n;
      return *this;
    }
    constexpr iterator& operator-=(difference_type n) noexcept { return *this += -n; }
    friend constexpr iterator operator+(iterator i, difference_type n) noexcept { return i += n; }
    friend constexpr iterator operator+(difference_type n, iterator i) noexcept { return i += n; }
    friend constexpr iterator operator-(iterator i, difference_type n) noexcept { return i -= n; }
    friend constexpr difference_type operator-(iterator a, iterator b) noexcept {
      return a.at_ - b.at_;
    }
    friend constexpr bool operator==(iterator, iterator) noexcept = default;
    friend constexpr auto operator<=>(iterator, iterator) noexcept = default;

   private:
    const T* const* at_ = nullptr;
  };

  constexpr Handles() noexcept = default;
  /// From any row of pointers: an array, a vector, a span. It must outlive the view.
  template <class Pointers>
  requires std::convertible_to<Pointers&, std::span<const T* const>>
  constexpr Handles(Pointers& pointers) noexcept : pointers_(pointers) {}

  [[nodiscard]] constexpr iterator begin() const noexcept { return iterator(pointers_.data()); }
  [[nodiscard]] constexpr iterator end() const noexcept {
    return iterator(pointers_.data() + pointers_.size());
  }
  [[nodiscard]] constexpr std::size_t size() const noexcept { return pointers_.size(); }
  [[nodiscard]] constexpr bool empty() const noexcept { return pointers_.empty(); }
  /// @pre index < size()
  [[nodiscard]] constexpr const T& operator[](std::size_t index) const noexcept {
    return *pointers_[index];
  }
  [[nodiscard]] constexpr const T& front() const noexcept { return *pointers_.front(); }
  [[nodiscard]] constexpr const T& back() const noexcept { return *pointers_.back(); }

 private:
  std::span<const T* const> pointers_{};
};

}  // namespace barwright::inline BARWRIGHT_ABI
