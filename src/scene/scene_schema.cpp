#include "sunfleck/scene/scene_schema.h"

#include "scene/key_unit.h"
#include "scene/scene_keys.h"
#include "sunfleck/base/json_text.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace sunfleck::scene {

namespace {

/// Members of an object, each a key and its JSON text.
using Members = std::vector<std::pair<std::string, std::string>>;

std::string indented(const std::string& json) {
    std::string text;
    for (const char c : json) {
        text += c;
        if (c == '\n') text += "  ";
    }
    return text;
}

/// Items between brackets: on one line when short, else one a line.
std::string bracketed(const std::vector<std::string>& items, char open, char close) {
    constexpr std::size_t longest_line = 76;
    std::string line(1, open);
    for (const std::string& item : items) line += (line.size() > 1 ? ", " : "") + item;
    line += close;
    if (line.size() <= longest_line && line.find('\n') == std::string::npos) return line;
    std::string lines(1, open);
    for (const std::string& item : items) {
        lines += (lines.size() > 1 ? ",\n  " : "\n  ") + indented(item);
    }
    return lines + '\n' + close;
}

std::string object_json(const Members& members) {
    std::vector<std::string> items;
    for (const auto& [key, value] : members) items.push_back(json_quoted(key) + ": " + value);
    return bracketed(items, '{', '}');
}

std::string list_json(const std::vector<std::string>& items) {
    return bracketed(items, '[', ']');
}

std::string names_json(const std::vector<std::string>& names) {
    std::vector<std::string> items;
    items.reserve(names.size());
    for (const std::string& name : names) items.push_back(json_quoted(name));
    return list_json(items);
}

std::string required_json(const std::vector<std::string>& keys) {
    return object_json({{"required", names_json(keys)}});
}

std::string definition_name(const ObjectShape& shape) {
    std::string name = shape.name;
    std::ranges::replace(name, ' ', '_');
    return name;
}

class SchemaWriter {
  public:
    std::string write(const ObjectShape& root) {
        Members schema{{"$schema", json_quoted("http://json-schema.org/draft-07/schema#")},
                       {"$comment", json_quoted("Made by `sunfleck schema`; do not edit.")},
                       {"title", json_quoted("Sunfleck scene")}};
        for (auto& member : object_members(root)) schema.push_back(std::move(member));
        Members definitions;
        // Writing one definition can ask for more: no range loop, which would not see them.
        // NOLINTNEXTLINE(modernize-loop-convert)
        for (std::size_t i = 0; i < asked_.size(); ++i) {
            const ObjectShape* shape = asked_[i];
            definitions.emplace_back(definition_name(*shape), object_json(object_members(*shape)));
        }
        schema.emplace_back("definitions", object_json(definitions));
        return object_json(schema) + '\n';
    }

  private:
    Members members_of(const NumberShape& shape) {
        return {{"type", json_quoted(shape.is_whole ? "integer" : "number")},
                {"minimum", json_number(shape.least)},
                {"maximum", json_number(shape.most)}};
    }
    Members members_of(const FlagShape&) { return {{"type", json_quoted("boolean")}}; }
    Members members_of(const TextShape& shape) {
        const TextLimits limits = limits_of(shape.form);
        Members members{{"type", json_quoted("string")},
                        {"minLength", std::to_string(limits.shortest)},
                        {"maxLength", std::to_string(limits.longest)}};
        const std::string_view pattern = pattern_of(shape.form);
        if (!pattern.empty()) members.emplace_back("pattern", json_quoted(pattern));
        return members;
    }
    Members members_of(const WordShape& shape) { return {{"enum", names_json(shape.words)}}; }
    Members members_of(const ConstantShape& shape) { return {{"const", json_quoted(shape.text)}}; }
    Members members_of(const ListShape& shape) {
        return {{"type", json_quoted("array")},
                {"minItems", std::to_string(shape.fewest)},
                {"maxItems", std::to_string(shape.most)},
                {"items", object_json(members_of(shape.item.front()))}};
    }
    Members members_of(const TupleShape& shape) {
        std::vector<std::string> items;
        for (const auto& [title, number] : shape.components) {
            Members members{{"title", json_quoted(title)}};
            for (auto& member : members_of(number)) members.push_back(std::move(member));
            items.push_back(object_json(members));
        }
        const std::string count = std::to_string(items.size());
        return {{"type", json_quoted("array")},
                {"minItems", count},
                {"maxItems", count},
                {"items", list_json(items)}};
    }
    Members members_of(const NumberMapShape& shape) {
        return {{"type", json_quoted("object")},
                {"additionalProperties", object_json(members_of(shape.number))}};
    }
    Members members_of(const ObjectShape* shape) {
        if (std::ranges::count(asked_, shape) == 0) asked_.push_back(shape);
        return {{"$ref", json_quoted("#/definitions/" + definition_name(*shape))}};
    }
    Members members_of(const Shape& shape) {
        return std::visit([this](const auto& form) { return members_of(form); }, shape.form);
    }

    std::string key_json(const KeyShape& key) {
        const Unit* unit = unit_of_key(key.name);
        std::string doc = key.doc;
        if (unit != nullptr) doc += " In " + std::string(unit->name) + '.';
        // Beside a $ref draft 7 takes no other word, hence the allOf.
        const bool is_reference = std::holds_alternative<const ObjectShape*>(key.shape.form);
        Members members{{"title", json_quoted(key.title)}, {"description", json_quoted(doc)}};
        if (is_reference) {
            members.emplace_back("allOf", list_json({object_json(members_of(key.shape))}));
        } else {
            for (auto& member : members_of(key.shape)) members.push_back(std::move(member));
        }
        if (!key.default_json.empty()) members.emplace_back("default", key.default_json);
        return object_json(members);
    }

    Members object_members(const ObjectShape& shape) {
        Members properties;
        std::vector<std::string> required;
        for (const KeyShape& key : shape.keys) {
            properties.emplace_back(key.name, key_json(key));
            if (key.need == Need::required) required.push_back(key.name);
        }
        Members members{{"description", json_quoted(shape.doc)},
                        {"type", json_quoted("object")},
                        {"additionalProperties", "false"}};
        if (!required.empty()) members.emplace_back("required", names_json(required));
        members.emplace_back("properties", object_json(properties));
        std::vector<std::string> rules;
        for (const KeyRule& rule : shape.rules) rules.push_back(rule_json(rule));
        if (!rules.empty()) members.emplace_back("allOf", list_json(rules));
        return members;
    }

    static std::string condition_json(const KeyRule& rule) {
        Members members{{"required", names_json({rule.when})}};
        if (!rule.words.empty()) {
            members.emplace_back(
                "properties",
                object_json({{rule.when, object_json({{"enum", names_json(rule.words)}})}}));
        }
        return object_json(members);
    }

    static std::string none_json(const std::vector<std::string>& keys) {
        std::vector<std::string> each;
        each.reserve(keys.size());
        for (const std::string& key : keys) each.push_back(required_json({key}));
        return object_json({{"not", object_json({{"anyOf", list_json(each)}})}});
    }

    static std::string one_json(const std::vector<std::string>& keys) {
        std::vector<std::string> each;
        each.reserve(keys.size());
        for (const std::string& key : keys) each.push_back(required_json({key}));
        return object_json({{"oneOf", list_json(each)}});
    }

    static std::string at_most_one_json(const std::vector<std::string>& keys) {
        std::vector<std::string> pairs;
        for (std::size_t i = 0; i < keys.size(); ++i) {
            for (std::size_t j = i + 1; j < keys.size(); ++j) {
                pairs.push_back(required_json({keys[i], keys[j]}));
            }
        }
        return object_json({{"not", object_json({{"anyOf", list_json(pairs)}})}});
    }

    static std::string rule_json(const KeyRule& rule) {
        std::string then;
        switch (rule.kind) {
            case KeyRule::Kind::exactly_one:
                return one_json(rule.keys);
            case KeyRule::Kind::at_most_one:
                return at_most_one_json(rule.keys);
            case KeyRule::Kind::needs:
                then = required_json(rule.keys);
                break;
            case KeyRule::Kind::needs_one:
                then = one_json(rule.keys);
                break;
            case KeyRule::Kind::excludes:
                then = none_json(rule.keys);
                break;
        }
        return object_json({{"if", condition_json(rule)}, {"then", then}});
    }

    std::vector<const ObjectShape*> asked_;
};

}  // namespace

std::string scene_schema() {
    return SchemaWriter().write(scene_keys().shape());
}

}  // namespace sunfleck::scene
