// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/sqlite/database.h"

namespace midden {

// In time order.
std::vector<Addition> additionsOf(DatabaseFile& file, BatchId batch);
std::vector<Aeration> aerationsOf(DatabaseFile& file, BatchId batch);
std::vector<Observation> observationsOf(DatabaseFile& file, BatchId batch);
std::vector<ThermometerCheck> checksOf(DatabaseFile& file, ProbeId probe);

}  // namespace midden
