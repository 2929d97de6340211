// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/act_words.h"

namespace midden {

const char* actWord(AerationKind kind) {
    switch (kind) {
        case AerationKind::turned:
            return "turned";
        case AerationKind::forked:
            return "forked over";
        case AerationKind::poked:
            return "poked";
        case AerationKind::opened:
            return "opened";
        case AerationKind::watered:
            return "watered";
        case AerationKind::other:
            return "aerated";
    }
    return "";
}

}  // namespace midden
