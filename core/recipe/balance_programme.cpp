// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/recipe/balance_programme.h"

#include <algorithm>
#include <cmath>

namespace midden {
namespace {

/// No figure is further from its band than this: moisture is at most 100, the C:N of pure wood below 2 000.
constexpr double farthest = 1e5;
/// Enough to bring `farthest` down to a hair.
constexpr int halvings = 45;
/// A hair above the slack found by halving, so that rounding does not make the last programme infeasible.
constexpr double hair = 1e-8;

Bounds widened(const Bounds& band, double slack) {
    return {band.low - slack, band.high + slack};
}

}  // namespace

BalanceProgramme::Contents BalanceProgramme::contentsOf(const Portion& portion, double kilograms) {
    const double moisture = portion.moisturePercent ? portion.moisturePercent->typical : 0;
    const double nitrogen = portion.nitrogenPercent ? portion.nitrogenPercent->typical : 0;
    const double dry = kilograms * (1 - moisture / 100);
    return {kilograms, kilograms * moisture, dry * portion.carbonPercent.value_or(0) / 100, dry * nitrogen / 100};
}

BalanceProgramme::BalanceProgramme(std::span<const Portion> given, std::span<const ToHand> toHand, const Goals& goals)
    : toHand_{toHand.begin(), toHand.end()}, goals_{goals} {
    for (const Portion& portion : given) {
        const Contents here = contentsOf(portion, portion.kilograms);
        given_.mass += here.mass;
        given_.water += here.water;
        given_.carbon += here.carbon;
        given_.nitrogen += here.nitrogen;
    }
    for (const ToHand& material : toHand_) {
        each_.push_back(contentsOf(material.material, 1));
    }
}

double BalanceProgramme::endless() const {
    double most = given_.mass;
    for (const ToHand& material : toHand_) {
        most = std::max({most, material.atLeast, material.atMost.value_or(0)});
    }
    return endlessTimes * std::max(most, 1.0);
}

/// "excess(all of it, goal) is at least 0 at the low end and at most 0 at the high end", as rows over the masses.
void BalanceProgramme::limit(LinearProgramme& programme, const Bounds& band,
                             double (*excess)(const Contents&, double)) const {
    const auto rowFor = [&](double goal, double low, double high) {
        LinearProgramme::Row row;
        for (const Contents& contents : each_) {
            row.factors.push_back(excess(contents, goal));
        }
        const double there = excess(given_, goal);
        row.low = low - there;
        row.high = high - there;
        return row;
    };
    constexpr double unlimited = LinearProgramme::unlimited;
    if (band.low == band.high) {
        programme.add(rowFor(band.low, 0, 0));
    } else {
        programme.add(rowFor(band.low, 0, unlimited));
        programme.add(rowFor(band.high, -unlimited, 0));
    }
}

LinearProgramme BalanceProgramme::programmeFor(const Goals& goals, double endless) const {
    LinearProgramme programme;
    for (const ToHand& material : toHand_) {
        programme.add(
            LinearProgramme::Column{.low = material.atLeast, .high = material.atMost.value_or(endless), .cost = 1});
    }
    if (goals.moisturePercent) {
        limit(programme, *goals.moisturePercent,
              [](const Contents& all, double goal) { return all.water - goal * all.mass; });
    }
    if (goals.carbonNitrogen) {
        limit(programme, *goals.carbonNitrogen,
              [](const Contents& all, double goal) { return all.carbon - goal * all.nitrogen; });
    }
    return programme;
}

BalanceProgramme::Masses BalanceProgramme::leastMass(const Goals& goals) const {
    return programmeFor(goals, LinearProgramme::unlimited).solve();
}

BalanceProgramme::Masses BalanceProgramme::solve(Aim aim) const {
    switch (aim) {
        case Aim::fewestMaterials:
            return fewestMaterials();
        case Aim::mostKitchenWaste:
            return mostKitchenWaste();
        case Aim::leastMass:
            break;
    }
    return leastMass(goals_);
}

/// Each material gets a yes-or-no, and its mass is 0 when that says no. First the fewest yeses; then, with no more
/// of them, the least mass; then that mass once more without the yes-or-nos, for its last digits.
BalanceProgramme::Masses BalanceProgramme::fewestMaterials() const {
    const std::size_t count = toHand_.size();
    LinearProgramme programme = programmeFor(goals_, endless());
    LinearProgramme::Row yeses;
    yeses.factors.assign(2 * count, 0);
    for (std::size_t i = 0; i < count; ++i) {
        programme.setCost(i, 0);
        programme.add(LinearProgramme::Column{.cost = 1, .yesOrNo = true});
        yeses.factors[count + i] = 1;
        LinearProgramme::Row onlyIfYes;
        onlyIfYes.factors.assign(2 * count, 0);
        onlyIfYes.factors[i] = 1;
        onlyIfYes.factors[count + i] = -toHand_[i].atMost.value_or(endless());
        onlyIfYes.high = 0;
        programme.add(std::move(onlyIfYes));
    }
    const auto fewest = programme.solve();
    if (!fewest) {
        return leastMass(goals_);  // reachable, if at all, only with more than `endless` of something
    }
    for (std::size_t i = 0; i < count; ++i) {
        yeses.high = i == 0 ? std::round((*fewest)[count]) : yeses.high + std::round((*fewest)[count + i]);
        programme.setCost(i, 1);
        programme.setCost(count + i, 0);
    }
    programme.add(std::move(yeses));
    const auto least = programme.solve();
    BalanceProgramme chosen = *this;
    for (std::size_t i = 0; least && i < count; ++i) {
        if ((*least)[count + i] < 0.5) {
            chosen.toHand_[i].atMost = 0;
        }
    }
    return chosen.leastMass(goals_);
}

BalanceProgramme::Masses BalanceProgramme::mostKitchenWaste() const {
    LinearProgramme programme = programmeFor(goals_, LinearProgramme::unlimited);
    LinearProgramme::Row kitchen;
    for (std::size_t i = 0; i < toHand_.size(); ++i) {
        const bool counts = toHand_[i].kitchenWaste;
        programme.setCost(i, counts ? -1 : 0);
        kitchen.factors.push_back(counts ? 1 : 0);
    }
    const auto most = programme.solve();
    if (!most) {
        return std::nullopt;
    }
    kitchen.low = 0;
    for (std::size_t i = 0; i < toHand_.size(); ++i) {
        kitchen.low += kitchen.factors[i] * (*most)[i];
        programme.setCost(i, 1);
    }
    kitchen.low *= 1 - hair;
    programme.add(std::move(kitchen));
    return programme.solve();
}

BalanceProgramme::Masses BalanceProgramme::within(const Slack& slack) const {
    Goals goals = goals_;
    if (goals.moisturePercent) {
        goals.moisturePercent = widened(*goals.moisturePercent, slack.moisture);
    }
    if (goals.carbonNitrogen) {
        goals.carbonNitrogen = widened(*goals.carbonNitrogen, slack.carbonNitrogen);
    }
    return programmeFor(goals, endless()).solve();
}

/// The least slack, put into the one or two named places, with which there are masses. Each trial is a linear
/// programme, and more slack never hurts, so halving finds it.
std::optional<double> BalanceProgramme::leastSlack(Slack fixed, double Slack::*first, double Slack::*second) const {
    const auto reachable = [&](double slack) {
        fixed.*first = slack;
        fixed.*second = slack;
        return within(fixed).has_value();
    };
    double low = 0;
    double high = farthest;
    if (!reachable(high)) {
        return std::nullopt;
    }
    for (int i = 0; i < halvings; ++i) {
        const double middle = (low + high) / 2;
        (reachable(middle) ? high : low) = middle;
    }
    return high + hair;
}

BalanceProgramme::Masses BalanceProgramme::nearest() const {
    const auto both = leastSlack({}, &Slack::moisture, &Slack::carbonNitrogen);
    if (!both) {
        return std::nullopt;
    }
    Slack slack{*both, *both};
    if (const auto moisture = leastSlack(slack, &Slack::moisture, &Slack::moisture)) {
        slack.moisture = *moisture;
    }
    if (const auto ratio = leastSlack(slack, &Slack::carbonNitrogen, &Slack::carbonNitrogen)) {
        slack.carbonNitrogen = *ratio;
    }
    return within(slack);
}

}  // namespace midden
