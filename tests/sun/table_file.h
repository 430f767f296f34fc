#pragma once

#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace sunfleck::sun::test {

/// One row of a plain CSV table (no quotes) by column name.
class Row {
  public:
    explicit Row(std::map<std::string, std::string> cells) : cells_(std::move(cells)) {}
    [[nodiscard]] const std::string& text(const std::string& column) const {
        return cells_.at(column);
    }
    [[nodiscard]] double number(const std::string& column) const { return std::stod(text(column)); }
    [[nodiscard]] bool has(const std::string& column) const { return !text(column).empty(); }

  private:
    std::map<std::string, std::string> cells_;
};

inline std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells;
    std::stringstream stream(line);
    for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
    if (!line.empty() && line.back() == ',') cells.emplace_back();
    return cells;
}

/// The rows of tests/data/<name>.
inline std::vector<Row> read_table(const std::string& name) {
    std::ifstream file(std::string(SUNFLECK_TEST_DATA) + "/" + name);
    if (!file) throw std::runtime_error("no table " + name);
    std::string line;
    std::getline(file, line);
    const std::vector<std::string> head = cells_of(line);
    std::vector<Row> rows;
    while (std::getline(file, line)) {
        std::vector<std::string> cells = cells_of(line);
        cells.resize(head.size());
        std::map<std::string, std::string> row;
        for (std::size_t i = 0; i < head.size(); ++i) row[head[i]] = cells[i];
        rows.emplace_back(std::move(row));
    }
    return rows;
}

}  // namespace sunfleck::sun::test
