#pragma once

#include <nlohmann/json.hpp>

#include <fstream>
#include <stdexcept>
#include <string>

namespace sunfleck::test {

/// A worked example of FAO Irrigation and Drainage Paper 56 (1998), by its number, from
/// tests/data/fao56_examples.json: `inputs` and `published_outputs`.
inline nlohmann::json fao_example(const std::string& number) {
    std::ifstream file(std::string(SUNFLECK_TEST_DATA) + "/fao56_examples.json");
    const nlohmann::json all = nlohmann::json::parse(file);
    for (const auto& example : all.at("examples")) {
        if (example.at("example") == number) return example;
    }
    throw std::runtime_error("no example " + number);
}

}  // namespace sunfleck::test
