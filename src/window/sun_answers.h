#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/exposure/exposure.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/geometry/garden.h"
#include "sunfleck/output/year_sheet.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/scene/spots.h"
#include "sunfleck/sun/civil_time.h"
#include "sunfleck/sun/sun_day.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

/// What the window has computed of its garden. Plain values: made in the background, then read.
namespace sunfleck::window {

/// A pot that stands on a spot, or a bare spot, and how it fares on a day.
enum class Faring { bare, content, scorches };

struct SpotStanding {
    std::size_t spot = 0;
    std::optional<std::size_t> pot;  ///< index into the scene's pots
    double bears_hot_h = 0.0;
    Faring faring = Faring::bare;
};

/// One day of every spot.
struct DayAnswers {
    std::size_t revision = 0;  ///< of the document
    Date date;
    sun::SunDay sun_day;
    exposure::HotHours hot;
    std::vector<sun::CivilHour> hours;
    std::vector<exposure::DayExposure> days;  ///< one for each spot
    /// By full sun in the hot hours, most first; equal ones in bench order.
    std::vector<SpotStanding> ranked;
};
[[nodiscard]] Result<DayAnswers> day_answers(const scene::Scene& scene, std::size_t revision,
                                             Date date, int thread_count);

/// A year of one spot.
struct YearAnswers {
    std::size_t revision = 0;
    int year = 0;
    std::optional<std::size_t> spot;  ///< nothing: daylight alone
    std::vector<output::YearColumn> columns;
};
[[nodiscard]] Result<YearAnswers> year_answers(const scene::Scene& scene, std::size_t revision,
                                               int year, std::optional<std::size_t> spot,
                                               int thread_count);

/// The receiver that stands for a spot: of the pot on it, else of a bare spot.
[[nodiscard]] exposure::ReceiverRequest receiver_at(const scene::Scene& scene,
                                                    const std::vector<scene::Spot>& spots,
                                                    std::size_t spot);

}  // namespace sunfleck::window
