#pragma once

#include "scene/text_form.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// What the values of a scene file may look like: the one description from which come the check of
/// a file, its messages and the published JSON Schema.
namespace sunfleck::scene {

struct Shape;
struct ObjectShape;

struct NumberShape {
    double least = 0.0;
    double most = 0.0;  ///< both included
    bool is_whole = false;
};

struct FlagShape {};

struct TextShape {
    TextForm form = TextForm::free;
};

/// One of a few words.
struct WordShape {
    std::vector<std::string> words;
};

/// The very text.
struct ConstantShape {
    std::string text;
};

/// A list of equal things.
struct ListShape {
    std::vector<Shape> item;  ///< exactly one
    std::size_t fewest = 0;
    std::size_t most = 0;
};

/// A list of numbers that each mean something else, such as a point.
struct TupleShape {
    struct Component {
        std::string title;
        NumberShape number;
    };
    std::vector<Component> components;
};

/// An object whose keys the user chooses; all values are numbers.
struct NumberMapShape {
    NumberShape number;
};

struct Shape {
    std::variant<NumberShape, FlagShape, TextShape, WordShape, ConstantShape, ListShape, TupleShape,
                 NumberMapShape, const ObjectShape*>
        form;
};

enum class Need { optional, required };

/// One key of an object.
struct KeyShape {
    std::string name;   ///< ends in its unit when it holds a measured number
    std::string title;  ///< what it holds, as messages call it: "height of the top"
    std::string doc;    ///< a sentence for the schema
    Need need = Need::optional;
    Shape shape;
    std::string default_json;  ///< empty: none
};

/// A rule about which keys may stand together.
struct KeyRule {
    enum class Kind {
        exactly_one,  ///< of `keys`
        at_most_one,  ///< of `keys`
        needs,        ///< `when` present: all of `keys`
        needs_one,    ///< `when` present: exactly one of `keys`
        excludes,     ///< `when` present: none of `keys`
    };
    Kind kind = Kind::exactly_one;
    std::vector<std::string> keys;
    std::string when;
    std::vector<std::string> words;  ///< `when` must also hold one of these; empty: any value
};

struct ObjectShape {
    std::string name;  ///< "bench": in messages and as the schema's definition
    std::string doc;
    std::vector<KeyShape> keys;
    std::vector<KeyRule> rules;

    [[nodiscard]] const KeyShape* find(std::string_view key) const {
        for (const KeyShape& shape : keys) {
            if (shape.name == key) return &shape;
        }
        return nullptr;
    }
};

}  // namespace sunfleck::scene
