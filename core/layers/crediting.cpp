// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/crediting.h"

#include <algorithm>
#include <cmath>

namespace midden {

namespace {

/// Of numbers for which `holds` from some on, where that begins: in [low, high], and at `high` it holds already.
template <class Holds>
std::size_t halved(std::size_t low, std::size_t high, Holds holds) {
    while (low < high) {
        const auto middle = low + (high - low) / 2;
        if (holds(middle)) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    return low;
}

/// The same, looking near `high` first and then ever farther down.
template <class Holds>
std::size_t foundDown(std::size_t low, std::size_t high, Holds holds) {
    for (std::size_t step = 1; low < high; step *= 2) {
        const auto probe = high - low > step ? high - step : low;
        if (!holds(probe)) {
            return halved(probe + 1, high, holds);
        }
        high = probe;
    }
    return high;
}

/// The same, looking near `low` first and then ever farther up.
template <class Holds>
std::size_t foundUp(std::size_t low, std::size_t high, Holds holds) {
    for (std::size_t step = 1; low < high; step *= 2) {
        const auto probe = high - low > step ? low + step - 1 : high - 1;
        if (holds(probe)) {
            return halved(low, probe, holds);
        }
        low = probe + 1;
    }
    return low;
}

/// The first number below `end` for which `holds`, which holds for all after it; else `end`. Looks near `guess` first.
template <class Holds>
std::size_t firstThat(std::size_t end, std::size_t guess, Holds holds) {
    guess = std::min(guess, end);
    return guess == end || holds(guess) ? foundDown(0, guess, holds) : foundUp(guess + 1, end, holds);
}

}  // namespace

Crediting::Crediting(const FedRecord& record, const LayerRules& rules, std::size_t layers)
    : rules_{rules},
      litresPerCm_{record.litresPerCm().value_or(0)},
      threshold_{record.threshold},
      recorded_{record.positions.size()},
      hot_{layers},
      cold_{layers} {
    if (!record.litresPerCm()) {
        return;
    }
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < record.positions.size(); ++i) {
        const auto& position = record.positions[i];
        if (position.heightCm) {
            places.push_back(i);
            positions_.push_back({i, *position.heightCm * litresPerCm_, position.samples, 0, {}, false, 0, {}, {}, {}});
        }
    }
    addPairs(places, record);
}

void Crediting::addPairs(std::span<const std::size_t> places, const FedRecord& record) {
    for (std::size_t i = 0; i < places.size(); ++i) {
        for (std::size_t j = 0; j < places.size(); ++j) {
            const double apart = *record.positions[places[j]].heightCm - *record.positions[places[i]].heightCm;
            if (apart > 0 && apart <= rules_.farthestPairCm + 1e-9) {  // heights are written in decimals
                positions_[i].pairs.push_back(pairs_.size());
                positions_[j].pairs.push_back(pairs_.size());
                pairs_.push_back({i, j, {}});
            }
        }
    }
}

void Crediting::readUntil(Extent extent, Pile& pile, std::span<const Fit> fits, std::span<const Feed> feeds) {
    fits_ = fits;
    auto feed = feeds.begin();
    const auto putOn = [&](const Feed& each) {
        const auto known = litresPerCm_ > 0 ? std::optional{litresPerCm_} : std::nullopt;
        pile.add(each, slicesOf(each, known, rules_));
    };
    while (const auto at = nextReading(extent.until)) {
        for (; feed != feeds.end() && feed->at < *at; ++feed) {
            putOn(*feed);
        }
        for (auto& position : positions_) {
            if (position.next < position.samples.size() && position.samples[position.next].at == *at) {
                begin(position, extent.moved, pile);
            }
        }
        beginPairs(*at, pile);
        settle(*at);
    }
    std::for_each(feed, feeds.end(), putOn);
}

std::optional<Instant> Crediting::nextReading(Instant until) const {
    std::optional<Instant> first;
    for (const auto& position : positions_) {
        if (position.next < position.samples.size()) {
            const auto at = position.samples[position.next].at;
            if (at <= until && (!first || at < *first)) {
                first = at;
            }
        }
    }
    return first;
}

/// The interval that begins with the position's next reading.
void Crediting::begin(Position& position, Instant moved, const Pile& pile) {
    const auto& first = position.samples[position.next++];
    Shown hot{{}, position.hot.numbers};
    Shown cold{{}, position.cold.numbers};
    position.isHot = false;
    position.hotReachCm = 0;
    position.to = first.at;
    if (position.next < position.samples.size()) {
        const auto& second = position.samples[position.next];
        const bool counts = second.at <= moved && second.at - first.at <= rules_.longestGap;
        const auto reachOf = [&](Kelvins margin) {
            return std::min(rules_.farthestReachCm, margin.value() / rules_.coolingPerCm);
        };
        const auto above =
            std::min(first.temperature() - first.allowance(), second.temperature() - second.allowance()) - threshold_;
        const auto below =
            threshold_ - std::max(first.temperature() + first.allowance(), second.temperature() + second.allowance());
        const double at = position.litres;
        if (counts && above >= Kelvins{}) {
            position.isHot = true;
            position.to = second.at;
            position.hotReachCm = reachOf(above);
            const double reach = position.hotReachCm * litresPerCm_;
            hot = between(at - reach, at + reach, {first.at, second.at}, pile, position.hot);
        } else if (counts && below > Kelvins{}) {
            const double reach = reachOf(below) * litresPerCm_;
            cold = between(at - reach, at + reach, {first.at, second.at}, pile, position.cold);
        }
    }
    show(position.hot, hot, hotChanged_);
    show(position.cold, cold, coldChanged_);
}

std::vector<double> Crediting::reaches() const {
    std::vector<double> reaches(recorded_);
    for (const auto& position : positions_) {
        reaches[position.number] = position.hotReachCm;
    }
    return reaches;
}

/// Whatever two positions show together changes only with a reading of one of them.
void Crediting::beginPairs(Instant at, const Pile& pile) {
    const auto readNow = [&](const Position& position) {
        return position.next > 0 && position.samples[position.next - 1].at == at;
    };
    for (const auto& position : positions_) {
        if (!readNow(position)) {
            continue;
        }
        for (const auto pair : position.pairs) {
            const auto& lower = positions_[pairs_[pair].lower];
            if (&position == &lower || !readNow(lower)) {  // once, where both were read
                beginPair(pairs_[pair], at, pile);
            }
        }
    }
}

void Crediting::beginPair(Pair& pair, Instant at, const Pile& pile) {
    const auto& lower = positions_[pair.lower];
    const auto& upper = positions_[pair.upper];
    Shown shown{{}, pair.hot.numbers};
    if (lower.isHot && upper.isHot) {
        shown = between(lower.litres, upper.litres, {at, std::min(lower.to, upper.to)}, pile, pair.hot);
    }
    show(pair.hot, shown, hotChanged_);
}

void Crediting::settle(Instant at) {
    if (hotChanged_) {
        std::vector<LayerRange> ranges;
        for (const auto& position : positions_) {
            ranges.push_back(position.hot.ids);
        }
        for (const auto& pair : pairs_) {
            ranges.push_back(pair.hot.ids);
        }
        hot_.change(at, unionOf(std::move(ranges)));
    }
    if (coldChanged_) {
        std::vector<LayerRange> ranges;
        for (const auto& position : positions_) {
            ranges.push_back(position.cold.ids);
        }
        cold_.change(at, unionOf(std::move(ranges)));
    }
    hotChanged_ = false;
    coldChanged_ = false;
}

const Shape& Crediting::shapeAt(Instant at, const Pile& pile) {
    if (shapesReference_ != pile.reference()) {
        shapesReference_ = pile.reference();
        shapesKnown_ = 0;
    }
    for (std::size_t i = 0; i < shapesKnown_; ++i) {
        if (shapes_[i].at == at) {
            oldestShape_ = 1 - i;  // this one is in use
            return shapes_[i];
        }
    }
    // A level at the instant of a reading comes after it.
    const auto fit =
        std::partition_point(fits_.begin() + 1, fits_.end(), [&](const Fit& each) { return *each.level < at; });
    auto& shape = shapes_[oldestShape_];
    shape = pile.shape(at, *std::prev(fit));
    oldestShape_ = 1 - oldestShape_;
    shapesKnown_ = std::min(shapesKnown_ + 1, shapes_.size());
    return shape;
}

Crediting::Shown Crediting::between(double low, double high, Interval over, const Pile& pile, const Shown& before) {
    Shown shown{{}, before.numbers};
    const auto& from = shapeAt(over.from, pile);
    const auto& to = shapeAt(over.to, pile);
    if (from.kept == 0 || to.kept == 0) {
        return shown;
    }
    const unsigned kept = from.kept | to.kept;
    // Without a level in between edges only sink: the later end decides below, the earlier one above.
    const bool onlySank = from.lasting == to.lasting;
    const auto someModel = [&](auto&& holds) {
        ++looks_;
        return ((kept & 1U) != 0 && holds(0)) || ((kept & 2U) != 0 && holds(1)) || ((kept & 4U) != 0 && holds(2));
    };
    const auto clearsLow = [&](std::size_t number) {
        return !someModel([&](std::size_t k) {
            return pile.below(number, k, to) < low || (!onlySank && pile.below(number, k, from) < low);
        });
    };
    const auto passesHigh = [&](std::size_t number) {
        return someModel([&](std::size_t k) {
            return pile.below(number + 1, k, from) > high || (!onlySank && pile.below(number + 1, k, to) > high);
        });
    };
    shown.numbers.first = firstThat(pile.size(), before.numbers.first, clearsLow);
    shown.numbers.last = firstThat(pile.size(), before.numbers.last, passesHigh);
    if (!shown.numbers.empty()) {
        shown.ids = {pile[shown.numbers.first].id, pile[shown.numbers.last - 1].id + 1};
    }
    return shown;
}

void Crediting::show(Shown& place, const Shown& shown, bool& changed) {
    changed = changed || place.ids != shown.ids;
    place = shown;
}

}  // namespace midden
