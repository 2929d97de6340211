// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/sqlite/database.h"

namespace midden {

/// The entries of a kind that belong to a batch or a probe, in time order.
template <class E>
std::vector<E> entriesOf(DatabaseFile& file, std::int64_t owner);

}  // namespace midden
