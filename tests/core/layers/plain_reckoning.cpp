// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/layers/plain_reckoning.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "core/thermal/interval.h"

namespace midden::testing {

namespace {

constexpr std::array<double, 3> shrinkDays{10, 20, 40};

double daysBetween(Instant from, Instant to) {
    return static_cast<double>((to - from).count) / 86'400.0;
}

struct Part {
    double litres = 0;
    Instant fed;
    double left = 1;  // by harvests
};

struct PlainLayer {
    std::vector<Part> parts;
    bool raw = false;
    Instant since;
    Seconds atLeast;
    Seconds longestRun;
    Seconds atMost;
    std::vector<Interval> hot;
    std::vector<Interval> cold;
};

struct PlainFit {
    Instant level;
    bool measured = false;
    std::array<double, 3> lasting{0.3, 0.3, 0.3};
    std::array<bool, 3> kept{};

    bool any() const { return kept[0] || kept[1] || kept[2]; }
};

struct Happening {
    Instant at;
    int order = 0;  // feed 0, level 1, turned 2, forked 3, harvest 4
    double amount = 0;
    bool raw = false;
    bool hasDepth = false;

    auto operator<=>(const Happening&) const = default;
};

std::vector<Interval> united(std::vector<Interval> all) {
    std::sort(all.begin(), all.end());
    std::vector<Interval> sets;
    for (const auto& one : all) {
        if (!sets.empty() && one.from <= sets.back().to) {
            sets.back().to = std::max(sets.back().to, one.to);
        } else {
            sets.push_back(one);
        }
    }
    return sets;
}

std::vector<Happening> feedsAmong(std::vector<FedAddition> additions, Instant asOf) {
    std::erase_if(additions, [&](const FedAddition& addition) { return addition.at > asOf; });
    std::sort(additions.begin(), additions.end());
    std::vector<Happening> feeds;
    std::size_t i = 0;
    while (i < additions.size()) {
        const auto first = additions[i].at;
        Happening feed;
        for (; i < additions.size() && additions[i].at - first <= hours(12); ++i) {
            feed.at = additions[i].at;
            feed.amount += additions[i].litres;
            feed.raw = feed.raw || additions[i].raw;
        }
        feeds.push_back(feed);
    }
    return feeds;
}

class PlainBin {
  public:
    explicit PlainBin(const FedRecord& record) : record_{record}, perCm_{record.litresPerCm().value_or(0)} {
        happenings_ = feedsAmong(record.additions, record.asOf);
        for (const auto& level : record.levels) {
            happenings_.push_back({level.at, 1, level.centimetres, false, false});
        }
        for (const auto& mixing : record.mixings) {
            happenings_.push_back(
                {mixing.at, mixing.forked ? 3 : 2, mixing.depthCm.value_or(0), false, mixing.depthCm.has_value()});
        }
        for (const auto& drawing : record.drawings) {
            happenings_.push_back({drawing.at, 4, drawing.litres, false, false});
        }
        std::erase_if(happenings_, [&](const Happening& each) { return each.at > record.asOf; });
        std::stable_sort(happenings_.begin(), happenings_.end(), [](const Happening& a, const Happening& b) {
            return std::tie(a.at, a.order, a.hasDepth, a.amount) < std::tie(b.at, b.order, b.hasDepth, b.amount);
        });
    }

    FedReckoning reckoned() {
        FedReckoning told;
        for (const auto& happening : happenings_) {
            if (happening.order >= 2) {
                credit(lastMove_, happening.at);
                lastMove_ = happening.at;
            }
            happen(happening, told);
        }
        credit(lastMove_, record_.asOf);
        told.layers = standing(record_.asOf);
        for (std::size_t k = 0; k < 3; ++k) {
            told.fit[k] = {shrinkDays[k], fits_.back().lasting[k], fits_.back().kept[k]};
        }
        return told;
    }

  private:
    void happen(const Happening& happening, FedReckoning& told) {
        switch (happening.order) {
            case 0:
                feed(happening);
                break;
            case 1:
                level(happening);
                break;
            case 2:
                merge(0, happening.at);
                break;
            case 3:
                merge(forkedFrom(happening), happening.at);
                break;
            default:
                told.harvests.push_back(harvest(happening));
        }
    }

    void feed(const Happening& feed) {
        const int slices = perCm_ > 0 ? std::max(1, static_cast<int>(std::ceil(feed.amount / perCm_ / 5 - 1e-9))) : 1;
        for (int i = 0; i < slices; ++i) {
            PlainLayer layer;
            layer.parts = {{feed.amount / slices, feed.at, 1}};
            layer.raw = feed.raw;
            layer.since = feed.at;
            layers_.push_back(layer);
        }
    }

    void level(const Happening& level) {
        if (perCm_ <= 0) {
            return;
        }
        PlainFit fit = fits_.back();
        fit.level = level.at;
        fit.measured = true;
        fit.kept = {};
        for (std::size_t k = 0; k < 3; ++k) {
            double all = 0;
            double ageing = 0;
            for (const auto& layer : layers_) {
                for (const auto& part : layer.parts) {
                    all += part.litres * part.left;
                    ageing += part.litres * part.left * std::exp(-daysBetween(part.fed, level.at) / shrinkDays[k]);
                }
            }
            if (all > ageing) {
                const double asked = (level.amount * perCm_ - ageing) / (all - ageing);
                fit.kept[k] = asked >= 0.15 && asked <= 0.60;
                fit.lasting[k] = std::min(0.60, std::max(0.15, asked));
            }
        }
        fits_.push_back(fit);
    }

    const PlainFit& fitAt(Instant at, bool afterEvents) const {
        std::size_t i = fits_.size() - 1;
        while (i > 0 && (afterEvents ? fits_[i].level > at : fits_[i].level >= at)) {
            --i;
        }
        return fits_[i];
    }

    double litresOf(const PlainLayer& layer, std::size_t k, Instant at, const PlainFit& fit) const {
        double litres = 0;
        for (const auto& part : layer.parts) {
            const double share =
                fit.lasting[k] + (1 - fit.lasting[k]) * std::exp(-daysBetween(part.fed, at) / shrinkDays[k]);
            litres += part.litres * part.left * share;
        }
        return litres;
    }

    /// Of layer i at the instant of a reading.
    bool wholly(std::size_t layer, double low, double high, Instant at, const std::array<bool, 3>& models) const {
        const auto& fit = fitAt(at, false);
        for (std::size_t k = 0; k < 3; ++k) {
            double from = 0;
            for (std::size_t i = 0; i < layer; ++i) {
                from += litresOf(layers_[i], k, at, fit);
            }
            const double to = from + litresOf(layers_[layer], k, at, fit);
            if (models[k] && (from / perCm_ < low || to / perCm_ > high)) {
                return false;
            }
        }
        return true;
    }

    void put(double low, double high, Interval over, bool hot) {
        const auto& first = fitAt(over.from, false);
        const auto& last = fitAt(over.to, false);
        const bool fresh =
            first.measured && over.from - first.level <= days(14) && last.measured && over.to - last.level <= days(14);
        if (!fresh || !first.any() || !last.any()) {
            return;
        }
        std::array<bool, 3> models{};
        for (std::size_t k = 0; k < 3; ++k) {
            models[k] = first.kept[k] || last.kept[k];
        }
        for (std::size_t i = 0; i < layers_.size(); ++i) {
            const bool stood = layers_[i].since < over.from;
            if (stood && wholly(i, low, high, over.from, models) && wholly(i, low, high, over.to, models)) {
                (hot ? layers_[i].hot : layers_[i].cold).push_back(over);
            }
        }
    }

    struct Pair {
        Interval over;
        double above = 0;  // the margin, K
        double below = 0;
    };

    std::vector<Pair> pairsOf(const HeightTrack& track, Instant after, Instant until) const {
        std::vector<Pair> pairs;
        for (std::size_t i = 0; i + 1 < track.samples.size(); ++i) {
            const auto& a = track.samples[i];
            const auto& b = track.samples[i + 1];
            if (a.at > after && b.at <= until && b.at - a.at <= hours(36)) {
                const auto above = std::min(a.temperature() - a.allowance(), b.temperature() - b.allowance());
                const auto below = std::max(a.temperature() + a.allowance(), b.temperature() + b.allowance());
                pairs.push_back(
                    {{a.at, b.at}, (above - record_.threshold).value(), (record_.threshold - below).value()});
            }
        }
        return pairs;
    }

    void credit(Instant after, Instant until) {
        if (perCm_ <= 0) {
            return;
        }
        for (const auto& track : record_.positions) {
            if (track.heightCm) {
                creditNear(track, after, until);
            }
            for (const auto& other : record_.positions) {
                const bool known = track.heightCm && other.heightCm;
                const double apart = known ? *other.heightCm - *track.heightCm : 0;
                if (apart > 0 && apart <= 20 + 1e-9) {
                    creditBetween(track, other, after, until);
                }
            }
        }
    }

    void creditNear(const HeightTrack& track, Instant after, Instant until) {
        const double h = *track.heightCm;
        for (const auto& pair : pairsOf(track, after, until)) {
            const double reach = std::min(10.0, pair.above >= 0 ? pair.above : pair.below);
            if (pair.above >= 0 || pair.below > 0) {
                put(h - reach, h + reach, pair.over, pair.above >= 0);
            }
        }
    }

    void creditBetween(const HeightTrack& lower, const HeightTrack& upper, Instant after, Instant until) {
        for (const auto& p : pairsOf(lower, after, until)) {
            for (const auto& q : pairsOf(upper, after, until)) {
                const Interval over{std::max(p.over.from, q.over.from), std::min(p.over.to, q.over.to)};
                if (p.above >= 0 && q.above >= 0 && over.from < over.to) {
                    put(*lower.heightCm, *upper.heightCm, over, true);
                }
            }
        }
    }

    std::size_t middle() const {
        const auto& kept = fits_.back().kept;
        const int count = int{kept[0]} + int{kept[1]} + int{kept[2]};
        if (count == 0 || count == 3) {
            return 1;
        }
        return kept[2] ? 2 : kept[1] ? 1 : 0;
    }

    std::vector<StandingLayer> standing(Instant at) const {
        std::vector<StandingLayer> all;
        double below = 0;
        for (const auto& layer : layers_) {
            StandingLayer told;
            told.raw = layer.raw;
            told.fedFrom = layer.parts.front().fed;
            told.fedTo = layer.parts.front().fed;
            for (const auto& part : layer.parts) {
                told.fedFrom = std::min(told.fedFrom, part.fed);
                told.fedTo = std::max(told.fedTo, part.fed);
                told.looseLitres += part.litres * part.left;
            }
            told.litres = litresOf(layer, middle(), at, fits_.back());
            if (perCm_ > 0) {
                told.fromCm = below / perCm_;
                told.toCm = (below + told.litres) / perCm_;
            }
            below += told.litres;
            const auto hot = united(layer.hot);
            told.atLeast = layer.atLeast + total(hot);
            told.longestRun = std::max(layer.longestRun, longest(hot));
            told.atMost = std::max(told.atLeast, layer.atMost + (at - layer.since) - total(united(layer.cold)));
            all.push_back(told);
        }
        return all;
    }

    std::size_t forkedFrom(const Happening& forked) const {
        if (perCm_ <= 0 || !forked.hasDepth) {
            return 0;
        }
        std::vector<double> upper;
        double below = 0;
        for (const auto& layer : layers_) {
            below += litresOf(layer, 1, forked.at, fits_.back()) / perCm_;
            upper.push_back(below);
        }
        std::size_t first = 0;
        while (first < upper.size() && !(upper[first] > below - forked.amount)) {
            ++first;
        }
        return first;
    }

    void merge(std::size_t first, Instant at) {
        if (first >= layers_.size()) {
            return;
        }
        const auto told = standing(at);
        PlainLayer one;
        one.since = at;
        for (auto i = first; i < layers_.size(); ++i) {
            one.parts.insert(one.parts.end(), layers_[i].parts.begin(), layers_[i].parts.end());
            one.raw = one.raw || layers_[i].raw;
        }
        one.atLeast = Seconds{std::numeric_limits<std::int64_t>::max()};
        one.longestRun = one.atLeast;
        for (auto i = first; i < layers_.size(); ++i) {
            if (layers_[i].raw == one.raw) {
                one.atLeast = std::min(one.atLeast, told[i].atLeast);
                one.longestRun = std::min(one.longestRun, told[i].longestRun);
            }
            one.atMost = std::max(one.atMost, told[i].atMost);
        }
        layers_.resize(first);
        layers_.push_back(one);
    }

    HarvestReckoning harvest(const Happening& harvest) {
        const auto told = standing(harvest.at);
        HarvestReckoning result;
        result.at = harvest.at;
        result.asked = harvest.amount;
        takeOut(harvest, told, result);
        for (const double share : {0.5, 0.9}) {
            (share == 0.5 ? result.reckoned.halfHad : result.reckoned.nineTenthsHad) = had(share, result);
        }
        cautious(harvest, told, result.cautious);
        std::vector<PlainLayer> rest;
        for (std::size_t i = 0; i < layers_.size(); ++i) {
            const double taken = i < result.reckoned.parts.size() ? result.reckoned.parts[i].litres : 0;
            if (taken < told[i].litres * (1 - 1e-9)) {
                rest.push_back(layers_[i]);
                for (auto& part : rest.back().parts) {
                    part.left *= 1 - taken / told[i].litres;
                }
            }
        }
        layers_ = rest;
        return result;
    }

    void takeOut(const Happening& harvest, const std::vector<StandingLayer>& told, HarvestReckoning& result) const {
        double left = harvest.amount;
        auto& reckoned = result.reckoned;
        for (const auto& layer : told) {
            const double taken = std::min(left, layer.litres);
            if (taken <= 1e-9 * harvest.amount) {
                break;
            }
            left -= taken;
            result.litres += taken;
            reckoned.parts.push_back(
                {taken, taken / layer.litres * layer.looseLitres, layer.raw, layer.atLeast, layer.longestRun});
            if (layer.raw) {
                reckoned.atLeast = reckoned.atLeast ? std::min(*reckoned.atLeast, layer.atLeast) : layer.atLeast;
                reckoned.longestRun =
                    reckoned.longestRun ? std::min(*reckoned.longestRun, layer.longestRun) : layer.longestRun;
            }
            if (!layer.raw || layer.longestRun >= record_.hold) {
                reckoned.litresWithHold += taken;
            }
        }
        result.moreThanThere = left > 1e-9 * harvest.amount;
    }

    /// Tries the hours of every part.
    static std::optional<Seconds> had(double share, const HarvestReckoning& result) {
        double always = 0;
        for (const auto& part : result.reckoned.parts) {
            always += part.raw ? 0 : part.litres;
        }
        if (always >= share * result.litres * (1 - 1e-9)) {
            return std::nullopt;
        }
        Seconds most;
        for (const auto& tried : result.reckoned.parts) {
            double litres = always;
            for (const auto& part : result.reckoned.parts) {
                litres += part.raw && part.atLeast >= tried.atLeast ? part.litres : 0;
            }
            if (tried.raw && litres >= share * result.litres * (1 - 1e-9)) {
                most = std::max(most, tried.atLeast);
            }
        }
        return most;
    }

    void cautious(const Happening& harvest, const std::vector<StandingLayer>& told, Cautiously& result) const {
        std::vector<StandingLayer> in;
        double below = 0;
        std::optional<Instant> youngest;
        for (const auto& layer : told) {
            const bool touched = below < 1.25 * harvest.amount * (1 - 1e-9);
            if (touched) {
                youngest = youngest ? std::max(*youngest, layer.fedTo) : layer.fedTo;
            }
            // Layers lie by age, so all that are touched have been seen before any that is not.
            const bool old = youngest && 2 * (harvest.at - layer.fedFrom).count >= (harvest.at - *youngest).count;
            if (touched || old || (layer.fromCm && *layer.fromCm < record_.hatchTopCm)) {
                in.push_back(layer);
            }
            below += layer.litres;
        }
        for (const auto& layer : in) {
            result.fedFrom = std::min(result.fedFrom.value_or(layer.fedFrom), layer.fedFrom);
            result.fedTo = std::max(result.fedTo.value_or(layer.fedTo), layer.fedTo);
            result.atMost = std::max(result.atMost, layer.atMost);
        }
        std::erase_if(in, [](const StandingLayer& layer) { return !layer.raw; });
        for (const auto& layer : in) {
            result.atLeast = std::min(result.atLeast.value_or(layer.atLeast), layer.atLeast);
            result.longestRun = std::min(result.longestRun.value_or(layer.longestRun), layer.longestRun);
        }
    }

    const FedRecord& record_;
    double perCm_ = 0;
    std::vector<Happening> happenings_;
    std::vector<PlainFit> fits_{PlainFit{}};
    std::vector<PlainLayer> layers_;
    Instant lastMove_{std::numeric_limits<std::int64_t>::min()};
};

}  // namespace

FedReckoning reckonPlainly(const FedRecord& record) {
    return PlainBin{record}.reckoned();
}

}  // namespace midden::testing
