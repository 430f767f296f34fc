#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

namespace sunfleck {

/// A place in a text, both from 1; the column counts characters. A byte order mark takes none.
struct TextPlace {
    int line = 1;
    int column = 1;
    bool operator==(const TextPlace&) const = default;
};

/// Finds the line and column of bytes of one UTF-8 text in short time, however long its lines are.
/// A line ends with LF, so that CR LF ends one as well.
class TextPlaces {
  public:
    explicit TextPlaces(std::string_view text);
    /// `text` must be the text that the places were made from; bytes beyond it count as its end.
    [[nodiscard]] TextPlace of(std::string_view text, std::size_t byte) const;

  private:
    [[nodiscard]] std::size_t characters_before(std::string_view text, std::size_t byte) const;

    std::vector<std::size_t> line_begins_;
    std::vector<std::size_t> characters_before_block_;
};

}  // namespace sunfleck
