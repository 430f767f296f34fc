#include "sunfleck/output/words.h"

namespace sunfleck::output {

std::string clock_words_at(UtcSeconds instant, const sun::TimeZone& zone) {
    return clock_words(zone.clock(instant).seconds_of_day);
}

std::string rounded_clock_words_at(UtcSeconds instant, const sun::TimeZone& zone) {
    return rounded_clock_words(zone.clock(instant).seconds_of_day);
}

std::string clock_range_words(UtcSeconds from, UtcSeconds to, const sun::TimeZone& zone) {
    return rounded_clock_words_at(from, zone) + " to " + rounded_clock_words_at(to, zone);
}

}  // namespace sunfleck::output
