// SPDX-License-Identifier: GPL-3.0-or-later
// The layers of a fed bin, and where they stand.
#pragma once

#include <span>
#include <vector>

#include "core/layers/feed.h"
#include "core/layers/shrinking.h"

namespace midden {

/// What is known of how hot a layer was kept, when it came to be or was last mixed. It counts on from there.
struct Credit {
    Instant since;
    Seconds atLeast;
    Seconds longestRun;
    Seconds atMost;
};

/// Material that lies and moves together.
struct Layer {
    std::size_t id = 0;  ///< the higher a layer lies, the larger; never used twice
    Instant oldest;      ///< the feeds it is of
    Instant youngest;
    bool raw = true;  ///< whether anything in it is
    Credit credit;
};

/// What makes litres of sums at one instant, for each way of shrinking: lasting·loose + passing·ageing.
struct Shape {
    Instant at;
    std::array<double, shrinkModels> lasting{};
    std::array<double, shrinkModels> passing{};
    std::uint8_t kept = 0;  ///< ways of shrinking that agree with the latest level; 0 when that is too old as well
};

/// Layers, oldest lowest. Every edge between two of them is known by the sums of all below it. Sums only lose their
/// ageing part, by one factor for all of them, so an edge's height at any instant takes two products, and nothing is
/// done to layers as time goes by.
class Pile {
  public:
    explicit Pile(const LayerRules& rules) : rules_{rules} {}

    /// Cut into `slices`. Not earlier than what was added before.
    void add(const Feed& feed, std::size_t slices);
    /// The layers from number `first` up become one, with this credit.
    void merge(std::size_t first, const Credit& credit);
    /// The lowest layers go, so many whole, and of the next this share.
    void take(std::size_t whole, double share);

    std::size_t size() const { return layers_.size() - lowest_; }
    /// Number 0 is the lowest.
    const Layer& operator[](std::size_t number) const { return layers_[lowest_ + number]; }

    /// How the pile stands at `at` by what a level said before.
    Shape shape(Instant at, const Fit& fit) const;
    /// The litres below the lower edge of a layer, or, for `size()`, below the surface.
    double below(std::size_t number, std::size_t model, const Shape& shape) const {
        const auto& edge = edges_[lowest_ + number];
        const auto& floor = edges_[lowest_];
        return shape.lasting[model] * (edge.loose - floor.loose) +
               shape.passing[model] * (edge.ageing[model] - floor.ageing[model]);
    }
    /// The loose litres of a layer that are still there.
    double loose(std::size_t number) const {
        return edges_[lowest_ + number + 1].loose - edges_[lowest_ + number].loose;
    }
    /// All that is there, at an instant.
    Litres total(Instant at) const;
    /// Shapes made before it last changed are of no use.
    Instant reference() const { return reference_; }

  private:
    void moveReference(Instant to);

    LayerRules rules_;
    Instant reference_;  ///< edges hold their ageing part as of this instant
    std::vector<Layer> layers_;
    std::vector<Litres> edges_{Litres{}};  ///< one more than layers; those below number 0 were taken
    std::size_t lowest_ = 0;
    std::size_t nextId_ = 0;
};

}  // namespace midden
