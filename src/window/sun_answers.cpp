#include "window/sun_answers.h"

#include "sunfleck/placement/harm_model.h"
#include "sunfleck/placement/reasons.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::window {
namespace {

std::optional<std::size_t> pot_on(const scene::Scene& scene, const scene::Spot& spot) {
    for (std::size_t i = 0; i < scene.pots.size(); ++i) {
        if (scene.pots[i].spot == spot.id) return i;
    }
    return std::nullopt;
}

SpotStanding standing_on(const scene::Scene& scene, const std::vector<scene::Spot>& spots,
                         std::size_t spot, const exposure::DayExposure& day) {
    SpotStanding standing{.spot = spot, .pot = pot_on(scene, spots[spot])};
    if (!standing.pot) return standing;
    const auto nature = placement::nature_of(scene.pots[*standing.pot], day.date);
    const auto factors = placement::day_factors(scene.site, day.date);
    standing.bears_hot_h = nature.bears_hot_h;
    const double harm = placement::hot_sun_harm(
        nature, factors, {.hot_effective_h = day.total.hot_effective_min / 60.0});
    standing.faring = harm >= placement::content_below ? Faring::scorches : Faring::content;
    return standing;
}

}  // namespace

exposure::ReceiverRequest receiver_at(const scene::Scene& scene,
                                      const std::vector<scene::Spot>& spots, std::size_t spot) {
    const auto pot = pot_on(scene, spots[spot]);
    return {.spot = spot,
            .kind = exposure::ReceiverKind::crown,
            .height_m = pot ? exposure::crown_receiver_height_m(scene.pots[*pot], spots[spot])
                            : exposure::bare_receiver_height_m(spots[spot])};
}

Result<DayAnswers> day_answers(const scene::Scene& scene, std::size_t revision, Date date,
                               int thread_count) {
    const auto zone = sun::TimeZone::find(scene.site.time_zone);
    if (!zone) return tl::unexpected(zone.error());
    const auto spots = scene::spots_of(scene);
    exposure::ExposureRequest request{.from = date, .to = date, .thread_count = thread_count};
    for (std::size_t i = 0; i < spots.size(); ++i) {
        request.receivers.push_back(receiver_at(scene, spots, i));
    }
    DayAnswers answers{.revision = revision,
                       .date = date,
                       .sun_day = sun::sun_day(date, scene.site.place, *zone),
                       .hours = zone->hours(date)};
    answers.hot = exposure::hot_hours(answers.sun_day);
    auto table = exposure::compute_exposure(scene, request);
    if (!table) return tl::unexpected(table.error());
    for (auto& receiver : table->receivers) {
        answers.days.push_back(std::move(receiver.days.front()));
    }
    for (std::size_t i = 0; i < spots.size(); ++i) {
        answers.ranked.push_back(standing_on(scene, spots, i, answers.days[i]));
    }
    std::ranges::stable_sort(answers.ranked, [&](const SpotStanding& a, const SpotStanding& b) {
        return std::lround(answers.days[a.spot].total.hot_full_min) >
               std::lround(answers.days[b.spot].total.hot_full_min);
    });
    return answers;
}

Result<YearAnswers> year_answers(const scene::Scene& scene, std::size_t revision, int year,
                                 std::optional<std::size_t> spot, int thread_count) {
    const auto zone = sun::TimeZone::find(scene.site.time_zone);
    if (!zone) return tl::unexpected(zone.error());
    YearAnswers answers{.revision = revision, .year = year, .spot = spot, .columns = {}};
    const Date first = make_date(year, 1, 1);
    const Date last = make_date(year, 12, 31);
    std::vector<exposure::DayExposure> days;
    if (spot) {
        const auto spots = scene::spots_of(scene);
        auto table =
            exposure::compute_exposure(scene, {.from = first,
                                               .to = last,
                                               .receivers = {receiver_at(scene, spots, *spot)},
                                               .thread_count = thread_count});
        if (!table) return tl::unexpected(table.error());
        days = std::move(table->receivers.front().days);
    } else {
        for (Date date = first; date <= last; date = add_days(date, 1)) {
            days.push_back({.date = date});
        }
    }
    answers.columns = output::year_columns(days, scene.site.place, *zone);
    output::mark_nets(scene, answers.columns);
    return answers;
}

}  // namespace sunfleck::window
