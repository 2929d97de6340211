// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/condensed_record.h"

#include <algorithm>
#include <span>

#include "core/review/target_progress.h"
#include "core/thermal/credit.h"

namespace midden {

namespace {

using Samples = std::span<const Sample>;

std::size_t firstNotBefore(Samples samples, Instant at) {
    const auto found = std::ranges::lower_bound(samples, at, {}, [](const Sample& sample) { return sample.at; });
    return static_cast<std::size_t>(found - samples.begin());
}

/// One position's readings, and which of them are kept.
struct Sieve {
    Samples samples;
    std::vector<bool> kept = std::vector<bool>(samples.size());
    std::size_t coldest = 0;  ///< of the round under way
    std::size_t warmest = 0;
    std::optional<std::size_t> roundFrom;

    void keep(std::size_t index) {
        if (index < kept.size()) {
            kept[index] = true;
        }
    }
    /// Both readings next to an instant.
    void keepAround(Instant at) {
        const std::size_t index = firstNotBefore(samples, at);
        keep(index);
        keep(index - 1);  // wraps to nowhere at the very beginning
    }
    void take(std::size_t index) {
        if (!roundFrom) {
            roundFrom = coldest = warmest = index;
        }
        coldest = samples[index].temperature() < samples[coldest].temperature() ? index : coldest;
        warmest = samples[index].temperature() > samples[warmest].temperature() ? index : warmest;
    }
};

/// Where credited runs begin and end, with the thermometer's error held against the readings and without: both readings
/// wherever one qualifies and the next does not or comes too late, and never more than the longest gap between two that
/// are kept.
void keepRuns(Sieve& sieve, const HoldTarget& target) {
    const auto changesAt = [&](Allowance allowance, std::size_t i) {
        const Limits limits{target.threshold};
        return qualifies(sieve.samples[i - 1], limits, allowance) != qualifies(sieve.samples[i], limits, allowance);
    };
    std::size_t last = 0;
    sieve.keep(0);
    for (std::size_t i = 1; i < sieve.samples.size(); ++i) {
        const bool changes = changesAt(Allowance::applied, i) || changesAt(Allowance::ignored, i);
        const bool isGap = sieve.samples[i].at - sieve.samples[i - 1].at > target.maxGap;
        const bool isFar = sieve.samples[i].at - sieve.samples[last].at > target.maxGap;
        if (changes || isGap || isFar) {
            sieve.keep(i - 1);
            last = i - 1;
        }
        if (changes || isGap) {
            sieve.keep(i);
            last = i;
        }
    }
}

void keepEnd(Sieve& sieve) {
    const std::size_t size = sieve.samples.size();
    for (std::size_t i = size - std::min(size, mostTrendReadings); i < size; ++i) {
        sieve.keep(i);
    }
}

/// Of every round its first reading and its warmest; of the last days each position's own extremes.
class RoundKeeper {
  public:
    RoundKeeper(std::vector<Sieve>& sieves, Seconds window, Instant picturedFrom)
        : sieves_{sieves}, window_{window}, picturedFrom_{picturedFrom} {}

    void walk() {
        std::vector<std::size_t> next(sieves_.size());
        while (const auto earliest = earliestOf(next)) {
            take(*earliest, next[*earliest]++);
        }
        closeRound();
    }

  private:
    /// The position whose next reading comes first; of one instant the first position.
    std::optional<std::size_t> earliestOf(const std::vector<std::size_t>& next) const {
        std::optional<std::size_t> earliest;
        for (std::size_t i = 0; i < sieves_.size(); ++i) {
            const bool isLeft = next[i] < sieves_[i].samples.size();
            if (isLeft &&
                (!earliest || sieves_[i].samples[next[i]].at < sieves_[*earliest].samples[next[*earliest]].at)) {
                earliest = i;
            }
        }
        return earliest;
    }

    void take(std::size_t position, std::size_t index) {
        Sieve& sieve = sieves_[position];
        const Sample& sample = sieve.samples[index];
        if (!first_ || sample.at - *first_ > window_) {
            closeRound();
            first_ = sample.at;
            warmest_ = position;
            sieve.keep(index);
            sieve.take(index);
            return;
        }
        const Sieve& before = sieves_[warmest_];
        if (sample.temperature() > before.samples[before.warmest].temperature()) {
            warmest_ = position;
        }
        sieve.take(index);
    }

    void closeRound() {
        if (!first_) {
            return;
        }
        sieves_[warmest_].keep(sieves_[warmest_].warmest);
        for (Sieve& sieve : sieves_) {
            if (sieve.roundFrom && sieve.samples[*sieve.roundFrom].at >= picturedFrom_) {
                sieve.keep(sieve.coldest);
                sieve.keep(sieve.warmest);
            }
            sieve.roundFrom.reset();
        }
    }

    std::vector<Sieve>& sieves_;
    Seconds window_;
    Instant picturedFrom_;
    std::optional<Instant> first_;
    std::size_t warmest_ = 0;  ///< the position that was warmest in the round under way
};

/// The instants around which outlooks look for single readings.
std::vector<Instant> turningPoints(const BatchRecord& record, const OutlookSettings& settings,
                                   const Materials& materials) {
    std::vector<Instant> points = TargetProgress{record, settings.stalls.target, materials}.completions();
    points.push_back(fillingOf(record) + settings.stalls.heatingUp);
    for (const Addition& addition : record.additions) {
        points.push_back(addition.when.at);
    }
    return points;
}

void cut(std::vector<Sample>& samples, Instant until) {
    samples.resize(firstNotBefore(samples, until));
}

void cutReadings(BatchRecord& record, Instant until) {
    record.readings = 0;
    for (Track& track : record.tracks) {
        cut(track.samples, until);
        record.readings += std::ssize(track.samples);
    }
    std::erase_if(record.tracks, [](const Track& track) { return track.samples.empty(); });
    cut(record.outside, until);
}

std::vector<Sample> keptOf(const Sieve& sieve) {
    std::vector<Sample> samples;
    for (std::size_t i = 0; i < sieve.samples.size(); ++i) {
        if (sieve.kept[i]) {
            samples.push_back(sieve.samples[i]);
        }
    }
    return samples;
}

template <class Entries, class Entry>
bool holds(const Entries& entries, const Entry& entry) {
    return std::ranges::any_of(entries, [&](const Entry& one) { return one.id == entry.id; });
}

}  // namespace

BatchRecord condensed(BatchRecord record, Instant until, const OutlookSettings& settings, const Materials& materials) {
    cutReadings(record, until);
    const auto points = turningPoints(record, settings, materials);
    std::vector<Sieve> sieves;
    for (const Track& track : record.tracks) {
        Sieve& sieve = sieves.emplace_back(Sieve{track.samples});
        keepRuns(sieve, settings.stalls.target);
        keepEnd(sieve);
        for (const Instant point : points) {
            sieve.keepAround(point);
        }
    }
    RoundKeeper{sieves, settings.stalls.round, until - picturedTail}.walk();
    for (std::size_t i = 0; i < sieves.size(); ++i) {
        record.tracks[i].samples = keptOf(sieves[i]);
    }
    return record;
}

BatchRecord joined(const BatchRecord& head, BatchRecord since) {
    for (const Track& track : head.tracks) {
        const auto place = std::ranges::lower_bound(since.tracks, track.position, {}, &Track::position);
        if (place == since.tracks.end() || place->position != track.position) {
            since.tracks.insert(place, track);
        } else {
            place->samples.insert(place->samples.begin(), track.samples.begin(), track.samples.end());
        }
    }
    since.outside.insert(since.outside.begin(), head.outside.begin(), head.outside.end());
    since.readings += head.readings;
    for (const Probe& probe : head.probes) {
        if (!holds(since.probes, probe)) {
            since.probes.push_back(probe);
        }
    }
    for (const ThermometerCheck& check : head.checks) {
        if (!holds(since.checks, check)) {
            since.checks.push_back(check);
        }
    }
    std::ranges::stable_sort(since.checks, {}, [](const ThermometerCheck& check) { return check.when.at; });
    return since;
}

}  // namespace midden
