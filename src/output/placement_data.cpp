// Plans, moves and comparisons for machines: JSON and CSV with the same names.
#include "output/json_envelope.h"
#include "output/plan_words.h"
#include "sunfleck/base/csv.h"
#include "sunfleck/base/date.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/placement/reasons.h"

#include <array>
#include <charconv>
#include <cmath>
#include <utility>
#include <vector>

namespace sunfleck::output {

namespace {

using placement::HarmParts;
using placement::HarmTable;
using placement::MoveGroup;
using placement::MovePlan;
using placement::MoveStep;
using placement::PotMove;
using placement::SpotFigures;

constexpr const char* harm_unit = "lost_growth_days";

/// To 1e-6: beyond what any machine's libm can change. Adding zero turns -0 into 0.
double rounded(double value) {
    return std::round(value * 1e6) / 1e6 + 0.0;
}

std::string number_text(double value) {
    std::array<char, 32> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), rounded(value));
    return {digits.data(), end.ptr};
}

const scene::Pot& pot_of(const PlanPeriod& period, std::size_t row) {
    return period.scene.pots[period.table.rows[row].pot];
}

/// The number within its batch; null for a single pot.
Json copy_json(const PlanPeriod& period, std::size_t row) {
    return pot_of(period, row).count > 1 ? Json(period.table.rows[row].copy) : Json(nullptr);
}

Json parts_json(const HarmParts& parts) {
    return Json{{"hot_sun", rounded(parts.hot_sun)},
                {"light_deficit", rounded(parts.light_deficit)},
                {"pot_wall", rounded(parts.pot_wall)},
                {"jump", rounded(parts.jump)},
                {"drying", rounded(parts.drying)}};
}

Json figures_json(const HarmTable& table, const placement::HarmCell& cell) {
    const SpotFigures& figures = cell.figures;
    Json json{{"light_spot", table.spots[cell.light_spot].id},
              {"full_min", rounded(figures.full_min)},
              {"filtered_min", rounded(figures.filtered_min)},
              {"effective_min", rounded(figures.effective_min)},
              {"hot_full_min", rounded(figures.hot_full_min)},
              {"hot_effective_min", rounded(figures.hot_effective_min)}};
    const std::optional<double>& wall_min = figures.west_wall_full_min;
    json["west_wall_full_min"] = wall_min ? Json(rounded(*wall_min)) : Json(nullptr);
    json["light_kwh_m2"] = rounded(figures.light_kwh_m2);
    return json;
}

void add_period(const PlanPeriod& period, Json& json) {
    json["from"] = iso_date(period.table.dates.from);
    json["to"] = iso_date(period.table.dates.to);
    json["harm_unit"] = harm_unit;
}

Json place_row(const PlaceAnswer& answer, std::size_t row) {
    const HarmTable& table = answer.period.table;
    const std::optional<std::size_t> spot = answer.plan.spot_of_row[row];
    Json json{{"pot", pot_of(answer.period, row).label.id},
              {"copy", copy_json(answer.period, row)},
              {"spot", or_null(spot_id(table, spot))},
              {"from_spot", or_null(spot_id(table, table.rows[row].start_spot))},
              {"pinned", pot_of(answer.period, row).pinned}};
    if (!spot) {
        for (const char* key : {"covers", "state", "harm", "parts", "figures", "reason"}) {
            json[key] = nullptr;
        }
        return json;
    }
    json["covers"] = Json::array();
    for (const std::size_t cell : table.covered(row, *spot)) {
        json["covers"].push_back(table.spots[cell].id);
    }
    const placement::HarmCell& cell = table.at(row, *spot);
    json["state"] = placement::state_words(placement::state_at(table, row, *spot));
    json["harm"] = rounded(cell.parts.total());
    json["parts"] = parts_json(cell.parts);
    json["figures"] = figures_json(table, cell);
    json["reason"] =
        placement::place_reason(answer.period.scene, table, answer.plan.spot_of_row, row);
    return json;
}

Json unsuited_rows(const PlaceAnswer& answer) {
    Json json = Json::array();
    for (const placement::Unsuited& pot :
         placement::unsuited_pots(answer.period.table, answer.plan.spot_of_row)) {
        json.push_back(Json{{"pot", pot_of(answer.period, pot.row).label.id},
                            {"copy", copy_json(answer.period, pot.row)},
                            {"spot", or_null(spot_id(answer.period.table, pot.spot))},
                            {"why", pot.why}});
    }
    return json;
}

const char* word_of(MoveGroup::Kind kind) {
    switch (kind) {
        case MoveGroup::Kind::single:
            return "single";
        case MoveGroup::Kind::swap:
            return "swap";
        case MoveGroup::Kind::chain:
            return "chain";
        case MoveGroup::Kind::ring:
            return "ring";
    }
    return "";
}

const char* word_of(MoveStep::Kind kind) {
    switch (kind) {
        case MoveStep::Kind::move:
            return "move";
        case MoveStep::Kind::set_aside:
            return "set_aside";
        case MoveStep::Kind::put_down:
            return "put_down";
    }
    return "";
}

/// From 1, as shown.
std::size_t group_of(const MovePlan& moves, std::size_t row) {
    for (const MoveStep& step : moves.steps) {
        if (step.row == row) return step.group + 1;
    }
    return 0;
}

Json move_row(const MovesAnswer& answer, std::size_t index) {
    const PotMove& move = answer.moves.moves[index];
    const HarmTable& table = answer.period.table;
    return Json{{"order", index + 1},
                {"group", group_of(answer.moves, move.row)},
                {"pot", pot_of(answer.period, move.row).label.id},
                {"copy", copy_json(answer.period, move.row)},
                {"from_spot", table.spots[move.from_spot].id},
                {"to_spot", table.spots[move.to_spot].id},
                {"weight_kg", rounded(move.weight_kg)},
                {"people", move.people},
                {"gain", rounded(move.gain)},
                {"reason", move.reason}};
}

Json group_rows(const MovePlan& moves) {
    Json json = Json::array();
    for (std::size_t i = 0; i < moves.groups.size(); ++i) {
        const MoveGroup& group = moves.groups[i];
        json.push_back(Json{{"group", i + 1},
                            {"kind", word_of(group.kind)},
                            {"gain", rounded(group.gain)},
                            {"effort", rounded(group.effort)}});
    }
    return json;
}

Json step_rows(const MovesAnswer& answer) {
    Json json = Json::array();
    for (const MoveStep& step : answer.moves.steps) {
        json.push_back(Json{{"order", step.order},
                            {"group", step.group + 1},
                            {"step", word_of(step.kind)},
                            {"pot", pot_of(answer.period, step.row).label.id},
                            {"copy", copy_json(answer.period, step.row)}});
    }
    return json;
}

Json placed_rows(const MovesAnswer& answer) {
    Json json = Json::array();
    for (const std::size_t row : answer.moves.placed) {
        json.push_back(
            Json{{"pot", pot_of(answer.period, row).label.id},
                 {"copy", copy_json(answer.period, row)},
                 {"to_spot", spot_id(answer.period.table, answer.moves.plan.spot_of_row[row])}});
    }
    return json;
}

}  // namespace

std::string place_json(const PlaceAnswer& answer, const Envelope& envelope) {
    Json json = result_envelope(envelope);
    json["season"] = or_null(answer.period.table.season);
    add_period(answer.period, json);
    json["harm_total"] = rounded(answer.plan.harm_total);
    json["move_total"] = rounded(answer.plan.move_total);
    json["objective"] = rounded(answer.plan.objective);
    json["bound"] = rounded(answer.plan.bound);
    json["gap_fraction"] = rounded(answer.plan.gap_fraction());
    json["lifts"] = answer.plan.lifts;
    json["moved_kg"] = rounded(answer.plan.moved_kg);
    json["pots"] = Json::array();
    for (std::size_t row = 0; row < answer.period.table.rows.size(); ++row) {
        json["pots"].push_back(place_row(answer, row));
    }
    json["unsuited"] = unsuited_rows(answer);
    json["free_spots"] = Json::array();
    for (const std::size_t spot : answer.plan.free_spots) {
        json["free_spots"].push_back(answer.period.table.spots[spot].id);
    }
    return json_text(json);
}

std::string place_csv(const PlaceAnswer& answer) {
    const HarmTable& table = answer.period.table;
    std::string text =
        "pot,copy,spot,from_spot,pinned,harm,hot_sun,light_deficit,pot_wall,jump,drying,reason\n";
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        const std::optional<std::size_t> spot = answer.plan.spot_of_row[row];
        const scene::Pot& pot = pot_of(answer.period, row);
        std::vector<std::string> cells{
            pot.label.id, pot.count > 1 ? std::to_string(table.rows[row].copy) : "",
            spot_id(table, spot), spot_id(table, table.rows[row].start_spot),
            pot.pinned ? "true" : "false"};
        const HarmParts parts = spot ? table.at(row, *spot).parts : HarmParts{};
        for (const double value : {parts.total(), parts.hot_sun, parts.light_deficit,
                                   parts.pot_wall, parts.jump, parts.drying}) {
            cells.push_back(spot ? number_text(value) : "");
        }
        cells.push_back(
            spot ? placement::place_reason(answer.period.scene, table, answer.plan.spot_of_row, row)
                 : "");
        text += csv_line(cells, ',') + "\n";
    }
    return text;
}

std::string moves_json(const MovesAnswer& answer, const Envelope& envelope) {
    const MovePlan& moves = answer.moves;
    Json json = result_envelope(envelope);
    json["from_season"] = answer.from_season;
    json["to_season"] = answer.period.table.season;
    add_period(answer.period, json);
    json["harm_before"] = rounded(moves.harm_before);
    json["harm_after"] = rounded(moves.harm_after);
    json["move_total"] = rounded(moves.plan.move_total);
    json["objective"] = rounded(moves.plan.objective);
    json["bound"] = rounded(moves.plan.bound);
    json["gap_fraction"] = rounded(moves.plan.gap_fraction());
    json["lifts"] = moves.plan.lifts;
    json["moved_kg"] = rounded(moves.plan.moved_kg);
    json["moves"] = Json::array();
    for (std::size_t i = 0; i < moves.moves.size(); ++i) {
        json["moves"].push_back(move_row(answer, i));
    }
    json["groups"] = group_rows(moves);
    json["steps"] = step_rows(answer);
    json["placed"] = placed_rows(answer);
    return json_text(json);
}

std::string moves_csv(const MovesAnswer& answer) {
    std::string text = "order,group,pot,copy,from_spot,to_spot,weight_kg,people,gain,reason\n";
    for (std::size_t i = 0; i < answer.moves.moves.size(); ++i) {
        const PotMove& move = answer.moves.moves[i];
        const scene::Pot& pot = pot_of(answer.period, move.row);
        const int copy = answer.period.table.rows[move.row].copy;
        const std::vector<std::string> cells{std::to_string(i + 1),
                                             std::to_string(group_of(answer.moves, move.row)),
                                             pot.label.id,
                                             pot.count > 1 ? std::to_string(copy) : "",
                                             answer.period.table.spots[move.from_spot].id,
                                             answer.period.table.spots[move.to_spot].id,
                                             number_text(move.weight_kg),
                                             std::to_string(move.people),
                                             number_text(move.gain),
                                             move.reason};
        text += csv_line(cells, ',') + "\n";
    }
    return text;
}

std::string why_json(const WhyAnswer& answer, const Envelope& envelope) {
    const placement::WhyHere& why = answer.why;
    const HarmTable& table = answer.period.table;
    Json json = result_envelope(envelope);
    json["season"] = or_null(table.season);
    add_period(answer.period, json);
    json["pot"] = pot_of(answer.period, why.row).label.id;
    json["spot"] = table.spots[why.spot].id;
    json["instead"] = table.spots[why.instead].id;
    json["own_harm_change"] = rounded(why.own_harm_change);
    json["others_harm_change"] = rounded(why.others_harm_change);
    json["lifts_change"] = why.lifts_change;
    json["objective_change"] = rounded(why.objective_change);
    json["loss_at_least"] = rounded(why.loss_at_least);
    json["equally_good"] = why.is_equally_good;
    json["reason"] =
        placement::place_reason(answer.period.scene, table, answer.plan.spot_of_row, why.row);
    for (const auto& [key, spot] :
         {std::pair{"at_spot", why.spot}, std::pair{"at_instead", why.instead}}) {
        const placement::HarmCell& cell = table.at(why.row, spot);
        json[key] = Json{{"harm", rounded(cell.parts.total())},
                         {"parts", parts_json(cell.parts)},
                         {"figures", figures_json(table, cell)}};
    }
    return json_text(json);
}

}  // namespace sunfleck::output
