#include "sunfleck/base/json_tree.h"
#include "sunfleck/base/text_file.h"
#include "sunfleck/scene/scene_file.h"

#include <catch2/catch.hpp>

#include <array>
#include <random>
#include <string>
#include <vector>

using namespace sunfleck;
using namespace sunfleck::scene;

namespace {

const std::array<std::string, 4> bases{
    std::string(SUNFLECK_TEST_DATA) + "/every_key.json",
    std::string(SUNFLECK_TEST_DATA) + "/versions/scene_version_1.json",
    std::string(SUNFLECK_SCENES) + "/terrace_south.json",
    std::string(SUNFLECK_SCENES) + "/fifth_floor.json",
};

std::string base_text(std::size_t index) {
    const auto text = read_text_file(bases.at(index));
    REQUIRE(text);
    return *text;
}

/// Spoils a text in one of many ways, the same for the same seed.
class Spoiler {
  public:
    explicit Spoiler(std::string text, unsigned seed) : text_(std::move(text)), bits_(seed) {
        JsonReading reading = read_json(text_, "base");
        gather(reading.tree->root());
    }

    std::string spoilt(unsigned way) {
        switch (way % 12) {
            case 0:
                return with_bytes_changed();
            case 1:
                return text_.substr(0, below(text_.size()));
            case 2:
                return text_.substr(below(text_.size()));
            case 3:
                return without_a_stretch();
            case 4:
                return with_stretch_twice();
            case 5:
            case 6:
            case 7:
                return with_value_swapped();
            case 8:
                return with_values_exchanged();
            case 9:
                return with_token_inserted();
            case 10:
                return with_member_twice();
            default:
                return with_nesting();
        }
    }

  private:
    struct Stretch {
        std::size_t begin = 0;
        std::size_t end = 0;
    };

    void gather(const JsonNode& node) {
        values_.push_back({node.begin, node.end});
        if (node.key_end > 0) members_.push_back({node.key_begin, node.end});
        for (const JsonNode& child : node.children) gather(child);
    }

    std::size_t below(std::size_t count) { return static_cast<std::size_t>(bits_() % count); }

    std::string pick(const std::vector<std::string>& choices) {
        return choices[below(choices.size())];
    }

    [[nodiscard]] std::string with(Stretch stretch, const std::string& replacement) const {
        return text_.substr(0, stretch.begin) + replacement + text_.substr(stretch.end);
    }

    std::string with_bytes_changed() {
        std::string text = text_;
        for (std::size_t i = 0, count = 1 + below(4); i < count; ++i) {
            text[below(text.size())] ^= static_cast<char>(1U << below(8));
        }
        return text;
    }
    Stretch some_stretch() {
        const std::size_t begin = below(text_.size());
        return {begin, std::min(text_.size(), begin + 1 + below(60))};
    }
    std::string without_a_stretch() { return with(some_stretch(), ""); }
    std::string with_stretch_twice() {
        const Stretch stretch = some_stretch();
        const std::string part = text_.substr(stretch.begin, stretch.end - stretch.begin);
        return with(stretch, part + part);
    }
    std::string with_value_swapped() {
        return with(values_[below(values_.size())], pick({"null",
                                                          "true",
                                                          "0",
                                                          "-1",
                                                          "1e308",
                                                          "-1e308",
                                                          "1e309",
                                                          "1e-400",
                                                          "NaN",
                                                          "-Infinity",
                                                          "0x10",
                                                          "05",
                                                          "\"\"",
                                                          "\"text\"",
                                                          "\"12 cm\"",
                                                          "[]",
                                                          "{}",
                                                          "[[[]]]",
                                                          "{\"id\": 1}",
                                                          "\"\\ud83c\\udf33\"",
                                                          "\"\\u0000\"",
                                                          "123456789012345678901234567890",
                                                          "0.30000000000000004",
                                                          "\"02-30\"",
                                                          "[1,2,3,4,5,6,7,8,9,10,11,12]",
                                                          "\"../../etc/passwd\"",
                                                          "3.5"}));
    }
    std::string with_values_exchanged() {
        const Stretch from = values_[below(values_.size())];
        const Stretch to = values_[below(values_.size())];
        return with(to, text_.substr(from.begin, from.end - from.begin));
    }
    std::string with_token_inserted() {
        const std::size_t at = below(text_.size());
        return with({at, at}, pick({"\xEF\xBB\xBF",
                                    "\r\n",
                                    "\r",
                                    "// note\n",
                                    "/* */",
                                    ",",
                                    ":",
                                    "}",
                                    "]",
                                    "{",
                                    "[",
                                    "\"",
                                    "\\",
                                    "'",
                                    std::string(1, '\0'),
                                    "\xC3\x28",
                                    "\xED\xA0\x80",
                                    "\t",
                                    "\x1B[31m",
                                    "1e5",
                                    "\u2028"}));
    }
    std::string with_member_twice() {
        const Stretch member = members_[below(members_.size())];
        const std::string part = text_.substr(member.begin, member.end - member.begin);
        return with(member, part + ", " + part);
    }
    std::string with_nesting() {
        const std::size_t depth = 1 + below(200);
        return with(values_[below(values_.size())],
                    std::string(depth, '[') + "1" + std::string(depth, ']'));
    }

    std::string text_;
    std::mt19937_64 bits_;
    std::vector<Stretch> values_;
    std::vector<Stretch> members_;
};

/// Checks that the reader answers well; true when it reads the text.
bool is_read(const std::string& text, const std::string& name) {
    const auto file = SceneFile::parse(text, name);
    if (file) {
        CHECK(file->text() == text);
        return true;
    }
    CHECK_FALSE(file.error().empty());
    for (const Problem& problem : file.error()) {
        CAPTURE(problem.code, to_text(problem));
        CHECK(problem.line >= 1);
        CHECK(problem.column >= 1);
        CHECK(problem.file == name);
        CHECK_FALSE(problem.code.empty());
        CHECK_FALSE(problem.message.empty());
    }
    return false;
}

}  // namespace

TEST_CASE("no spoilt scene crashes the reader or goes without a placed problem",
          "[scene][property]") {
    constexpr unsigned spoilt_per_base = 240;
    int refused = 0;
    for (std::size_t base = 0; base < bases.size(); ++base) {
        Spoiler spoiler(base_text(base), 7000U + static_cast<unsigned>(base));
        for (unsigned i = 0; i < spoilt_per_base; ++i) {
            const std::string text = spoiler.spoilt(i);
            CAPTURE(base, i);
            refused += is_read(text, bases.at(base)) ? 0 : 1;
        }
    }
    // Most of them are wrong; some, such as a blank more, are not.
    CHECK(refused > 600);
}

TEST_CASE("line ends and a byte order mark of other systems do no harm", "[scene][property]") {
    for (std::size_t base = 0; base < bases.size(); ++base) {
        std::string text = "\xEF\xBB\xBF";
        for (const char c : base_text(base)) {
            if (c == '\n') text += '\r';
            text += c;
        }
        const auto file = SceneFile::parse(text, bases.at(base));
        REQUIRE(file);
        CHECK(file->text() == text);
    }
}
