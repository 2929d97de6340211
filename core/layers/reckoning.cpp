// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/reckoning.h"

#include <algorithm>

#include "core/layers/crediting.h"
#include "core/layers/events.h"

namespace midden {

namespace {

std::size_t layersOf(const Course& course, const FedRecord& record, const LayerRules& rules) {
    std::size_t layers = course.mixings.size();  // each makes one of several
    for (const auto& feed : course.feeds) {
        layers += slicesOf(feed, record.litresPerCm(), rules);
    }
    return layers;
}

/// Goes through the course of a record, from one event that moves layers to the next.
class Reckoner {
  public:
    Reckoner(const FedRecord& record, const LayerRules& rules, LayerWatch& watch)
        : record_{record},
          rules_{rules},
          watch_{watch},
          course_{courseOf(record, rules)},
          pile_{rules},
          crediting_{record, rules, layersOf(course_, record, rules)},
          fits_{usualFit(rules)} {}

    FedReckoning reckoned() {
        const auto& events = course_.events;
        for (auto next = events.begin();;) {
            const auto stop =
                std::find_if(next, events.end(), [](const Event& event) { return movesLayers(event.kind); });
            goThrough({next, stop}, stop == events.end() ? record_.asOf : stop->at);
            if (stop == events.end()) {
                break;
            }
            move(*stop);
            next = std::next(stop);
        }
        tell();
        return std::move(result_);
    }

  private:
    /// Feeds, levels and readings; nothing moves layers.
    void goThrough(std::span<const Event> events, Instant until) {
        const auto isFeed = [](const Event& event) { return event.kind == EventKind::feed; };
        const auto fed = static_cast<std::size_t>(std::count_if(events.begin(), events.end(), isFeed));
        fitLevels(events);
        auto feeds = std::span{course_.feeds}.subspan(fed_, fed);
        while (const auto look = watch_.nextUntil(until)) {
            const auto later = std::find_if(feeds.begin(), feeds.end(), [&](const Feed& feed) {
                return look->beforeEvents ? feed.at >= look->at : feed.at > look->at;
            });
            const auto due = static_cast<std::size_t>(later - feeds.begin());
            crediting_.readUntil({look->at, until}, pile_, fits_, feeds.first(due));
            feeds = feeds.subspan(due);
            show(*look);
        }
        crediting_.readUntil({until, until}, pile_, fits_, feeds);
        fed_ += fed;
    }

    /// Levels of the time after a look may be known already.
    const Fit& fitAt(const LayerLook& look) const {
        const auto later = std::partition_point(fits_.begin() + 1, fits_.end(), [&](const Fit& fit) {
            return look.beforeEvents ? *fit.level < look.at : *fit.level <= look.at;
        });
        return *std::prev(later);
    }

    void show(const LayerLook& look) {
        const auto& fit = fitAt(look);
        const auto shape = pile_.shape(look.at, fit);
        const auto layers = standing(0, shape, fit);
        const auto reaches = crediting_.reaches();
        watch_.see({look, pile_, shape, layers, reaches});
    }

    /// What every level says, before readings are looked at: the end of an interval may lie behind one.
    void fitLevels(std::span<const Event> events) {
        if (events.empty() || !record_.litresPerCm()) {
            return;
        }
        auto at = events.front().at;
        auto there = pile_.total(at);
        for (const auto& event : events) {
            const auto decay = decayOver(event.at - at, rules_);
            const double fed = event.kind == EventKind::feed ? course_.feeds[event.number].litres : 0;
            for (std::size_t k = 0; k < shrinkModels; ++k) {
                there.ageing[k] = there.ageing[k] * decay[k] + fed;
            }
            there.loose += fed;
            at = event.at;
            if (event.kind == EventKind::level) {
                const double litres = course_.levels[event.number].centimetres * *record_.litresPerCm();
                fits_.push_back(fitted(fits_.back(), at, litres, there, rules_));
            }
        }
    }

    void move(const Event& event) {
        const auto shape = pile_.shape(event.at, fits_.back());
        if (event.kind == EventKind::drawn) {
            draw(course_.drawings[event.number], shape);
        } else {
            mix(course_.mixings[event.number], shape);
        }
    }

    void draw(const Drawing& drawing, const Shape& shape) {
        const auto layers = standing(0, shape, fits_.back());
        result_.harvests.push_back(
            harvestOf(drawing.litres, drawing.at, layers, {record_.hold, record_.hatchTopCm}, rules_));
        const auto cut = cutAt(drawing.litres, layers);
        pile_.take(cut.whole, cut.share);
    }

    void mix(const Mixing& mixing, const Shape& shape) {
        const auto first = lowestMixed(mixing, shape);
        pile_.merge(first, mixedCredit(standing(first, shape, fits_.back()), mixing.at));
    }

    std::size_t lowestMixed(const Mixing& mixing, const Shape& shape) const {
        constexpr std::size_t byModel = 1;  // 20 days
        if (!mixing.forked || !mixing.depthCm || !record_.litresPerCm()) {
            return 0;
        }
        const double deepest = pile_.below(pile_.size(), byModel, shape) - *mixing.depthCm * *record_.litresPerCm();
        auto first = pile_.size();
        while (first > 0 && pile_.below(first, byModel, shape) > deepest) {
            --first;
        }
        return first;
    }

    /// The layers from number `first` up.
    std::vector<StandingLayer> standing(std::size_t first, const Shape& shape, const Fit& fit) const {
        const auto model = middleKept(fit);
        const auto perCm = record_.litresPerCm();
        std::vector<StandingLayer> layers;
        for (auto number = first; number < pile_.size(); ++number) {
            const auto& layer = pile_[number];
            const double from = pile_.below(number, model, shape);
            const double to = pile_.below(number + 1, model, shape);
            StandingLayer stands{
                layer.oldest, layer.youngest, layer.raw, to - from, pile_.loose(number), {}, {}, {}, {}, {}};
            if (perCm) {
                stands.fromCm = from / *perCm;
                stands.toCm = to / *perCm;
            }
            const auto& credit = layer.credit;
            const auto& hot = crediting_.hot();
            const auto& cold = crediting_.cold();
            const auto run = hot.openFor(layer.id, shape.at);
            stands.atLeast = credit.atLeast + hot.total(layer.id) + run;
            stands.longestRun = std::max({credit.longestRun, hot.longest(layer.id), run});
            const auto shownCold = cold.total(layer.id) + cold.openFor(layer.id, shape.at);
            const auto notRuledOut = credit.atMost + (shape.at - credit.since) - shownCold;
            // Where one position shows a layer hot and another shows it cold, it was both, in different places.
            stands.atMost = std::max(notRuledOut, stands.atLeast);
            layers.push_back(stands);
        }
        return layers;
    }

    void tell() {
        const auto& fit = fits_.back();
        while (const auto look = watch_.nextUntil(endOfTime)) {
            show(*look);
        }
        result_.layers = standing(0, pile_.shape(record_.asOf, fit), fit);
        for (std::size_t k = 0; k < shrinkModels; ++k) {
            result_.fit[k] = {rules_.shrinkDays[k], fit.lasting[k], fit.keeps(k)};
        }
        result_.effort = crediting_.effort();
        tellLacking(fit);
    }

    void tellLacking(const Fit& fit) {
        const auto lacks = [&](bool so, Lacking what) {
            if (so) {
                result_.lacking.push_back(what);
            }
        };
        for (std::size_t i = 0; i < record_.positions.size(); ++i) {
            if (!record_.positions[i].heightCm && !record_.positions[i].samples.empty()) {
                result_.positionsWithoutHeight.push_back(i);
            }
        }
        lacks(!record_.binLitres, Lacking::binVolume);
        lacks(!record_.binHeightCm, Lacking::binHeight);
        lacks(!result_.positionsWithoutHeight.empty(), Lacking::positionHeight);
        lacks(course_.levels.empty(), Lacking::anyLevel);
        if (!course_.levels.empty()) {
            lacks(record_.asOf - course_.levels.back().at > rules_.levelHolds, Lacking::recentLevel);
        }
        lacks(fit.level && fit.kept == 0, Lacking::agreement);
    }

    const FedRecord& record_;
    const LayerRules rules_;
    LayerWatch& watch_;
    const Course course_;
    Pile pile_;
    Crediting crediting_;
    std::vector<Fit> fits_;
    std::size_t fed_ = 0;  ///< feeds that lie on the pile, or were taken
    FedReckoning result_;
};

}  // namespace

FedReckoning reckonFed(const FedRecord& record, const LayerRules& rules) {
    LayerWatch nobody;
    return reckonFed(record, rules, nobody);
}

FedReckoning reckonFed(const FedRecord& record, const LayerRules& rules, LayerWatch& watch) {
    return Reckoner{record, rules, watch}.reckoned();
}

}  // namespace midden
