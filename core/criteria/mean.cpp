// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/mean.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace midden {

namespace {

/// The instants of all readings inside a run. Its ends are among them.
std::vector<Instant> readingInstants(Interval run, std::span<const Monitored> positions) {
    std::vector<Instant> instants;
    for (const auto& monitored : positions) {
        for (const auto& sample : monitored.samples()) {
            if (sample.at >= run.from && sample.at <= run.to) {
                instants.push_back(sample.at);
            }
        }
    }
    std::sort(instants.begin(), instants.end());
    instants.erase(std::unique(instants.begin(), instants.end()), instants.end());
    return instants;
}

double heldParts(const Sample& sample, Allowance allowance) {
    const auto temperature =
        allowance == Allowance::applied ? sample.temperature() - sample.allowance() : sample.temperature();
    return static_cast<double>(temperature.parts());
}

/// Twice the time integral of (T − level) along one position, in parts times seconds, from the first of `instants` to
/// each of them. Whole numbers, so exact in a double, wherever the position was read at the instants themselves.
std::vector<double> excess(std::span<const Sample> samples, std::span<const Instant> instants, Celsius level,
                           Allowance allowance) {
    const auto levelParts = static_cast<double>(level.parts());
    std::vector<double> sums;
    double sum = 0;
    double before = 0;
    std::size_t next = 0;  // first sample later than the instant in hand
    for (std::size_t i = 0; i < instants.size(); ++i) {
        while (next < samples.size() && samples[next].at <= instants[i]) {
            ++next;
        }
        double here = heldParts(samples[next - 1], allowance) - levelParts;
        if (samples[next - 1].at < instants[i]) {
            const auto& a = samples[next - 1];
            const auto& b = samples[next];
            const double rise = heldParts(b, allowance) - heldParts(a, allowance);
            here += rise * static_cast<double>((instants[i] - a.at).count) / static_cast<double>((b.at - a.at).count);
        }
        if (i > 0) {
            sum += (before + here) * static_cast<double>((instants[i] - instants[i - 1]).count);
        }
        sums.push_back(sum);
        before = here;
    }
    return sums;
}

/// What is asked of a start and an end, one column for each demand: the start's rank must be below the end's.
struct Demand {
    std::vector<std::uint32_t> starts;
    std::vector<std::uint32_t> ends;
};

/// Ranks starts and ends together by value. Where `equalIsEnough` a start ranks below an end of the same value.
Demand ranked(const std::vector<double>& starts, const std::vector<double>& ends, bool equalIsEnough) {
    struct Entry {
        double value;
        bool isEnd;
        std::size_t index;
    };
    std::vector<Entry> entries;
    for (std::size_t i = 0; i < starts.size(); ++i) {
        entries.push_back({starts[i], false, i});
        entries.push_back({ends[i], true, i});
    }
    std::sort(entries.begin(), entries.end(), [&](const Entry& a, const Entry& b) {
        return a.value != b.value ? a.value < b.value : a.isEnd != b.isEnd && b.isEnd == equalIsEnough;
    });
    Demand demand{std::vector<std::uint32_t>(starts.size()), std::vector<std::uint32_t>(ends.size())};
    for (std::uint32_t rank = 0; rank < entries.size(); ++rank) {
        (entries[rank].isEnd ? demand.ends : demand.starts)[entries[rank].index] = rank;
    }
    return demand;
}

/// A start and an end, both indices.
using Pair = std::pair<std::size_t, std::size_t>;
using Indices = std::vector<std::size_t>;

/// Looks for a start and an end that meet all demands: divide and conquer over one demand after the other, so
/// n log² n steps for n readings of two positions and one more log for each further position.
class PairSearch {
  public:
    explicit PairSearch(std::vector<Demand> demands) : demands_{std::move(demands)} {}

    std::optional<Pair> find() const {
        Indices all(demands_.front().starts.size());
        std::iota(all.begin(), all.end(), std::size_t{0});
        return find(0, all, all);
    }

  private:
    struct Extent {
        std::size_t lowest;
        std::size_t highest;
    };
    static Extent extentOf(const Indices& indices, const std::vector<std::uint32_t>& ranks) {
        const auto [low, high] = std::minmax_element(indices.begin(), indices.end(),
                                                     [&](std::size_t a, std::size_t b) { return ranks[a] < ranks[b]; });
        return {*low, *high};
    }
    bool hopeless(std::size_t first, const Indices& starts, const Indices& ends) const {
        return std::any_of(demands_.begin() + static_cast<std::ptrdiff_t>(first), demands_.end(), [&](const Demand& d) {
            return d.starts[extentOf(starts, d.starts).lowest] > d.ends[extentOf(ends, d.ends).highest];
        });
    }
    /// `starts` and `ends` meet all demands before this one, whichever are paired.
    std::optional<Pair> find(std::size_t number, const Indices& starts, const Indices& ends) const {
        if (number == demands_.size() && !starts.empty() && !ends.empty()) {
            return Pair{starts.front(), ends.front()};
        }
        if (starts.empty() || ends.empty() || hopeless(number, starts, ends)) {
            return std::nullopt;
        }
        const auto& demand = demands_[number];
        const auto startExtent = extentOf(starts, demand.starts);
        const auto endExtent = extentOf(ends, demand.ends);
        if (demand.starts[startExtent.highest] < demand.ends[endExtent.lowest]) {
            return find(number + 1, starts, ends);
        }
        if (number + 1 == demands_.size()) {
            return Pair{startExtent.lowest, endExtent.highest};
        }
        const auto low = std::min(demand.starts[startExtent.lowest], demand.ends[endExtent.lowest]);
        const auto high = std::max(demand.starts[startExtent.highest], demand.ends[endExtent.highest]);
        return halved(number, low + (high - low + 1) / 2, starts, ends);
    }
    std::optional<Pair> halved(std::size_t number, std::uint32_t middle, Indices starts, Indices ends) const {
        const auto& demand = demands_[number];
        const auto upperHalf = [&](Indices& indices, const std::vector<std::uint32_t>& ranks) {
            const auto from = std::stable_partition(indices.begin(), indices.end(),
                                                    [&](std::size_t index) { return ranks[index] < middle; });
            Indices upper(from, indices.end());
            indices.erase(from, indices.end());
            return upper;
        };
        const auto highStarts = upperHalf(starts, demand.starts);
        const auto highEnds = upperHalf(ends, demand.ends);
        if (const auto across = find(number + 1, starts, highEnds)) {
            return across;
        }
        const auto below = find(number, starts, ends);
        return below ? below : find(number, highStarts, highEnds);
    }

    std::vector<Demand> demands_;
};

std::vector<double> secondsOf(std::span<const Instant> instants, Seconds later) {
    std::vector<double> seconds;
    for (const auto at : instants) {
        seconds.push_back(static_cast<double>((at + later).utcSeconds));
    }
    return seconds;
}

/// A part of one run that is long enough and over which every position's excess grows.
std::optional<Interval> partOf(Interval run, const Step& step, std::span<const Monitored> positions,
                               Allowance allowance) {
    const auto instants = readingInstants(run, positions);
    const auto enough = [&](double rise) { return step.mean->exceeds ? rise > 0 : rise >= 0; };
    std::vector<Demand> demands{ranked(secondsOf(instants, step.hold), secondsOf(instants, {}), !step.holdExceeds)};
    bool whole = true;
    for (const auto& monitored : positions) {
        const auto sums = excess(monitored.samples(), instants, toCelsius(step.mean->threshold), allowance);
        whole = whole && enough(sums.back());
        demands.push_back(ranked(sums, sums, !step.mean->exceeds));
    }
    if (whole) {
        return run;
    }
    const auto pair = PairSearch{std::move(demands)}.find();
    return pair ? std::optional{Interval{instants[pair->first], instants[pair->second]}} : std::nullopt;
}

}  // namespace

std::optional<Interval> partReachingMean(const Step& step, const IntervalSet& runs,
                                         std::span<const Monitored> positions, Allowance allowance) {
    for (const auto& run : runs) {
        if (!step.isReachedBy(run.length())) {
            continue;
        }
        if (const auto part = partOf(run, step, positions, allowance)) {
            return part;
        }
    }
    return std::nullopt;
}

MeanFigures lowestMean(Interval over, std::span<const Monitored> positions) {
    const auto instants = readingInstants(over, positions);
    std::optional<MeanFigures> lowest;
    for (const auto& monitored : positions) {
        const double twice = excess(monitored.samples(), instants, Celsius{}, Allowance::ignored).back();
        const double mean = twice / 2 / static_cast<double>(over.length().count) / 90'000;
        if (!lowest || mean < lowest->celsius) {
            lowest = MeanFigures{mean, monitored.position, over};
        }
    }
    return lowest.value_or(MeanFigures{0, "", over});
}

}  // namespace midden
