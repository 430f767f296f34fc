#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace sunfleck::rays {

/// A stretch of a day, in ticks [from, to).
struct TickSpan {
    std::uint16_t from = 0;
    std::uint16_t to = 0;
    bool operator==(const TickSpan&) const = default;
};

/// Something opaque before the sun.
struct ShadeItem {
    TickSpan span;
    std::uint16_t day = 0;
};

/// Something before the sun that lets light through.
struct VeilItem {
    TickSpan span;
    std::uint16_t day = 0;
    std::uint16_t piece = 0;     ///< index into the traced pieces
    float transmittance = 1.0F;  ///< below 0: varies, ask the piece
    [[nodiscard]] bool is_varying() const { return transmittance < 0.0F; }
};

/// Items put in order of their days, within a day of their starts.
template <typename Item>
class DayItems {
  public:
    void add(const Item& item) {
        if (item.span.from < item.span.to) found_.push_back(item);
    }
    void clear() { found_.clear(); }
    [[nodiscard]] bool is_empty() const { return found_.empty(); }
    [[nodiscard]] std::span<const Item> all() const { return found_; }

    /// All of them on days [first, end).
    void sort(std::size_t first, std::size_t end) {
        first_day_ = first;
        first_.assign(end - first + 1, 0);
        for (const Item& item : found_) ++first_[item.day - first + 1];
        for (std::size_t d = 0; d < end - first; ++d) first_[d + 1] += first_[d];
        next_.assign(first_.begin(), first_.end());
        sorted_.resize(found_.size());
        for (const Item& item : found_) place(item);
    }
    [[nodiscard]] std::span<const Item> day(std::size_t day) const {
        const std::size_t d = day - first_day_;
        return std::span(sorted_).subspan(first_[d], first_[d + 1] - first_[d]);
    }

  private:
    // Into its day's part, before those that start later.
    void place(const Item& item) {
        const std::size_t d = item.day - first_day_;
        std::size_t at = next_[d]++;
        while (at > first_[d] && starts_after(sorted_[at - 1], item)) {
            sorted_[at] = sorted_[at - 1];
            --at;
        }
        sorted_[at] = item;
    }
    static bool starts_after(const Item& a, const Item& b) { return a.span.from > b.span.from; }

    std::vector<Item> found_;
    std::vector<Item> sorted_;
    std::size_t first_day_ = 0;
    std::vector<std::uint32_t> first_;
    std::vector<std::uint32_t> next_;
};

}  // namespace sunfleck::rays
