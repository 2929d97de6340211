// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/entry_words.h"

#include <array>

namespace midden {

const char* wordOf(CheckKind kind) {
    return kind == CheckKind::ice ? "ice" : "boiling water";
}

const char* wordOf(AerationKind kind) {
    static constexpr std::array words{"turned", "forked", "poked", "opened", "watered", "other"};
    return words.at(static_cast<std::size_t>(kind));
}

const char* wordOf(ObservationKind kind) {
    static constexpr std::array words{"note",   "squeeze test",      "smell",     "volume",    "remedy",
                                      "curing", "self-heating test", "seed test", "screening", "condition",
                                      "level"};
    return words.at(static_cast<std::size_t>(kind));
}

}  // namespace midden
