// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quantities/zone.h"

#include <date/tz.h>
#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <chrono>

namespace midden {

namespace {

const date::time_zone& zoneOf(const void* zone) {
    return *static_cast<const date::time_zone*>(zone);
}

/// What the IANA database also calls UTC.
constexpr std::array<std::string_view, 7> namesOfUtc{"Etc/UTC",   "Etc/UCT",  "UCT", "Etc/Universal",
                                                     "Universal", "Etc/Zulu", "Zulu"};

Moment momentOf(const WallTime& wall, std::chrono::seconds ahead) {
    const UtcOffset offset{static_cast<std::int16_t>(std::chrono::duration_cast<std::chrono::minutes>(ahead).count())};
    return {instantOf(wall, offset), offset};
}

}  // namespace

Result<TimeZone> TimeZone::named(std::string_view name) {
    if (name == "UTC") {
        return utc();
    }
    try {
        const auto* zone = date::locate_zone(name);
        zone->get_info(date::sys_seconds{});  // its file is read now, not when a time is asked for
        return TimeZone{zone};
    } catch (const std::exception&) {
        if (std::ranges::find(namesOfUtc, name) != namesOfUtc.end()) {
            return utc();
        }
        return refused(fmt::format("\"{}\" is not a time zone known to this computer", name),
                       "a name such as Europe/London or UTC");
    }
}

/// Its zone is none: it needs no database.
TimeZone TimeZone::utc() {
    return TimeZone{nullptr};
}

std::string TimeZone::name() const {
    return zone_ == nullptr ? "UTC" : zoneOf(zone_).name();
}

Moment TimeZone::momentAt(Instant at) const {
    if (zone_ == nullptr) {
        return {at, {}};
    }
    const auto info = zoneOf(zone_).get_info(date::sys_seconds{std::chrono::seconds{at.utcSeconds}});
    return {at, {static_cast<std::int16_t>(std::chrono::duration_cast<std::chrono::minutes>(info.offset).count())}};
}

WallMeaning TimeZone::meaningOf(const WallTime& wall) const {
    if (zone_ == nullptr) {
        return Moment{instantOf(wall, {}), {}};
    }
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
