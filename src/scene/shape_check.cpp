#include "scene/shape_check.h"

#include "scene/key_unit.h"
#include "sunfleck/base/nearest_name.h"
#include "sunfleck/base/unicode_text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sunfleck::scene {

namespace {

/// What a value is called and measured in, handed down from its key.
struct Naming {
    std::string title;
    const Unit* unit = nullptr;
};

std::string quoted(std::string_view text) {
    // A long or odd text would drown the message.
    constexpr std::size_t most_bytes = 60;
    std::string shown = "\"";
    std::size_t bytes = 0;
    for (const char c : text) {
        if (++bytes > most_bytes && (static_cast<unsigned char>(c) & 0xC0U) != 0x80U) break;
        shown += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
    return shown + (shown.size() <= text.size() ? "...\"" : "\"");
}

std::string list_in_words(const std::vector<std::string>& names, std::string_view last_join) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (i > 0) text += i + 1 == names.size() ? std::string(last_join) : ", ";
        text += names[i];
    }
    return text;
}

std::string one_of(const std::vector<std::string>& names) {
    return list_in_words(names, " or ");
}

std::string range_in_words(const NumberShape& shape, const Unit* unit) {
    return short_number(shape.least) + " to " + with_unit(short_number(shape.most), unit);
}

bool is_in_range(double value, const NumberShape& shape) {
    return value >= shape.least && value <= shape.most;
}

bool is_whole(double value) {
    return !(std::floor(value) < value);
}

/// The value that was probably meant by one out of range: a bearing counted the other way round,
/// or another unit of the same measure.
std::optional<double> meant_value(double value, const NumberShape& shape, const Unit* unit) {
    if (unit == nullptr) return std::nullopt;
    if (unit->suffix == "deg" && shape.least >= 0.0 && is_in_range(value + 360.0, shape)) {
        return value + 360.0;
    }
    std::vector<double> divisors;
    if (unit->suffix == "m") divisors = {100.0, 1000.0};
    if (unit->suffix == "cm") divisors = {10.0, 0.01};
    if (unit->suffix == "mm") divisors = {0.1, 0.001};
    if (unit->suffix == "fraction") divisors = {100.0};
    if (unit->suffix == "percent") divisors = {0.01};
    if (unit->suffix == "l" || unit->suffix == "kg") divisors = {1000.0};
    for (const double divisor : divisors) {
        const double meant = value / divisor;
        if (std::fpclassify(meant) != FP_ZERO && is_in_range(meant, shape)) return meant;
    }
    return std::nullopt;
}

std::size_t position_of(const std::string& name, const std::vector<std::string>& names) {
    return static_cast<std::size_t>(std::ranges::find(names, name) - names.begin());
}

class ShapeChecker {
  public:
    explicit ShapeChecker(const JsonTree& tree) : tree_(&tree) {}

    ShapeFindings run(const ObjectShape& root) {
        check(tree_->root(), {&root}, "", {root.name, nullptr});
        std::ranges::stable_sort(findings_.problems, [](const Problem& a, const Problem& b) {
            return std::pair(a.line, a.column) < std::pair(b.line, b.column);
        });
        return std::move(findings_);
    }

  private:
    Problem& complain(std::size_t byte, std::string_view pointer, std::string code,
                      std::string message, std::string mend) {
        const TextPlace at = tree_->place(byte);
        findings_.problems.push_back({.code = std::move(code),
                                      .file = tree_->file(),
                                      .line = at.line,
                                      .column = at.column,
                                      .pointer = std::string(pointer),
                                      .message = std::move(message),
                                      .mend = std::move(mend)});
        return findings_.problems.back();
    }

    bool wrong_type(const JsonNode& node, std::string_view pointer, const Naming& naming,
                    std::string_view wanted, std::string mend) {
        std::string message = "The " + naming.title + " must be ";
        message += wanted;
        message += ", not ";
        message += name_of(node.kind);
        complain(node.begin, pointer, "wrong_type", message + '.', std::move(mend));
        return false;
    }

    /// True when the value has the shape, and then it is marked as sound; else the problem is
    /// noted.
    bool check(const JsonNode& node, const Shape& shape, const std::string& pointer,
               const Naming& naming) {
        if (findings_.problems.size() >= most_problems) return false;
        const bool is_good = std::visit(
            [&](const auto& form) { return check_form(node, form, pointer, naming); }, shape.form);
        if (is_good) findings_.sound.insert(&node);
        return is_good;
    }

    bool check_form(const JsonNode& node, const NumberShape& shape, const std::string& pointer,
                    const Naming& naming) {
        if (node.kind != JsonKind::number) return no_number(node, pointer, naming);
        if (!is_in_range(node.number, shape)) return out_of_range(node, shape, pointer, naming);
        if (shape.is_whole && !is_whole(node.number)) {
            complain(node.begin, pointer, "not_whole",
                     "The " + naming.title + " is " + node.text + ".", "Write a whole number.");
            return false;
        }
        return true;
    }

    bool no_number(const JsonNode& node, const std::string& pointer, const Naming& naming) {
        std::string mend;
        if (node.kind == JsonKind::null) mend = "Leave the key out when it is not known.";
        if (node.kind == JsonKind::text) {
            const auto value = measured_in(node.text, naming.unit);
            if (value) mend = "Write it without quotes and unit: " + short_number(*value) + ".";
        }
        return wrong_type(node, pointer, naming, "a number", mend);
    }

    bool out_of_range(const JsonNode& node, const NumberShape& shape, const std::string& pointer,
                      const Naming& naming) {
        std::string mend = "It may be " + range_in_words(shape, naming.unit) + ".";
        if (const auto meant = meant_value(node.number, shape, naming.unit)) {
            mend = "Did you mean " + with_unit(short_number(*meant), naming.unit) + "? " + mend;
        }
        const std::string number = node.text.size() <= 30 ? node.text : short_number(node.number);
        complain(node.begin, pointer, "out_of_range",
                 "The " + naming.title + " is " + with_unit(number, naming.unit) + ".", mend);
        return false;
    }

    bool check_form(const JsonNode& node, const FlagShape&, const std::string& pointer,
                    const Naming& naming) {
        if (node.kind == JsonKind::boolean) return true;
        return wrong_type(node, pointer, naming, "true or false", "Write it without quotes.");
    }

    bool check_form(const JsonNode& node, const TextShape& shape, const std::string& pointer,
                    const Naming& naming) {
        const std::string_view wanted = words_for(shape.form);
        if (node.kind != JsonKind::text) {
            const bool is_scalar = node.kind == JsonKind::number || node.kind == JsonKind::boolean;
            return wrong_type(node, pointer, naming, wanted,
                              is_scalar ? "Write it in double quotes." : "");
        }
        if (fits(node.text, shape.form)) return true;
        complain(node.begin, pointer, "bad_text",
                 "The " + naming.title + " is " + quoted(node.text) + ".",
                 "It must be " + std::string(wanted) + ".");
        return false;
    }

    bool check_form(const JsonNode& node, const WordShape& shape, const std::string& pointer,
                    const Naming& naming) {
        const std::string choices = one_of(shape.words);
        if (node.kind != JsonKind::text) {
            return wrong_type(node, pointer, naming, choices, "Write one of them in quotes.");
        }
        if (std::ranges::count(shape.words, node.text) > 0) return true;
        const std::string nearest = nearest_name(node.text, shape.words);
        Problem& problem = complain(
            node.begin, pointer, "not_a_choice",
            "The " + naming.title + " is " + quoted(node.text) + ".",
            nearest.empty() ? "It may be " + choices + "." : "Did you mean " + nearest + "?");
        problem.nearest = nearest;
        return false;
    }

    bool check_form(const JsonNode& node, const ConstantShape& shape, const std::string& pointer,
                    const Naming& naming) {
        if (node.kind == JsonKind::text && node.text == shape.text) return true;
        complain(node.begin, pointer, "not_a_choice",
                 "The " + naming.title + " is not \"" + shape.text + "\".",
                 "Write \"" + shape.text + "\".");
        return false;
    }

    bool check_form(const JsonNode& node, const ListShape& shape, const std::string& pointer,
                    const Naming& naming) {
        if (node.kind != JsonKind::array) {
            return wrong_type(node, pointer, naming, "a list",
                              "Put it in [ ], even when there is only one.");
        }
        bool is_good = check_count(node, shape.fewest, shape.most, pointer, naming);
        if (node.children.size() > shape.most) return false;
        for (std::size_t i = 0; i < node.children.size(); ++i) {
            is_good &= check(node.children[i], shape.item.front(), pointer_to(pointer, i), naming);
        }
        return is_good;
    }

    bool check_count(const JsonNode& node, std::size_t fewest, std::size_t most,
                     const std::string& pointer, const Naming& naming) {
        const std::size_t count = node.children.size();
        if (count >= fewest && count <= most) return true;
        std::string wanted = std::to_string(fewest);
        if (most > fewest) wanted += " to " + std::to_string(most);
        complain(node.begin, pointer, "wrong_count",
                 "The " + naming.title + " holds " + std::to_string(count) +
                     (count == 1 ? " value." : " values."),
                 "It must hold " + wanted + ".");
        return false;
    }

    bool check_form(const JsonNode& node, const TupleShape& shape, const std::string& pointer,
                    const Naming& naming) {
        std::vector<std::string> titles;
        for (const auto& component : shape.components) titles.push_back(component.title);
        const std::string order = "Write [" + list_in_words(titles, ", ") + "].";
        if (node.kind != JsonKind::array) {
            return wrong_type(node, pointer, naming, "a list of numbers", order);
        }
        if (node.children.size() != shape.components.size()) {
            complain(node.begin, pointer, "wrong_count",
                     "Here the " + naming.title + " holds " + std::to_string(node.children.size()) +
                         (node.children.size() == 1 ? " value." : " values."),
                     order);
            return false;
        }
        bool is_good = true;
        for (std::size_t i = 0; i < node.children.size(); ++i) {
            const auto& [title, number] = shape.components[i];
            is_good &=
                check(node.children[i], {number}, pointer_to(pointer, i), {title, naming.unit});
        }
        return is_good;
    }

    bool check_form(const JsonNode& node, const NumberMapShape& shape, const std::string& pointer,
                    const Naming& naming) {
        if (node.kind != JsonKind::object) {
            return wrong_type(node, pointer, naming, "an object in { }", "");
        }
        bool is_good = true;
        for (const JsonNode& member : node.children) {
            is_good &= check(member, {shape.number}, pointer_to(pointer, member.key),
                             {naming.title + " " + quoted(member.key), nullptr});
        }
        return is_good;
    }

    bool check_form(const JsonNode& node, const ObjectShape* shape, const std::string& pointer,
                    const Naming&) {
        return check_object(node, *shape, pointer);
    }

    /// An object being checked. `suggested` are the keys that its unknown ones were taken for; they
    /// are not called missing as well.
    struct Subject {
        const JsonNode& node;
        const ObjectShape& shape;
        const std::string& pointer;
        std::vector<std::string> suggested;
        [[nodiscard]] bool is_suggested(const std::string& key) const {
            return std::ranges::count(suggested, key) > 0;
        }
    };

    bool check_object(const JsonNode& node, const ObjectShape& shape, const std::string& pointer) {
        if (node.kind != JsonKind::object) {
            wrong_type(node, pointer, {shape.name, nullptr}, "an object in { }", "");
            return false;
        }
        Subject subject{node, shape, pointer, {}};
        bool is_good = true;
        for (const JsonNode& member : node.children) is_good &= check_member(member, subject);
        for (const KeyShape& key : shape.keys) {
            if (key.need == Need::required) is_good &= has_key(subject, key.name);
        }
        for (const KeyRule& rule : shape.rules) is_good &= check_rule(subject, rule);
        return is_good;
    }

    bool check_member(const JsonNode& member, Subject& subject) {
        const std::string inner = pointer_to(subject.pointer, member.key);
        const KeyShape* key = subject.shape.find(member.key);
        if (findings_.problems.size() >= most_problems) return false;
        if (key != nullptr) {
            return check(member, key->shape, inner, {key->title, unit_of_key(key->name)});
        }
        const std::string suggestion = without_unit_as(member, subject.shape);
        const Problem& problem = suggestion.empty() ? unknown_key(member, subject.shape, inner)
                                                    : wrong_unit(member, suggestion, inner);
        if (!problem.nearest.empty()) subject.suggested.push_back(problem.nearest);
        return false;
    }

    bool has_key(const Subject& subject, const std::string& key) {
        if (subject.node.find(key) != nullptr) return true;
        if (!subject.is_suggested(key)) {
            complain(subject.node.begin, subject.pointer, "key_missing",
                     "The " + subject.shape.name + " has no \"" + key + "\".",
                     in_words(*subject.shape.find(key)));
        }
        return false;
    }

    static std::string in_words(const KeyShape& key) {
        if (const auto* constant = std::get_if<ConstantShape>(&key.shape.form)) {
            return "Add it: \"" + key.name + "\": \"" + constant->text + "\".";
        }
        const Unit* unit = unit_of_key(key.name);
        std::string words = "Add it: the " + key.title;
        if (unit != nullptr) words += ", in " + std::string(unit->name);
        return words + '.';
    }

    /// The known key that differs from an unknown one in its unit only.
    static std::string without_unit_as(const JsonNode& member, const ObjectShape& shape) {
        for (const KeyShape& key : shape.keys) {
            const bool has_unit = unit_of_key(key.name) != nullptr;
            if (has_unit && stem_of_key(key.name) == stem_of_key(member.key)) return key.name;
        }
        return {};
    }

    Problem& wrong_unit(const JsonNode& member, const std::string& key,
                        const std::string& pointer) {
        const Unit* written = unit_of_key(member.key);
        const Unit* unit = unit_of_key(key);
        std::string mend = "Write \"" + key + "\", in " + std::string(unit->name);
        if (written != nullptr && member.kind == JsonKind::number) {
            const auto value = converted(member.number, *written, *unit);
            if (value) mend += ": " + short_number(*value);
        }
        const std::string known = "The key " + quoted(member.key);
        Problem& problem = complain(
            member.key_begin, pointer, written == nullptr ? "unit_missing" : "unit_wrong",
            known + (written == nullptr ? " does not say its unit." : " takes another unit here."),
            mend + ".");
        problem.nearest = key;
        return problem;
    }

    Problem& unknown_key(const JsonNode& member, const ObjectShape& shape,
                         const std::string& pointer) {
        std::vector<std::string> names;
        std::vector<std::string> stems;
        for (const KeyShape& key : shape.keys) {
            names.push_back(key.name);
            stems.emplace_back(stem_of_key(key.name));
        }
        std::string nearest = nearest_name(member.key, names);
        if (nearest.empty()) {
            const std::string stem = nearest_name(member.key, stems);
            if (!stem.empty()) nearest = names[position_of(stem, stems)];
        }
        Problem& problem = complain(member.key_begin, pointer, "unknown_key",
                                    "The " + shape.name + " has no key " + quoted(member.key) + ".",
                                    nearest.empty() ? "It may have " + one_of(names) + "."
                                                    : "Did you mean \"" + nearest + "\"?");
        problem.nearest = nearest;
        return problem;
    }

    static std::vector<std::string> present(const JsonNode& node,
                                            const std::vector<std::string>& keys) {
        std::vector<std::string> found;
        for (const std::string& key : keys) {
            if (node.find(key) != nullptr) found.push_back(key);
        }
        return found;
    }

    static bool is_due(const JsonNode& node, const KeyRule& rule) {
        if (rule.when.empty()) return true;
        const JsonNode* value = node.find(rule.when);
        if (value == nullptr) return false;
        return rule.words.empty() ||
               (value->kind == JsonKind::text && std::ranges::count(rule.words, value->text) > 0);
    }

    bool check_rule(const Subject& subject, const KeyRule& rule) {
        if (!is_due(subject.node, rule)) return true;
        const std::vector<std::string> found = present(subject.node, rule.keys);
        switch (rule.kind) {
            case KeyRule::Kind::exactly_one:
            case KeyRule::Kind::needs_one:
                if (found.empty()) return none_of_keys(subject, rule);
                return found.size() == 1 || too_many(subject, found);
            case KeyRule::Kind::at_most_one:
                return found.size() <= 1 || too_many(subject, found);
            case KeyRule::Kind::needs: {
                bool is_good = true;
                for (const std::string& key : rule.keys) is_good &= has_key(subject, key);
                return is_good;
            }
            case KeyRule::Kind::excludes:
                return found.empty() || too_many(subject, {rule.when, found.front()});
        }
        return true;
    }

    bool none_of_keys(const Subject& subject, const KeyRule& rule) {
        const bool is_told = std::ranges::any_of(
            rule.keys, [&](const std::string& key) { return subject.is_suggested(key); });
        if (!is_told) {
            complain(subject.node.begin, subject.pointer, "key_missing",
                     "The " + subject.shape.name + " has neither " +
                         list_in_words(rule.keys, " nor ") + ".",
                     "Add one of them.");
        }
        return false;
    }

    bool too_many(const Subject& subject, const std::vector<std::string>& found) {
        const std::string& last = found.back();
        complain(subject.node.find(last)->key_begin, pointer_to(subject.pointer, last),
                 "keys_exclude", list_in_words(found, " and ") + " can't stand together.",
                 "Keep one of them.");
        return false;
    }

    const JsonTree* tree_;
    ShapeFindings findings_;
};

}  // namespace

ShapeFindings check_shape(const JsonTree& tree, const ObjectShape& root) {
    return ShapeChecker(tree).run(root);
}

}  // namespace sunfleck::scene
