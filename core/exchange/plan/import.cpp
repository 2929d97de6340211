// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/import.h"

#include <fmt/core.h>

#include <algorithm>

#include "core/exchange/plan/displaced.h"
#include "core/exchange/plan/place_readings.h"
#include "core/exchange/plan/store_entries.h"
#include "core/exchange/plan/store_readings.h"
#include "core/exchange/plan/store_setup.h"
#include "core/exchange/plan/within_bin.h"

namespace midden {

namespace {

tl::unexpected<Refusal> wrongUsage(Problem problem) {
    return tl::unexpected{Refusal{{}, 0, std::move(problem), true}};
}

/// One import while its transaction is open. Throws RefusedImport, so that everything is rolled back.
class Importer {
  public:
    Importer(Logbook& logbook, const ImportRequest& request, StagedImport& staged)
        : logbook_{logbook}, request_{request}, staged_{staged} {}

    ImportOutcome run();

  private:
    void expectNoNeedOfABatch() const;
    void findBatch();
    void tellOfBatch();
    void expectBatchBin(const Batch& batch) const;
    void addMoves();
    void settleStart(const std::map<Place, PlacedRows>& places);
    void settleFinish();
    void storeBatch();
    void storeSettings();
    BinId binNamed(const std::string& name);
    std::string nameOf(BinId id) const;

    Logbook& logbook_;
    const ImportRequest& request_;
    StagedImport& staged_;
    ImportOutcome outcome_;
    Batch batch_;
    bool batchChanged_ = false;
};

ImportOutcome Importer::run() {
    outcome_.batch = request_.batch;
    outcome_.remarks = staged_.remarks;
    const bool isOfBatch = !request_.batch.empty();
    storeBins(logbook_, request_, staged_, outcome_);
    if (isOfBatch) {
        findBatch();
        addMoves();
    } else {
        expectNoNeedOfABatch();
    }
    staged_.readings.rows.settle();
    auto places = placeReadings(staged_.readings, batch_.stays, [this](const auto& name) { return binNamed(name); });
    if (isOfBatch) {
        settleStart(places);
        settleFinish();
        storeBatch();
    }
    storeSettings();
    storeProbes(logbook_, request_, staged_, outcome_);
    storeChecks(logbook_, request_, staged_, outcome_);
    RowProgress watch{request_.habits.progress, ImportProgress::Stage::storing, staged_.readings.rows.count()};
    storeReadings(logbook_, places, staged_.readings, outcome_, watch);
    storePositions(logbook_, request_, staged_, outcome_);
    if (isOfBatch) {
        expectWithinBins(request_, staged_, {batch_, logbook_.bins(), firstFeed(logbook_, batch_.id, staged_)});
        storeBatchEntries(logbook_, batch_.id, staged_, outcome_);
    }
    countByBatch(logbook_, batch_.id, places, staged_.readings, outcome_);
    if (isOfBatch) {
        tellOfBatch();
    }
    return outcome_;
}

void Importer::tellOfBatch() {
    const auto now = logbook_.batchNamed(request_.batch).value_or(batch_);
    outcome_.startMoved = !outcome_.newBatch && now.started.at != outcome_.started.at;
    outcome_.started = now.started;
    outcome_.bin = nameOf(now.stays.back().bin);
}

void Importer::expectNoNeedOfABatch() const {
    const auto& files = request_.files;
    const bool said = request_.bin || request_.start || request_.finish || request_.note || request_.fed;
    if (said || files.additions || files.aerations || files.observations || files.harvests || files.moves) {
        refuseImport(wrongUsage({"nothing says of which batch that is", "--batch"}));
    }
    const bool isShared = files.bins || files.positions || files.probes || files.checks || files.outside;
    if (!isShared && !files.readings && !request_.group) {
        refuseImport(
            wrongUsage({"nothing is named that could be taken in", "--batch, or a file of what batches share"}));
    }
    const auto& places = staged_.readings.places;
    const bool isUnplaced = std::any_of(places.begin(), places.end(), [](const StagedPlace& place) {
        return place.where.kind == StagedWhere::Bin::ofTheBatch;
    });
    if (isUnplaced) {
        refuseImport(wrongUsage({"some readings name no bin, and there is no batch whose bin it could be",
                                 "--batch, or a bin in each row"}));
    }
}

void Importer::findBatch() {
    if (auto found = logbook_.batchNamed(request_.batch)) {
        expectBatchBin(*found);
        batch_ = std::move(*found);
        outcome_.started = batch_.started;
        return;
    }
    if (!request_.bin) {
        refuseImport(wrongUsage({fmt::format("there is no batch \"{}\" in the logbook yet", request_.batch),
                                 "--bin with the bin it stands in"}));
    }
    outcome_.newBatch = true;
    batchChanged_ = true;
    batch_.name = request_.batch;
    batch_.stays = {{Instant{}, binNamed(*request_.bin)}};
}

void Importer::expectBatchBin(const Batch& batch) const {
    const auto stoodIn = [&](const Stay& stay) { return nameOf(stay.bin) == *request_.bin; };
    if (request_.bin && std::none_of(batch.stays.begin(), batch.stays.end(), stoodIn)) {
        refuseImport(wrongUsage({fmt::format("batch \"{}\" stands in bin \"{}\", not in \"{}\"", batch.name,
                                             nameOf(batch.stays.back().bin), *request_.bin),
                                 "no --bin, another --batch, or --moves with the time it was moved"}));
    }
}

void Importer::addMoves() {
    for (const auto& [move, line] : staged_.moves) {
        const Stay stay{move.since.at, binNamed(move.bin)};
        const auto same = std::find_if(batch_.stays.begin() + 1, batch_.stays.end(),
                                       [&](const Stay& other) { return other.since == stay.since; });
        if (same == batch_.stays.end()) {
            batch_.stays.push_back(stay);
            batchChanged_ = true;
            ++outcome_.moves.added;
        } else if (same->bin == stay.bin) {
            ++outcome_.moves.alreadyThere;
        } else {
            refuseImport(tl::unexpected{Refusal{
                request_.files.moves->string(),
                line,
                {fmt::format("at that time the batch was moved to \"{}\"", nameOf(same->bin)), "one bin at a time"}}});
        }
    }
    std::sort(batch_.stays.begin() + 1, batch_.stays.end(),
              [](const Stay& a, const Stay& b) { return a.since < b.since; });
}

/// A start that nobody gave is the earliest entry; for a batch already in the book the book sees to that itself.
void Importer::settleStart(const std::map<Place, PlacedRows>& places) {
    if (request_.start && (outcome_.newBatch || !batch_.startGiven || *request_.start != batch_.started)) {
        batch_.started = *request_.start;
        batch_.startGiven = true;
        batchChanged_ = true;
    } else if (outcome_.newBatch) {
        const auto earliest = orRefuse(earliestEntry(places, staged_, batch_.stays));
        if (!earliest) {
            refuseImport(wrongUsage({fmt::format("nothing says when batch \"{}\" began", request_.batch),
                                     "--start, or a file with its readings, additions or aerations"}));
        }
        batch_.started = *earliest;
        batch_.startGiven = false;
    }
    batch_.stays.front().since = batch_.started.at;
    const auto early = std::find_if(staged_.moves.begin(), staged_.moves.end(),
                                    [&](const auto& move) { return move.row.since.at <= batch_.started.at; });
    if (early != staged_.moves.end()) {
        refuseImport(tl::unexpected{Refusal{
            request_.files.moves->string(),
            early->line,
            {fmt::format("the batch only began on {}", longDateTime(batch_.started)), "moves after the start"}}});
    }
}

void Importer::settleFinish() {
    if (request_.finish && batch_.finished != request_.finish) {
        batch_.finished = request_.finish;
        batchChanged_ = true;
    }
    if (request_.note && batch_.note != *request_.note) {
        batch_.note = *request_.note;
        batchChanged_ = true;
    }
    if (request_.fed && !batch_.fed) {
        batch_.fed = true;
        batchChanged_ = true;
        outcome_.becameFed = true;
    }
}

void Importer::storeBatch() {
    if (!batchChanged_) {
        return;
    }
    outcome_.leaving = displacedBy(logbook_, batch_);
    if (outcome_.newBatch) {
        batch_.id = std::get<BatchId>(logbook_.apply(Put<Batch>{batch_}).id);
    } else {
        logbook_.apply(Amend<Batch>{batch_.id, batch_, "import"});
    }
}

/// The zone of the first import becomes the book's own, in which its times are shown.
void Importer::storeSettings() {
    const auto& zone = request_.habits.zone;
    if (zone && logbook_.setting(setting::zone).empty()) {
        logbook_.setSetting(setting::zone, zone->name());
    }
    if (request_.group && logbook_.setting(setting::group) != *request_.group) {
        logbook_.setSetting(setting::group, *request_.group);
    }
}

BinId Importer::binNamed(const std::string& name) {
    if (const auto found = logbook_.binNamed(name)) {
        return found->id;
    }
    outcome_.newBins.push_back(name);
    Bin bin;
    bin.name = name;
    return std::get<BinId>(logbook_.apply(Put<Bin>{bin}).id);
}

std::string Importer::nameOf(BinId id) const {
    const auto bins = logbook_.bins();
    const auto found = std::find_if(bins.begin(), bins.end(), [id](const Bin& bin) { return bin.id == id; });
    return found == bins.end() ? std::string{} : found->name;
}

}  // namespace

FileResult<ImportOutcome> storeImport(Logbook& logbook, const ImportRequest& request, StagedImport staged) {
    ImportOutcome outcome;
    try {
        logbook.inOneTransaction([&] { outcome = Importer{logbook, request, staged}.run(); });
    } catch (RefusedImport& refused) {
        return tl::unexpected{std::move(refused.refusal)};
    }
    return outcome;
}

}  // namespace midden
