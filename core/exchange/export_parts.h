// SPDX-License-Identifier: GPL-3.0-or-later
// The parts of an export. Each writes into folders that exist, and no file without rows.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "core/exchange/export.h"

namespace midden {

/// Where the parts find names and folders.
struct ExportPlan {
    const Logbook& logbook;
    std::filesystem::path root;
    std::vector<Batch> batches;               ///< by start
    std::map<BatchId, std::string> folderOf;  ///< below root
    std::map<BinId, std::string> binNames;
    std::map<ProbeId, std::string> probeNames;

    std::filesystem::path batchFolder(BatchId batch) const { return root / folderOf.at(batch); }
};

/// readings.csv of every batch, readings-of-no-batch.csv, outside.csv. Returns the number of rows.
std::int64_t exportReadings(const ExportPlan& plan);
/// additions.csv, aerations.csv, observations.csv and moves.csv of one batch.
void exportEntries(const ExportPlan& plan, const Batch& batch);
/// bins.csv and positions.csv, for bins and positions of which more is known than the name.
void exportSetup(const ExportPlan& plan);
/// probes.csv and checks.csv.
void exportThermometers(const ExportPlan& plan);

}  // namespace midden
