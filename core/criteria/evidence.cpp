// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/evidence.h"

#include <algorithm>

#include "core/criteria/phrases.h"

namespace midden {

namespace {

/// Why a position is not credited; of several at once the first named here is given.
enum class Cause { notYetRead, noLongerRead, gap, tooHot, tooCool };

/// A stretch of one position that is not credited for one cause.
struct Piece {
    Interval interval;
    Cause cause{};
    Celsius lowest;
};

struct Rule {
    const Step& step;
    Limits limits;
    Seconds maxGap;

    bool warmEnough(Celsius temperature) const {
        return Limits{limits.threshold, limits.exceeds, std::nullopt}.admit(temperature);
    }
    bool tooHot(Celsius temperature) const { return limits.ceiling && temperature > *limits.ceiling; }
};

/// Why the interval between two readings is not credited; no value when it is.
std::optional<Cause> causeBetween(const Sample& a, const Sample& b, const Rule& rule) {
    if (b.at - a.at > rule.maxGap) {
        return Cause::gap;
    }
    if (rule.limits.admit(a.temperature()) && rule.limits.admit(b.temperature())) {
        return std::nullopt;
    }
    const bool hot = rule.tooHot(std::max(a.temperature(), b.temperature()));
    const bool cool = !rule.warmEnough(std::min(a.temperature(), b.temperature()));
    return hot && !cool ? Cause::tooHot : Cause::tooCool;
}

void add(std::vector<Piece>& pieces, const Piece& piece) {
    if (piece.interval.from == piece.interval.to) {
        return;
    }
    const bool goesOn =
        !pieces.empty() && pieces.back().cause == piece.cause && pieces.back().interval.to == piece.interval.from;
    if (!goesOn) {
        pieces.push_back(piece);
        return;
    }
    pieces.back().interval.to = piece.interval.to;
    pieces.back().lowest = std::min(pieces.back().lowest, piece.lowest);
}

void addEach(std::vector<Piece>& pieces, std::span<const Sample> samples, const Rule& rule) {
    for (std::size_t i = 1; i < samples.size(); ++i) {
        const auto& a = samples[i - 1];
        const auto& b = samples[i];
        if (const auto cause = causeBetween(a, b, rule)) {
            add(pieces, {{a.at, b.at}, *cause, std::min(a.temperature(), b.temperature())});
        }
    }
}

/// What every interval of a block has in common: no cause, one cause, or no value when they differ.
struct Common {
    std::optional<Cause> cause;
};

std::optional<Common> commonOf(const Extremes& extremes, const Rule& rule) {
    if (extremes.longestGap > rule.maxGap) {
        return std::nullopt;
    }
    if (rule.limits.admit(extremes.lowest) && rule.limits.admit(extremes.highest)) {
        return Common{};
    }
    if (!rule.warmEnough(extremes.highest)) {
        return Common{Cause::tooCool};
    }
    return rule.tooHot(extremes.lowest) ? std::optional{Common{Cause::tooHot}} : std::nullopt;
}

/// Everything between `within`'s ends that the position does not have credited.
std::vector<Piece> piecesOf(const BlockExtremes& readings, Interval within, const Rule& rule) {
    const auto all = readings.samples();
    if (all.empty()) {
        return {{within, Cause::notYetRead, {}}};
    }
    std::vector<Piece> pieces;
    add(pieces, {{within.from, all.front().at}, Cause::notYetRead, {}});
    for (std::size_t block = 0; block < readings.blocks(); ++block) {
        const auto samples = readings.samplesOf(block);
        const auto& extremes = readings.extremes(block);
        const auto common = commonOf(extremes, rule);
        if (!common) {
            addEach(pieces, samples, rule);
        } else if (common->cause) {
            add(pieces, {{samples.front().at, samples.back().at}, *common->cause, extremes.lowest});
        }
    }
    add(pieces, {{all.back().at, within.to}, Cause::noLongerRead, {}});
    return pieces;
}

/// The number of readings earlier than `at`, or at it.
std::size_t readBy(std::span<const Sample> samples, Instant at) {
    const auto later = std::upper_bound(samples.begin(), samples.end(), at,
                                        [](Instant instant, const Sample& sample) { return instant < sample.at; });
    return static_cast<std::size_t>(later - samples.begin());
}

/// The readings at the ends of the intervals that a stretch touches: the number of the first, and how many.
struct Ends {
    std::size_t first;
    std::size_t count;
};

Ends endsOf(std::span<const Sample> samples, Interval stretch) {
    const auto by = readBy(samples, stretch.from);
    const auto first = by == 0 ? 0 : by - 1;
    return {first, readBy(samples, stretch.to) - first};
}

std::string gapWords(std::span<const Sample> samples, const Rule& rule) {
    Seconds shortest{INT64_MAX};
    Seconds longest;
    for (std::size_t i = 1; i < samples.size(); ++i) {
        const auto length = samples[i].at - samples[i - 1].at;
        if (length > rule.maxGap) {
            shortest = std::min(shortest, length);
            longest = std::max(longest, length);
        }
    }
    const auto range = shortest < longest ? durationWords(shortest) + " to " : "";
    return range + durationWords(longest) + " between readings, more than " + durationWords(rule.maxGap);
}

std::string reasonFor(const Monitored& monitored, Interval stretch, Cause cause, const Rule& rule) {
    const auto named = monitored.position + " ";
    if (cause == Cause::notYetRead) {
        return named + "not read yet";
    }
    if (cause == Cause::noLongerRead) {
        return named + "not read any more";
    }
    const auto [first, count] = endsOf(monitored.samples(), stretch);
    if (cause == Cause::gap) {
        return gapWords(monitored.samples().subspan(first, count), rule);
    }
    const auto extremes = monitored.readings.extremesOf(first, count);
    if (cause == Cause::tooHot) {
        return named + missWords(extremes.highest, "above", *rule.step.ceiling);
    }
    return named + missWords(extremes.lowest, rule.step.exceeds ? "not above" : "below", rule.step.threshold);
}

/// Does `a` explain a stretch better than `b`? By cause, then the one that lasts, then the cooler one.
bool explainsBetter(const Piece& a, const Piece& b) {
    if (a.cause != b.cause) {
        return a.cause < b.cause;
    }
    return a.interval.to != b.interval.to ? a.interval.to > b.interval.to : a.lowest < b.lowest;
}

/// A piece and the position it is of.
struct Candidate {
    const Monitored* monitored;  ///< in the order of the positions
    Piece piece;
};

/// For a heap: what explains best is on top, of equals the first position's.
bool explainsWorse(const Candidate* a, const Candidate* b) {
    if (explainsBetter(a->piece, b->piece) || explainsBetter(b->piece, a->piece)) {
        return explainsBetter(b->piece, a->piece);
    }
    return a->monitored > b->monitored;
}

/// The pieces of all positions, gone through once in time order.
class Candidates {
  public:
    explicit Candidates(std::vector<Candidate> all) : all_{std::move(all)} {
        std::stable_sort(all_.begin(), all_.end(), [](const Candidate& a, const Candidate& b) {
            return a.piece.interval.from < b.piece.interval.from;
        });
    }

    /// What explains best why nothing is credited now; none when all is credited. `now` never goes back.
    const Candidate* decider(Instant now) {
        while (next_ < all_.size() && all_[next_].piece.interval.from <= now) {
            begun_.push_back(&all_[next_++]);
            std::push_heap(begun_.begin(), begun_.end(), explainsWorse);
        }
        while (!begun_.empty() && begun_.front()->piece.interval.to <= now) {
            std::pop_heap(begun_.begin(), begun_.end(), explainsWorse);
            begun_.pop_back();
        }
        return begun_.empty() ? nullptr : begun_.front();
    }
    /// Where the next piece begins, if that is before `otherwise`.
    Instant nextFrom(Instant otherwise) const {
        return next_ < all_.size() ? std::min(all_[next_].piece.interval.from, otherwise) : otherwise;
    }

  private:
    std::vector<Candidate> all_;
    std::size_t next_ = 0;                 ///< first one that has not begun
    std::vector<const Candidate*> begun_;  ///< a heap; those that are over go when they come to its top
};

std::string creditedWords(const JudgedReadings& judged, const Step& step) {
    const bool one = judged.positions.size() == 1;
    return (one ? judged.positions.front().position : "every position") + " " + limitWords(step);
}

void sweep(std::vector<Evidence>& evidence, Candidates candidates, Interval within, const JudgedReadings& judged,
           const Rule& rule) {
    const auto creditedReason = creditedWords(judged, rule.step);
    for (auto now = within.from; now < within.to;) {
        const auto* best = candidates.decider(now);
        const auto then = best == nullptr ? candidates.nextFrom(within.to) : best->piece.interval.to;
        if (best == nullptr) {
            evidence.push_back({{now, then}, "", true, creditedReason});
        } else {
            evidence.push_back({{now, then},
                                best->monitored->position,
                                false,
                                reasonFor(*best->monitored, {now, then}, best->piece.cause, rule)});
        }
        now = then;
    }
}

}  // namespace

std::vector<Evidence> evidenceOf(const Step& step, const JudgedReadings& judged) {
    std::vector<Evidence> evidence;
    if (!judged.whole || judged.whole->from == judged.whole->to) {
        return evidence;
    }
    auto within = *judged.whole;
    if (judged.restartedAt) {
        within.from = judged.clockStart.value_or(within.to);
        evidence.push_back({{judged.whole->from, within.from}, "", false, *judged.restartedBy});
    }
    const Rule rule{step, step.limits(), maxGapFor(step)};
    std::vector<Candidate> candidates;
    for (const auto& monitored : judged.positions) {
        for (const Piece& piece : piecesOf(monitored.readings, within, rule)) {
            candidates.push_back({&monitored, piece});
        }
    }
    sweep(evidence, Candidates{std::move(candidates)}, within, judged, rule);
    return evidence;
}

}  // namespace midden
