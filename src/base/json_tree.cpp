#include "sunfleck/base/json_tree.h"

#include "base/json_complaint.h"
#include "sunfleck/base/unicode_text.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <charconv>
#include <utility>

namespace sunfleck {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// Builds the tree from the events of the library's parser. The events carry no places, so a
/// cursor walks along: what it walks over has just been accepted by the parser, hence to find a
/// token's ends it is enough to skip blanks, commas and colons and then the token itself.
class TreeBuilder {
  public:
    TreeBuilder(std::string_view text, std::size_t begin) : text_(text), cursor_(begin) {}

    // The library's event interface.
    bool null() { return add_word({.kind = JsonKind::null}, "null"); }
    bool boolean(bool value) {
        return add_word({.kind = JsonKind::boolean, .boolean = value}, value ? "true" : "false");
    }
    bool number_integer(std::int64_t) { return add_number(); }
    bool number_unsigned(std::uint64_t) { return add_number(); }
    bool number_float(double, const std::string&) { return add_number(); }
    bool string(std::string& value) { return add_string(value); }
    bool binary(const std::vector<std::uint8_t>&) { return false; }
    bool start_object(std::size_t) { return open(JsonKind::object); }
    bool end_object() { return close(); }
    bool start_array(std::size_t) { return open(JsonKind::array); }
    bool end_array() { return close(); }
    bool key(std::string& name) {
        key_begin_ = skip_to_token();
        skip_string();
        key_ = std::move(name);
        key_end_ = cursor_;
        return true;
    }
    template <typename Exception>
    bool parse_error(std::size_t, const std::string&, const Exception& error) {
        is_number_too_large_ = error.id == 406;
        return false;
    }

    [[nodiscard]] JsonNode take_root() { return std::move(root_); }
    [[nodiscard]] bool is_too_deep() const { return is_too_deep_; }
    [[nodiscard]] bool is_too_large() const { return value_count_ > most_json_values; }
    [[nodiscard]] const std::vector<JsonComplaint>& twice_written() const { return twice_written_; }
    [[nodiscard]] JsonStop stop() const {
        return {.cursor = cursor_,
                .innermost = open_.empty() ? nullptr : open_.back(),
                .pointer = pointer(),
                .has_root = has_root_,
                .is_number_too_large = is_number_too_large_};
    }

  private:
    /// Of the value read last, or the one that is open.
    [[nodiscard]] std::string pointer() const {
        std::string pointer;
        for (const JsonNode* node : open_) {
            if (node->children.empty()) break;
            pointer = step_to_last(pointer, *node);
        }
        return pointer;
    }

    std::size_t skip_to_token() {
        while (cursor_ < text_.size() &&
               (is_json_space(text_[cursor_]) || text_[cursor_] == ',' || text_[cursor_] == ':')) {
            ++cursor_;
        }
        return cursor_;
    }

    void skip_string() {
        for (++cursor_; cursor_ < text_.size() && text_[cursor_] != '"'; ++cursor_) {
            if (text_[cursor_] == '\\') ++cursor_;
        }
        ++cursor_;
    }

    bool skip_char_of(std::string_view accepted) {
        const bool is_there =
            cursor_ < text_.size() && accepted.find(text_[cursor_]) != std::string_view::npos;
        if (is_there) ++cursor_;
        return is_there;
    }

    void skip_digits() {
        while (skip_char_of("0123456789")) {
        }
    }

    /// By the grammar, since "05" or "1-2" begin with a number that has just been accepted.
    void skip_number() {
        skip_char_of("-");
        if (!skip_char_of("0")) skip_digits();
        if (skip_char_of(".")) skip_digits();
        if (skip_char_of("eE")) {
            skip_char_of("+-");
            skip_digits();
        }
    }

    /// False when there are too many values to go on.
    bool attach(JsonNode node) {
        node.key = std::exchange(key_, {});
        node.key_begin = key_begin_;
        node.key_end = key_end_;
        has_root_ = true;
        if (open_.empty()) {
            root_ = std::move(node);
        } else {
            // Only the innermost open node grows, so the addresses in open_ stay good.
            open_.back()->children.push_back(std::move(node));
        }
        return ++value_count_ <= most_json_values;
    }

    bool add_word(JsonNode node, std::string_view word) {
        node.begin = skip_to_token();
        node.end = cursor_ += word.size();
        return attach(std::move(node));
    }

    bool add_string(std::string& value) {
        JsonNode node{.kind = JsonKind::text, .begin = skip_to_token(), .text = std::move(value)};
        skip_string();
        node.end = cursor_;
        return attach(std::move(node));
    }

    bool add_number() {
        JsonNode node{.kind = JsonKind::number, .begin = skip_to_token()};
        skip_number();
        node.end = cursor_;
        node.text = text_.substr(node.begin, node.end - node.begin);
        // Too large was refused by the parser; what is too small to hold is read as 0.
        std::from_chars(node.text.data(), node.text.data() + node.text.size(), node.number);
        return attach(std::move(node));
    }

    bool open(JsonKind kind) {
        JsonNode node{.kind = kind, .begin = skip_to_token()};
        ++cursor_;
        JsonNode* outer = open_.empty() ? nullptr : open_.back();
        if (!attach(std::move(node))) return false;
        is_too_deep_ = open_.size() >= static_cast<std::size_t>(deepest_json_nesting);
        open_.push_back(outer == nullptr ? &root_ : &outer->children.back());
        return !is_too_deep_;
    }

    bool close() {
        skip_to_token();
        open_.back()->end = ++cursor_;
        JsonNode* closed = open_.back();
        open_.pop_back();
        if (closed->kind == JsonKind::object) find_twice_written(*closed);
        return true;
    }

    void find_twice_written(const JsonNode& object) {
        std::vector<const JsonNode*> members;
        for (const JsonNode& child : object.children) members.push_back(&child);
        std::ranges::stable_sort(members, {}, &JsonNode::key);
        for (std::size_t i = 1; i < members.size(); ++i) {
            const JsonNode& member = *members[i];
            if (member.key != members[i - 1]->key) continue;
            if (twice_written_.size() >= most_key_problems) return;
            twice_written_.push_back(
                {member.key_begin, "key_twice", pointer_to(pointer(), member.key),
                 "The key \"" + member.key + "\" is written twice here.", "Keep one of the two."});
        }
    }

    static std::string step_to_last(const std::string& pointer, const JsonNode& node) {
        return node.kind == JsonKind::object ? pointer_to(pointer, node.children.back().key)
                                             : pointer_to(pointer, node.children.size() - 1);
    }

    std::string_view text_;
    std::size_t cursor_;
    JsonNode root_;
    bool has_root_ = false;
    std::vector<JsonNode*> open_;
    std::string key_;
    std::size_t key_begin_ = 0;
    std::size_t key_end_ = 0;
    std::vector<JsonComplaint> twice_written_;
    bool is_number_too_large_ = false;
    bool is_too_deep_ = false;
    std::size_t value_count_ = 0;
};

/// What no JSON text can hold, looked for before parsing; the parser would take a zero byte for
/// the end of the text.
std::optional<JsonComplaint> complaint_about_bytes(std::string_view text) {
    if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) {
        return JsonComplaint{0, "not_utf8", {}, "The file is in UTF-16.", "Save it as UTF-8."};
    }
    if (const auto bad = first_byte_not_utf8(text)) {
        return JsonComplaint{
            *bad, "not_utf8", {}, "The file is not UTF-8 text from here on.", "Save it as UTF-8."};
    }
    if (const auto zero = text.find('\0'); zero != std::string_view::npos) {
        return JsonComplaint{
            zero, "bad_json", {}, "There is a zero byte in the text.", "Take it out."};
    }
    return std::nullopt;
}

JsonComplaint complaint_about_depth(const JsonStop& stop) {
    return {stop.innermost->begin, "too_deep", stop.pointer,
            "Brackets are nested more than " + std::to_string(deepest_json_nesting) + " deep.",
            "Take out the brackets that are too many."};
}

JsonComplaint complaint_about_size(const JsonStop& stop) {
    return {stop.cursor, "too_large", stop.pointer,
            "The text holds more than " + std::to_string(most_json_values) + " values.",
            "Part it into several files."};
}

Problem problem_of(const JsonComplaint& complaint, std::string_view text, const std::string& file) {
    const TextPlace place = TextPlaces(text).of(text, complaint.byte);
    return {.code = complaint.code,
            .file = file,
            .line = place.line,
            .column = place.column,
            .pointer = complaint.pointer,
            .message = complaint.message,
            .mend = complaint.mend};
}

std::string unescaped(std::string_view token) {
    std::string plain;
    for (std::size_t i = 0; i < token.size(); ++i) {
        const bool is_escape = token[i] == '~' && i + 1 < token.size();
        if (is_escape && token[i + 1] == '1') {
            plain += '/';
            ++i;
        } else if (is_escape && token[i + 1] == '0') {
            plain += '~';
            ++i;
        } else {
            plain += token[i];
        }
    }
    return plain;
}

const JsonNode* child_at(const JsonNode& node, std::string_view token) {
    if (node.kind == JsonKind::object) return node.find(unescaped(token));
    std::size_t index = 0;
    const auto [end, error] = std::from_chars(token.data(), token.data() + token.size(), index);
    const bool is_index = error == std::errc{} && end == token.data() + token.size();
    if (node.kind != JsonKind::array || !is_index || index >= node.children.size()) return nullptr;
    return &node.children[index];
}

/// The first step of a pointer that begins with '/', taken off it.
std::string_view take_token(std::string_view& pointer) {
    pointer.remove_prefix(1);
    const std::string_view token = pointer.substr(0, pointer.find('/'));
    pointer.remove_prefix(token.size());
    return token;
}

}  // namespace

std::string_view name_of(JsonKind kind) {
    switch (kind) {
        case JsonKind::null:
            return "null";
        case JsonKind::boolean:
            return "true or false";
        case JsonKind::number:
            return "a number";
        case JsonKind::text:
            return "text";
        case JsonKind::array:
            return "a list";
        case JsonKind::object:
            return "an object";
    }
    return {};
}

const JsonNode* JsonNode::find(std::string_view name) const {
    if (kind != JsonKind::object) return nullptr;
    const auto member = std::ranges::find(children, name, &JsonNode::key);
    return member == children.end() ? nullptr : &*member;
}

JsonTree::JsonTree(std::string text, std::string file, JsonNode root)
    : text_(std::move(text)), file_(std::move(file)), root_(std::move(root)), places_(text_) {}

TextPlace JsonTree::place(std::size_t byte) const {
    return places_.of(text_, byte);
}

const JsonNode* JsonTree::at(std::string_view pointer) const {
    const JsonNode* node = &root_;
    while (node != nullptr && !pointer.empty()) {
        if (pointer.front() != '/') return nullptr;
        node = child_at(*node, take_token(pointer));
    }
    return node;
}

void JsonTree::locate(Problem& problem) const {
    const JsonNode* node = &root_;
    std::string_view rest = problem.pointer;
    while (!rest.empty() && rest.front() == '/') {
        const JsonNode* child = child_at(*node, take_token(rest));
        if (child == nullptr) break;
        node = child;
    }
    const TextPlace at = place(node->begin);
    problem.file = file_;
    problem.line = at.line;
    problem.column = at.column;
}

JsonReading read_json(std::string text, std::string file) {
    JsonReading reading;
    if (const auto complaint = complaint_about_bytes(text)) {
        reading.problems.push_back(problem_of(*complaint, text, file));
        return reading;
    }
    const std::size_t begin = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
    TreeBuilder builder(text, begin);
    const std::string_view body = std::string_view(text).substr(begin);
    if (!nlohmann::json::sax_parse(body.begin(), body.end(), &builder)) {
        const JsonStop stop = builder.stop();
        const JsonComplaint complaint = builder.is_too_deep() ? complaint_about_depth(stop)
                                        : builder.is_too_large()
                                            ? complaint_about_size(stop)
                                            : complaint_about_syntax(text, stop);
        reading.problems.push_back(problem_of(complaint, text, file));
        return reading;
    }
    for (const JsonComplaint& complaint : builder.twice_written()) {
        reading.problems.push_back(problem_of(complaint, text, file));
    }
    reading.tree.emplace(std::move(text), std::move(file), builder.take_root());
    return reading;
}

std::string pointer_to(std::string_view pointer, std::string_view key) {
    std::string longer(pointer);
    longer += '/';
    for (const char character : key) {
        if (character == '~') {
            longer += "~0";
        } else if (character == '/') {
            longer += "~1";
        } else {
            longer += character;
        }
    }
    return longer;
}

std::string pointer_to(std::string_view pointer, std::size_t index) {
    return std::string(pointer) + '/' + std::to_string(index);
}

}  // namespace sunfleck
