// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/pile.h"

#include <algorithm>

namespace midden {

namespace {

/// Feeds weigh e^(days/10) against those at the reference, which must not leave the range of numbers.
constexpr Seconds referenceHolds = days(1'000);

}  // namespace

void Pile::add(const Feed& feed, std::size_t slices) {
    if (layers_.empty()) {
        reference_ = feed.at;
    } else if (feed.at - reference_ > referenceHolds) {
        moveReference(feed.at);
    }
    const auto growth = decayOver(reference_ - feed.at, rules_);
    const double litres = feed.litres / static_cast<double>(slices);
    for (std::size_t slice = 0; slice < slices; ++slice) {
        layers_.push_back({nextId_++, feed.at, feed.at, feed.raw, {feed.at, {}, {}, {}}});
        auto edge = edges_.back();
        edge.loose += litres;
        for (std::size_t k = 0; k < shrinkModels; ++k) {
            edge.ageing[k] += litres * growth[k];
        }
        edges_.push_back(edge);
    }
}

void Pile::merge(std::size_t first, const Credit& credit) {
    if (first >= size()) {
        return;
    }
    Layer merged{nextId_++, (*this)[first].oldest, layers_.back().youngest, false, credit};
    for (std::size_t number = first; number < size(); ++number) {
        merged.oldest = std::min(merged.oldest, (*this)[number].oldest);
        merged.youngest = std::max(merged.youngest, (*this)[number].youngest);
        merged.raw = merged.raw || (*this)[number].raw;
    }
    const auto surface = edges_.back();
    layers_.resize(lowest_ + first);
    layers_.push_back(merged);
    edges_.resize(layers_.size());
    edges_.push_back(surface);
}

void Pile::take(std::size_t whole, double share) {
    lowest_ += std::min(whole, size());
    if (size() == 0) {
        return;
    }
    auto& floor = edges_[lowest_];
    const auto& above = edges_[lowest_ + 1];
    floor.loose += share * (above.loose - floor.loose);
    for (std::size_t k = 0; k < shrinkModels; ++k) {
        floor.ageing[k] += share * (above.ageing[k] - floor.ageing[k]);
    }
}

Shape Pile::shape(Instant at, const Fit& fit) const {
    Shape shape{at, fit.lasting, decayOver(at - reference_, rules_), fit.kept};
    for (std::size_t k = 0; k < shrinkModels; ++k) {
        shape.passing[k] *= 1 - fit.lasting[k];
    }
    if (!fit.level || at - *fit.level > rules_.levelHolds) {
        shape.kept = 0;
    }
    return shape;
}

Litres Pile::total(Instant at) const {
    const auto& floor = edges_[lowest_];
    const auto& surface = edges_.back();
    const auto decay = decayOver(at - reference_, rules_);
    Litres all{surface.loose - floor.loose, {}};
    for (std::size_t k = 0; k < shrinkModels; ++k) {
        all.ageing[k] = (surface.ageing[k] - floor.ageing[k]) * decay[k];
    }
    return all;
}

void Pile::moveReference(Instant to) {
    const auto decay = decayOver(to - reference_, rules_);
    for (auto edge = lowest_; edge < edges_.size(); ++edge) {
        for (std::size_t k = 0; k < shrinkModels; ++k) {
            edges_[edge].ageing[k] *= decay[k];
        }
    }
    reference_ = to;
}

}  // namespace midden
