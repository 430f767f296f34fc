#include "sunfleck/placement/harm_table.h"

#include "placement/standing_room.h"
#include "sunfleck/base/require.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/light/clear_sky.h"
#include "sunfleck/sun/civil_time.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace sunfleck::placement {

namespace {

using exposure::ReceiverKind;
using exposure::ReceiverRequest;

/// A receiver's place in order, heights to a tenth of a millimetre.
using ReceiverKey = std::tuple<std::size_t, ReceiverKind, long>;

ReceiverKey key_of(const ReceiverRequest& request) {
    return {request.spot, request.kind, std::lround(request.height_m * 1e4)};
}

/// True when on any day of the range, or in its year's course, pot walls may count.
bool has_heat(const scene::Site& site, scene::DateRange dates) {
    for (Date date = dates.from; date <= dates.to; date = add_days(date, 1)) {
        if (day_factors(site, date).heat > 0.0) return true;
    }
    return false;
}

/// One computed day of the period.
struct PeriodDay {
    light::ClearDay clear_day;
    DayFactors factors;
    double represents_days = 1.0;
};

/// What one crown receiver gets, day by day.
struct CrownDays {
    std::vector<double> hot_effective_h;
    std::vector<double> light_wh_m2;
    double mean_light_wh_m2 = 0.0;
};

/// What the west side of a pot gets at one spot and height.
struct WallDays {
    std::vector<double> effective_h;  ///< w of the model, by day
    std::optional<double> full_min;
};

/// The exposure of a period, made ready for every pot.
class PeriodSun {
  public:
    PeriodSun(const scene::Scene& scene, const exposure::ExposureTable& exposure,
              const sun::TimeZone& zone)
        : exposure_(&exposure) {
        SUNFLECK_REQUIRE(!exposure.receivers.empty(), "an exposure without receivers");
        for (std::size_t i = 0; i < exposure.receivers.size(); ++i) {
            index_.emplace(key_of(exposure.receivers[i].receiver), i);
        }
        const sun::Place& place = scene.site.place;
        for (const exposure::DayExposure& day : exposure.receivers.front().days) {
            days_.push_back({light::ClearDay(day.date, sun::sun_day(day.date, place, zone), place),
                             day_factors(scene.site, day.date), day.represents_days});
            day_count_ += day.represents_days;
            open_light_wh_m2_ += day.represents_days * days_.back().clear_day.open_light_wh_m2();
        }
    }

    [[nodiscard]] const std::vector<PeriodDay>& days() const { return days_; }
    [[nodiscard]] double mean_open_light_wh_m2() const { return open_light_wh_m2_ / day_count_; }

    [[nodiscard]] const exposure::ReceiverExposure& receiver(const ReceiverRequest& request) const {
        const auto found = index_.find(key_of(request));
        SUNFLECK_REQUIRE(found != index_.end(), "the exposure lacks a receiver of the table");
        return exposure_->receivers[found->second];
    }

    [[nodiscard]] const CrownDays& crown(const ReceiverRequest& request) {
        const auto [entry, is_new] = crowns_.try_emplace(key_of(request));
        if (is_new) entry->second = crown_days(receiver(request));
        return entry->second;
    }

    [[nodiscard]] const WallDays& wall(std::size_t spot, double height_m) {
        const ReceiverRequest west{spot, ReceiverKind::wall_w, height_m};
        const auto [entry, is_new] = walls_.try_emplace(key_of(west));
        if (is_new) entry->second = wall_days(west);
        return entry->second;
    }

  private:
    [[nodiscard]] CrownDays crown_days(const exposure::ReceiverExposure& receiver) const {
        SUNFLECK_REQUIRE(receiver.days.size() == days_.size(), "receivers of different days");
        CrownDays crown;
        for (std::size_t d = 0; d < days_.size(); ++d) {
            const exposure::DayExposure& day = receiver.days[d];
            crown.hot_effective_h.push_back(day.total.hot_effective_min / 60.0);
            crown.light_wh_m2.push_back(light::sun_light_wh_m2(day, days_[d].clear_day));
            crown.mean_light_wh_m2 +=
                days_[d].represents_days * crown.light_wh_m2.back() / day_count_;
        }
        return crown;
    }

    [[nodiscard]] WallDays wall_days(const ReceiverRequest& west) const {
        WallDays wall;
        wall.effective_h.assign(days_.size(), 0.0);
        const auto found = index_.find(key_of(west));
        if (found == index_.end()) return wall;  // no heat was asked about
        const exposure::ReceiverExposure& receiver = exposure_->receivers[found->second];
        for (std::size_t d = 0; d < days_.size(); ++d) {
            wall.effective_h[d] = receiver.days[d].total.effective_min / 60.0;
        }
        wall.full_min = receiver.mean.full_min;
        return wall;
    }

    const exposure::ExposureTable* exposure_;
    std::map<ReceiverKey, std::size_t> index_;
    std::vector<PeriodDay> days_;
    double day_count_ = 0.0;
    double open_light_wh_m2_ = 0.0;
    std::map<ReceiverKey, CrownDays> crowns_;
    std::map<ReceiverKey, WallDays> walls_;
};

/// Mean softness of the days within a fortnight of the period's start.
double entry_softness(const std::vector<PeriodDay>& days) {
    double sum = 0.0;
    int count = 0;
    const Date last = add_days(days.front().clear_day.date(), 13);
    for (const PeriodDay& day : days) {
        if (day.clear_day.date() <= last) {
            sum += day.factors.softness;
            ++count;
        }
    }
    return sum / count;
}

/// One row's harm at every spot.
class RowHarm {
  public:
    RowHarm(const scene::Pot& pot, const HarmWeights& weights,
            const std::vector<scene::Spot>& spots, PeriodSun& sun)
        : pot_(&pot), weights_(&weights), spots_(&spots), sun_(&sun) {
        for (const PeriodDay& day : sun.days()) {
            natures_.push_back(nature_of(pot, day.clear_day.date()));
        }
        softness_ = entry_softness(sun.days());
    }

    /// In the middle of the period.
    [[nodiscard]] const PotNature& nature() const { return natures_[natures_.size() / 2]; }
    [[nodiscard]] bool wants_all_sun() const {
        return nature().ripens && sun_->days()[natures_.size() / 2].factors.ripening > 0.5;
    }

    /// Growth days of a step from no light to all at the period's start.
    [[nodiscard]] double full_jump() const {
        return weights_->jump * jump_harm(natures_.front(), softness_, 0.0, 1.0);
    }

    /// All but the jump, which hangs on where the pot stands.
    void fill(HarmCell& cell) {
        const ReceiverRequest request = crown_at(cell.light_spot);
        const CrownDays& crown = sun_->crown(request);
        const WallDays& wall = sun_->wall(cell.light_spot, wall_receiver_height_m(*pot_));
        add_daily_parts(crown, wall, cell.parts);
        cell.figures = figures_of(sun_->receiver(request).mean, crown, wall);
    }

  private:
    [[nodiscard]] ReceiverRequest crown_at(std::size_t spot) const {
        return {spot, ReceiverKind::crown,
                exposure::crown_receiver_height_m(*pot_, (*spots_)[spot])};
    }

    [[nodiscard]] double light_share(const CrownDays& crown) const {
        const double open_wh_m2 = sun_->mean_open_light_wh_m2();
        return open_wh_m2 > 0.0 ? crown.mean_light_wh_m2 / open_wh_m2 : 0.0;
    }

    void add_daily_parts(const CrownDays& crown, const WallDays& wall, HarmParts& parts) const {
        for (std::size_t d = 0; d < natures_.size(); ++d) {
            const PeriodDay& day = sun_->days()[d];
            const SpotDay at_spot{.hot_effective_h = crown.hot_effective_h[d],
                                  .light_wh_m2 = crown.light_wh_m2[d],
                                  .open_light_wh_m2 = day.clear_day.open_light_wh_m2(),
                                  .sun_up_h = day.clear_day.sun_up_min() / 60.0,
                                  .wall_effective_h = wall.effective_h[d]};
            const double n = day.represents_days;
            const PotNature& nature = natures_[d];
            parts.hot_sun += n * hot_sun_harm(nature, day.factors, at_spot);
            parts.light_deficit += n * light_deficit_harm(nature, day.factors, at_spot);
            parts.pot_wall += n * pot_wall_harm(nature, day.factors, at_spot);
        }
        parts.hot_sun *= weights_->hot_sun;
        parts.light_deficit *= weights_->light_deficit;
        parts.pot_wall *= weights_->pot_wall;
    }

    [[nodiscard]] SpotFigures figures_of(const exposure::SunMinutes& mean, const CrownDays& crown,
                                         const WallDays& wall) const {
        return {.full_min = mean.full_min,
                .filtered_min = mean.filtered_min,
                .effective_min = mean.effective_min,
                .hot_full_min = mean.hot_full_min,
                .hot_effective_min = mean.hot_effective_min,
                .west_wall_full_min = wall.full_min,
                .light_kwh_m2 = crown.mean_light_wh_m2 / 1000.0,
                .light_share = light_share(crown)};
    }

    const scene::Pot* pot_;
    const HarmWeights* weights_;
    const std::vector<scene::Spot>* spots_;
    PeriodSun* sun_;
    std::vector<PotNature> natures_;
    double softness_ = 0.0;
};

std::vector<HarmRow> expanded_rows(const scene::Scene& scene) {
    std::vector<HarmRow> rows;
    for (std::size_t pot = 0; pot < scene.pots.size(); ++pot) {
        for (int copy = 1; copy <= scene.pots[pot].count; ++copy) {
            HarmRow row;
            row.pot = pot;
            row.copy = copy;
            rows.push_back(row);
        }
    }
    return rows;
}

/// Keeps each set of covered spots once.
class FootprintList {
  public:
    explicit FootprintList(std::vector<std::vector<std::size_t>>& footprints)
        : footprints_(&footprints) {}
    std::size_t index_of(std::vector<std::size_t> covered) {
        const auto [entry, is_new] = index_.try_emplace(std::move(covered), footprints_->size());
        if (is_new) footprints_->push_back(entry->first);
        return entry->second;
    }

  private:
    std::vector<std::vector<std::size_t>>* footprints_;
    std::map<std::vector<std::size_t>, std::size_t> index_;
};

/// Fills what hangs on where the pots stand: refusals, footprints and jumps.
void stand(const scene::Scene& scene, const Standing& standing, HarmTable& table) {
    const StandingRoom room(scene, table.spots);
    const auto cells_now = room.cells_now(table.rows, standing);
    table.footprints.clear();
    FootprintList footprints(table.footprints);
    for (std::size_t r = 0; r < table.rows.size(); ++r) {
        HarmRow& row = table.rows[r];
        const scene::Pot& pot = scene.pots[row.pot];
        row.start_spot = standing[r];
        row.may_move = room.may_move(pot, row.start_spot.has_value());
        for (std::size_t spot = 0; spot < table.spots.size(); ++spot) {
            HarmCell& cell = table.cells[r * table.spots.size() + spot];
            Room found = room.for_newcomer(pot, spot);
            if (spot == row.start_spot) {
                // A crowded bench is no reason to go; a place its owner has ruled out is.
                if (found.refusal != Refusal::excluded || !row.may_move) {
                    found.refusal = Refusal::none;
                }
                found.covered = cells_now[r];
            } else if (!row.may_move) {
                found.refusal = pot.pinned ? Refusal::pinned_elsewhere : Refusal::unliftable;
            }
            cell.refusal = found.refusal;
            cell.covered = footprints.index_of(std::move(found.covered));
            cell.parts.jump = row.start_spot ? table.jump(r, *row.start_spot, spot) : 0.0;
        }
    }
}

/// Where each row's pot would get its light at each spot, nothing where its size forbids it.
std::vector<std::optional<std::size_t>> light_spots(const scene::Scene& scene,
                                                    const std::vector<scene::Spot>& spots,
                                                    const std::vector<HarmRow>& rows,
                                                    const Standing& standing) {
    const StandingRoom room(scene, spots);
    const auto cells_now = room.cells_now(rows, standing);
    std::vector<std::optional<std::size_t>> light(rows.size() * spots.size());
    for (std::size_t r = 0; r < rows.size(); ++r) {
        for (std::size_t spot = 0; spot < spots.size(); ++spot) {
            const Room found = room.by_size(scene.pots[rows[r].pot], spot);
            auto& entry = light[r * spots.size() + spot];
            if (found.refusal != Refusal::does_not_fit) {
                if (found.refusal == Refusal::none || spot == standing[r]) {
                    entry = middle_of(found.covered);
                }
            } else if (spot == standing[r]) {
                entry = middle_of(cells_now[r]);
            }
        }
    }
    return light;
}

}  // namespace

double HarmTable::jump(std::size_t row, std::size_t from, std::size_t to) const {
    const double step = at(row, to).figures.light_share - at(row, from).figures.light_share;
    return rows[row].full_jump * std::max(0.0, step);
}

double HarmTable::cost(std::size_t row, std::size_t spot) const {
    const HarmRow& pot = rows[row];
    const bool is_move = pot.start_spot && *pot.start_spot != spot;
    return at(row, spot).parts.total() + (is_move ? pot.move_cost : 0.0);
}

Standing standing_now(const scene::Scene& scene, const std::vector<scene::Spot>& spots) {
    std::vector<bool> is_taken(spots.size(), false);
    for (const scene::Pot& pot : scene.pots) {
        const auto spot = scene::find_spot(spots, pot.spot);
        if (spot) is_taken[*spot] = true;
    }
    Standing standing;
    for (const scene::Pot& pot : scene.pots) {
        auto spot = scene::find_spot(spots, pot.spot);
        const auto bench = spot ? spots[*spot].bench : std::string();
        for (int copy = 1; copy <= pot.count; ++copy) {
            standing.push_back(spot);
            if (!spot || copy == pot.count) continue;
            do {
                ++*spot;
            } while (*spot < spots.size() && is_taken[*spot]);
            if (*spot >= spots.size() || spots[*spot].bench != bench) {
                spot.reset();
            } else {
                is_taken[*spot] = true;
            }
        }
    }
    return standing;
}

double wall_receiver_height_m(const scene::Pot& pot) {
    return pot.pot_height_m / 2.0 <= 0.055 ? 0.03 : 0.08;
}

std::vector<ReceiverRequest> receivers_needed(const scene::Scene& scene,
                                              const std::vector<scene::Spot>& spots,
                                              scene::DateRange dates) {
    const bool asks_heat = has_heat(scene.site, dates);
    const std::vector<HarmRow> rows = expanded_rows(scene);
    const auto light = light_spots(scene, spots, rows, standing_now(scene, spots));
    std::map<ReceiverKey, ReceiverRequest> requests;
    const auto add = [&](const ReceiverRequest& request) {
        requests.emplace(key_of(request), request);
    };
    for (std::size_t i = 0; i < light.size(); ++i) {
        if (!light[i]) continue;
        const scene::Pot& pot = scene.pots[rows[i / spots.size()].pot];
        const std::size_t spot = *light[i];
        add({spot, ReceiverKind::crown, exposure::crown_receiver_height_m(pot, spots[spot])});
        if (asks_heat) add({spot, ReceiverKind::wall_w, wall_receiver_height_m(pot)});
    }
    std::vector<ReceiverRequest> list;
    list.reserve(requests.size());
    for (const auto& [key, request] : requests) list.push_back(request);
    return list;
}

Result<HarmTable> make_harm_table(const scene::Scene& scene, const std::vector<scene::Spot>& spots,
                                  const HarmPeriod& period, const exposure::ExposureTable& exposure,
                                  const Standing& standing) {
    const Result<HarmWeights> weights = harm_weights_of(scene);
    if (!weights) return tl::unexpected<Problems>(weights.error());
    const Result<sun::TimeZone> zone = sun::TimeZone::find(scene.site.time_zone);
    if (!zone) return tl::unexpected<Problems>(zone.error());
    SUNFLECK_REQUIRE(exposure.from == period.dates.from && exposure.to == period.dates.to,
                     "the exposure is of other dates than the table");

    HarmTable table;
    table.season = period.season;
    table.dates = period.dates;
    table.day_count = days_between(period.dates.from, period.dates.to) + 1;
    table.weights = *weights;
    table.rows = expanded_rows(scene);
    table.spots = spots;
    table.cells.resize(table.rows.size() * spots.size());
    SUNFLECK_REQUIRE(standing.size() == table.rows.size(), "one standing place per single pot");
    if (table.cells.empty()) return table;

    PeriodSun sun(scene, exposure, *zone);
    const auto light = light_spots(scene, spots, table.rows, standing);
    for (std::size_t r = 0; r < table.rows.size(); ++r) {
        HarmRow& row = table.rows[r];
        const scene::Pot& pot = scene.pots[row.pot];
        RowHarm harm(pot, table.weights, spots, sun);
        row.move_cost = move_cost(pot, table.weights);
        row.full_jump = harm.full_jump();
        row.bears_hot_h = harm.nature().bears_hot_h;
        row.wanted_sun_h = harm.nature().wanted_sun_h;
        row.wants_all_sun = harm.wants_all_sun();
        for (std::size_t spot = 0; spot < spots.size(); ++spot) {
            const std::size_t i = r * spots.size() + spot;
            table.cells[i].light_spot = light[i].value_or(spot);
            if (light[i]) harm.fill(table.cells[i]);
        }
    }
    stand(scene, standing, table);
    return table;
}

HarmTable standing_at(const scene::Scene& scene, const HarmTable& table, const Standing& standing) {
    HarmTable moved = table;
    stand(scene, standing, moved);
    return moved;
}

}  // namespace sunfleck::placement
