// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/bin_status.h"

#include <algorithm>
#include <iterator>

#include "core/criteria/conditions.h"

namespace midden {

namespace {

/// Does no reading of the position after `at` end a run that reaches up to there?
bool carriesOn(const Track& track, Instant at, const Step& step) {
    const auto& samples = track.samples;
    const auto later = std::upper_bound(samples.begin(), samples.end(), at,
                                        [](Instant instant, const Sample& sample) { return instant < sample.at; });
    for (auto sample = later; sample != samples.end(); ++sample) {
        const bool isLate = sample != samples.begin() && sample->at - std::prev(sample)->at > maxGapFor(step);
        if (isLate || !step.limits().admit(sample->temperature())) {
            return false;
        }
    }
    return true;
}

/// The stretch of credited time that reaches up to the last reading every monitored position has come to, and that
/// later ones do not end: the positions of a round are read one after the other.
std::optional<Interval> runningRun(const Judgement& judgement, const BatchRecord& record) {
    const auto tracks = monitoredTracks(record);
    if (tracks.empty()) {
        return std::nullopt;
    }
    const auto earliest = std::min_element(tracks.begin(), tracks.end(), [](const Track* a, const Track* b) {
        return a->samples.back().at < b->samples.back().at;
    });
    const Instant last = (*earliest)->samples.back().at;
    const auto& evidence = judgement.evidence;
    auto piece = std::find_if(evidence.rbegin(), evidence.rend(),
                              [&](const Evidence& one) { return one.credited && one.interval.to == last; });
    const Step& step = judgement.criterion.alternatives.at(judgement.best).steps.front();
    const bool isRunning = piece != evidence.rend() && std::all_of(tracks.begin(), tracks.end(), [&](const Track* one) {
                               return carriesOn(*one, last, step);
                           });
    if (!isRunning) {
        return std::nullopt;
    }
    Interval run = piece->interval;
    for (; piece != evidence.rend() && piece->credited; ++piece) {
        run.from = piece->interval.from;
    }
    return run;
}

std::optional<TurningsOpen> turningsOpen(const Judgement& judgement, const BatchRecord& record) {
    const auto run = runningRun(judgement, record);
    const auto& steps = judgement.criterion.alternatives.at(judgement.best).steps;
    const auto step = std::find_if(steps.begin(), steps.end(), [](const Step& one) { return one.turnings; });
    if (!run || step == steps.end()) {
        return std::nullopt;
    }
    const auto& asked = *step->turnings;
    const int recorded = turningsInside(record.aerations, run, asked.minimumSpacing);
    if (recorded >= asked.count) {
        return std::nullopt;
    }
    TurningsOpen open{judgement.criterion.title, asked.count, recorded, run->from, run->to + maxGapFor(*step)};
    for (const auto& aeration : record.aerations) {
        if (aeration.kind == AerationKind::turned && aeration.when.at >= run->from) {
            open.from = aeration.when.at + asked.minimumSpacing.value_or(Seconds{});
        }
    }
    return open;
}

bool isTested(const BatchRecord& record, std::optional<Instant> curingSince) {
    return curingSince && std::any_of(record.observations.begin(), record.observations.end(), [&](const auto& seen) {
               const bool isTest = seen.kind == ObservationKind::selfHeating || seen.kind == ObservationKind::seedTest;
               return isTest && seen.when.at >= *curingSince;
           });
}

std::vector<ProbeStatus> probesOf(const BatchRecord& record) {
    std::vector<ProbeStatus> probes;
    for (const auto& probe : record.probes) {
        ProbeStatus status{probe.id, probe.name, {}};
        for (const auto& check : record.checks) {
            if (check.probe == probe.id) {
                status.lastCheck = std::max(status.lastCheck.value_or(check.when.at), check.when.at);
            }
        }
        probes.push_back(std::move(status));
    }
    std::sort(probes.begin(), probes.end(), [](const ProbeStatus& a, const ProbeStatus& b) { return a.name < b.name; });
    return probes;
}

/// Looked for from the end: the readings of a cool batch are few since it cooled.
std::optional<Instant> cooledSince(const BatchRecord& record, Celsius border) {
    std::optional<Instant> lastWarm;
    for (const auto& track : record.tracks) {
        const auto warm = std::find_if(track.samples.rbegin(), track.samples.rend(),
                                       [&](const Sample& sample) { return sample.temperature() >= border; });
        if (warm != track.samples.rend()) {
            lastWarm = std::max(lastWarm.value_or(warm->at), warm->at);
        }
    }
    std::optional<Instant> first;
    for (const auto& track : record.tracks) {
        const auto later =
            std::upper_bound(track.samples.begin(), track.samples.end(), lastWarm.value_or(record.batch.started.at),
                             [](Instant at, const Sample& sample) { return at < sample.at; });
        if (later != track.samples.end()) {
            first = std::min(first.value_or(later->at), later->at);
        }
    }
    return first;
}

std::optional<Instant> turnedSince(const BatchRecord& record, std::optional<Instant> since) {
    const auto turned = std::find_if(record.aerations.begin(), record.aerations.end(), [&](const Aeration& aeration) {
        const bool mixes = aeration.kind == AerationKind::turned || aeration.kind == AerationKind::forked;
        return mixes && since && aeration.when.at >= *since;
    });
    return turned == record.aerations.end() ? std::nullopt : std::optional{turned->when.at};
}

}  // namespace

BinStatus statusOf(const BatchRecord& record, BinOutlook outlook, std::span<const Judgement> inForce,
                   const CareSettings& care) {
    BinStatus status{.bin = record.bin, .batch = record.batch, .outlook = std::move(outlook)};
    for (const auto& judgement : inForce) {
        if (judgement.verdict == Verdict::shown) {
            status.shown.push_back(judgement.criterion.title);
        }
        if (auto open = turningsOpen(judgement, record)) {
            status.turnings.push_back(std::move(*open));
        }
    }
    status.isFinished = record.batch.finished.has_value();
    status.cooledSince = cooledSince(record, care.cured);
    status.turnedSinceCooled = turnedSince(record, status.cooledSince);
    status.isTestedSinceCuring = isTested(record, status.outlook.curingSince);
    status.probes = probesOf(record);
    return status;
}

}  // namespace midden
