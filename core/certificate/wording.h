// SPDX-License-Identifier: GPL-3.0-or-later
// Small parts of the certificate's sentences.
#pragma once

#include <string>
#include <vector>

#include "core/quantities/zone.h"
#include "core/thermal/interval.h"

namespace midden {

/// "1 entry", "2 entries"
std::string howMany(std::int64_t count, const char* one, const char* many);
/// "96 h 30 min", exact; "0 h"
std::string hoursRead(Seconds time);
/// "a", "a and b", "a, b and c"
std::string listed(const std::vector<std::string>& items);
/// The first letter as a capital, where it is a plain Latin one.
std::string capital(std::string text);
/// At most two decimals, none that are not needed.
std::string shortNumber(double number);
/// "4 March 08:10"
std::string dayAndTime(Moment moment);
/// "4 March 08:10 – 6 March 01:10"
std::string span(const Interval& interval, const TimeZone& zone);

}  // namespace midden
