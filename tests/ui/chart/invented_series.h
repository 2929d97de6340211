// SPDX-License-Identifier: GPL-3.0-or-later
// Series that are hard to thin: what would be missed if the wrong readings were left out.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "tests/ui/support/made_batch.h"

namespace midden::testing {

/// The same numbers for the same seed, everywhere.
class Dice {
  public:
    explicit Dice(std::uint32_t seed) : state_{seed * 2'654'435'761U + 1} {}
    /// 0 to just below 1.
    double share() {
        state_ = state_ * 1'664'525U + 1'013'904'223U;
        return static_cast<double>(state_ >> 8U) / (1U << 24U);
    }
    double between(double low, double high) { return low + share() * (high - low); }
    bool happens(double chance) { return share() < chance; }

  private:
    std::uint32_t state_;
};

enum class Nasty { flat, spikes, sawtooth, walk, noise, steps, pauses, mixed, severalPositions, severalMixed };
inline constexpr std::array allNasty{
    Nasty::flat,   Nasty::spikes, Nasty::sawtooth,         Nasty::walk,        Nasty::noise, Nasty::steps,
    Nasty::pauses, Nasty::mixed,  Nasty::severalPositions, Nasty::severalMixed};

inline constexpr int nastyReadings = 8'000;

namespace nasty {

inline double next(Nasty kind, int i, double before, Dice& dice) {
    switch (kind) {
        case Nasty::flat:
            return 48;
        case Nasty::spikes:
            return dice.happens(0.001) ? dice.between(12, 78) : 45;
        case Nasty::sawtooth:
            return 20 + std::fmod(i * 0.7, 37);
        case Nasty::steps:
            return dice.happens(0.004) ? dice.between(15, 75) : before;
        case Nasty::noise:
            return dice.between(15, 75);
        default:
            return std::clamp(before + dice.between(-0.6, 0.6), 12.0, 78.0);
    }
}

constexpr bool isMixed(Nasty kind) {
    return kind == Nasty::mixed || kind == Nasty::severalMixed;
}

/// Minutes until the next reading.
inline double wait(Nasty kind, Dice& dice) {
    if (kind == Nasty::pauses && dice.happens(0.003)) {
        return dice.between(37, 90) * 60;  // longer than any line is drawn across
    }
    if (isMixed(kind) && dice.happens(0.02)) {
        return dice.between(6, 30) * 60;  // as somebody with a thermometer reads
    }
    return 1;
}

}  // namespace nasty

inline Track nastyTrack(const std::string& position, Nasty kind, Dice& dice) {
    Track track{position, false, {}};
    double minute = 0;
    double celsius = 40;
    for (int i = 0; i < nastyReadings; ++i) {
        celsius = nasty::next(kind, i, celsius, dice);
        track.samples.push_back(sampleAt(minute / 60, celsius));
        minute += nasty::wait(kind, dice);
    }
    return track;
}

inline BatchRecord nastyRecord(Nasty kind, std::uint32_t seed) {
    Dice dice{seed};
    BatchRecord record = madeRecord();
    if (kind == Nasty::severalPositions) {
        record.tracks = {nastyTrack("base", Nasty::walk, dice), nastyTrack("core", Nasty::spikes, dice),
                         nastyTrack("side", Nasty::noise, dice)};
    } else if (kind == Nasty::severalMixed) {
        record.tracks = {nastyTrack("base", kind, dice), nastyTrack("core", kind, dice),
                         nastyTrack("side", kind, dice)};
    } else {
        record.tracks = {nastyTrack("core", kind, dice)};
    }
    record.readings = nastyReadings * std::ssize(record.tracks);
    return record;
}

}  // namespace midden::testing
