#include "sun/published_examples.h"

#include <nlohmann/json.hpp>

#include <fstream>
#include <stdexcept>

namespace sunfleck::sun::test {

double published(const std::string& example, const std::string& section, const std::string& key) {
    std::ifstream file(std::string(SUNFLECK_TEST_DATA) + "/sun_published_examples.json");
    const auto all = nlohmann::json::parse(file);
    for (const auto& entry : all.at("examples")) {
        if (entry.at("name") == example) return entry.at(section).at(key).get<double>();
    }
    throw std::runtime_error("no published example " + example);
}

}  // namespace sunfleck::sun::test
