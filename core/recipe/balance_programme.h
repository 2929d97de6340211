// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "core/recipe/balance.h"
#include "core/recipe/linear_programme.h"

namespace midden {

/// A balancing task turned into linear programmes. What a portion does not say counts as 0: the caller sees to it
/// that every figure a goal needs is there.
class BalanceProgramme {
  public:
    BalanceProgramme(std::span<const Portion> given, std::span<const ToHand> toHand, const Goals& goals);

    using Masses = std::optional<std::vector<double>>;

    /// The masses that meet the goals as `aim` prefers; none when there are none, or no end to the kitchen waste.
    Masses solve(Aim aim) const;

    /// The masses whose figures miss the goals by as little as can be: the larger of the two misses is made as small
    /// as it goes, then moisture's, then C:N's; a point of moisture counts as much as a point of C:N. Of those the
    /// least mass. None when not even that has an answer (no nitrogen anywhere, or limits that contradict).
    Masses nearest() const;

  private:
    /// What one kilogram, or all that is given, brings.
    struct Contents {
        double mass = 0;
        double water = 0;  ///< in hundredths of a kilogram, to go with goals in percent
        double carbon = 0;
        double nitrogen = 0;
    };
    /// How far outside its band a figure may lie.
    struct Slack {
        double moisture = 0;
        double carbonNitrogen = 0;
    };

    static Contents contentsOf(const Portion& portion, double kilograms);
    Masses leastMass(const Goals& goals) const;
    Masses fewestMaterials() const;
    Masses mostKitchenWaste() const;
    Masses within(const Slack& slack) const;
    std::optional<double> leastSlack(Slack fixed, double Slack::*first, double Slack::*second) const;

    LinearProgramme programmeFor(const Goals& goals, double endless) const;
    void limit(LinearProgramme& programme, const Bounds& band, double (*excess)(const Contents&, double)) const;
    double endless() const;

    std::vector<ToHand> toHand_;
    std::vector<Contents> each_;  ///< of a kilogram of each material to hand
    Contents given_;
    Goals goals_;
};

}  // namespace midden
