// SPDX-License-Identifier: GPL-3.0-or-later
// What has to be remembered of a long record so that a new reading can be added to it without reading it all again.
#pragma once

#include "core/review/outlook.h"

namespace midden {

/// So much of the end of a record stays fit for a small picture: of every position the coldest and the warmest reading
/// of each round are kept there.
constexpr Seconds picturedTail = days(15);

/// The record up to `until` (not included), with the inside readings left out that no outlook can depend on, whatever
/// is read from `until` on: joined with all that comes later it has the same rounds, the same credited time, the same
/// open stall and the same outlook as the whole record, as long as settings, materials and the entries before `until`
/// stay as they are. A logger's minutes shrink to a few readings an hour. `readings` still counts them all.
BatchRecord condensed(BatchRecord record, Instant until, const OutlookSettings& settings,
                      const Materials& materials = builtInMaterials());

/// `head` up to an instant and `since` from that instant on, as one record. Everything but readings, thermometers and
/// their checks is taken from `since`, which holds it whole.
BatchRecord joined(const BatchRecord& head, BatchRecord since);

}  // namespace midden
