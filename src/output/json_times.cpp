#include "output/json_envelope.h"

namespace sunfleck::output {

Json utc_or_null(const std::optional<UtcSeconds>& instant) {
    return instant ? Json(sun::utc_text(*instant)) : Json(nullptr);
}

Json local_or_null(const std::optional<UtcSeconds>& instant, const sun::TimeZone& zone) {
    return instant ? Json(sun::local_text(*instant, zone)) : Json(nullptr);
}

}  // namespace sunfleck::output
