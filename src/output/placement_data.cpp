// Plans and moves for machines: JSON and CSV with the same names.
#include "output/json_envelope.h"
#include "sunfleck/base/csv.h"
#include "sunfleck/base/date.h"
#include "sunfleck/output/placement_report.h"

#include <array>
#include <charconv>
#include <cmath>
#include <utility>
#include <vector>

namespace sunfleck::output {
namespace {

using placement::HarmParts;
using placement::HarmTable;
using placement::MovePlan;

constexpr const char* harm_unit = "lost_growth_days";

double rounded(double value) {
    return std::round(value * 1e6) / 1e6 + 0.0;
}

std::string number_text(double value) {
    std::array<char, 32> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), rounded(value));
    return {digits.data(), end.ptr};
}

std::string spot_id(const HarmTable& table, const std::optional<std::size_t>& spot) {
    return spot ? table.spots[*spot].id : std::string();
}

Json parts_json(const HarmParts& parts) {
    return Json{{"hot_sun", rounded(parts.hot_sun)},
                {"light_deficit", rounded(parts.light_deficit)},
                {"pot_wall", rounded(parts.pot_wall)},
                {"jump", rounded(parts.jump)},
                {"drying", rounded(parts.drying)}};
}

Json place_row_json(const PlaceAnswer& answer, std::size_t row) {
    const HarmTable& table = answer.table;
    const auto spot = answer.plan.spot_of_row[row];
    const scene::Pot& pot = answer.scene.pots[table.rows[row].pot];
    Json json{{"pot", pot.label.id}, {"copy", table.rows[row].copy}};
    json["spot"] = or_null(spot_id(table, spot));
    json["from_spot"] = or_null(spot_id(table, table.rows[row].start_spot));
    json["pinned"] = pot.pinned;
    json["harm"] = spot ? Json(rounded(table.at(row, *spot).parts.total())) : Json(nullptr);
    json["parts"] = spot ? parts_json(table.at(row, *spot).parts) : Json(nullptr);
    json["reason"] = placement::place_reason(answer.scene, table, answer.plan.spot_of_row, row);
    return json;
}

Json unsuited_json(const PlaceAnswer& answer) {
    Json json = Json::array();
    for (const auto& unsuited : placement::unsuited_pots(answer.table, answer.plan.spot_of_row)) {
        const scene::Pot& pot = answer.scene.pots[answer.table.rows[unsuited.row].pot];
        json.push_back(Json{{"pot", pot.label.id},
                            {"spot", or_null(spot_id(answer.table, unsuited.spot))},
                            {"why", unsuited.why}});
    }
    return json;
}

void add_range(Json& json, const HarmTable& table) {
    json["from"] = iso_date(table.dates.from);
    json["to"] = iso_date(table.dates.to);
    json["harm_unit"] = harm_unit;
}

const char* group_word(placement::MoveGroup::Kind kind) {
    switch (kind) {
        case placement::MoveGroup::Kind::single:
            return "single";
        case placement::MoveGroup::Kind::swap:
            return "swap";
        case placement::MoveGroup::Kind::chain:
            return "chain";
        case placement::MoveGroup::Kind::ring:
            return "ring";
    }
    return "";
}

const char* step_word(placement::MoveStep::Kind kind) {
    switch (kind) {
        case placement::MoveStep::Kind::move:
            return "move";
        case placement::MoveStep::Kind::set_aside:
            return "set_aside";
        case placement::MoveStep::Kind::put_down:
            return "put_down";
    }
    return "";
}

std::size_t group_of(const MovePlan& moves, std::size_t row) {
    for (const auto& step : moves.steps) {
        if (step.row == row) return step.group;
    }
    return 0;
}

Json move_json(const MovesAnswer& answer, std::size_t index) {
    const placement::PotMove& move = answer.moves.moves[index];
    const HarmTable& table = answer.table;
    return Json{{"order", index + 1},
                {"group", group_of(answer.moves, move.row) + 1},
                {"pot", answer.scene.pots[table.rows[move.row].pot].label.id},
                {"from_spot", table.spots[move.from_spot].id},
                {"to_spot", table.spots[move.to_spot].id},
                {"weight_kg", rounded(move.weight_kg)},
                {"people", move.people},
                {"gain", rounded(move.gain)},
                {"reason", move.reason}};
}

}  // namespace

std::string place_json(const PlaceAnswer& answer, const Envelope& envelope) {
    Json json = result_envelope(envelope);
    json["season"] = answer.table.season;
    add_range(json, answer.table);
    json["harm_total"] = rounded(answer.plan.harm_total);
    json["move_total"] = rounded(answer.plan.move_total);
    json["objective"] = rounded(answer.plan.objective);
    json["bound"] = rounded(answer.plan.bound);
    json["gap_fraction"] = rounded(answer.plan.gap_fraction());
    json["pots"] = Json::array();
    for (std::size_t row = 0; row < answer.table.rows.size(); ++row) {
        json["pots"].push_back(place_row_json(answer, row));
    }
    json["unsuited"] = unsuited_json(answer);
    json["free_spots"] = Json::array();
    for (const std::size_t spot : answer.plan.free_spots) {
        json["free_spots"].push_back(answer.table.spots[spot].id);
    }
    return json_text(json);
}

std::string place_csv(const PlaceAnswer& answer) {
    const HarmTable& table = answer.table;
    std::string text =
        "pot,copy,spot,from_spot,harm,hot_sun,light_deficit,pot_wall,jump,drying,reason\n";
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        const auto spot = answer.plan.spot_of_row[row];
        const HarmParts parts = spot ? table.at(row, *spot).parts : HarmParts{};
        std::vector<std::string> cells = {
            answer.scene.pots[table.rows[row].pot].label.id, std::to_string(table.rows[row].copy),
            spot_id(table, spot), spot_id(table, table.rows[row].start_spot)};
        for (const double value : {parts.total(), parts.hot_sun, parts.light_deficit,
                                   parts.pot_wall, parts.jump, parts.drying}) {
            cells.push_back(spot ? number_text(value) : std::string());
        }
        cells.push_back(placement::place_reason(answer.scene, table, answer.plan.spot_of_row, row));
        text += csv_line(cells, ',') + "\n";
    }
    return text;
}

std::string moves_json(const MovesAnswer& answer, const Envelope& envelope) {
    const MovePlan& moves = answer.moves;
    Json json = result_envelope(envelope);
    json["from_season"] = answer.from_season;
    json["to_season"] = answer.table.season;
    add_range(json, answer.table);
    json["harm_before"] = rounded(moves.harm_before);
    json["harm_after"] = rounded(moves.harm_after);
    json["bound"] = rounded(moves.plan.bound);
    json["gap_fraction"] = rounded(moves.plan.gap_fraction());
    json["lifts"] = moves.plan.lifts;
    json["moved_kg"] = rounded(moves.plan.moved_kg);
    json["moves"] = Json::array();
    for (std::size_t i = 0; i < moves.moves.size(); ++i) {
        json["moves"].push_back(move_json(answer, i));
    }
    json["groups"] = Json::array();
    for (const auto& group : moves.groups) {
        json["groups"].push_back(Json{{"kind", group_word(group.kind)},
                                      {"gain", rounded(group.gain)},
                                      {"effort", rounded(group.effort)}});
    }
    json["steps"] = Json::array();
    for (const auto& step : moves.steps) {
        json["steps"].push_back(
            Json{{"order", step.order},
                 {"kind", step_word(step.kind)},
                 {"group", step.group + 1},
                 {"pot", answer.scene.pots[answer.table.rows[step.row].pot].label.id}});
    }
    return json_text(json);
}

std::string moves_csv(const MovesAnswer& answer) {
    std::string text = "order,group,pot,from_spot,to_spot,weight_kg,people,gain,reason\n";
    for (std::size_t i = 0; i < answer.moves.moves.size(); ++i) {
        const placement::PotMove& move = answer.moves.moves[i];
        const std::vector<std::string> cells = {
            std::to_string(i + 1),
            std::to_string(group_of(answer.moves, move.row) + 1),
            answer.scene.pots[answer.table.rows[move.row].pot].label.id,
            answer.table.spots[move.from_spot].id,
            answer.table.spots[move.to_spot].id,
            number_text(move.weight_kg),
            std::to_string(move.people),
            number_text(move.gain),
            move.reason};
        text += csv_line(cells, ',') + "\n";
    }
    return text;
}

}  // namespace sunfleck::output
