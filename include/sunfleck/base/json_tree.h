#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/base/text_places.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sunfleck {

enum class JsonKind { null, boolean, number, text, array, object };

/// "an array", "a number", for messages.
[[nodiscard]] std::string_view name_of(JsonKind kind);

/// One value of a JSON text and where it stands.
struct JsonNode {
    JsonKind kind = JsonKind::null;
    std::size_t begin = 0;  ///< its first byte in the text
    std::size_t end = 0;    ///< one past its last byte
    bool boolean = false;
    double number = 0.0;             ///< finite
    std::string text;                ///< a text's characters, or a number as it was written
    std::vector<JsonNode> children;  ///< of an array or object, in the order of the text
    // For a member of an object:
    std::string key;
    std::size_t key_begin = 0;  ///< of the key's opening quote
    std::size_t key_end = 0;

    /// The member with that key; null when there is none or this is no object.
    [[nodiscard]] const JsonNode* find(std::string_view name) const;
};

/// A JSON text with its values' places.
class JsonTree {
  public:
    JsonTree(std::string text, std::string file, JsonNode root);

    [[nodiscard]] const std::string& text() const { return text_; }
    [[nodiscard]] const std::string& file() const { return file_; }
    [[nodiscard]] const JsonNode& root() const { return root_; }
    [[nodiscard]] TextPlace place(std::size_t byte) const;
    /// The value at a JSON pointer (RFC 6901); null when there is none.
    [[nodiscard]] const JsonNode* at(std::string_view pointer) const;
    /// Fills in file, line and column of the value at the problem's pointer, or of the nearest
    /// value around it that exists.
    void locate(Problem& problem) const;

  private:
    std::string text_;
    std::string file_;
    JsonNode root_;
    TextPlaces places_;
};

/// What reading a JSON text gave. The tree is there whenever the text is JSON; problems may stand
/// beside it (keys written twice), and then the text must not be used, only examined further.
struct JsonReading {
    std::optional<JsonTree> tree;
    Problems problems;
};

/// The deepest nesting that is read.
inline constexpr int deepest_json_nesting = 64;
/// The most values in one text; a garden of 20,000 pots has some 400,000.
inline constexpr std::size_t most_json_values = 2'000'000;
/// The most keys written twice that are told one by one.
inline constexpr std::size_t most_key_problems = 1000;

/// Reads RFC 8259 JSON in UTF-8, with or without a byte order mark. Refused with their place:
/// text that is not JSON or not UTF-8, keys written twice in one object, numbers that no double
/// holds, nesting deeper than deepest_json_nesting, more than most_json_values. `file` names the
/// text in problems.
[[nodiscard]] JsonReading read_json(std::string text, std::string file);

/// `pointer` with one more step; escapes '~' and '/' as RFC 6901 asks.
[[nodiscard]] std::string pointer_to(std::string_view pointer, std::string_view key);
[[nodiscard]] std::string pointer_to(std::string_view pointer, std::size_t index);

}  // namespace sunfleck
