#include "sunfleck/base/json_edit.h"

#include "sunfleck/base/json_text.h"
#include "sunfleck/base/require.h"

#include <algorithm>
#include <utility>

namespace sunfleck {

void JsonEdit::replace(const JsonNode& node, std::string json) {
    changes_.push_back({node.begin, node.end, std::move(json)});
}

void JsonEdit::set_member(const JsonNode& object, std::string_view key, std::string json,
                          std::string_view after) {
    SUNFLECK_REQUIRE(object.kind == JsonKind::object, "only an object has members");
    if (const JsonNode* member = object.find(key)) {
        replace(*member, std::move(json));
    } else {
        add_member(object, key, json, after);
    }
}

void JsonEdit::add_member(const JsonNode& object, std::string_view key, const std::string& json,
                          std::string_view after) {
    const std::string quoted_key = json_quoted(key);
    if (object.children.empty()) {
        changes_.push_back({object.begin + 1, object.begin + 1, quoted_key + ": " + json});
        return;
    }
    auto member = std::ranges::find(object.children, after, &JsonNode::key);
    if (member == object.children.end()) --member;
    const std::string_view text = tree_->text();
    const JsonNode& neighbour = *member;
    // The comma and room between two keys, and the room about a colon, as the neighbours have them.
    std::string room;
    if (const auto next = std::next(member); next != object.children.end()) {
        room = text.substr(neighbour.end, next->key_begin - neighbour.end);
    } else if (member != object.children.begin()) {
        const std::size_t before = std::prev(member)->end;
        room = text.substr(before, neighbour.key_begin - before);
    } else {
        const std::size_t opened = object.begin + 1;
        room = "," + std::string(text.substr(opened, neighbour.key_begin - opened));
        if (room.size() == 1) room += ' ';
    }
    const std::string colon(text.substr(neighbour.key_end, neighbour.begin - neighbour.key_end));
    changes_.push_back({neighbour.end, neighbour.end, room + quoted_key + colon + json});
}

void JsonEdit::erase_member(const JsonNode& object, std::string_view key) {
    const auto& members = object.children;
    const auto member = std::ranges::find(members, key, &JsonNode::key);
    if (object.kind != JsonKind::object || member == members.end()) return;
    if (member != members.begin()) {
        changes_.push_back({std::prev(member)->end, member->end, {}});
    } else if (members.size() > 1) {
        changes_.push_back({member->key_begin, std::next(member)->key_begin, {}});
    } else {
        changes_.push_back({member->key_begin, member->end, {}});
    }
}

std::string JsonEdit::text() const {
    std::vector<Change> ordered = changes_;
    std::ranges::stable_sort(ordered, {}, &Change::begin);
    const std::string_view old = tree_->text();
    std::string text;
    std::size_t done = 0;
    for (const Change& change : ordered) {
        SUNFLECK_REQUIRE(change.begin >= done, "two changes of one text overlap");
        text += old.substr(done, change.begin - done);
        text += change.text;
        done = change.end;
    }
    text += old.substr(done);
    return text;
}

}  // namespace sunfleck
