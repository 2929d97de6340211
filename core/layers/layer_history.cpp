// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/layer_history.h"

#include <algorithm>

namespace midden {

namespace {

/// One for each cell without events, two for those with some, and one at the end.
std::vector<LayerLook> looksOver(const Course& course, Instant asOf, std::size_t cells) {
    std::vector<LayerLook> looks;
    const auto& events = course.events;
    if (events.empty()) {
        return looks;
    }
    const auto seconds = (asOf - events.front().at).count;
    cells = std::clamp<std::size_t>(cells, 1, std::max<std::size_t>(1, static_cast<std::size_t>(seconds)));
    const auto begins = [&](std::size_t cell) {
        const auto length = static_cast<double>(seconds);
        const double share = static_cast<double>(cell) / static_cast<double>(cells);
        return events.front().at + Seconds{static_cast<std::int64_t>(share * length)};
    };
    auto event = events.begin();
    for (std::size_t cell = 0; cell < cells; ++cell) {
        const bool isLast = cell + 1 == cells;
        const auto first = event;
        event = std::find_if(event, events.end(),
                             [&](const Event& each) { return !isLast && each.at >= begins(cell + 1); });
        if (event == first) {
            looks.push_back({begins(cell), false});
        } else {
            looks.push_back({first->at, true});
            looks.push_back({std::prev(event)->at, false});
        }
    }
    if (looks.back().at < asOf) {
        looks.push_back({asOf, false});
    }
    return looks;
}

LayerThen seenAs(const LayersSeen& seen, std::size_t number) {
    const auto& layer = seen.layers[number];
    LayerThen then{seen.pile[number].id, 0, 0, 0, 0, layer.looseLitres, layer.atLeast, layer.longestRun, layer.atMost};
    const unsigned all = (1U << shrinkModels) - 1;
    const unsigned models = seen.shape.kept != 0 ? seen.shape.kept : all;
    bool isFirst = true;
    for (std::size_t k = 0; k < shrinkModels; ++k) {
        if (((models >> k) & 1U) != 0) {
            const double from = seen.pile.below(number, k, seen.shape);
            const double to = seen.pile.below(number + 1, k, seen.shape);
            then.lowestLitres = isFirst ? from : std::min(then.lowestLitres, from);
            then.highestLitres = isFirst ? to : std::max(then.highestLitres, to);
            isFirst = false;
        }
    }
    return then;
}

void note(LayerHistory& history, const LayersSeen& seen) {
    LayerColumn column{seen.look.at, false, seen.shape.kept != 0, {}, {seen.reachesCm.begin(), seen.reachesCm.end()}};
    column.layers.reserve(seen.layers.size());
    double below = 0;
    for (std::size_t number = 0; number < seen.layers.size(); ++number) {
        auto then = seenAs(seen, number);
        then.fromLitres = below;
        then.toLitres = below += seen.layers[number].litres;
        column.layers.push_back(then);
        const auto& layer = seen.pile[number];
        if (history.origins.size() <= layer.id) {
            history.origins.resize(layer.id + 1);
        }
        history.origins[layer.id] = {layer.oldest, layer.youngest, layer.credit.since, layer.raw};
    }
    history.columns.push_back(std::move(column));
}

std::vector<LayerEvent> eventsOf(const Course& course, const FedReckoning& reckoning) {
    std::vector<LayerEvent> events;
    for (const auto& event : course.events) {
        LayerEvent told{event.at, event.kind, {}};
        switch (event.kind) {
            case EventKind::feed:
                told.amount = course.feeds[event.number].litres;
                break;
            case EventKind::level:
                told.amount = course.levels[event.number].centimetres;
                break;
            case EventKind::turned:
                break;
            case EventKind::forked:
                told.amount = course.mixings[event.number].depthCm;
                break;
            case EventKind::drawn:
                told.amount = reckoning.harvests[event.number].litres;
                break;
        }
        events.push_back(told);
    }
    return events;
}

}  // namespace

LayerHistory layersOverTime(const FedRecord& record, std::size_t cells, const LayerRules& rules) {
    const auto course = courseOf(record, rules);
    const auto looks = looksOver(course, record.asOf, cells);
    LayerHistory history;
    LayerWatch watch{looks, [&](const LayersSeen& seen) { note(history, seen); }};
    history.reckoning = reckonFed(record, rules, watch);
    history.events = eventsOf(course, history.reckoning);
    for (std::size_t i = 1; i < history.columns.size(); ++i) {
        history.columns[i].follows = looks[i].beforeEvents || !looks[i - 1].beforeEvents;
    }
    return history;
}

}  // namespace midden
