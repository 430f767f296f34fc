#pragma once

#include "sunfleck/document/document.h"
#include "window/answer_desk.h"
#include "window/view_model.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <string>
#include <thread>

namespace sunfleck::test {

/// A view of one of the demo gardens on its June or December day, at noon by the clock.
inline window::ViewModel view_of(const std::string& scene, Date date = make_date(2026, 6, 21)) {
    auto document = document::Document::open(std::string(SUNFLECK_SCENES) + "/" + scene);
    REQUIRE(document);
    auto zone = sun::TimeZone::find(document->scene().site.time_zone);
    REQUIRE(zone);
    return {std::move(*document), *zone, {date, 720}};
}

/// Serves until all that the view wants is answered.
inline void answer_all(window::ViewModel& view, window::AnswerDesk& desk) {
    for (int i = 0; i < 60000; ++i) {
        desk.serve(view);
        if (view.is_day_current() && view.is_year_current()) return;
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
    FAIL("the view's questions were not answered in a minute");
}

}  // namespace sunfleck::test
