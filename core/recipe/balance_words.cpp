// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/recipe/balance_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/recipe/balance_programme.h"

namespace midden {
namespace {

std::string number(double value) {
    const std::string text = oneDecimal(value);
    return text.ends_with(".0") ? text.substr(0, text.size() - 2) : text;
}

std::string bandInWords(const Bounds& band) {
    return band.low == band.high ? number(band.low) : number(band.low) + "–" + number(band.high);
}

std::string moistureWords(const Bounds& band) {
    return bandInWords(band) + " % moisture";
}

std::string ratioWords(const Bounds& band) {
    return "C:N " + bandInWords(band);
}

std::string figuresInWords(const Mixture& mixture) {
    const std::string moisture =
        mixture.moisturePercent ? oneDecimal(*mixture.moisturePercent) + " % moisture" : "moisture not known";
    return moisture + " with " +
           (mixture.carbonNitrogen ? "C:N " + oneDecimal(*mixture.carbonNitrogen) : "no C:N for want of nitrogen");
}

bool isReachable(const BalanceTask& task, const Goals& goals) {
    return BalanceProgramme{task.given, task.toHand, goals}.solve(Aim::leastMass).has_value();
}

std::string whatIsToHand(const BalanceTask& task) {
    std::vector<std::string> names;
    for (const ToHand& material : task.toHand) {
        names.push_back(material.material.material);
    }
    if (names.empty()) {
        return "with nothing to add";
    }
    const bool limited = std::ranges::any_of(task.toHand, [](const ToHand& m) { return m.atMost.has_value(); });
    return fmt::format("by adding {}{}", listInWords(names), limited ? ", within the amounts to hand" : "");
}

/// "60 % moisture cannot be reached by adding straw."
std::string obstacle(const BalanceTask& task) {
    const Goals moistureOnly{task.goals.moisturePercent, std::nullopt};
    const Goals ratioOnly{std::nullopt, task.goals.carbonNitrogen};
    const bool moisture = !task.goals.moisturePercent || isReachable(task, moistureOnly);
    const bool ratio = !task.goals.carbonNitrogen || isReachable(task, ratioOnly);
    const std::string means = whatIsToHand(task);
    if (moisture && ratio) {
        return fmt::format("{} and {} can each be reached {}, but not both at once.",
                           moistureWords(*task.goals.moisturePercent), ratioWords(*task.goals.carbonNitrogen), means);
    }
    if (!moisture && !ratio) {
        return fmt::format("Neither {} nor {} can be reached {}.", moistureWords(*task.goals.moisturePercent),
                           ratioWords(*task.goals.carbonNitrogen), means);
    }
    return fmt::format("{} cannot be reached {}.",
                       moisture ? ratioWords(*task.goals.carbonNitrogen) : moistureWords(*task.goals.moisturePercent),
                       means);
}

}  // namespace

std::string oneDecimal(double value) {
    const double tenths = std::round(value * 10);
    return fmt::format("{:.1f}", tenths == 0 ? 0.0 : tenths / 10);
}

std::string listInWords(std::span<const std::string> names) {
    std::string list;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const bool last = i + 1 == names.size();
        list += i == 0 ? "" : last ? " and " : ", ";
        list += names[i];
    }
    return list;
}

std::string unknownWords(std::span<const std::string> materials) {
    return fmt::format("The moisture, carbon or nitrogen of {} is not known.", listInWords(materials));
}

std::string infeasibleWords(const BalanceTask& task, const Mixture& nearest) {
    if (nearest.wetMassKilograms <= 0) {
        return "There is nothing to balance yet: at least one material needs a mass.";
    }
    if (task.goals.carbonNitrogen && !nearest.carbonNitrogen) {
        return "None of these materials brings nitrogen, so there is no C:N to balance.";
    }
    if (task.aim == Aim::mostKitchenWaste && isReachable(task, task.goals)) {
        return "There is no end to the kitchen waste that could be used: say how much of it there is.";
    }
    return fmt::format("{} The nearest is {}.", obstacle(task), figuresInWords(nearest));
}

}  // namespace midden
