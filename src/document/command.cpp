#include "sunfleck/document/command.h"

#include "sunfleck/base/json_edit.h"
#include "sunfleck/base/json_text.h"

#include <charconv>
#include <optional>
#include <utility>

namespace sunfleck::document {
namespace {

// A pointer taken apart at its last step, which is unescaped (RFC 6901).
struct PointerEnd {
    std::string parent;
    std::string last;
};

PointerEnd end_of(const std::string& pointer) {
    const std::size_t slash = pointer.rfind('/');
    if (slash == std::string::npos) return {};
    std::string last;
    for (std::size_t i = slash + 1; i < pointer.size(); ++i) {
        if (pointer[i] == '~' && i + 1 < pointer.size()) {
            ++i;
            last += pointer[i] == '1' ? '/' : '~';
        } else {
            last += pointer[i];
        }
    }
    return {pointer.substr(0, slash), std::move(last)};
}

std::optional<std::size_t> index_in(const JsonNode& array, const std::string& step) {
    std::size_t index = 0;
    const auto [end, error] = std::from_chars(step.data(), step.data() + step.size(), index);
    if (error != std::errc{} || end != step.data() + step.size()) return std::nullopt;
    if (index >= array.children.size()) return std::nullopt;
    return index;
}

tl::unexpected<Problems> no_place(const std::string& pointer) {
    return failure({.code = "no_such_place",
                    .pointer = pointer,
                    .message = "The garden has nothing at " + pointer + ".",
                    .mend = "Choose it again."});
}

Result<std::string> applied(const JsonTree& tree, const SetValue& step) {
    JsonEdit edit(tree);
    if (const JsonNode* node = tree.at(step.pointer)) {
        edit.replace(*node, step.json);
        return edit.text();
    }
    const PointerEnd end = end_of(step.pointer);
    const JsonNode* parent = tree.at(end.parent);
    if (parent == nullptr || parent->kind != JsonKind::object) return no_place(step.pointer);
    edit.set_member(*parent, end.last, step.json);
    return edit.text();
}

Result<std::string> applied(const JsonTree& tree, const InsertItem& step) {
    JsonEdit edit(tree);
    const JsonNode* list = tree.at(step.list);
    if (list != nullptr && list->kind == JsonKind::array) {
        edit.insert_item(*list, step.index, step.json);
        return edit.text();
    }
    const PointerEnd end = end_of(step.list);
    const JsonNode* parent = tree.at(end.parent);
    if (list != nullptr || parent == nullptr || parent->kind != JsonKind::object) {
        return no_place(step.list);
    }
    edit.set_member(*parent, end.last, "[" + step.json + "]");
    return edit.text();
}

Result<std::string> applied(const JsonTree& tree, const Remove& step) {
    JsonEdit edit(tree);
    const PointerEnd end = end_of(step.pointer);
    const JsonNode* parent = tree.at(end.parent);
    if (parent == nullptr) return no_place(step.pointer);
    if (parent->kind == JsonKind::object) {
        edit.erase_member(*parent, end.last);
    } else if (parent->kind == JsonKind::array) {
        const auto index = index_in(*parent, end.last);
        if (index) edit.erase_item(*parent, *index);
    }
    return edit.text();
}

const std::string& pointer_of(const EditStep& step) {
    if (const auto* value = std::get_if<SetValue>(&step)) return value->pointer;
    if (const auto* item = std::get_if<InsertItem>(&step)) return item->list;
    return std::get<Remove>(step).pointer;
}

}  // namespace

Result<std::string> with_steps(std::string text, const std::vector<EditStep>& steps) {
    for (const EditStep& step : steps) {
        if (!pointer_of(step).starts_with('/')) return no_place(pointer_of(step));
        JsonReading reading = read_json(std::move(text), {});
        if (!reading.tree || !reading.problems.empty()) {
            return tl::unexpected(std::move(reading.problems));
        }
        auto changed =
            std::visit([&](const auto& one) { return applied(*reading.tree, one); }, step);
        if (!changed) return changed;
        text = std::move(*changed);
    }
    return text;
}

}  // namespace sunfleck::document
