// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/records/entries.h"

namespace midden::ui {

/// Typed in more than a day after it happened, as a review counts late entries.
inline bool isLate(const Provenance& provenance, Instant at) {
    return provenance.source == Source::typed && provenance.entered && *provenance.entered - at > days(1);
}

}  // namespace midden::ui
