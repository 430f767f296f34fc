#pragma once

#include <string>

namespace sunfleck::sun::test {

/// A number of tests/data/sun_published_examples.json: of the worked example with that name, the
/// value at `section`/`key`, such as "outputs", "L_deg".
[[nodiscard]] double published(const std::string& example, const std::string& section,
                               const std::string& key);

}  // namespace sunfleck::sun::test
