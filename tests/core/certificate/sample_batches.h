// SPDX-License-Identifier: GPL-3.0-or-later
// Invented batches of many shapes for the certificate's tests.
#pragma once

#include <string>
#include <vector>

#include "core/certificate/certificate.h"

namespace midden::testing {

struct SampleBatch {
    BatchRecord record;
    BatchReview review;
    std::vector<Bin> bins;
    std::vector<Reading> readings;
    std::string group = "Long Lane allotments";

    WrittenReadings written() const;
    std::string canonical() const;
    Certificate certificate(const IssueNote& note = {}) const;
};

/// The temperature of each reading of one position, one a day from 1 March 2026 08:00 UTC on.
struct SamplePosition {
    std::string name;
    std::vector<std::string> celsius;
};

SampleBatch sampleBatch(const std::vector<SamplePosition>& positions);
/// The logbook's own target: 55 °C for 72 h in one run.
Criterion sampleTarget();
/// Judges the batch by one more rule.
void judgeBy(SampleBatch& batch, const Criterion& rule);

SampleBatch shownBatch();          ///< three positions, long hot, turned twice
SampleBatch notShownBatch();       ///< cooled early, one gap
SampleBatch withinErrorBatch();    ///< half a degree above the threshold
SampleBatch onePositionBatch();    ///< the core alone
SampleBatch longNamesBatch();      ///< very long and awkward texts everywhere
SampleBatch manyPositionsBatch();  ///< nine positions, four rules
SampleBatch emptyBatch();          ///< nothing read

Moment at(int day, int hour, int minute = 0);  ///< of March 2026, UTC

}  // namespace midden::testing
