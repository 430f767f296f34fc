#include "output/pixels.h"
#include "output/sample_garden.h"
#include "sunfleck/output/picture.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::output;

namespace {

const Date midsummer = make_date(2026, 6, 21);

std::string svg_of(const scene::Scene& scene, Date date, std::optional<int> at_s,
                   std::span<const exposure::ReceiverExposure> receivers = {}) {
    const auto bytes =
        draw_garden({.scene = scene, .date = date, .shadows_at_s = at_s, .receivers = receivers},
                    {.format = PictureFormat::svg, .size = {}});
    if (!bytes) FAIL(to_text(bytes.error().front()));
    return *bytes;
}

std::size_t count_of(const std::string& text, const std::string& word) {
    std::size_t count = 0;
    for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) ++count;
    return count;
}

}  // namespace

TEST_CASE("a picture's format goes by its name's ending", "[output][property]") {
    CHECK(picture_format("a/garden.PNG") == PictureFormat::png);
    CHECK(picture_format("garden.svg") == PictureFormat::svg);
    for (const char* name : {"garden", "garden.gif", "png", "garden.png.txt"}) {
        CAPTURE(name);
        const auto format = picture_format(name);
        REQUIRE_FALSE(format);
        CHECK(format.error().front().kind == ProblemKind::usage);
    }
}

TEST_CASE("a picture's size is two numbers in bounds", "[output][property]") {
    REQUIRE(parse_picture_size("1600x1000"));
    CHECK(parse_picture_size("1600x1000")->width == 1600);
    CHECK(parse_picture_size("320x8000")->height == 8000);
    for (const char* text :
         {"", "x", "1600", "1600x", "x1000", "1600x1000x3", "319x1000", "8001x1000", "-1600x1000",
          "1600X1000", "1e3x1000", "999999999999x400"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_picture_size(text));
    }
}

TEST_CASE("every thing of the garden has its name on the picture", "[output][property]") {
    const std::string svg = svg_of(test::sample_garden(), midsummer, 14 * 3600 + 1800);
    for (const char* name :
         {"Fern &amp; Moss &lt;yard&gt;", ">Long bench<", ">Stage<", ">Post 1<", ">South wall<",
          ">East fence<", ">House<", ">Net, 40 %<", ">Rowan<", ">N<", "21 June 2026", "14:30"}) {
        CAPTURE(name);
        CHECK(svg.find(name) != std::string::npos);
    }
}

TEST_CASE("each spot has its ring with the hours the table tells", "[output][property]") {
    const scene::Scene scene = test::sample_garden();
    const auto table = test::sun_of_all_spots(scene, midsummer);
    const std::string svg = svg_of(scene, midsummer, {}, table.receivers);
    std::map<std::string, std::size_t> expected;
    for (const auto& receiver : table.receivers) {
        const double hours = receiver.days.front().total.full_min / 60.0;
        ++expected["font-weight=\"bold\" text-anchor=\"middle\">" +
                   std::to_string(std::lround(hours)) + "</text>"];
    }
    for (const auto& [figure, count] : expected) {
        CAPTURE(figure);
        CHECK(count_of(svg, figure) == count);
    }
}

TEST_CASE("the same picture is the same bytes", "[output][property]") {
    const scene::Scene scene = test::sample_garden();
    for (const PictureFormat format : {PictureFormat::png, PictureFormat::svg}) {
        const GardenPicture picture{
            .scene = scene, .date = midsummer, .shadows_at_s = 36000, .receivers = {}};
        const PictureOptions options{.format = format, .size = PictureSize{640, 480}};
        CHECK(draw_garden(picture, options).value() == draw_garden(picture, options).value());
    }
}

TEST_CASE("a PNG has the size that was asked", "[output][property]") {
    const scene::Scene scene = test::sample_garden();
    for (const PictureSize size : {PictureSize{320, 320}, PictureSize{1700, 700}}) {
        const auto bytes =
            draw_garden({.scene = scene, .date = midsummer, .shadows_at_s = {}, .receivers = {}},
                        {.format = PictureFormat::png, .size = size});
        REQUIRE(bytes);
        const test::Pixels pixels(*bytes);
        CHECK(pixels.width() == size.width);
        CHECK(pixels.height() == size.height);
    }
}

TEST_CASE("a net that is down is said to be down", "[output][property]") {
    const scene::Scene scene = test::sample_garden();
    CHECK(svg_of(scene, make_date(2026, 12, 21), 43200).find("Net, 40 %, down") !=
          std::string::npos);
    CHECK(svg_of(scene, midsummer, 43200).find(", down") == std::string::npos);
}

TEST_CASE("odd days and empty gardens are drawn", "[output][property]") {
    scene::Scene scene = test::sample_garden();
    scene.site.place.latitude = Latitude::degrees(69.65);
    CHECK(svg_of(scene, make_date(2026, 12, 21), 43200).find("The sun does not rise on this day") !=
          std::string::npos);
    CHECK(svg_of(scene, midsummer, 60).find("the sun does not set") != std::string::npos);
    scene.site.place.latitude = Latitude::degrees(-37.8);
    CHECK(svg_of(scene, midsummer, 3 * 3600).find("The sun is down at 03:00") != std::string::npos);
    scene::Scene bare;
    bare.site.time_zone = "Etc/UTC";
    CHECK(svg_of(bare, midsummer, 43200).find("</svg>") != std::string::npos);
}

TEST_CASE("an hour that the clock skips is told", "[output][property]") {
    const scene::Scene scene = test::sample_garden();
    const auto bytes = draw_garden(
        {.scene = scene, .date = make_date(2026, 3, 29), .shadows_at_s = 5400, .receivers = {}},
        {});
    REQUIRE_FALSE(bytes);
    CHECK(bytes.error().front().code == "clock_time_skipped");
}
