#pragma once

#include "sunfleck/base/json_tree.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace sunfleck {

/// Changes to a JSON text that leave every byte alone which they don't concern. Collect them, then
/// apply them all; each refers to the tree as it was read. Values are given as JSON text.
class JsonEdit {
  public:
    explicit JsonEdit(const JsonTree& tree) : tree_(&tree) {}

    /// Puts another value in place of `node`.
    void replace(const JsonNode& node, std::string json);
    /// Gives `object` the member `key`: replaces its value, or adds it behind the member `after`
    /// (behind the last when there is none such), spaced like its neighbours.
    void set_member(const JsonNode& object, std::string_view key, std::string json,
                    std::string_view after = {});
    /// Takes the member out, with its comma.
    void erase_member(const JsonNode& object, std::string_view key);
    /// Puts a value into `array` so that it stands at `index` (at the end when there are fewer),
    /// spaced like its neighbours.
    void insert_item(const JsonNode& array, std::size_t index, const std::string& json);
    /// Takes the item out, with its comma.
    void erase_item(const JsonNode& array, std::size_t index);

    /// The text with all changes made. No two of them may overlap.
    [[nodiscard]] std::string text() const;

  private:
    struct Change {
        std::size_t begin = 0;
        std::size_t end = 0;
        std::string text;
    };
    void add_member(const JsonNode& object, std::string_view key, const std::string& json,
                    std::string_view after);
    void erase_child(const JsonNode& parent, std::size_t index);

    const JsonTree* tree_;
    std::vector<Change> changes_;
};

}  // namespace sunfleck
