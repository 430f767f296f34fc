#include "sunfleck/base/nearest_name.h"

#include "sunfleck/base/unicode_text.h"

#include <algorithm>
#include <numeric>
#include <vector>

namespace sunfleck {

namespace {

/// Longer names are never a slip of the fingers, and the work grows with length squared.
constexpr std::size_t longest_compared = 200;

char32_t without_case(char32_t character) {
    const bool is_capital = character >= U'A' && character <= U'Z';
    return is_capital ? character - U'A' + U'a' : character;
}

std::vector<char32_t> folded(std::string_view text) {
    std::vector<char32_t> all = characters(text);
    std::ranges::transform(all, all.begin(), without_case);
    return all;
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
    const std::vector<char32_t> from = folded(a);
    const std::vector<char32_t> to = folded(b);
    // Three rows of the usual table: before_last and last hold the distances of shorter prefixes.
    std::vector<std::size_t> before_last(to.size() + 1);
    std::vector<std::size_t> last(to.size() + 1);
    std::vector<std::size_t> row(to.size() + 1);
    std::iota(last.begin(), last.end(), std::size_t{0});
    for (std::size_t i = 1; i <= from.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= to.size(); ++j) {
            const std::size_t replaced = last[j - 1] + (from[i - 1] == to[j - 1] ? 0 : 1);
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, replaced});
            if (i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1]) {
                row[j] = std::min(row[j], before_last[j - 2] + 1);
            }
        }
        std::swap(before_last, last);
        std::swap(last, row);
    }
    return last[to.size()];
}

std::string nearest_name(std::string_view name, std::span<const std::string> known) {
    const std::size_t count = character_count(name);
    if (count < 2 || count > longest_compared) return {};
    std::size_t least = std::max<std::size_t>(1, count / 3) + 1;
    std::string nearest;
    for (const std::string& candidate : known) {
        if (candidate.size() > 4 * longest_compared) continue;
        const std::size_t distance = edit_distance(name, candidate);
        if (distance >= least) continue;
        least = distance;
        nearest = candidate;
    }
    return nearest;
}

}  // namespace sunfleck
