// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/outlook.h"

#include <algorithm>

#include "core/review/target_progress.h"
#include "core/thermal/credit.h"
#include "core/thermal/trend.h"

namespace midden {

namespace {

struct View {
    const BatchRecord& record;
    const OutlookSettings& settings;
    std::vector<Round> rounds;
    TargetProgress progress;
    Instant lastEntry;
};

std::optional<Instant> curingSince(const View& view) {
    const auto& seen = view.record.observations;
    const auto curing = std::find_if(seen.rbegin(), seen.rend(),
                                     [](const Observation& one) { return one.kind == ObservationKind::curing; });
    if (curing == seen.rend()) {
        return std::nullopt;
    }
    const bool hotAgain = std::any_of(view.rounds.begin(), view.rounds.end(), [&](const Round& round) {
        return round.at > curing->when.at && round.warmest >= view.settings.stalls.hot;
    });
    return hotAgain ? std::nullopt : std::optional{curing->when.at};
}

Phase phaseOf(const View& view, const BinOutlook& outlook) {
    if (view.rounds.empty()) {
        return Phase::unread;
    }
    if (outlook.curingSince) {
        return Phase::curing;
    }
    if (outlook.stall) {
        return Phase::stalled;
    }
    const auto isHot = [&](const Round& round) { return round.warmest >= view.settings.stalls.hot; };
    if (isHot(view.rounds.back())) {
        return Phase::hot;
    }
    return std::any_of(view.rounds.begin(), view.rounds.end(), isHot) ? Phase::cooling : Phase::heating;
}

std::optional<RunningHold> holdOf(const View& view) {
    const auto& target = view.settings.stalls.target;
    const auto since = view.progress.holdingSince(view.lastEntry);
    const auto lastCommon = view.progress.lastCommonReading();
    if (!since || !lastCommon) {
        return std::nullopt;
    }
    const Seconds credited = view.progress.runningRun(view.lastEntry);
    return RunningHold{*since, credited, std::max(Seconds{}, target.hold - credited), *since + target.hold,
                       *lastCommon + target.maxGap};
}

void breakHold(BinOutlook& outlook) {
    if (outlook.hold->credited.count > 0) {
        outlook.broken = BrokenHold{outlook.hold->readBy, outlook.hold->credited};
    }
    outlook.hold.reset();
}

/// The readings of the trend's window after the last gap.
template <class Items, class ValueOf>
std::vector<HeatPoint> recent(const Items& items, const OutlookSettings& settings, ValueOf valueOf) {
    std::vector<HeatPoint> points;
    for (auto item = items.rbegin(); item != items.rend(); ++item) {
        const bool isOld = items.back().at - item->at > settings.trend;
        const bool isBeyondGap = !points.empty() && points.back().at - item->at > settings.stalls.target.maxGap;
        if (isOld || isBeyondGap || points.size() >= mostTrendReadings) {
            break;
        }
        points.push_back({item->at, valueOf(*item)});
    }
    std::reverse(points.begin(), points.end());
    return points;
}

std::optional<Instant> breaksHold(const View& view, const RunningHold& hold) {
    std::optional<Instant> first;
    for (const Track* track : monitoredTracks(view.record)) {
        const auto points = recent(track->samples, view.settings, [](const Sample& sample) {
            return (sample.temperature() - sample.allowance()).value();
        });
        const auto at = fallsThrough(points, view.settings.stalls.target.threshold.value(), hold.completes);
        if (at && (!first || *at < *first)) {
            first = at;
        }
    }
    return first;
}

std::optional<Instant> goesCold(const View& view, const BinOutlook& outlook) {
    const auto points = recent(view.rounds, view.settings, [](const Round& round) { return round.warmest.value(); });
    const Instant completes =
        outlook.hold ? outlook.hold->completes : view.lastEntry + view.settings.stalls.target.hold;
    return fallsThrough(points, view.settings.stalls.hot.value(), completes);
}

/// When a reading will tell a stall from a bad moment: so long after the first of the cold rounds at the end.
Instant coldIsTold(const View& view) {
    const auto hot = std::find_if(view.rounds.rbegin(), view.rounds.rend(),
                                  [&](const Round& round) { return round.warmest >= view.settings.stalls.hot; });
    return hot.base()->at + view.settings.stalls.span;
}

void addCold(const View& view, BinOutlook& outlook) {
    if (outlook.phase == Phase::cooling) {
        outlook.due.push_back({DueKind::wentCold, coldIsTold(view)});
    } else if (const auto at = goesCold(view, outlook)) {
        outlook.due.push_back({DueKind::willGoCold, at});
    }
}

void addWarnings(const View& view, BinOutlook& outlook) {
    const auto& settings = view.settings;
    if (outlook.last && outlook.last->warmest >= settings.tooHot) {
        outlook.due.push_back({DueKind::openUp, {}});
    }
    if (outlook.stall) {
        outlook.due.push_back({DueKind::findCause, {}});
    }
    const bool isPending = !view.record.batch.fed && !outlook.targetShown && !outlook.stall && !outlook.curingSince;
    if (isPending && outlook.hold) {
        if (const auto at = breaksHold(view, *outlook.hold)) {
            outlook.due.push_back({DueKind::holdWillBreak, at});
        }
    }
    if (isPending) {
        addCold(view, outlook);
    }
    if (outlook.last && outlook.last->warmest >= settings.warm && outlook.last->warmest < settings.tooHot) {
        outlook.due.push_back({DueKind::watchHeat, {}});
    }
}

void addReadings(const View& view, BinOutlook& outlook) {
    if (outlook.broken && !outlook.targetShown) {
        outlook.due.push_back({DueKind::holdBroke, outlook.broken->at});
    }
    if (outlook.hold && !outlook.targetShown) {
        outlook.due.push_back({DueKind::keepHold, outlook.hold->readBy});
        outlook.due.push_back({DueKind::completeHold, outlook.hold->completes});
    }
    if (outlook.phase == Phase::curing) {
        return;
    }
    outlook.due.push_back({DueKind::takeReading, outlook.last
                                                     ? std::optional{outlook.last->at + view.settings.betweenRounds}
                                                     : std::nullopt});
}

}  // namespace

std::string nameOf(Phase phase) {
    switch (phase) {
        case Phase::unread:
            return "not read yet";
        case Phase::heating:
            return "heating up";
        case Phase::hot:
            return "hot";
        case Phase::cooling:
            return "cooling";
        case Phase::stalled:
            return "stalled";
        case Phase::curing:
            return "curing";
    }
    return {};
}

BinOutlook outlookOf(const BatchRecord& record, const std::vector<Stall>& stalls, const OutlookSettings& settings,
                     const Materials& materials) {
    const View view{record,
                    settings,
                    roundsOf(record, settings.stalls.round),
                    {record, settings.stalls.target, materials},
                    lastEntryOf(record)};
    BinOutlook outlook;
    if (!view.rounds.empty()) {
        outlook.last = view.rounds.back();
    }
    outlook.curingSince = curingSince(view);
    outlook.targetShown = view.progress.isShown(view.lastEntry);
    outlook.credited = view.progress.longestRun(view.lastEntry);
    outlook.asRead =
        TargetProgress{record, settings.stalls.target, materials, Allowance::ignored}.longestRun(view.lastEntry);
    outlook.missing = std::max(Seconds{}, settings.stalls.target.hold - outlook.credited);
    if (!record.batch.fed) {
        outlook.hold = holdOf(view);
    }
    outlook = outlookAt(std::move(outlook), view.lastEntry);
    if (!stalls.empty() && !stalls.back().to && !record.batch.finished) {
        outlook.stall = stalls.back();
    }
    outlook.phase = phaseOf(view, outlook);
    outlook.projection = projectionOf(view.rounds, settings);
    addWarnings(view, outlook);
    addReadings(view, outlook);
    return outlook;
}

BinOutlook outlookAt(BinOutlook outlook, Instant now) {
    if (!outlook.hold || now <= outlook.hold->readBy) {
        return outlook;
    }
    breakHold(outlook);
    std::erase_if(outlook.due, [](const Due& due) {
        return due.kind == DueKind::holdWillBreak || due.kind == DueKind::completeHold;
    });
    for (Due& due : outlook.due) {
        if (due.kind == DueKind::keepHold) {
            due.kind = DueKind::holdBroke;
        }
    }
    if (!outlook.broken) {
        std::erase_if(outlook.due, [](const Due& due) { return due.kind == DueKind::holdBroke; });
    }
    return outlook;
}

}  // namespace midden
