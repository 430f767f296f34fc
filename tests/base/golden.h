#pragma once

#include <string>
#include <utility>
#include <vector>

/// Approved outputs in tests/golden. A test never writes over them: what differs is left beside
/// the approved text as <name>.new, for tools/golden to show and take.
namespace sunfleck::test {

/// What differs from machine to machine and is put out of a text before it is compared: folders
/// with the words that stand for them. The program's own version is put out by itself.
using Stand = std::pair<std::string, std::string>;

[[nodiscard]] std::string normalised(std::string text, const std::vector<Stand>& stands);

/// Byte for byte.
void check_golden(const std::string& name, const std::string& text);

/// The same keys in the same order and the same texts; minutes (keys that end in _min) within
/// 0.01, instants (_utc, _local) within 0.01 min, other numbers within 1e-9 of their value or one
/// in the sixth place, where most are rounded.
void check_golden_json(const std::string& name, const std::string& text);

/// The same cells; numbers and instants by their column as in check_golden_json.
void check_golden_csv(const std::string& name, const std::string& text);

/// What differs between two answers in JSON, by JSON pointer; empty when they agree.
[[nodiscard]] std::string json_difference(const std::string& expected, const std::string& found);

/// What differs between two tables; empty when they agree.
[[nodiscard]] std::string csv_difference(const std::string& expected, const std::string& found);

}  // namespace sunfleck::test
