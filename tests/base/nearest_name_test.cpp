#include "sunfleck/base/nearest_name.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace sunfleck;

TEST_CASE("the edit distance is that of the textbook pairs", "[base][published]") {
    // Kitten and Saturday: the usual worked examples of the Levenshtein distance (Wagner &
    // Fischer 1974; Jurafsky & Martin, Speech and Language Processing, ch. 2: intention/execution
    // is 5 when a replacement costs 1). "ca"/"abc" is 3 in optimal string alignment, where no
    // part is changed twice (from memory: Boytsov 2011 calls it restricted Damerau).
    CHECK(edit_distance("kitten", "sitting") == 3);
    CHECK(edit_distance("Saturday", "Sunday") == 3);
    CHECK(edit_distance("intention", "execution") == 5);
    CHECK(edit_distance("ca", "abc") == 3);
    CHECK(edit_distance("hieght_m", "height_m") == 1);
    CHECK(edit_distance("", "abc") == 3);
    CHECK(edit_distance("\xC3\xA9t\xC3\xA9", "ete") == 2);
    CHECK(edit_distance("Height_M", "height_m") == 0);
}

TEST_CASE("the nearest name is found when it is near enough", "[base][property]") {
    const std::vector<std::string> keys{"length_m", "depth_m", "height_m", "z_m"};
    CHECK(nearest_name("hight_m", keys) == "height_m");
    CHECK(nearest_name("lenght_m", keys) == "length_m");
    CHECK(nearest_name("colour", keys).empty());
    CHECK(nearest_name("", keys).empty());
    CHECK(nearest_name("y_m", keys) == "z_m");
    CHECK(nearest_name(std::string(100000, 'x'), keys).empty());
}
