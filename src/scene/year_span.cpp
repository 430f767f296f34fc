#include "sunfleck/scene/scene.h"

namespace sunfleck::scene {

bool YearSpan::contains(Date date) const {
    const Date first = in_year(from, year_of(date));
    const Date last = in_year(to, year_of(date));
    if (from <= to) return first <= date && date <= last;
    return date >= first || date <= last;  // passes new year
}

int year_for(const Scene& scene, std::optional<int> asked) {
    return asked.value_or(scene.site.year.value_or(default_year));
}

}  // namespace sunfleck::scene
