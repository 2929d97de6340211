// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/events.h"

#include <algorithm>
#include <tuple>

namespace midden {

namespace {

/// Those up to `asOf`, in time order.
template <class Entry>
std::vector<Entry> inOrder(std::vector<Entry> entries, Instant asOf) {
    std::erase_if(entries, [&](const Entry& entry) { return entry.at > asOf; });
    std::sort(entries.begin(), entries.end());
    return entries;
}

template <class Entry, class KindOf>
void addEvents(std::vector<Event>& events, const std::vector<Entry>& entries, KindOf kindOf) {
    for (std::size_t number = 0; number < entries.size(); ++number) {
        events.push_back({entries[number].at, kindOf(entries[number]), number});
    }
}

}  // namespace

Course courseOf(const FedRecord& record, const LayerRules& rules) {
    Course course{feedsOf(inOrder(record.additions, record.asOf), rules),
                  inOrder(record.levels, record.asOf),
                  inOrder(record.mixings, record.asOf),
                  inOrder(record.drawings, record.asOf),
                  {}};
    auto& events = course.events;
    addEvents(events, course.feeds, [](const Feed&) { return EventKind::feed; });
    addEvents(events, course.levels, [](const Level&) { return EventKind::level; });
    addEvents(events, course.mixings,
              [](const Mixing& mixing) { return mixing.forked ? EventKind::forked : EventKind::turned; });
    addEvents(events, course.drawings, [](const Drawing&) { return EventKind::drawn; });
    std::sort(events.begin(), events.end(), [](const Event& a, const Event& b) {
        return std::tie(a.at, a.kind, a.number) < std::tie(b.at, b.kind, b.number);
    });
    return course;
}

}  // namespace midden
