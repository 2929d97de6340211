// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/layers/fed_record.h"

namespace midden {

/// In the order in which they count where they were at one instant. Readings come before all of them.
enum class EventKind : std::uint8_t { feed = 0, level = 1, turned = 2, forked = 3, drawn = 4 };

/// Something that happened to a fed bin.
struct Event {
    Instant at;
    EventKind kind{};
    std::size_t number = 0;  ///< in its list: feeds, or, each in time order, levels, mixings, drawings
};

/// A fed record in its own time, whatever the order it was written down in, up to its `asOf`.
struct Course {
    std::vector<Feed> feeds;
    std::vector<Level> levels;
    std::vector<Mixing> mixings;
    std::vector<Drawing> drawings;
    std::vector<Event> events;  ///< all of them
};

Course courseOf(const FedRecord& record, const LayerRules& rules);

/// Layers are mixed or go: no reading before it says anything of the time after.
constexpr bool movesLayers(EventKind kind) {
    return kind == EventKind::turned || kind == EventKind::forked || kind == EventKind::drawn;
}

}  // namespace midden
