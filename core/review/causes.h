// SPDX-License-Identifier: GPL-3.0-or-later
// What may lie behind a stall: resources/causes.json weighed against the facts of the record.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/review/stall.h"

namespace midden {

/// What the record says of a stall, by name ("squeeze", "days_since_air" …). A fact the record does not hold is not in
/// the map. Each fact is a number or a word; resources/causes.json asks for them by these names.
using Facts = std::map<std::string, std::variant<double, std::string>, std::less<>>;

/// The text of resources/causes.json, built into the program.
std::string_view causesText();

/// Ranked by the weight of the evidence found, each with its reasons; never empty: with nothing recorded it asks for
/// the squeeze test.
std::vector<LikelyCause> likelyCauses(StallKind kind, const Facts& facts);

}  // namespace midden
