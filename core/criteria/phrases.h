// SPDX-License-Identifier: GPL-3.0-or-later
// How limits, durations and readings are put into the sentences of a judgement.
#pragma once

#include <string>

#include "core/criteria/criterion.h"

namespace midden {

/// Exact: "41 h", "36 h 10 min", "30 min", "36 h 1 s".
std::string durationWords(Seconds duration);

/// "55 °C"; for a limit written in °F "55 °C (131 °F)", rounded to a tenth.
std::string limitWords(WrittenTemperature limit);

/// What a step asks of a temperature: "at or above 55 °C", "above 50 °C", "from 55 °C (131 °F) to 76.7 °C (170 °F)".
std::string limitWords(const Step& step);

/// A reading and the limit it misses: "54.5 °C, below 55 °C", "78 °C, above 76.7 °C (170 °F)". Both to a tenth of a
/// degree, to more decimals where a tenth would hide the miss.
std::string missWords(Celsius reading, const std::string& relation, WrittenTemperature limit);

/// "1 turning", "5 turnings"
std::string counted(int count, const std::string& one, const std::string& many);

}  // namespace midden
