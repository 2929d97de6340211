// SPDX-License-Identifier: GPL-3.0-or-later
// Getting out of a damaged logbook what can still be read.
#pragma once

#include "core/store/logbook.h"

namespace midden {

/// What came back of one kind of entry.
struct SalvagedKind {
    std::string one;   ///< "reading"
    std::string many;  ///< "readings"
    std::int64_t kept = 0;
    std::int64_t lost = 0;       ///< they were there, but contradict the rules of a logbook or cannot be read
    std::int64_t lostPages = 0;  ///< pages that may have held more of them
    std::int64_t aPage = 0;      ///< how many stood on a page that was read, about
};

struct SalvageReport {
    std::vector<SalvagedKind> kinds;
    std::vector<std::string> standIns;  ///< names given to bins, thermometers and batches whose own are lost
    std::vector<std::string> faults;    ///< what a check of the new book still finds
    bool isWhole() const;               ///< nothing is known to be lost
};

/// Writes everything that can be read in `damaged` to the new logbook `fresh`, and checks it. The damaged file is only
/// read. Throws LogbookError; no new file is left then.
SalvageReport salvageBook(const std::filesystem::path& damaged, const std::filesystem::path& fresh,
                          const Digester& digester);

/// "1,204 readings kept; …", one sentence for each kind.
std::vector<std::string> inWords(const SalvageReport& report);

}  // namespace midden
