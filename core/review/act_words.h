// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/records/entries.h"

namespace midden {

/// "turned", "forked over" …: an act as the review tells it.
const char* actWord(AerationKind kind);

}  // namespace midden
