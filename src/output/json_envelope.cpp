#include "output/json_envelope.h"

#include "sunfleck/base/require.h"
#include "sunfleck/base/version.h"

#include <array>
#include <charconv>
#include <cmath>

namespace sunfleck::output {

namespace {

constexpr int format_version = 1;
constexpr std::size_t line_columns = 100;
constexpr std::size_t indent_step = 2;

std::string number_text(double value) {
    SUNFLECK_REQUIRE(std::isfinite(value), "a number in an answer is not finite");
    if (std::fpclassify(value) == FP_ZERO) return "0";
    std::array<char, 32> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    return {buffer.data(), end.ptr};
}

std::string string_text(const Json& text) {
    return text.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string text_of(const Json& json, std::size_t indent, std::size_t lead);

/// The items of an array or object, each as its text begun with its key.
template <typename ItemText>
std::string container_text(const Json& json, std::size_t indent, std::size_t lead,
                           ItemText item_text) {
    const bool is_object = json.is_object();
    const char open = is_object ? '{' : '[';
    const char close = is_object ? '}' : ']';
    std::string line(1, open);
    for (auto item = json.begin(); item != json.end() && line.size() < line_columns; ++item) {
        if (item != json.begin()) line += ", ";
        line += item_text(item, indent + indent_step);
    }
    line += close;
    const bool is_one_line = line.find('\n') == std::string::npos;
    if (json.empty() || (is_one_line && indent + lead + line.size() < line_columns)) return line;

    std::string lines(1, open);
    for (auto item = json.begin(); item != json.end(); ++item) {
        lines += item == json.begin() ? "\n" : ",\n";
        lines += std::string(indent + indent_step, ' ') + item_text(item, indent + indent_step);
    }
    return lines + '\n' + std::string(indent, ' ') + close;
}

/// `lead`: columns already taken on the line by the key.
std::string text_of(const Json& json, std::size_t indent, std::size_t lead) {
    if (json.is_number_float()) return number_text(json.get<double>());
    if (json.is_array()) {
        return container_text(json, indent, lead, [](const auto& item, std::size_t inner) {
            return text_of(*item, inner, 0);
        });
    }
    if (json.is_object()) {
        return container_text(json, indent, lead, [](const auto& item, std::size_t inner) {
            const std::string key = string_text(item.key()) + ": ";
            return key + text_of(item.value(), inner, key.size());
        });
    }
    return string_text(json);
}

Json position_or_null(int value) {
    return value > 0 ? Json(value) : Json(nullptr);
}

Json envelope_head(std::string_view command, std::string_view scene_name,
                   std::string_view scene_file) {
    Json json;
    json["format"] = "sunfleck-result";
    json["version"] = format_version;
    json["command"] = command;
    json["program_version"] = program_version;
    json["scene"]["name"] = or_null(scene_name);
    json["scene"]["file"] = or_null(scene_file);
    return json;
}

Json list_of(const Problems& problems, Json (*item)(const Problem&)) {
    Json list = Json::array();
    for (const Problem& problem : problems) list.push_back(item(problem));
    return list;
}

}  // namespace

Json or_null(std::string_view text) {
    return text.empty() ? Json(nullptr) : Json(text);
}

Json warning_json(const Problem& problem) {
    Json json;
    json["code"] = problem.code;
    json["file"] = or_null(problem.file);
    json["line"] = position_or_null(problem.line);
    json["column"] = position_or_null(problem.column);
    // The empty pointer is the whole document, so "" stands when a place in the file is known.
    json["pointer"] = problem.line > 0 ? Json(problem.pointer) : or_null(problem.pointer);
    json["message"] = problem.message;
    json["mend"] = or_null(problem.mend);
    return json;
}

Json error_json(const Problem& problem) {
    Json json = warning_json(problem);
    json["nearest"] = or_null(problem.nearest);
    return json;
}

Json warnings_json(const Problems& problems) {
    return list_of(problems, warning_json);
}

Json errors_json(const Problems& problems) {
    return list_of(problems, error_json);
}

Json result_envelope(const Envelope& envelope) {
    Json json = envelope_head(envelope.command, envelope.scene_name, envelope.scene_file);
    json["year"] = or_null(envelope.year);
    json["time_zone"] = or_null(envelope.time_zone);
    json["warnings"] = warnings_json(envelope.warnings);
    return json;
}

std::string json_text(const Json& json) {
    return text_of(json, 0, 0) + '\n';
}

std::string error_envelope(std::string_view command, std::string_view scene_file,
                           const Problems& problems) {
    Json json = envelope_head(command, "", scene_file);
    json["year"] = nullptr;
    json["time_zone"] = nullptr;
    json["warnings"] = Json::array();
    json["errors"] = errors_json(problems);
    return json_text(json);
}

}  // namespace sunfleck::output
