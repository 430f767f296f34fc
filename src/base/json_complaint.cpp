#include "base/json_complaint.h"

#include <algorithm>

namespace sunfleck {

namespace {

/// Looks at the text where the parser stopped. One comma or colon behind the cursor may have been
/// accepted too.
class SyntaxDoctor {
  public:
    SyntaxDoctor(std::string_view text, const JsonStop& stop)
        : text_(text), stop_(stop), at_(stop.cursor) {
        skip_accepted();
        if (is_inside_word()) step_back_to_word();
    }

    [[nodiscard]] JsonComplaint complaint() const {
        JsonComplaint found = diagnosis();
        found.byte = at_;
        found.code = "bad_json";
        found.pointer = stop_.pointer;
        return found;
    }

  private:
    /// Steps over blanks and the one comma or colon that may stand here.
    void skip_accepted() {
        skip_spaces();
        if (at_ < text_.size() && (text_[at_] == ',' || text_[at_] == ':')) {
            const std::size_t mark = at_++;
            skip_spaces();
            if (is_expected(text_[mark])) {
                last_mark_ = text_[mark];
            } else {
                at_ = mark;
            }
        }
    }

    /// In "trueish" the parser took "true" and stopped at the rest.
    [[nodiscard]] bool is_inside_word() const {
        return at_ == stop_.cursor && at_ > 0 && at_ < text_.size() &&
               is_json_letter(text_[at_ - 1]) && is_json_word_part(text_[at_]);
    }
    void step_back_to_word() {
        while (at_ > 0 && is_json_word_part(text_[at_ - 1])) --at_;
    }

    void skip_spaces() {
        while (at_ < text_.size() && is_json_space(text_[at_])) ++at_;
    }

    /// Whether a comma or colon fits behind the last value or key.
    [[nodiscard]] bool is_expected(char mark) const {
        if (is_outside() || is_after_opening()) return false;
        return (mark == ':') == is_after_key();
    }

    [[nodiscard]] JsonComplaint diagnosis() const {
        if (at_ >= text_.size()) return too_early_end();
        const char here = text_[at_];
        if (is_outside() && stop_.has_root) {
            return {.message = "The text goes on after its end.",
                    .mend = "Take out what follows the last closing bracket."};
        }
        if (here == '"') return wrong_string();
        if (here == '\'') {
            return {.message = "Text stands in single quotes here.",
                    .mend = "Write it in double quotes."};
        }
        if (here == '/' || here == '#') {
            return {.message = "JSON has no comments.",
                    .mend = "Take the comment out, or write it as a \"note\"."};
        }
        if (here == '}' || here == ']') return wrong_closing(here);
        if (here == ',' || here == ':') return wrong_mark(here);
        if (is_json_number_part(here)) return wrong_number();
        if (is_json_word_part(here)) return wrong_word();
        return missing_or_odd();
    }

    [[nodiscard]] JsonComplaint too_early_end() const {
        if (is_outside()) {
            return {.message = "There is nothing in this file.",
                    .mend = "A scene begins with { and ends with }."};
        }
        return {.message = "The text ends too early: a bracket is still open.",
                .mend = is_in_object() ? "Close it with }." : "Close it with ]."};
    }

    /// A string that is itself wrong, or that stands where none may.
    [[nodiscard]] JsonComplaint wrong_string() const {
        for (std::size_t i = at_ + 1; i < text_.size() && text_[i] != '"'; ++i) {
            if (static_cast<unsigned char>(text_[i]) < 0x20) {
                return {.message = "This text is not closed on its line.",
                        .mend = "Close it with a double quote; a new line inside is \\n."};
            }
            if (text_[i] != '\\') continue;
            ++i;
            if (i < text_.size() &&
                std::string_view("\"\\/bfnrtu").find(text_[i]) == std::string_view::npos) {
                return {.message = "This text holds a \\ that stands for nothing.",
                        .mend = "Write \\\\ for a backslash."};
            }
        }
        if (is_missing_mark()) return missing_mark();
        return {.message = "This text is not closed, or holds a wrong \\u escape.",
                .mend = "Close it with a double quote; \\u takes four digits 0-9 or a-f."};
    }

    [[nodiscard]] JsonComplaint wrong_closing(char bracket) const {
        if (last_mark_ == ',') {
            return {.message = "There is a comma too many before this bracket.",
                    .mend = "Take the comma out."};
        }
        if (last_mark_ == ':' || is_after_key()) {
            return {.message = "A key has no value.", .mend = "Write its value behind a colon."};
        }
        return {.message = std::string("The bracket ") + bracket + " closes nothing here.",
                .mend = bracket == '}' ? "Did you mean ]?" : "Did you mean }?"};
    }

    [[nodiscard]] JsonComplaint wrong_mark(char mark) const {
        if (mark == ',') {
            return {.message = "There is a comma too many.", .mend = "Take it out."};
        }
        return {.message = "A colon stands where none may.",
                .mend = "A colon stands only between a key and its value."};
    }

    [[nodiscard]] JsonComplaint wrong_number() const {
        if (stop_.is_number_too_large) {
            return {.message = "This number is too large.", .mend = "Check its digits."};
        }
        const bool is_behind_digit =
            stop_.cursor > 0 && is_json_number_part(text_[stop_.cursor - 1]);
        if (last_mark_ == ',' && is_in_object() && is_behind_digit) {
            return {.message = "A number stands where a key is due.",
                    .mend = "Decimals take a point: 0.5, not 0,5."};
        }
        if (is_missing_mark() && at_ != stop_.cursor) return missing_mark();
        return {.message = "This is not a number as JSON writes it.",
                .mend = "Write 0.5, not .5, 5. or +5; and no 0 in front, as in 05."};
    }

    [[nodiscard]] JsonComplaint wrong_word() const {
        std::size_t end = at_;
        while (end < text_.size() && is_json_word_part(text_[end])) ++end;
        std::string word(text_.substr(at_, std::min<std::size_t>(end - at_, 40)));
        std::string mend = "Text, and every key, stands in double quotes: \"" + word + "\".";
        if (word == "True" || word == "False" || word == "None") {
            mend = "Write true, false or null in small letters.";
        } else if (word == "NaN" || word == "nan" || word == "Infinity" || word == "inf") {
            mend = "Write a number, or leave the key out when it is not known.";
        } else if (is_missing_mark() && at_ >= stop_.cursor) {
            return missing_mark();
        }
        return {.message = "The word " + word + " means nothing here.", .mend = mend};
    }

    [[nodiscard]] JsonComplaint missing_or_odd() const {
        if (is_missing_mark()) return missing_mark();
        if (last_mark_ != ':' && is_in_object()) {
            return {.message = "A key is due here.",
                    .mend = "A key is text in double quotes, then a colon and its value."};
        }
        if (begins_with_curly_quote()) {
            return {.message = "A curly quote stands here.",
                    .mend = "JSON takes straight ones only: \". Some writing programs bend them."};
        }
        return {.message = "This character means nothing here.", .mend = "Take it out."};
    }

    /// One of ‘ ’ ‚ ‛ “ ” „ ‟ (U+2018 to U+201F), or of « ».
    [[nodiscard]] bool begins_with_curly_quote() const {
        const std::string_view rest = text_.substr(at_);
        const bool is_bent = rest.size() >= 3 && rest.starts_with("\xE2\x80") &&
                             rest[2] >= '\x98' && rest[2] <= '\x9F';
        return is_bent || rest.starts_with("«") || rest.starts_with("»");
    }

    [[nodiscard]] bool is_outside() const { return stop_.innermost == nullptr; }
    [[nodiscard]] bool is_in_object() const {
        return !is_outside() && stop_.innermost->kind == JsonKind::object;
    }
    [[nodiscard]] bool is_after_opening() const {
        const std::size_t cursor = stop_.cursor;
        return cursor == 0 || text_[cursor - 1] == '{' || text_[cursor - 1] == '[';
    }
    /// Whether the last token was a key still without a value.
    [[nodiscard]] bool is_after_key() const {
        if (!is_in_object() || is_after_opening()) return false;
        const JsonNode& object = *stop_.innermost;
        return object.children.empty() || object.children.back().end < stop_.cursor;
    }
    [[nodiscard]] bool is_missing_mark() const {
        return !is_outside() && last_mark_ == '\0' && !is_after_opening();
    }
    [[nodiscard]] JsonComplaint missing_mark() const {
        if (is_after_key()) {
            return {.message = "A colon is missing before this.",
                    .mend = "Write a colon between a key and its value."};
        }
        return {.message = "A comma is missing before this.",
                .mend = "Write a comma behind the value before it."};
    }

    std::string_view text_;
    JsonStop stop_;
    std::size_t at_;
    char last_mark_ = '\0';
};

}  // namespace

JsonComplaint complaint_about_syntax(std::string_view text, const JsonStop& stop) {
    return SyntaxDoctor(text, stop).complaint();
}

}  // namespace sunfleck
