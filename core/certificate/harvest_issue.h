// SPDX-License-Identifier: GPL-3.0-or-later
// From the logbook to the numbered record of one harvest. It is numbered, kept and verified like a batch's certificate,
// but over the entries up to the harvest alone, so that the bin may be fed on.
#pragma once

#include "core/certificate/harvest_record.h"
#include "core/certificate/issue.h"
#include "core/review/fed_review.h"

namespace midden {

struct HarvestDraft {
    BatchRecord record;  ///< up to the harvest
    std::vector<Bin> bins;
    WrittenReadings readings;
    HoldTarget target;  ///< of the book: threshold and hold
    Materials materials;
    FedReview fed;
    HarvestReckoning harvest;
    std::optional<double> massKilograms;
    std::string group;
    std::string canonical;
    std::string digest;
};

/// Of the harvest at that instant. No value: the batch is not fed, or nothing was taken out then. Throws LogbookError.
std::optional<HarvestDraft> draftHarvest(const Logbook& logbook, BatchId batch, Instant at);

/// As `numberedCertificate`: takes the place of an earlier record of the same harvest only.
IssuedCertificate numberedHarvest(const Logbook& logbook, const HarvestDraft& draft, Instant issued);

/// What its page says.
Certificate harvestPageOf(const HarvestDraft& draft, const IssueNote& note, const TimeZone& zone);

/// The entries that were there when the harvest was taken, at that instant included. How many were amended or late is
/// not told, for later ones count into that.
BatchRecord recordUpTo(BatchRecord record, Instant at);

}  // namespace midden
