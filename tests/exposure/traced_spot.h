#pragma once

#include "rays/hand_made_garden.h"
#include "sunfleck/exposure/spot_sun.h"
#include "sunfleck/sun/sun_day.h"

#include <memory>
#include <utility>
#include <vector>

namespace sunfleck::test {

/// A garden made by hand with all that tracing needs.
class HandGarden {
  public:
    explicit HandGarden(std::vector<geometry::Piece> pieces, Vec3 ground_normal = {0, 0, 1},
                        std::vector<scene::HorizonPoint> profile = {})
        : garden_(std::make_unique<geometry::Garden>(garden_of(std::move(pieces)))) {
        garden_->horizon.ground_normal = ground_normal;
        garden_->horizon.profile = std::move(profile);
        engine_ = rays::make_reference_engine(*garden_);
        sights_ = std::make_unique<rays::Sights>(*garden_);
        optics_ = all_up(*garden_);
    }

    [[nodiscard]] exposure::SpotSun spot(const exposure::Receiver& receiver) const {
        return {*engine_, *sights_, receiver};
    }
    [[nodiscard]] exposure::DaySun day(const exposure::SunArc& arc, Vec3 point) const {
        return spot({.point = point, .outward = {}}).day(arc, optics_);
    }
    [[nodiscard]] exposure::DayExposure exposure(const exposure::SunArc& arc, Vec3 point) const {
        return exposure::day_exposure({}, day(arc, point), {}, {});
    }
    [[nodiscard]] const geometry::Garden& garden() const { return *garden_; }
    [[nodiscard]] const std::vector<geometry::PieceOptics>& optics() const { return optics_; }
    [[nodiscard]] const rays::Engine& engine() const { return *engine_; }

  private:
    std::unique_ptr<geometry::Garden> garden_;
    std::unique_ptr<rays::Engine> engine_;
    std::unique_ptr<rays::Sights> sights_;
    std::vector<geometry::PieceOptics> optics_;
};

inline sun::Place place_at(double latitude_deg, double longitude_deg) {
    return {.latitude = Latitude::degrees(latitude_deg),
            .longitude = Longitude::degrees(longitude_deg),
            .elevation_m = 0.0};
}

/// A day at a place, and the sun's arc from its sunrise to its sunset.
struct TestDay {
    sun::SunDay day;
    exposure::SunArc arc;

    TestDay(Date date, const sun::Place& place, const exposure::SunModel& model = {})
        : day(sun::sun_day(date, place)), arc(day.up_from, day.up_to, place, model) {}

    [[nodiscard]] double minutes_after_noon(UtcSeconds instant) const {
        return instant.seconds_after(day.solar_noon) / 60.0;
    }
    [[nodiscard]] UtcSeconds after_noon(double hours) const {
        return day.solar_noon.plus_seconds(hours * 3600.0);
    }
};

inline double span_minutes(const std::vector<exposure::SunSpan>& spans, exposure::SunState state) {
    double minutes = 0.0;
    for (const exposure::SunSpan& span : spans) {
        if (span.state == state) minutes += span.to.seconds_after(span.from) / 60.0;
    }
    return minutes;
}

}  // namespace sunfleck::test
