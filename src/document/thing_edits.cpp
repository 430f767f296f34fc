#include "sunfleck/document/thing_edits.h"

#include "sunfleck/base/json_text.h"
#include "sunfleck/base/require.h"
#include "sunfleck/scene/spots.h"

#include <array>
#include <cmath>
#include <set>
#include <utility>

namespace sunfleck::document {
namespace {

constexpr std::array<std::string_view, 3> bearing_endings{"bearing_deg", "bearing_plan_deg",
                                                          "bearing_magnetic_deg"};
constexpr std::array<std::string_view, 3> point_lists{"line_m", "outline_m", "corners_m"};

JsonTree tree_of(const std::string& text) {
    JsonReading reading = read_json(text, {});
    SUNFLECK_REQUIRE(reading.tree && reading.problems.empty(), "a garden's text is JSON");
    return std::move(*reading.tree);
}

std::string metres(double value_m) {
    return json_number(std::round(value_m * 1000.0) / 1000.0 + 0.0);
}

std::string degrees(double value_deg) {
    const double turned = value_deg - 360.0 * std::floor(value_deg / 360.0);
    const double hundredths = std::round(turned * 100.0);
    return json_number((hundredths >= 36000.0 ? 0.0 : hundredths) / 100.0);
}

std::string name_of(const JsonNode& thing) {
    for (const char* key : {"name", "id"}) {
        const JsonNode* node = thing.find(key);
        if (node != nullptr && node->kind == JsonKind::text) return node->text;
    }
    return "thing";
}

// A map of the plan's points onto others.
template <typename Map>
void add_point_steps(const JsonNode& thing, const std::string& pointer, const Map& map,
                     std::vector<EditStep>& steps) {
    const JsonNode* x = thing.find("x_m");
    const JsonNode* y = thing.find("y_m");
    if (x != nullptr && y != nullptr) {
        const Vec2 to = map(Vec2{x->number, y->number});
        steps.push_back(SetValue{pointer_to(pointer, "x_m"), metres(to.x)});
        steps.push_back(SetValue{pointer_to(pointer, "y_m"), metres(to.y)});
    }
    for (const std::string_view key : point_lists) {
        const JsonNode* list = thing.find(key);
        if (list == nullptr) continue;
        const std::string at = pointer_to(pointer, key);
        for (std::size_t i = 0; i < list->children.size(); ++i) {
            const JsonNode& point = list->children[i];
            if (point.children.size() < 2) continue;
            const Vec2 to = map(Vec2{point.children[0].number, point.children[1].number});
            const std::string item = pointer_to(at, i);
            steps.push_back(SetValue{pointer_to(item, std::size_t{0}), metres(to.x)});
            steps.push_back(SetValue{pointer_to(item, std::size_t{1}), metres(to.y)});
        }
    }
}

void add_bearing_steps(const JsonNode& thing, const std::string& pointer, double turn_deg,
                       std::vector<EditStep>& steps) {
    bool has_bearing = false;
    for (const JsonNode& member : thing.children) {
        for (const std::string_view ending : bearing_endings) {
            if (!member.key.ends_with(ending)) continue;
            steps.push_back(
                SetValue{pointer_to(pointer, member.key), degrees(member.number + turn_deg)});
            has_bearing = true;
        }
    }
    // A stand or a mesh without a bearing has that of north.
    const bool may_lack_one =
        pointer.starts_with("/post_stands/") || pointer.starts_with("/meshes/");
    if (!has_bearing && may_lack_one) {
        steps.push_back(SetValue{pointer_to(pointer, "bearing_deg"), degrees(turn_deg)});
    }
}

Command moved(const JsonNode& thing, const std::string& pointer, Vec2 by_m) {
    Command command{.name = "Move " + name_of(thing), .steps = {}, .strand = "move " + pointer};
    add_point_steps(
        thing, pointer, [&](Vec2 p) { return p + by_m; }, command.steps);
    return command;
}

std::set<std::string> ids_in(const JsonTree& tree) {
    std::set<std::string> ids;
    for (const JsonNode& list : tree.root().children) {
        if (list.kind != JsonKind::array) continue;
        for (const JsonNode& thing : list.children) {
            const JsonNode* id = thing.find("id");
            if (id != nullptr && id->kind == JsonKind::text) ids.insert(id->text);
        }
    }
    return ids;
}

// "P" and 7 of "P7", "P" and 1 of "P".
std::pair<std::string, int> counted(std::string_view text) {
    std::size_t digits = 0;
    while (digits < text.size() && digits < 6) {
        const char c = text[text.size() - 1 - digits];
        if (c < '0' || c > '9') break;
        ++digits;
    }
    const std::string stem(text.substr(0, text.size() - digits));
    if (digits == 0 || stem.empty()) return {std::string(text), 1};
    return {stem, std::stoi(std::string(text.substr(text.size() - digits)))};
}

std::string next_free(const std::set<std::string>& taken, std::string_view like) {
    if (like.size() == 1 && like[0] >= 'A' && like[0] <= 'Z') {
        for (char letter = like[0]; letter <= 'Z'; ++letter) {
            std::string id(1, letter);
            if (!taken.contains(id)) return id;
        }
    }
    const auto [stem, count] = counted(like);
    const std::string joint = !stem.empty() && stem.back() >= '0' && stem.back() <= '9' ? "_" : "";
    for (int n = count + 1;; ++n) {
        std::string id = stem + joint + std::to_string(n);
        if (!taken.contains(id)) return id;
    }
}

std::string text_of(const JsonTree& tree, const JsonNode& node) {
    return tree.text().substr(node.begin, node.end - node.begin);
}

// The list that a thing stands in, and its place there.
std::pair<std::string, std::size_t> place_in_list(const std::string& pointer) {
    const std::size_t slash = pointer.rfind('/');
    return {pointer.substr(0, slash), std::stoul(pointer.substr(slash + 1))};
}

const JsonNode* list_of(const JsonTree& tree, std::string_view key) {
    const JsonNode* list = tree.root().find(key);
    return list != nullptr && list->kind == JsonKind::array ? list : nullptr;
}

void add_taking_off(const JsonNode& pot, const std::string& pointer, std::vector<EditStep>& steps) {
    if (pot.find("spot") != nullptr) steps.push_back(Remove{pointer_to(pointer, "spot")});
    if (pot.find("pinned") != nullptr) {
        steps.push_back(SetValue{pointer_to(pointer, "pinned"), "false"});
    }
}

// Spots of a bench or stand by their ids, and the thing's own id.
struct OwnPlaces {
    std::string id;
    std::set<std::string> spots;
};

OwnPlaces places_of(const Document& document, const JsonNode& thing) {
    OwnPlaces own;
    if (const JsonNode* id = thing.find("id")) own.id = id->text;
    for (const scene::Spot& spot : scene::spots_of(document.scene())) {
        if (spot.bench == own.id) own.spots.insert(spot.id);
    }
    return own;
}

// Steps for every pot that names the thing or one of its spots: `change` gives the name to write
// instead, nothing to take the mention out.
template <typename Change>
void add_mention_steps(const JsonTree& tree, const OwnPlaces& own, const Change& change,
                       std::vector<EditStep>& steps) {
    const JsonNode* pots = list_of(tree, "pots");
    if (pots == nullptr || own.spots.empty()) return;
    for (std::size_t i = 0; i < pots->children.size(); ++i) {
        const JsonNode& pot = pots->children[i];
        const std::string pointer = pointer_to("/pots", i);
        const JsonNode* spot = pot.find("spot");
        if (spot != nullptr && own.spots.contains(spot->text)) {
            const std::optional<std::string> other = change(spot->text);
            if (other) {
                steps.push_back(SetValue{pointer_to(pointer, "spot"), json_quoted(*other)});
            } else {
                add_taking_off(pot, pointer, steps);
            }
        }
        const JsonNode* not_on = pot.find("not_on");
        if (not_on == nullptr) continue;
        const std::string list = pointer_to(pointer, "not_on");
        // From the end, so that taking one out leaves the others' places.
        for (std::size_t k = not_on->children.size(); k-- > 0;) {
            const std::string& name = not_on->children[k].text;
            if (name != own.id && !own.spots.contains(name)) continue;
            const std::optional<std::string> other = change(name);
            if (other) {
                steps.push_back(SetValue{pointer_to(list, k), json_quoted(*other)});
            } else {
                steps.push_back(Remove{pointer_to(list, k)});
            }
        }
    }
}

// The pot of that id and its pointer.
std::pair<const JsonNode*, std::string> pot_named(const JsonTree& tree, std::string_view id) {
    const JsonNode* pots = list_of(tree, "pots");
    for (std::size_t i = 0; pots != nullptr && i < pots->children.size(); ++i) {
        const JsonNode* own = pots->children[i].find("id");
        if (own != nullptr && own->text == id) return {&pots->children[i], pointer_to("/pots", i)};
    }
    return {nullptr, {}};
}

}  // namespace

Command move_thing(const Document& document, const std::string& pointer, Vec2 by_m) {
    const JsonTree tree = tree_of(document.text());
    const JsonNode* thing = tree.at(pointer);
    return thing != nullptr ? moved(*thing, pointer, by_m) : Command{};
}

Command turn_thing(const Document& document, const std::string& pointer, Vec2 about_m,
                   Angle clockwise) {
    const JsonTree tree = tree_of(document.text());
    const JsonNode* thing = tree.at(pointer);
    if (thing == nullptr) return {};
    Command command{.name = "Turn " + name_of(*thing), .steps = {}, .strand = "turn " + pointer};
    const double c = cos(clockwise);
    const double s = sin(clockwise);
    const auto turned = [&](Vec2 p) {
        const Vec2 arm = p - about_m;
        return about_m + Vec2{c * arm.x + s * arm.y, c * arm.y - s * arm.x};
    };
    add_point_steps(*thing, pointer, turned, command.steps);
    add_bearing_steps(*thing, pointer, clockwise.in_degrees(), command.steps);
    return command;
}

Command set_number(const Document& document, const std::string& pointer, double value) {
    SUNFLECK_REQUIRE(std::isfinite(value), "only a finite number can be written");
    const JsonTree tree = tree_of(document.text());
    const std::size_t slash = pointer.rfind('/');
    const JsonNode* thing = tree.at(pointer.substr(0, slash));
    const std::string name = thing != nullptr ? name_of(*thing) : std::string();
    return {.name = "Change " + name,
            .steps = {SetValue{pointer, json_number(value)}},
            .strand = "set " + pointer};
}

Command repeat_thing(const Document& document, const std::string& pointer, int count, Vec2 step_m) {
    const JsonTree tree = tree_of(document.text());
    const JsonNode* thing = tree.at(pointer);
    if (thing == nullptr || thing->find("id") == nullptr || count < 1) return {};
    const auto [list, index] = place_in_list(pointer);
    Command command{.name = "Copy " + name_of(*thing), .steps = {}, .strand = {}};
    std::set<std::string> ids = ids_in(tree);
    std::string id = thing->find("id")->text;
    const JsonNode* name = thing->find("name");
    for (int i = 1; i <= count; ++i) {
        id = next_free(ids, id);
        ids.insert(id);
        std::vector<EditStep> steps = moved(*thing, "", i * step_m).steps;
        steps.push_back(SetValue{"/id", json_quoted(id)});
        if (name != nullptr) {
            const auto [stem, first] = counted(name->text);
            const std::string space = stem.ends_with(' ') ? "" : " ";
            steps.push_back(
                SetValue{"/name", json_quoted(stem + space + std::to_string(first + i))});
        }
        auto copy = with_steps(text_of(tree, *thing), steps);
        SUNFLECK_REQUIRE(copy, "a thing's own keys can be set");
        command.steps.push_back(
            InsertItem{list, index + static_cast<std::size_t>(i), std::move(*copy)});
    }
    return command;
}

Command remove_thing(const Document& document, const std::string& pointer) {
    const JsonTree tree = tree_of(document.text());
    const JsonNode* thing = tree.at(pointer);
    if (thing == nullptr) return {};
    Command command{.name = "Take away " + name_of(*thing), .steps = {}, .strand = {}};
    add_mention_steps(
        tree, places_of(document, *thing),
        [](const std::string&) { return std::optional<std::string>(); }, command.steps);
    command.steps.push_back(Remove{pointer});
    return command;
}

Command rename_thing(const Document& document, const std::string& pointer, const std::string& id) {
    const JsonTree tree = tree_of(document.text());
    const JsonNode* thing = tree.at(pointer);
    if (thing == nullptr) return {};
    Command command{.name = "Rename " + name_of(*thing), .steps = {}, .strand = {}};
    const OwnPlaces own = places_of(document, *thing);
    // "A-3" becomes "B-3"; a spot with a name of its own keeps it.
    const auto renamed = [&](const std::string& name) -> std::optional<std::string> {
        const bool has_own_id = name == own.id || name.starts_with(own.id + "-");
        return has_own_id ? id + name.substr(own.id.size()) : name;
    };
    command.steps.push_back(SetValue{pointer_to(pointer, "id"), json_quoted(id)});
    add_mention_steps(tree, own, renamed, command.steps);
    return command;
}

Command place_pot(const Document& document, std::string_view pot_id, std::string_view spot_id) {
    const JsonTree tree = tree_of(document.text());
    const auto [pot, pointer] = pot_named(tree, pot_id);
    if (pot == nullptr) return {};
    Command command{.name = "Move " + std::string(pot_id), .steps = {}, .strand = {}};
    if (spot_id.empty()) {
        add_taking_off(*pot, pointer, command.steps);
    } else {
        command.steps.push_back(SetValue{pointer_to(pointer, "spot"), json_quoted(spot_id)});
    }
    return command;
}

Command pin_pot(const Document& document, std::string_view pot_id, bool is_pinned) {
    const JsonTree tree = tree_of(document.text());
    const auto [pot, pointer] = pot_named(tree, pot_id);
    if (pot == nullptr) return {};
    Command command{
        .name = (is_pinned ? "Pin " : "Unpin ") + std::string(pot_id), .steps = {}, .strand = {}};
    command.steps.push_back(SetValue{pointer_to(pointer, "pinned"), is_pinned ? "true" : "false"});
    return command;
}

std::string free_id(const Document& document, std::string_view like) {
    return next_free(ids_in(tree_of(document.text())), like);
}

}  // namespace sunfleck::document
