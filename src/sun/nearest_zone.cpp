#include "sun/nearest_zone.h"

#include <algorithm>
#include <numeric>
#include <vector>

namespace sunfleck::sun {
namespace {

/// ASCII letters small, spaces as the underscores that zone names have.
std::string plain(std::string_view text) {
    std::string result(text);
    for (char& c : result) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        if (c == ' ') c = '_';
    }
    return result;
}

/// Letters to insert, drop or change (Levenshtein).
std::size_t changes(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i + 1;
        for (std::size_t j = 0; j < b.size(); ++j) {
            const std::size_t change = diagonal + (a[i] == b[j] ? 0U : 1U);
            diagonal = row[j + 1];
            row[j + 1] = std::min({change, row[j] + 1, diagonal + 1});
        }
    }
    return row.back();
}

}  // namespace

std::string nearest_zone(std::string_view wanted, std::span<const std::string> names) {
    constexpr std::size_t longest_name = 64;
    const std::string typed = plain(wanted.substr(0, longest_name));
    std::string nearest;
    std::size_t fewest = 0;
    for (const std::string& name : names) {
        const std::string whole = plain(name);
        const std::string_view last = std::string_view(whole).substr(whole.rfind('/') + 1);
        const std::size_t count = std::min(changes(typed, whole), changes(typed, last));
        if (nearest.empty() || count < fewest) {
            nearest = name;
            fewest = count;
        }
    }
    return nearest;
}

}  // namespace sunfleck::sun
