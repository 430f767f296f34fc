#pragma once

#include "scene/value_shape.h"
#include "sunfleck/base/json_tree.h"
#include "sunfleck/scene/pots_csv.h"

#include <string>
#include <string_view>

/// A cell of a table of pots and the JSON value it stands for.
namespace sunfleck::scene {

/// What a column holds: a key of a pot, or of the object `wants` or `state` in it.
struct PotColumn {
    std::string object;  ///< empty: the pot itself
    const KeyShape* key = nullptr;
};

/// The column of that name, one of pots_csv_columns().
[[nodiscard]] PotColumn pot_column(std::string_view name);

/// What a cell stands for, or what is wrong with it.
struct CellReading {
    std::string json;     ///< empty when it is no such value
    std::string message;  ///< then: what is so
    std::string mend;
};

/// The cell's text as JSON. Texts, words and lists always are; whether they are such as the key
/// takes is for the check of shapes to say.
[[nodiscard]] CellReading read_cell(const std::string& text, const KeyShape& key, char delimiter);

/// A value of a pot as the text of its cell.
[[nodiscard]] std::string cell_text(const JsonNode& value, const CsvStyle& style);

}  // namespace sunfleck::scene
