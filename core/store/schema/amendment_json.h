// SPDX-License-Identifier: GPL-3.0-or-later
// What an entry was or became, as the rules of the file keep it in an amendment.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/store/sqlite/database.h"

namespace midden {

/// The fields of an entry; nothing where the text is not what the rules write: a flat JSON object whose fields have
/// the types and ranges of the columns they came from.
std::optional<nlohmann::json> amendedEntry(std::string_view text);

/// Makes the function `amended_field(text, name)` known to a connection: a field of such a text, else NULL. Takes
/// the place of json_extract(), which gives up the whole statement over a text that is not JSON.
void provideAmendedField(DatabaseFile& file);

/// What is checked of an amendment, as the file keeps it.
struct KeptAmendment {
    EntryKind kind{};
    std::string entry;
    std::int64_t amended = 0;
    std::optional<std::int64_t> rank;  ///< climbs from the clock's time by one a correction
    std::optional<std::string> was;
    std::optional<std::string> became;
};
/// Can a rule of the file have written it?
bool isSound(const KeptAmendment& amendment);

/// Those amendments that no rule of the file can have written, one sentence each, oldest first: an old or new value
/// that cannot be read or lacks what such an entry has, a time that cannot be.
std::vector<std::string> unreadableAmendments(DatabaseFile& file);

}  // namespace midden
