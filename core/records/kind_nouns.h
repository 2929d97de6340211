// SPDX-License-Identifier: GPL-3.0-or-later
// What a kind of entry is called.
#pragma once

#include <cstdint>
#include <string>

#include "core/records/edit.h"

namespace midden {

struct Noun {
    const char* one;
    const char* many;
};

/// "reading", "readings"
Noun nounOf(EntryKind kind);
/// "1 reading", "12 readings"
std::string counted(std::int64_t count, const Noun& noun);

}  // namespace midden
