// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>

namespace midden::testing {

/// What a test with dice of its own begins them with, and with what everything else that is random in a test program
/// begins. The same in every run, unless RC_PARAMS="seed=NUMBER" asks for another.
std::uint64_t seedOfRun();

}  // namespace midden::testing
