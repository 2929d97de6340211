// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/words.h"

namespace midden {

const char* word(Verdict verdict) {
    switch (verdict) {
        case Verdict::shown:
            return "shown";
        case Verdict::shownWithinError:
            return "shown-within-error";
        case Verdict::notShown:
            return "not-shown";
    }
    return "";
}

const char* word(ConditionState state) {
    switch (state) {
        case ConditionState::held:
            return "held";
        case ConditionState::notHeld:
            return "not-held";
        case ConditionState::notRecorded:
            return "not-recorded";
    }
    return "";
}

}  // namespace midden
