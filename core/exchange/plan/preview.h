// SPDX-License-Identifier: GPL-3.0-or-later
// What an import would come to, found by reading only: no transaction is held while a person makes up their mind.
#pragma once

#include "core/exchange/plan/import.h"

namespace midden {

/// Where readings of the files were taken.
struct PlacePreview {
    std::string bin;       ///< empty = the whole site
    std::string position;  ///< empty = outside air
};

struct ImportPreview {
    ImportOutcome outcome;             ///< what storeImport would say of the book as it is now
    std::vector<PlacePreview> places;  ///< by bin, then position
    std::optional<Moment> first;       ///< of all entries
    std::optional<Moment> last;
};

/// Compares what was read with what the book holds, which must stay open meanwhile. Refused: what storing would refuse
/// of it. The same `staged` can then be stored.
FileResult<ImportPreview> preview(const Logbook& logbook, const ImportRequest& request, StagedImport staged);

}  // namespace midden
