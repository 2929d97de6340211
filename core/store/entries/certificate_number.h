// SPDX-License-Identifier: GPL-3.0-or-later
// The number of a certificate comes of its record and of the instant it was issued at, so that none of the three can be
// changed without the others.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/store/logbook.h"

namespace midden {

/// The numbers a certificate may have, in the order in which they are tried: the day the batch started, and eight
/// digits at a time of a digest over the record's digest and the instant of issue, "20260301-7F3A-9C21".
std::vector<std::string> certificateNumbers(Moment started, std::string_view digest, Instant issued);

/// Is its number one that its record and its instant of issue give? A certificate whose text is no record of a batch
/// has a number of another making, and passes.
bool numberFits(const IssuedCertificate& certificate);

}  // namespace midden
