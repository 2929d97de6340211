// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/records/entries.h"

namespace midden {

const char* wordOf(CheckKind kind);        ///< "ice", "boiling water"
const char* wordOf(AerationKind kind);     ///< "turned", "forked" …
const char* wordOf(ObservationKind kind);  ///< "squeeze test", "smell" …

}  // namespace midden
