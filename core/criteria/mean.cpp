// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/mean.h"

#include <algorithm>

namespace midden {

namespace {

/// The instants of all readings inside a run. Its ends are among them.
std::vector<Instant> readingInstants(Interval run, std::span<const Watched> positions) {
    std::vector<Instant> instants;
    for (const auto& watched : positions) {
        for (const auto& sample : watched.samples) {
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

/// The lowest and highest value of one curve over halves, quarters … of its points.
class Extremes {
  public:
    explicit Extremes(std::vector<double> values) : values_{std::move(values)}, nodes_(values_.size() * 4) {
        fill(1, 0, values_.size());
    }
    double lowest(std::size_t node) const { return nodes_[node].lowest; }
    double highest(std::size_t node) const { return nodes_[node].highest; }

  private:
    struct Node {
        double lowest = 0;
        double highest = 0;
    };
    void fill(std::size_t node, std::size_t from, std::size_t to) {
        if (to - from == 1) {
            nodes_[node] = {values_[from], values_[from]};
            return;
        }
        const auto middle = (from + to) / 2;
        fill(2 * node, from, middle);
        fill(2 * node + 1, middle, to);
        nodes_[node] = {std::min(nodes_[2 * node].lowest, nodes_[2 * node + 1].lowest),
                        std::max(nodes_[2 * node].highest, nodes_[2 * node + 1].highest)};
    }
    std::vector<double> values_;
    std::vector<Node> nodes_;
};

/// Points [from, to) of the curves, as a node of their trees.
struct Stretch {
    std::size_t node = 1;
    std::size_t from = 0;
    std::size_t to = 0;

    std::size_t size() const { return to - from; }
    Stretch left() const { return {2 * node, from, (from + to) / 2}; }
    Stretch right() const { return {2 * node + 1, (from + to) / 2, to}; }
};

/// Looks for a start and an end, far enough apart, between which every curve rises. Whole blocks of starts and ends
/// are passed over when no pair of them can do.
class RiseSearch {
  public:
    RiseSearch(const Step& step, std::vector<Instant> instants, std::vector<Extremes> curves)
        : step_{step}, instants_{std::move(instants)}, curves_{std::move(curves)} {}

    std::optional<Interval> find() const {
        const Stretch all{1, 0, instants_.size()};
        return find(all, all);
    }

  private:
    bool mayHold(Stretch starts, Stretch ends) const {
        if (!step_.isReachedBy(instants_[ends.to - 1] - instants_[starts.from])) {
            return false;
        }
        return std::all_of(curves_.begin(), curves_.end(), [&](const Extremes& curve) {
            const double rise = curve.highest(ends.node) - curve.lowest(starts.node);
            return step_.mean->exceeds ? rise > 0 : rise >= 0;
        });
    }
    std::optional<Interval> find(Stretch starts, Stretch ends) const {
        if (!mayHold(starts, ends)) {
            return std::nullopt;
        }
        if (starts.size() == 1 && ends.size() == 1) {
            return Interval{instants_[starts.from], instants_[ends.from]};
        }
        if (ends.size() >= starts.size()) {
            const auto late = find(starts, ends.right());
            return late ? late : find(starts, ends.left());
        }
        const auto early = find(starts.left(), ends);
        return early ? early : find(starts.right(), ends);
    }
    const Step& step_;
    std::vector<Instant> instants_;
    std::vector<Extremes> curves_;
};

}  // namespace

std::optional<Interval> partReachingMean(const Step& step, const IntervalSet& runs, std::span<const Watched> positions,
                                         Allowance allowance) {
    for (const auto& run : runs) {
        if (!step.isReachedBy(run.length())) {
            continue;
        }
        auto instants = readingInstants(run, positions);
        std::vector<Extremes> curves;
        for (const auto& watched : positions) {
            curves.emplace_back(excess(watched.samples, instants, toCelsius(step.mean->threshold), allowance));
        }
        if (const auto part = RiseSearch{step, std::move(instants), std::move(curves)}.find()) {
            return part;
        }
    }
    return std::nullopt;
}

MeanFigures lowestMean(Interval over, std::span<const Watched> positions) {
    const auto instants = readingInstants(over, positions);
    std::optional<MeanFigures> lowest;
    for (const auto& watched : positions) {
        const double twice = excess(watched.samples, instants, Celsius{}, Allowance::ignored).back();
        const double mean = twice / 2 / static_cast<double>(over.length().count) / 90'000;
        if (!lowest || mean < lowest->celsius) {
            lowest = MeanFigures{mean, watched.position, over};
        }
    }
    return lowest.value_or(MeanFigures{0, "", over});
}

}  // namespace midden
