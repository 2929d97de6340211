// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string>
#include <vector>

#include "core/recipe/balance.h"

namespace midden {

struct BalanceTask {
    std::span<const Portion> given;
    std::span<const ToHand> toHand;
    Goals goals;
    Aim aim = Aim::leastMass;
};

/// "The moisture, carbon or nitrogen of hops and moon dust is not known."
std::string unknownWords(std::span<const std::string> materials);

/// Why the goals cannot be met, and what comes nearest, in whole sentences.
std::string infeasibleWords(const BalanceTask& task, const Mixture& nearest);

/// "straw, leaves and water"
std::string listInWords(std::span<const std::string> names);

/// One decimal, halves away from zero, never "-0.0".
std::string oneDecimal(double value);

}  // namespace midden
