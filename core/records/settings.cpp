// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/records/settings.h"

#include <array>
#include <charconv>
#include <optional>

namespace midden {

namespace {

constexpr std::array settings{&setting::zone,
                              &setting::who,
                              &setting::group,
                              &setting::unit,
                              &setting::paper,
                              &setting::targetTemperature,
                              &setting::targetHours,
                              &setting::criteria,
                              &setting::materials,
                              &setting::inForce,
                              &setting::recipeOffered,
                              &setting::recipeToHand,
                              &setting::materialsSince,
                              &setting::bucket,
                              &setting::caddy,
                              &setting::sack,
                              &setting::barrow,
                              &setting::unlikelyJump,
                              &setting::unlikelyBelowOutside,
                              &setting::unlikelyAbove,
                              &setting::hot,
                              &setting::warm,
                              &setting::tooHot,
                              &setting::cured,
                              &setting::heatingUp,
                              &setting::stallSpan,
                              &setting::afterHandling,
                              &setting::recovery,
                              &setting::remedy,
                              &setting::round,
                              &setting::betweenRounds,
                              &setting::curing,
                              &setting::probeCheck};

/// More than any of them may sensibly be.
constexpr double beyondAll = 1e6;

std::optional<double> read(const Setting& setting, std::string_view text) {
    double value = 0;
    const auto* end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, value);
    const bool isNumber = read.ec == std::errc{} && read.ptr == end;
    const bool isZero = setting.least == 0 && value == 0;
    return isNumber && (value > 0 || isZero) && value < beyondAll ? std::optional{value} : std::nullopt;
}

}  // namespace

std::span<const Setting* const> allSettings() {
    return settings;
}

double numberOf(const Setting& setting, std::string_view stored) {
    return read(setting, stored).value_or(read(setting, setting.otherwise).value_or(0));
}

}  // namespace midden
