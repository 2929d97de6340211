// SPDX-License-Identifier: GPL-3.0-or-later
// The parts of an export. Each writes into folders that exist, and no file without rows.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "core/exchange/export/export.h"

namespace midden {

/// Where the parts find names and folders.
struct ExportPlan {
    const Logbook& logbook;
    std::filesystem::path root;
    std::vector<Batch> batches;               ///< by start
    std::map<BatchId, std::string> folderOf;  ///< below root
    std::map<BinId, std::string> binNames;
    std::map<ProbeId, std::string> probeNames;
    std::map<BatchId, Moment> earliest;  ///< the start import would give a batch, from what is written of it

    std::filesystem::path batchFolder(BatchId batch) const { return root / folderOf.at(batch); }
};

/// readings.csv of every batch, readings-of-no-batch.csv, outside.csv. Returns the number of rows.
std::int64_t exportReadings(ExportPlan& plan);
/// additions.csv, aerations.csv, observations.csv, harvests.csv and moves.csv of one batch, whose readings are written.
void exportEntries(ExportPlan& plan, const Batch& batch);
/// Something of the batch was written that happened then.
void considerStart(ExportPlan& plan, BatchId batch, Moment when);
/// A start that somebody gave, or that the entries written of the batch do not tell.
bool startToSay(const ExportPlan& plan, const Batch& batch);
/// bins.csv and positions.csv, where something is known of a bin or a position that no other file tells.
void exportSetup(const ExportPlan& plan);
/// probes.csv and checks.csv.
void exportThermometers(const ExportPlan& plan);

}  // namespace midden
