// SPDX-License-Identifier: GPL-3.0-or-later
// How the bins of a book stand.
#pragma once

#include "core/logbook/logbook.h"
#include "core/review/standing.h"

namespace midden {

/// The batches somebody may still have something to do for: those that stand in a bin in use at `now`, and those
/// finished not long before that no certificate has been issued for.
std::vector<BatchId> batchesAskedAfter(const Logbook& book, Instant now);

/// What a standing is found from besides the record.
struct StandingTerms {
    OutlookSettings outlook;
    CareSettings care;
    std::vector<Criterion> inForce;
    Materials materials;
};
StandingTerms standingTermsOf(const Logbook& book);

/// Certificates are left out.
BinStanding standingOf(const BatchRecord& record, BinOutlook outlook, const StandingTerms& terms);

/// All of them.
std::vector<BinStanding> standingsOf(const Logbook& book, Instant now);

}  // namespace midden
