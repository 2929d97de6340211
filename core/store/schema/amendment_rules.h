// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/sqlite/database.h"

namespace midden {

/// Writes into the file itself, as triggers, that no entry changes without its old value staying as an amendment.
/// Done anew after every step of the format, from the tables as they then are.
void writeAmendmentRules(DatabaseFile& file);

/// The SELECT that makes an amendment of the rows `from` gives; `values` are kind, entry, batch, bin, at, was, became.
std::string amendmentOf(const std::string& values, const std::string& entry, const std::string& from);
/// A reading as JSON, with series `s`, bin `b` and probe `p` joined.
std::string readingJson(const std::string& at, const std::string& raw, const std::string& note,
                        const std::string& entered);

}  // namespace midden
