// SPDX-License-Identifier: GPL-3.0-or-later
// What people write in words, before the book takes it: a text that is kept must come out of an export and go in again.
#pragma once

#include <string_view>

#include "core/records/entries.h"

namespace midden {

/// Refuses a name or remark that is not UTF-8, holds control characters other than tabs and line breaks, or is longer
/// than 1,000 bytes (a name). Where an entry is amended, what it said before may stay.
void expectKeepable(const Bin& bin, const Bin* was);
void expectKeepable(const Probe& probe, const Probe* was);
void expectKeepable(const PlaceSetting& setting, const PlaceSetting* was);
void expectKeepable(const Batch& batch, const Batch* was);
void expectKeepable(const Reading& reading, const Reading* was);
/// Of the dated kinds. An observation of a level must say one.
template <class E>
void expectKeepable(const E& entry, const E* was);

/// Refuses a text that is not UTF-8 or holds control characters other than tabs and line breaks.
void expectPlain(std::string_view text);
/// The same as for an entry, for a text that stands by itself.
void expectKeepableName(std::string_view name);

}  // namespace midden
