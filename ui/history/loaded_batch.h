// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <memory>
#include <optional>

#include "core/review/fed_status.h"
#include "core/review/review.h"
#include "core/store/logbook.h"
#include "ui/chart/chart_plan.h"
#include "ui/chart/chart_source.h"
#include "ui/layers/layers_source.h"

namespace midden::ui {

/// A batch as History shows it; never changed once loaded, so it may be shared between threads.
struct LoadedBatch {
    LoadedBatch(BatchRecord batchRecord, BatchReview batchReview, BinOutlook batchOutlook = {},
                LayersPtr batchLayers = {}, std::optional<FedStatus> fedStatus = {});
    LoadedBatch(const LoadedBatch&) = delete;
    LoadedBatch& operator=(const LoadedBatch&) = delete;
    ~LoadedBatch() = default;

    const BatchRecord record;
    const BatchReview review;
    const BinOutlook outlook;
    const Interval whole;      ///< first to last entry, and on to the next round where its temperature is projected
    const ChartSource source;  ///< of record and review
    const LayersPtr layers;    ///< null where the batch is not fed
    const std::optional<FedStatus> fed;

    bool isFinished() const { return record.finished.has_value(); }
};
using LoadedPtr = std::shared_ptr<const LoadedBatch>;

/// Reads and reviews; takes long for a long batch. The callback hears of the reading, 1 once all that is left is to
/// judge it. Null when stopped. Throws LogbookError.
LoadedPtr loadBatch(const Logbook& logbook, BatchId batch, const ProgressCallback& onProgress);

/// One reading of a loaded batch.
struct ReadingSpot {
    std::size_t track = 0;
    std::size_t sample = 0;
    auto operator<=>(const ReadingSpot&) const = default;
};

const Sample& sampleOf(const LoadedBatch& batch, ReadingSpot spot);
/// Where the reading stands in the book: its bin is the one the batch stood in at that instant.
ReadingId readingAt(const LoadedBatch& batch, ReadingSpot spot);
/// The spot of a position's reading at that very instant.
std::optional<ReadingSpot> spotOf(const LoadedBatch& batch, const std::string& position, Instant at);
/// The next or previous reading in time over all positions, alphabetical within one instant.
std::optional<ReadingSpot> neighbour(const LoadedBatch& batch, ReadingSpot spot, bool later);
/// The same within its own position.
std::optional<ReadingSpot> alongTrack(const LoadedBatch& batch, ReadingSpot spot, bool later);
/// The reading of another position nearest in time.
std::optional<ReadingSpot> acrossTracks(const LoadedBatch& batch, ReadingSpot spot, bool down);

/// "core, Wed 4 Mar 2026 08:10: 63.5 °C, +2.5 in 23 h. Typed 146.3 °F." and what the calibration did to it.
/// `asTyped` is the entry in the book, where it is still there.
QString readingSentence(const LoadedBatch& batch, ReadingSpot spot, const std::optional<Reading>& asTyped,
                        const TimeZone& zone, TemperatureUnit unit);

}  // namespace midden::ui
