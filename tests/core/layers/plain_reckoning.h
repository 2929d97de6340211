// SPDX-License-Identifier: GPL-3.0-or-later
// The reckoning of a fed bin once more, in the plainest way: every layer is looked at for every two readings. Shares
// nothing with the one it is held against but the structs that go in and come out.
#pragma once

#include "core/layers/reckoning.h"

namespace midden::testing {

FedReckoning reckonPlainly(const FedRecord& record);

}  // namespace midden::testing
