// SPDX-License-Identifier: GPL-3.0-or-later
// CSV files into a logbook: first everything is read and checked, then all of it is stored, or nothing.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/exchange/plan/entry_files.h"
#include "core/exchange/plan/readings_file.h"
#include "core/exchange/staging/staged_readings.h"
#include "core/store/logbook.h"

namespace midden {

/// The files of one batch; each may be left out.
struct ImportFiles {
    std::optional<std::filesystem::path> readings;
    std::optional<std::filesystem::path> additions;
    std::optional<std::filesystem::path> aerations;
    std::optional<std::filesystem::path> observations;
    std::optional<std::filesystem::path> harvests;
    std::optional<std::filesystem::path> moves;
    std::optional<std::filesystem::path> outside;
    std::optional<std::filesystem::path> probes;
    std::optional<std::filesystem::path> checks;
    std::optional<std::filesystem::path> bins;
    std::optional<std::filesystem::path> positions;
};

struct ImportRequest {
    std::string batch;               ///< empty = of no batch: only what batches share, and readings that name their bin
    std::optional<std::string> bin;  ///< must be there for a new batch
    ImportFiles files;
    ReadingHabits habits;
    std::optional<Moment> start;
    std::optional<Moment> finish;
    std::optional<std::string> note;   ///< about the batch
    bool fed = false;                  ///< the batch is fed on top and emptied at the base
    std::optional<std::string> group;  ///< whose logbook it is, for the head of a certificate
};

/// Everything the files of a request hold, parsed.
struct StagedImport {
    StagedReadings readings;
    std::vector<Lined<Addition>> additions;
    std::vector<Lined<Aeration>> aerations;
    std::vector<Lined<Observation>> observations;
    std::vector<Lined<Harvest>> harvests;
    std::vector<Lined<StagedMove>> moves;
    std::vector<Lined<Probe>> probes;
    std::vector<Lined<StagedCheck>> checks;
    std::vector<Lined<Bin>> bins;
    std::vector<Lined<StagedPosition>> positions;
    std::vector<std::string> remarks;  ///< what the person should know although nothing was refused
};

/// How many of a kind came in, and how many the book had.
struct ImportCount {
    std::int64_t added = 0;
    std::int64_t alreadyThere = 0;
};

struct ImportOutcome {
    std::string batch;
    std::string bin;  ///< where the batch stands now
    bool newBatch = false;
    Moment started;
    bool startMoved = false;
    bool becameFed = false;  ///< it was filled in the book before, or is new and fed
    std::vector<std::string> newBins;
    std::vector<std::string> newProbes;  ///< named by readings or checks, accuracy not said
    ImportCount readings;
    ImportCount outside;
    ImportCount additions;
    ImportCount aerations;
    ImportCount observations;
    ImportCount harvests;
    ImportCount moves;
    ImportCount probes;
    ImportCount checks;
    ImportCount bins;
    ImportCount positions;
    std::int64_t ofOtherBatches = 0;   ///< readings that belong to another batch by bin and time
    std::int64_t ofNoBatch = 0;        ///< readings of a bin in which no batch stood
    std::vector<std::string> leaving;  ///< a sentence for each batch that gives up its bin to this one
    std::vector<std::string> remarks;
};

/// Reads and checks all files of the request.
FileResult<StagedImport> readFiles(const ImportRequest& request);

/// Stores it in one transaction. On a refusal nothing has changed. Throws LogbookError for what the machine refuses.
FileResult<ImportOutcome> storeImport(Logbook& logbook, const ImportRequest& request, StagedImport staged);

/// The outcome in words, one line for each kind.
std::string inWords(const ImportOutcome& outcome, bool dryRun);

}  // namespace midden
