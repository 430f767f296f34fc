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
    const auto member = std::ranges::find(object.children, key, &JsonNode::key);
    if (object.kind != JsonKind::object || member == object.children.end()) return;
    erase_child(object, static_cast<std::size_t>(member - object.children.begin()));
}

void JsonEdit::insert_item(const JsonNode& array, std::size_t index, const std::string& json) {
    SUNFLECK_REQUIRE(array.kind == JsonKind::array, "only an array has items");
    const auto& items = array.children;
    if (items.empty()) {
        changes_.push_back({array.begin + 1, array.begin + 1, json});
        return;
    }
    const std::string_view text = tree_->text();
    // The comma and room between two items, or before the only one, as they stand.
    std::string room;
    if (items.size() > 1) {
        room = text.substr(items[0].end, items[1].begin - items[0].end);
    } else {
        room = text.substr(array.begin + 1, items[0].begin - array.begin - 1);
        room = "," + (room.empty() ? " " : room);
    }
    if (index < items.size()) {
        changes_.push_back({items[index].begin, items[index].begin, json + room});
    } else {
        changes_.push_back({items.back().end, items.back().end, room + json});
    }
}

void JsonEdit::erase_item(const JsonNode& array, std::size_t index) {
    SUNFLECK_REQUIRE(array.kind == JsonKind::array && index < array.children.size(),
                     "only an item that is there can be taken out");
    erase_child(array, index);
}

void JsonEdit::erase_child(const JsonNode& parent, std::size_t index) {
    const auto& children = parent.children;
    const auto begin_of = [&](std::size_t i) {
        return parent.kind == JsonKind::object ? children[i].key_begin : children[i].begin;
    };
    if (index > 0) {
        changes_.push_back({children[index - 1].end, children[index].end, {}});
    } else if (children.size() > 1) {
        changes_.push_back({begin_of(0), begin_of(1), {}});
    } else {
        changes_.push_back({begin_of(0), children[0].end, {}});
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
