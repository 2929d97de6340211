// SPDX-License-Identifier: GPL-3.0-or-later
// How the bins of a book stand.
#pragma once

#include "core/review/bin_status.h"
#include "core/store/logbook.h"

namespace midden {

/// The batches somebody may still have something to do for: those that stand in a bin in use at `now`, and those
/// finished not long before that no certificate has been issued for.
std::vector<BatchId> batchesAskedAfter(const Logbook& book, Instant now);

/// What a standing is found from besides the record.
struct StatusTerms {
    OutlookSettings outlook;
    CareSettings care;
    std::vector<Criterion> inForce;
    Materials materials;
};
StatusTerms statusTermsOf(const Logbook& book);

/// Certificates are left out.
BinStatus statusOf(const BatchRecord& record, BinOutlook outlook, const StatusTerms& terms);

/// All of them.
std::vector<BinStatus> statusesOf(const Logbook& book, Instant now);

}  // namespace midden
