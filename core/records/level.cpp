// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/records/level.h"

#include <array>
#include <charconv>

namespace midden {

std::optional<double> levelOf(const Observation& observation) {
    const auto& text = observation.value;
    double centimetres = 0;
    const auto* end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, centimetres, std::chars_format::fixed);
    const bool isLevel = observation.kind == ObservationKind::level && read.ec == std::errc{} && read.ptr == end &&
                         centimetres >= levelRange.least && centimetres <= levelRange.most;
    return isLevel ? std::optional{centimetres} : std::nullopt;
}

std::string levelText(double centimetres) {
    std::array<char, 64> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), centimetres, std::chars_format::fixed);
    return {text.data(), end.ptr};
}

}  // namespace midden
