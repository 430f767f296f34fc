#include "sunfleck/sun/instant_text.h"

#include <array>
#include <charconv>
#include <cstdio>

namespace sunfleck::sun {
namespace {

/// What the text says, before any zone is asked.
struct Written {
    std::optional<Date> date;
    int whole_seconds = 0;  ///< of the day
    double fraction = 0.0;  ///< of a second
    std::optional<int> offset_s;
};

/// Reads a text from its front; each step takes what it reads, or fails and takes nothing.
class Reader {
  public:
    explicit Reader(std::string_view text) : rest_(text) {}

    [[nodiscard]] bool at_end() const { return rest_.empty(); }

    bool take(char c) {
        if (rest_.empty() || rest_.front() != c) return false;
        rest_.remove_prefix(1);
        return true;
    }
    /// Exactly two digits, up to `most`.
    std::optional<int> two_digits(int most) {
        if (rest_.size() < 2 || !is_digit(rest_[0]) || !is_digit(rest_[1])) return std::nullopt;
        const int value = (rest_[0] - '0') * 10 + (rest_[1] - '0');
        if (value > most) return std::nullopt;
        rest_.remove_prefix(2);
        return value;
    }
    /// One to nine digits as the decimals of a number below 1.
    std::optional<double> decimals() {
        double value = 0.0;
        double scale = 0.1;
        std::size_t count = 0;
        for (; count < rest_.size() && is_digit(rest_[count]); ++count) {
            value += scale * (rest_[count] - '0');
            scale /= 10.0;
        }
        if (count == 0 || count > 9) return std::nullopt;
        rest_.remove_prefix(count);
        return value;
    }
    /// A date at the front, when one is there.
    std::optional<Date> date() {
        const auto found = parse_date(rest_.substr(0, 10));
        if (found) rest_.remove_prefix(10);
        return found;
    }
    [[nodiscard]] bool looks_like_date() const { return rest_.size() > 4 && rest_[4] == '-'; }

  private:
    static bool is_digit(char c) { return c >= '0' && c <= '9'; }
    std::string_view rest_;
};

/// "13:30", "13:30:05", "13:30:05.25".
bool read_clock(Reader& reader, Written& written) {
    const auto hour = reader.two_digits(23);
    if (!hour || !reader.take(':')) return false;
    const auto minute = reader.two_digits(59);
    if (!minute) return false;
    written.whole_seconds = *hour * 3600 + *minute * 60;
    if (!reader.take(':')) return true;
    const auto second = reader.two_digits(59);
    if (!second) return false;
    written.whole_seconds += *second;
    if (!reader.take('.') && !reader.take(',')) return true;
    const auto fraction = reader.decimals();
    written.fraction = fraction.value_or(0.0);
    return fraction.has_value();
}

/// "Z", "+01:00", "-0330", "+05", or nothing.
bool read_offset(Reader& reader, Written& written) {
    if (reader.at_end()) return true;
    if (reader.take('Z') || reader.take('z')) {
        written.offset_s = 0;
        return true;
    }
    const bool is_west = reader.take('-');
    if (!is_west && !reader.take('+')) return false;
    const auto hours = reader.two_digits(15);
    if (!hours) return false;
    int seconds = *hours * 3600;
    if (!reader.at_end()) {
        reader.take(':');
        const auto minutes = reader.two_digits(59);
        if (!minutes) return false;
        seconds += *minutes * 60;
    }
    written.offset_s = is_west ? -seconds : seconds;
    return true;
}

std::optional<Written> read(std::string_view text) {
    Reader reader(text);
    Written written;
    if (reader.looks_like_date()) {
        written.date = reader.date();
        if (!written.date) return std::nullopt;
        if (!reader.take('T') && !reader.take('t') && !reader.take(' ')) return std::nullopt;
    }
    if (!read_clock(reader, written) || !read_offset(reader, written) || !reader.at_end()) {
        return std::nullopt;
    }
    return written;
}

std::string quoted(std::string_view text) {
    constexpr std::size_t longest = 60;
    return "\"" + std::string(text.substr(0, longest)) + (text.size() > longest ? "..." : "") +
           "\"";
}

Problem bad_instant(std::string_view text) {
    return {.code = "bad_instant",
            .message = text.empty() ? "A date and time is missing here."
                                    : quoted(text) + " is no date and time.",
            .mend = "Write it as 2026-06-21T13:30, or 2026-06-21T12:30Z for universal time."};
}

Problem skipped_hour(std::string_view text, Date date, const TimeZone& zone) {
    return {.code = "skipped_hour",
            .message = "On " + iso_date(date) + " the clock of " + zone.name() + " skips " +
                       quoted(text) + ".",
            .mend = "Take a time an hour later, or write universal time with Z at its end."};
}

UtcSeconds at(Date date, double seconds) {
    return UtcSeconds::since_1970(days_since_1970(date) * 86400.0 + seconds);
}

}  // namespace

Result<TypedInstant> parse_instant(std::string_view text, const TimeZone& zone, BareTime bare,
                                   std::optional<Date> day) {
    constexpr int first_year = 1900;
    constexpr int last_year = 2100;
    auto written = read(text);
    if (written && !written->date) written->date = day;
    if (!written || !written->date) return failure(bad_instant(text));
    const Date date = *written->date;
    if (year_of(date) < first_year || year_of(date) > last_year) {
        return failure({.code = "year_out_of_range",
                        .message = quoted(text) + " lies outside the years 1900 to 2100.",
                        .mend = "Take a year inside them."});
    }
    if (written->offset_s || bare == BareTime::utc) {
        return TypedInstant{
            at(date, written->whole_seconds - written->offset_s.value_or(0) + written->fraction)};
    }
    const auto instants = zone.instants(date, written->whole_seconds);
    if (instants.empty()) return failure(skipped_hour(text, date, zone));
    return TypedInstant{.instant = instants.front().plus_seconds(written->fraction),
                        .is_doubled = instants.size() > 1};
}

}  // namespace sunfleck::sun
