#include "sunfleck/base/csv.h"
#include "sunfleck/scene/pots_csv.h"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

// Any bytes at all: a table or a problem; a table written again reads as the same fields.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const auto table = sunfleck::parse_csv(text, "fuzz.csv");
    if (!table) {
        if (table.error().empty()) std::abort();
        return 0;
    }
    for (const auto& row : table->rows) {
        std::vector<std::string> fields;
        for (const auto& field : row.fields) fields.push_back(field.text);
        if (sunfleck::csv_line(fields, table->delimiter).empty()) std::abort();
    }
    const auto pots = sunfleck::scene::PotsCsv::parse(text, "fuzz.csv");
    if (pots ? !sunfleck::scene::PotsCsv::parse(pots->text(), "fuzz.csv") : pots.error().empty()) {
        std::abort();
    }
    return 0;
}
