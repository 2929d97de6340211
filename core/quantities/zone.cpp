// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quantities/zone.h"

#include <date/tz.h>
#include <fmt/core.h>

#include <chrono>

namespace midden {

namespace {

const date::time_zone& zoneOf(const void* zone) {
    return *static_cast<const date::time_zone*>(zone);
}

Moment momentOf(const WallTime& wall, std::chrono::seconds ahead) {
    const UtcOffset offset{static_cast<std::int16_t>(std::chrono::duration_cast<std::chrono::minutes>(ahead).count())};
    return {instantOf(wall, offset), offset};
}

}  // namespace

Result<TimeZone> TimeZone::named(std::string_view name) {
    try {
        return TimeZone{date::locate_zone(name)};
    } catch (const std::runtime_error&) {
        return refused(fmt::format("\"{}\" is not a time zone known to this computer", name),
                       "a name such as Europe/London or UTC");
    }
}

TimeZone TimeZone::utc() {
    return TimeZone{date::locate_zone("UTC")};
}

std::string TimeZone::name() const {
    return zoneOf(zone_).name();
}

Moment TimeZone::momentAt(Instant at) const {
    const auto info = zoneOf(zone_).get_info(date::sys_seconds{std::chrono::seconds{at.utcSeconds}});
    return {at, {static_cast<std::int16_t>(std::chrono::duration_cast<std::chrono::minutes>(info.offset).count())}};
}

WallMeaning TimeZone::meaningOf(const WallTime& wall) const {
    const date::local_seconds local{std::chrono::seconds{instantOf(wall, {}).utcSeconds}};
    const auto info = zoneOf(zone_).get_info(local);
    if (info.result == date::local_info::nonexistent) {
        return NoSuchTime{};
    }
    if (info.result == date::local_info::ambiguous) {
        return TwoTimes{momentOf(wall, info.first.offset), momentOf(wall, info.second.offset)};
    }
    return momentOf(wall, info.first.offset);
}

}  // namespace midden
