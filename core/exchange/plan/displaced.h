// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "core/store/logbook.h"

namespace midden {

/// Of each batch that stands where `coming`, which the book does not hold like this yet, is about to come: a sentence
/// that it leaves its bin then and counts as finished.
std::vector<std::string> displacedBy(const Logbook& logbook, const Batch& coming);

}  // namespace midden
