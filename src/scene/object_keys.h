#pragma once

#include "scene/key_unit.h"
#include "scene/value_shape.h"
#include "sunfleck/base/date.h"
#include "sunfleck/base/json_text.h"
#include "sunfleck/base/json_tree.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/base/require.h"
#include "sunfleck/base/unicode_text.h"
#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/scene/plan_frame.h"
#include "sunfleck/scene/scene.h"

#include <cmath>
#include <concepts>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <unordered_set>
#include <utility>
#include <vector>

/// The one table of keys per object: each key with its shape and where its value goes. From the
/// table come the check of a file (through its ObjectShape), the schema, reading and writing.
namespace sunfleck::scene {

/// A value of the tree with its JSON pointer.
struct Value {
    const JsonNode* node = nullptr;
    std::string pointer;
    const JsonNode* operator->() const { return node; }
    [[nodiscard]] Value item(std::size_t index) const {
        return {&node->children[index], pointer_to(pointer, index)};
    }
};

/// What reading values needs to know, and where it tells what is wrong with them.
struct Reading {
    const JsonTree* tree = nullptr;
    /// Values that have their shape; what is wrong with others was told, and they are passed over.
    const std::unordered_set<const JsonNode*>* sound = nullptr;
    Problems* problems = nullptr;
    // Known once the site and the ground are read, which come first.
    Angle plan_up_bearing;
    std::optional<Angle> magnetic_declination;
    const PlanFrame* frame = nullptr;

    [[nodiscard]] bool is_sound(const JsonNode& node) const { return sound->count(&node) > 0; }
    void complain(const Value& value, std::string code, std::string message,
                  std::string mend) const;
};

/// Which of the three kinds of bearing a key holds.
enum class BearingKind { geographic, magnetic, plan };
/// The true bearing, 0 to 360 degrees.
[[nodiscard]] Angle true_bearing(const Value& value, BearingKind kind, const Reading& reading);

/// The text of a value in key units, to the 12 digits that survive the change of unit.
[[nodiscard]] std::string number_in_key_unit(double inside, double divisor);
/// What an inside value is multiplied by to be in the key's unit: 100 for "_cm".
[[nodiscard]] double divisor_of_key(std::string_view key);

/// Complains of an object whose id holds what is neither letter nor digit nor '_'.
void check_letters(const Value& object, const std::string& id, const Reading& reading);

/// A place within a part of the object: within(&Draft::bench)(&Bench::bearing).
template <typename Outer, typename Inner>
[[nodiscard]] auto within(Inner Outer::*part) {
    return [part](auto member) {
        return [ part, member ](auto& object) -> auto& {
            return object.*part.*member;
        };
    };
}

/// Whether the text is a number between the bounds.
[[nodiscard]] bool is_number_within(std::string_view text, double least, double most);

// How a number of a file becomes a value of the scene, and back.
inline void put(double value, double divisor, double& inside) {
    inside = value / divisor;
}
inline void put(double value, double, int& inside) {
    inside = static_cast<int>(value);
}
inline void put(double value, double, Angle& inside) {
    inside = Angle::degrees(value);
}
inline void put(double value, double, Latitude& inside) {
    inside = Latitude::degrees(value);
}
inline void put(double value, double, Longitude& inside) {
    inside = Longitude::degrees(value);
}
template <typename Inside>
void put(double value, double divisor, std::optional<Inside>& inside) {
    put(value, divisor, inside.emplace());
}
[[nodiscard]] inline std::string taken(double inside, double divisor) {
    return number_in_key_unit(inside, divisor);
}
[[nodiscard]] inline std::string taken(int inside, double) {
    return std::to_string(inside);
}
[[nodiscard]] inline std::string taken(Angle inside, double) {
    return number_in_key_unit(inside.in_degrees(), 1.0);
}
[[nodiscard]] inline std::string taken(Latitude inside, double) {
    return number_in_key_unit(inside.in_degrees(), 1.0);
}
[[nodiscard]] inline std::string taken(Longitude inside, double) {
    return number_in_key_unit(inside.in_degrees(), 1.0);
}
template <typename Inside>
[[nodiscard]] std::string taken(const std::optional<Inside>& inside, double divisor) {
    return inside ? taken(*inside, divisor) : std::string();
}

// Texts that mean a day.
inline void put_text(const std::string& text, std::string& inside) {
    inside = nfc(text);
}
inline void put_text(const std::string& text, MonthDay& inside) {
    inside = *parse_month_day(text);
}
[[nodiscard]] inline std::string taken_text(const std::string& inside) {
    return inside;
}
[[nodiscard]] inline std::string taken_text(const MonthDay& inside) {
    return inside.ok() ? iso_month_day(inside) : std::string();
}
template <typename Inside>
void put_text(const std::string& text, std::optional<Inside>& inside) {
    put_text(text, inside.emplace());
}
template <typename Inside>
[[nodiscard]] std::string taken_text(const std::optional<Inside>& inside) {
    return inside ? taken_text(*inside) : std::string();
}

/// The words of an enum, in files.
template <typename Enum>
using WordsOf = std::vector<std::pair<std::string, Enum>>;

/// Name, title and sentence of a key; see KeyShape.
struct KeyHead {
    std::string name;
    std::string title;
    std::string doc;
    Need need = Need::optional;
};

struct Range {
    double least = 0.0;
    double most = 0.0;  ///< both included
};

struct Count {
    std::size_t fewest = 0;
    std::size_t most = 0;
};

/// The keys of the objects that become a T. A place says where a value goes in a T: a pointer to a
/// member, or a function from T& to a reference.
template <typename T>
class ObjectKeys {
  public:
    ObjectKeys(std::string name, std::string doc)
        : shape_(
              std::make_unique<ObjectShape>(ObjectShape{std::move(name), std::move(doc), {}, {}})) {
    }

    [[nodiscard]] const ObjectShape& shape() const { return *shape_; }

    /// A measured number; kept inside in the unit that its place has (see put).
    template <typename Place>
    void number(KeyHead head, Range range, Place place) {
        const double divisor = divisor_of_key(head.name);
        std::string default_json = taken(std::invoke(place, std::as_const(blank_)), divisor);
        if (!is_number_within(default_json, range.least, range.most)) default_json.clear();
        using Inside = std::remove_cvref_t<std::invoke_result_t<Place, T&>>;
        const bool is_whole = std::same_as<Inside, int> || std::same_as<Inside, std::optional<int>>;
        add(
            std::move(head), {NumberShape{range.least, range.most, is_whole}}, default_json,
            [place, divisor](T& object, const Value& value_read, const Reading&) {
                put(value_read->number, divisor, std::invoke(place, object));
            },
            [place, divisor, range](const T& object) {
                // A value outside its range, such as a size of 0, is one that was not given.
                std::string text = taken(std::invoke(place, object), divisor);
                if (!is_number_within(text, range.least, range.most)) text.clear();
                return text;
            });
    }

    template <typename Place>
    void flag(KeyHead head, Place place) {
        const auto text = [place](const T& object) {
            return std::string(std::invoke(place, object) ? "true" : "false");
        };
        add(
            std::move(head), {FlagShape{}}, text(blank_),
            [place](T& object, const Value& value, const Reading&) {
                std::invoke(place, object) = value->boolean;
            },
            text);
    }

    /// Text, brought to NFC.
    template <typename Place>
    void text(KeyHead head, TextForm form, Place place) {
        add(
            std::move(head), {TextShape{form}}, {},
            [place](T& object, const Value& value, const Reading&) {
                put_text(value->text, std::invoke(place, object));
            },
            [place](const T& object) {
                const std::string inside = taken_text(std::invoke(place, object));
                return inside.empty() ? inside : json_quoted(inside);
            });
    }

    template <typename Enum, typename Place>
    void word(KeyHead head, WordsOf<Enum> words, Place place) {
        WordShape shape;
        for (const auto& [word, meaning] : words) shape.words.push_back(word);
        const auto word_of = [place, words](const T& object) {
            const std::optional<Enum> inside = std::invoke(place, object);
            for (const auto& [word, meaning] : words) {
                if (inside == meaning) return json_quoted(word);
            }
            return std::string();
        };
        add(
            std::move(head), {shape}, word_of(blank_),
            [place, words](T& object, const Value& value, const Reading&) {
                for (const auto& [word, meaning] : words) {
                    if (word == value->text) std::invoke(place, object) = meaning;
                }
            },
            word_of);
    }

    /// A text that only has to be there.
    void constant(KeyHead head, std::string text) {
        add(std::move(head), {ConstantShape{std::move(text)}}, {}, {}, {});
    }

    /// The keys id and name.
    template <typename Place>
    void label(const std::string& thing, Place place) {
        text(
            {"id", "id", "Unique in the scene: letters of any script, digits and _.",
             Need::required},
            TextForm::id, [place](auto& object) -> auto& { return std::invoke(place, object).id; });
        text(
            {"name", "name", "What the " + thing + " is called; its id when left out."},
            TextForm::free, [place](auto& object) -> auto& {
                return std::invoke(place, object).name;
            });
        finishers_.push_back([place](T& object, const Value& value, const Reading& reading) {
            Label& label = std::invoke(place, object);
            label.pointer = value.pointer;
            check_letters(value, label.id, reading);
            if (label.name.empty()) label.name = label.id;
        });
    }

    /// The three keys of a bearing, of which one may stand, or must.
    template <typename Place>
    void bearing(const std::string& stem, const std::string& doc, Need need, Place place) {
        const std::string title = stem == "bearing" ? "bearing" : "bearing of the ridge";
        const auto add_kind = [&](const std::string& key, const std::string& how,
                                  BearingKind kind) {
            add({key, title, doc + how}, {NumberShape{0.0, 360.0}}, {},
                [place, kind](T& object, const Value& value, const Reading& reading) {
                    std::invoke(place, object) = true_bearing(value, kind, reading);
                },
                {});
        };
        add_kind(stem + "_deg", " Clockwise from true north.", BearingKind::geographic);
        add_kind(stem + "_magnetic_deg",
                 " By the compass; the site's magnetic declination is added.",
                 BearingKind::magnetic);
        add_kind(stem + "_plan_deg", " Clockwise from the plan's up.", BearingKind::plan);
        rule({.kind =
                  need == Need::required ? KeyRule::Kind::exactly_one : KeyRule::Kind::at_most_one,
              .keys = {stem + "_deg", stem + "_magnetic_deg", stem + "_plan_deg"}});
    }

    /// A list of numbers.
    template <typename Place>
    void numbers(KeyHead head, Range range, Count count, Place place) {
        const double divisor = divisor_of_key(head.name);
        add(std::move(head), {list_shape({NumberShape{range.least, range.most}}, count)}, {},
            [place, divisor](T& object, const Value& value, const Reading&) {
                auto& list = std::invoke(place, object);
                for (const JsonNode& item : value->children) {
                    put(item.number, divisor, list.emplace_back());
                }
            },
            {});
    }

    /// A list of texts.
    template <typename Place>
    void texts(KeyHead head, TextForm form, Count count, Place place) {
        add(
            std::move(head), {list_shape({TextShape{form}}, count)}, {},
            [place](T& object, const Value& value, const Reading&) {
                for (const JsonNode& item : value->children) {
                    std::invoke(place, object).push_back(nfc(item.text));
                }
            },
            [place](const T& object) {
                std::string list;
                for (const std::string& item : std::invoke(place, object)) {
                    list += (list.empty() ? "[" : ", ") + json_quoted(item);
                }
                return list.empty() ? list : list + "]";
            });
    }

    /// A list of tuples of numbers; `add_item` takes one item's numbers.
    template <typename AddItem>
    void tuples(KeyHead head, std::vector<TupleShape::Component> components, Count count,
                AddItem add_item) {
        add(std::move(head), {list_shape({TupleShape{std::move(components)}}, count)}, {},
            [add_item](T& object, const Value& value, const Reading&) {
                for (const JsonNode& item : value->children) {
                    std::vector<double> numbers;
                    for (const JsonNode& part : item.children) numbers.push_back(part.number);
                    add_item(object, numbers);
                }
            },
            {});
    }

    /// A list of points of the plan.
    template <typename Place>
    void points(KeyHead head, Count count, Place place) {
        tuples(std::move(head), {{"x", plan_range}, {"y", plan_range}}, count,
               [place](T& object, const std::vector<double>& numbers) {
                   std::invoke(place, object).push_back({numbers[0], numbers[1]});
               });
    }

    /// The keys x_m and y_m.
    template <typename Place>
    void position(const std::string& what, Need need, Place place) {
        number(
            {"x_m", "x", "Of " + what + ", to the right in the plan.", need},
            {plan_range.least, plan_range.most}, [place](auto& object) -> auto& {
                return std::invoke(place, object).x;
            });
        number(
            {"y_m", "y", "Of " + what + ", up in the plan.", need},
            {plan_range.least, plan_range.most}, [place](auto& object) -> auto& {
                return std::invoke(place, object).y;
            });
    }

    /// The key z_m where it says the level of the ground under the object.
    template <typename Place>
    void base_level(Place place) {
        number({"z_m", "level of the ground",
                "Level of the ground under the anchor above the plan's origin, in place of the "
                "sloping ground's: for a balcony or a terrace."},
               {-200.0, 200.0}, place);
    }

    /// One object inside.
    template <typename Inner, typename Place>
    void object(KeyHead head, const ObjectKeys<Inner>& keys, Place place) {
        add(
            std::move(head), {&keys.shape()}, {},
            [&keys, place](T& object, const Value& value, const Reading& reading) {
                std::invoke(place, object) = keys.read(value, reading);
            },
            [&keys, place](const T& object) {
                const std::optional<Inner> inner = std::invoke(place, object);
                return inner ? keys.json(*inner) : std::string();
            });
    }

    /// A list of objects; `finished` makes of what was read the item to append. Items in which
    /// something is wrong are left out.
    template <typename Inner, typename Place, typename Finish>
    void objects(KeyHead head, const ObjectKeys<Inner>& keys, Count count, Place place,
                 Finish finished) {
        add(std::move(head), {list_shape({&keys.shape()}, count)}, {},
            [&keys, place, finished](T& object, const Value& value, const Reading& reading) {
                if (value->kind != JsonKind::array) return;
                for (std::size_t i = 0; i < value->children.size(); ++i) {
                    const Value item = value.item(i);
                    if (!reading.is_sound(*item.node)) continue;
                    const std::size_t told = reading.problems->size();
                    auto made = finished(keys.read(item, reading), item, reading);
                    if (reading.problems->size() > told) continue;
                    std::invoke(place, object).push_back(std::move(made));
                }
            },
            {});
    }
    template <typename Inner, typename Place>
    void objects(KeyHead head, const ObjectKeys<Inner>& keys, Count count, Place place) {
        objects(std::move(head), keys, count, place,
                [](Inner&& inner, const Value&, const Reading&) { return std::move(inner); });
    }

    /// Numbers under names that the user chooses.
    template <typename Place>
    void number_map(KeyHead head, Range range, Place place) {
        add(std::move(head), {NumberMapShape{{range.least, range.most}}}, {},
            [place](T& object, const Value& value, const Reading&) {
                for (const JsonNode& member : value->children) {
                    std::invoke(place, object)[member.key] = member.number;
                }
            },
            {});
    }

    /// A key with a meaning of its own.
    void key(KeyHead head, Shape shape, std::function<void(T&, const Value&, const Reading&)> store,
             std::function<std::string(const T&)> json = {}) {
        add(std::move(head), std::move(shape), {}, std::move(store), std::move(json));
    }

    void rule(KeyRule rule) { shape_->rules.push_back(std::move(rule)); }

    /// The user's own remark, which every object may carry.
    void note() {
        add({"note", "note", "Anything the owner wants to remember; not used."},
            {TextShape{TextForm::note}}, {}, {}, {});
    }

    /// The object that a value of this shape holds. Keys are taken in the table's order.
    [[nodiscard]] T read(const Value& value, const Reading& reading) const {
        T object{};
        for (std::size_t i = 0; i < stores_.size(); ++i) {
            const std::string& name = shape_->keys[i].name;
            const JsonNode* member = value->find(name);
            if (member == nullptr || !stores_[i]) continue;
            if (!reading.is_sound(*member) && !is_partly_readable(shape_->keys[i])) continue;
            stores_[i](object, {member, pointer_to(value.pointer, name)}, reading);
        }
        for (const auto& finish : finishers_) finish(object, value, reading);
        return object;
    }

    /// The object as JSON on one line; keys with their default are left out. Empty when nothing
    /// is left. Only for objects all of whose keys can be written back.
    [[nodiscard]] std::string json(const T& object) const {
        std::string text;
        for (std::size_t i = 0; i < writers_.size(); ++i) {
            const KeyShape& key = shape_->keys[i];
            if (!writers_[i]) continue;
            const std::string value = writers_[i](object);
            if (value.empty() || (key.need == Need::optional && value == key.default_json))
                continue;
            text += (text.empty() ? "{" : ", ") + json_quoted(key.name) + ": " + value;
        }
        return text.empty() ? text : text + "}";
    }

  private:
    static constexpr NumberShape plan_range{-2000.0, 2000.0};

    static ListShape list_shape(Shape item, Count count) {
        return {{std::move(item)}, count.fewest, count.most};
    }

    /// A list of objects, or an object, gives its good parts when other parts are wrong.
    static bool is_partly_readable(const KeyShape& key) {
        if (std::holds_alternative<const ObjectShape*>(key.shape.form)) return true;
        const auto* list = std::get_if<ListShape>(&key.shape.form);
        return list != nullptr && std::holds_alternative<const ObjectShape*>(list->item[0].form);
    }

    void add(KeyHead head, Shape shape, std::string default_json,
             std::function<void(T&, const Value&, const Reading&)> store,
             std::function<std::string(const T&)> writer) {
        SUNFLECK_REQUIRE(shape_->find(head.name) == nullptr, "a key is in its table twice");
        if (head.need == Need::required) default_json.clear();
        shape_->keys.push_back({std::move(head.name), std::move(head.title), std::move(head.doc),
                                head.need, std::move(shape), std::move(default_json)});
        stores_.push_back(std::move(store));
        writers_.push_back(std::move(writer));
    }

    T blank_{};
    std::unique_ptr<ObjectShape> shape_;  ///< others point at it
    std::vector<std::function<void(T&, const Value&, const Reading&)>> stores_;
    std::vector<std::function<std::string(const T&)>> writers_;
    std::vector<std::function<void(T&, const Value&, const Reading&)>> finishers_;
};

}  // namespace sunfleck::scene
