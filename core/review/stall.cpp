// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/stall.h"

#include <algorithm>
#include <utility>

#include "core/review/bin_heat.h"
#include "core/review/remedies.h"
#include "core/review/stall_facts.h"
#include "core/review/target_progress.h"

namespace midden {

namespace {

using RoundIterator = std::vector<Round>::const_iterator;

/// Rounds below the hot line, one after the other.
struct Spell {
    RoundIterator first;
    RoundIterator end;  ///< the first round that is hot again, or the end of the record
};

struct Judge {
    const BatchRecord& record;
    const StallSettings& settings;
    std::vector<Round> rounds;
    TargetProgress progress;
    Instant lastEntry;

    bool isHot(const Round& round) const { return round.warmest >= settings.hot; }
};

Stall stallFrom(const Judge& judge, StallKind kind, Instant from, std::optional<Instant> to) {
    const auto credited = judge.progress.longestRun(to.value_or(judge.lastEntry));
    const auto hold = judge.settings.target.hold;
    return {kind, from, to, credited.hours(), std::max(Seconds{}, hold - credited).hours(), {}};
}

/// The first entry at least `settings.heatingUp` after the filling; no value when the record ends before.
std::optional<Instant> heatingUpOver(const Judge& judge) {
    const Instant due = fillingOf(judge.record) + judge.settings.heatingUp;
    std::optional<Instant> first;
    const auto take = [&](Instant at) {
        if (at >= due && (!first || at < *first)) {
            first = at;
        }
    };
    for (const auto& track : judge.record.tracks) {
        const auto from = std::lower_bound(track.samples.begin(), track.samples.end(), due,
                                           [](const Sample& sample, Instant at) { return sample.at < at; });
        if (from != track.samples.end()) {
            take(from->at);
        }
    }
    for (const auto& addition : judge.record.additions) {
        take(addition.when.at);
    }
    for (const auto& aeration : judge.record.aerations) {
        take(aeration.when.at);
    }
    for (const auto& observation : judge.record.observations) {
        take(observation.when.at);
    }
    return first;
}

std::optional<Stall> neverHeated(const Judge& judge, RoundIterator firstHot) {
    const auto over = heatingUpOver(judge);
    const auto end = judge.rounds.end();
    const bool heatedInTime = over && firstHot != end && firstHot->at <= *over;
    if (!over || heatedInTime) {
        return std::nullopt;
    }
    const auto readBy = std::count_if(judge.rounds.begin(), firstHot, [&](const Round& r) { return r.at <= *over; });
    if (readBy < 2) {
        return std::nullopt;  // one reading says nothing
    }
    const auto to = firstHot == end ? std::nullopt : std::optional{firstHot->at};
    return stallFrom(judge, StallKind::neverHeated, fillingOf(judge.record), to);
}

/// Where the spell's readings, with no gap too long between them, first make a stall: the first of that chain.
std::optional<Instant> startOfStall(const Judge& judge, Spell spell) {
    RoundIterator chain = spell.first;
    for (auto round = spell.first; round != spell.end; ++round) {
        if (round != chain && round->at - std::prev(round)->at > judge.settings.target.maxGap) {
            chain = round;
        }
        if (round != chain && round->at - chain->at >= judge.settings.span) {
            return chain->at;
        }
    }
    return std::nullopt;
}

bool coolsTheBin(AerationKind kind) {
    return kind != AerationKind::poked && kind != AerationKind::other;
}

bool wasHandledBefore(const Judge& judge, Instant from) {
    const auto explains = [&](Instant at) { return at <= from && from - at <= judge.settings.afterHandling; };
    const auto& additions = judge.record.additions;
    const auto& aerations = judge.record.aerations;
    return std::any_of(additions.begin(), additions.end(), [&](const Addition& a) { return explains(a.when.at); }) ||
           std::any_of(aerations.begin(), aerations.end(),
                       [&](const Aeration& a) { return coolsTheBin(a.kind) && explains(a.when.at); });
}

std::optional<Stall> coolingIn(const Judge& judge, Spell spell) {
    const auto from = startOfStall(judge, spell);
    // What counts is how things stood when the bin went cold: food given to a finished batch restarts the clock,
    // but does not turn its ordinary cooling into a stall.
    if (!from || judge.progress.isShown(spell.first->at)) {
        return std::nullopt;
    }
    const auto to = spell.end == judge.rounds.end() ? std::nullopt : std::optional{spell.end->at};
    const bool isDip = to && *to - *from <= judge.settings.recovery && wasHandledBefore(judge, *from);
    return stallFrom(judge, isDip ? StallKind::handlingDip : StallKind::earlyCooling, *from, to);
}

void addCoolings(const Judge& judge, RoundIterator firstHot, std::vector<Stall>& stalls) {
    const auto hot = [&](const Round& round) { return judge.isHot(round); };
    for (auto round = firstHot; round != judge.rounds.end();) {
        const auto first = std::find_if_not(round, judge.rounds.end(), hot);
        const auto end = std::find_if(first, judge.rounds.end(), hot);
        if (const auto stall = first == end ? std::nullopt : coolingIn(judge, {first, end})) {
            stalls.push_back(*stall);
        }
        round = end;
    }
}

/// Heat, remedies and causes of what was found, each as of its own end.
void explain(const Judge& judge, const Materials& materials, std::vector<Stall>& stalls) {
    if (stalls.empty()) {
        return;
    }
    const auto heat = heatOf(judge.record, judge.rounds);
    for (auto& stall : stalls) {
        const Instant end = stall.to.value_or(judge.lastEntry);
        stall.heat = heatDuring(heat, stall, end);
        stall.remedies = remediesOf(judge.record, stall, end, judge.settings);
        stall.causes = likelyCauses(stall.kind, factsOf(judge.record, stall, end, judge.settings, materials));
    }
}

}  // namespace

std::string nameOf(StallKind kind) {
    switch (kind) {
        case StallKind::neverHeated:
            return "never-heated";
        case StallKind::earlyCooling:
            return "early-cooling";
        case StallKind::handlingDip:
            return "handling-dip";
    }
    return {};
}

std::vector<Stall> stallsOf(const BatchRecord& record, const StallSettings& settings, const Materials& materials) {
    return stallsOf(record, roundsOf(record, settings.round), settings, materials);
}

std::vector<Stall> stallsOf(const BatchRecord& record, std::vector<Round> rounds, const StallSettings& settings,
                            const Materials& materials) {
    const Judge judge{record, settings, std::move(rounds), {record, settings.target, materials}, lastEntryOf(record)};
    const auto firstHot =
        std::find_if(judge.rounds.begin(), judge.rounds.end(), [&](const Round& round) { return judge.isHot(round); });
    std::vector<Stall> stalls;
    if (const auto stall = neverHeated(judge, firstHot)) {
        stalls.push_back(*stall);
    }
    addCoolings(judge, firstHot, stalls);
    explain(judge, materials, stalls);
    return stalls;
}

}  // namespace midden
