// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/gap_rule.h"

namespace midden {

Seconds maxGapForHold(Seconds hold) {
    if (hold >= hours(72)) {
        return ordinaryMaxGap;
    }
    return hold >= hours(48) ? hours(26) : Seconds{hold.count / 2};
}

}  // namespace midden
