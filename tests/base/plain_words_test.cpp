#include "sunfleck/base/plain_words.h"

#include "sunfleck/base/require.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace sunfleck;

TEST_CASE("durations are told to five minutes", "[base][property]") {
    struct Row {
        double minutes;
        const char* words;
    };
    for (const Row& row :
         {Row{0.0, "none"}, Row{2.4, "none"}, Row{2.6, "5 min"}, Row{35.0, "35 min"},
          Row{57.4, "55 min"}, Row{57.6, "1 h"}, Row{240.0, "4 h"}, Row{250.0, "4 h 10"},
          Row{245.0, "4 h 05"}, Row{1440.0, "24 h"}, Row{-35.0, "−35 min"}, Row{-1.0, "none"}}) {
        CAPTURE(row.minutes);
        CHECK(duration_words(row.minutes) == row.words);
    }
    CHECK(duration_change_words(90.0) == "+1 h 30");
    CHECK(duration_change_words(-35.0) == "−35 min");
    CHECK(duration_change_words(1.0) == "none");
}

TEST_CASE("a figure that is not a number is a bug, not a word", "[base][property]") {
    CHECK_THROWS_AS(duration_words(std::numeric_limits<double>::quiet_NaN()), InternalError);
    CHECK_THROWS_AS(fixed_words(std::numeric_limits<double>::infinity(), 1), InternalError);
}

TEST_CASE("the clock is told in 24 hours and turns at midnight", "[base][property]") {
    CHECK(clock_words(13 * 3600 + 40 * 60) == "13:40");
    CHECK(clock_words(5 * 3600 + 4 * 60 + 31) == "05:05");
    CHECK(clock_words(86399) == "00:00");
    CHECK(rounded_clock_words(12 * 3600 + 3 * 60) == "12:05");
    CHECK(rounded_clock_words(86390) == "00:00");
}

TEST_CASE("dates are told day first, the month in full or by three letters", "[base][property]") {
    const Date day = make_date(2026, 6, 21);
    CHECK(date_words(day) == "21 June");
    CHECK(short_date_words(day) == "21 Jun");
    CHECK(short_date_words(make_date(2026, 9, 1)) == "1 Sep");
    CHECK(date_and_year_words(day) == "21 June 2026");
    CHECK(date_range_words(day, day) == "21 June");
    CHECK(date_range_and_year_words(day, day) == "21 June 2026");
    CHECK(date_range_and_year_words(day, make_date(2026, 8, 15)) == "21 June to 15 August 2026");
    CHECK(date_range_and_year_words(make_date(2026, 12, 1), make_date(2027, 2, 28)) ==
          "1 December 2026 to 28 February 2027");
    CHECK(date_range_words(day, make_date(2026, 8, 15)) == "21 June to 15 August");
    CHECK(date_range_words(make_date(2026, 12, 1), make_date(2027, 2, 28)) ==
          "1 December 2026 to 28 February 2027");
}

TEST_CASE("measures carry their unit and no more digits than they bear", "[base][property]") {
    CHECK(weight_words(3.14) == "3.1 kg");
    CHECK(weight_words(9.94) == "9.9 kg");
    CHECK(weight_words(9.96) == "10 kg");
    CHECK(weight_words(16.2) == "16 kg");
    CHECK(length_words(0.8) == "80 cm");
    CHECK(length_words(0.996) == "1.00 m");
    CHECK(length_words(2.4) == "2.40 m");
    CHECK(percent_words(0.4) == "40 %");
    CHECK(degrees_words(Angle::degrees(-12.4)) == "−12°");
    CHECK(fixed_words(-0.04, 1) == "0.0");
    CHECK(fixed_words(-0.35, 2) == "−0.35");
}

TEST_CASE("bearings are told by the nearest of eight winds", "[base][property]") {
    struct Row {
        double bearing_deg;
        const char* words;
    };
    for (const Row& row :
         {Row{0, "north"}, Row{22, "north"}, Row{23, "north-east"}, Row{90, "east"},
          Row{180, "south"}, Row{225, "south-west"}, Row{338, "north"}, Row{359.9, "north"},
          Row{-45, "north-west"}, Row{720 + 135, "south-east"}}) {
        CAPTURE(row.bearing_deg);
        CHECK(bearing_words(Angle::degrees(row.bearing_deg)) == row.words);
    }
}

TEST_CASE("places and counts are told in words", "[base][property]") {
    CHECK(place_words(Latitude::degrees(51.5), Longitude::degrees(-0.3)) == "51.5° N 0.3° W");
    CHECK(place_words(Latitude::degrees(-37.8), Longitude::degrees(145.0)) == "37.8° S 145.0° E");
    CHECK(count_words(1, "pot") == "1 pot");
    CHECK(count_words(0, "pot") == "0 pots");
    CHECK(count_words(13, "pot") == "13 pots");
    CHECK(season_words("early_summer") == "early summer");
}
