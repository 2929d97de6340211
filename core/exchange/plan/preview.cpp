// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/preview.h"

#include <fmt/core.h>

#include <algorithm>
#include <set>

#include "core/exchange/plan/batch_stays.h"
#include "core/exchange/plan/displaced.h"
#include "core/exchange/plan/place_readings.h"
#include "core/exchange/plan/store_entries.h"
#include "core/exchange/plan/store_readings.h"
#include "core/exchange/plan/within_bin.h"

namespace midden {

namespace {

using Rows = std::span<const StagedReading>;

/// Those that lie within it, of rows in time order.
Rows rowsWithin(const PlannedOccupancy& occupancy, Rows rows) {
    const auto isBefore = [](const StagedReading& row, Instant at) { return row.at() < at; };
    const auto from = std::lower_bound(rows.begin(), rows.end(), occupancy.from, isBefore);
    return {from, std::lower_bound(from, rows.end(), occupancy.until, isBefore)};
}

/// One import, looked at beforehand. Throws RefusedImport.
class Previewer {
  public:
    Previewer(const Logbook& logbook, const ImportRequest& request, StagedImport& staged)
        : logbook_{logbook},
          request_{request},
          staged_{staged},
          watch_{request.habits.progress, ImportProgress::Stage::comparing, staged.readings.rows.count()} {}

    ImportPreview run();

  private:
    void findBatch();
    void beginNewBatch(const std::map<Place, PlacedRows>& places);
    void lookAt(const Place& place, const PlacedRows& placed);
    void compare(const Place& place, Rows rows);
    void countByBatch(const std::vector<PlannedOccupancy>& occupancies, Rows rows);
    void lookAtEntries();
    void nameNewProbes();
    void extendTo(const Moment& when);
    void reachBackTo(const Moment& when);
    Moment momentOf(const StagedReading& row) const;
    BinId binNamed(const std::string& name);
    std::string nameOf(BinId id) const;

    const Logbook& logbook_;
    const ImportRequest& request_;
    StagedImport& staged_;
    RowProgress watch_;
    ImportPreview foresight_;
    ImportOutcome& outcome_ = foresight_.outcome;
    Batch batch_;
    std::vector<Batch> batches_;  ///< with the one that is to be begun
    std::vector<Bin> bins_;       ///< with those that are to be made
    std::vector<RawReading> slice_;
};

ImportPreview Previewer::run() {
    outcome_.batch = request_.batch;
    outcome_.remarks = staged_.remarks;
    bins_ = logbook_.bins();
    batches_ = logbook_.batches();
    findBatch();
    staged_.readings.rows.settle();
    const auto places =
        placeReadings(staged_.readings, batch_.stays, [this](const auto& name) { return binNamed(name); });
    if (outcome_.newBatch) {
        beginNewBatch(places);
    }
    for (const auto& [place, placed] : places) {
        lookAt(place, placed);
    }
    lookAtEntries();
    nameNewProbes();
    return std::move(foresight_);
}

void Previewer::findBatch() {
    if (auto found = logbook_.batchNamed(request_.batch)) {
        batch_ = std::move(*found);
        outcome_.started = batch_.started;
    } else {
        outcome_.newBatch = true;
        batch_.id = BatchId{-1};
        batch_.name = request_.batch;
        batch_.startGiven = false;
        batch_.stays = {{Instant{}, binNamed(request_.bin.value_or(""))}};
    }
    outcome_.bin = nameOf(batch_.stays.back().bin);
}

void Previewer::beginNewBatch(const std::map<Place, PlacedRows>& places) {
    const auto earliest = orRefuse(earliestEntry(places, staged_, batch_.stays));
    if (!earliest) {
        refuseImport(tl::unexpected{Refusal{{},
                                            0,
                                            {fmt::format("none of it is of bin \"{}\", so nothing says when batch "
                                                         "\"{}\" began",
                                                         outcome_.bin, batch_.name),
                                             "the bin that the file names, or a file without a column \"bin\""},
                                            true}});
    }
    outcome_.started = batch_.started = *earliest;
    batch_.stays.front().since = earliest->at;
    batches_.push_back(batch_);
    outcome_.leaving = displacedBy(logbook_, batch_);
}

void Previewer::lookAt(const Place& place, const PlacedRows& placed) {
    const auto occupancies = place.isOutside() ? std::vector<PlannedOccupancy>{} : batchStaysIn(batches_, *place.bin);
    RowStream stream{staged_.readings.rows, placed, staged_.readings.columns};
    auto rows = orRefuse(stream.next());
    if (rows.empty()) {
        return;
    }
    foresight_.places.push_back({place.bin ? nameOf(*place.bin) : "", place.position});
    for (; !rows.empty(); rows = orRefuse(stream.next())) {
        compare(place, rows);
        if (!place.isOutside()) {
            countByBatch(occupancies, rows);
        }
        extendTo(momentOf(rows.front()));
        extendTo(momentOf(rows.back()));
        watch_.passed(std::ssize(rows));
    }
}

void Previewer::compare(const Place& place, Rows rows) {
    const auto& columns = staged_.readings.columns;
    for (const auto unit : {TemperatureUnit::celsius, TemperatureUnit::fahrenheit}) {
        slice_.clear();
        for (const auto& row : rows) {
            if (columns[row.column()].unit == unit) {
                slice_.push_back({row.at(), row.tenThousandths});
            }
        }
        const auto found = logbook_.previewReadings(place, unit, slice_);
        if (found.conflict) {
            refuseConflict(*found.conflict, rows, columns);
        }
        auto& count = place.isOutside() ? outcome_.outside : outcome_.readings;
        count.added += found.added;
        count.alreadyThere += found.alreadyThere;
    }
}

void Previewer::countByBatch(const std::vector<PlannedOccupancy>& occupancies, Rows rows) {
    outcome_.ofNoBatch += std::ssize(rows);
    for (const auto& occupancy : occupancies) {
        const auto within = rowsWithin(occupancy, rows);
        outcome_.ofNoBatch -= std::ssize(within);
        if (occupancy.batch != batch_.id) {
            outcome_.ofOtherBatches += std::ssize(within);
        } else if (!within.empty()) {
            reachBackTo(momentOf(within.front()));
        }
    }
}

void Previewer::lookAtEntries() {
    const auto look = [this](const auto& entries) {
        for (const auto& entry : entries) {
            extendTo(entry.row.when);
            reachBackTo(entry.row.when);
        }
    };
    look(staged_.additions);
    look(staged_.aerations);
    look(staged_.observations);
    look(staged_.harvests);
    const auto batch = outcome_.newBatch ? std::nullopt : std::optional{batch_.id};
    expectWithinBins(request_, staged_, {batch_, bins_, firstFeed(logbook_, batch, staged_)});
    countBatchEntries(logbook_, batch, staged_, outcome_);
}

void Previewer::nameNewProbes() {
    std::set<std::string> names;
    for (const auto& column : staged_.readings.columns) {
        if (!column.probe.empty() && !logbook_.probeNamed(column.probe)) {
            names.insert(column.probe);
        }
    }
    outcome_.newProbes.assign(names.begin(), names.end());
}

void Previewer::extendTo(const Moment& when) {
    auto& [outcome, places, first, last] = foresight_;
    first = first && first->at <= when.at ? first : when;
    last = last && last->at >= when.at ? last : when;
}

/// An earlier entry moves a start that nobody gave.
void Previewer::reachBackTo(const Moment& when) {
    if (!batch_.startGiven && when.at < outcome_.started.at) {
        outcome_.started = when;
        outcome_.startMoved = !outcome_.newBatch;
    }
}

Moment Previewer::momentOf(const StagedReading& row) const {
    return {row.at(), staged_.readings.columns[row.column()].offset};
}

/// A bin that the book has not gets a number that no bin has.
BinId Previewer::binNamed(const std::string& name) {
    const auto found = std::find_if(bins_.begin(), bins_.end(), [&](const Bin& bin) { return bin.name == name; });
    if (found != bins_.end()) {
        return found->id;
    }
    outcome_.newBins.push_back(name);
    Bin bin;
    bin.id = BinId{-std::ssize(outcome_.newBins)};
    bin.name = name;
    bins_.push_back(bin);
    return bin.id;
}

std::string Previewer::nameOf(BinId id) const {
    const auto found = std::find_if(bins_.begin(), bins_.end(), [id](const Bin& bin) { return bin.id == id; });
    return found == bins_.end() ? std::string{} : found->name;
}

}  // namespace

FileResult<ImportPreview> preview(const Logbook& logbook, const ImportRequest& request, StagedImport staged) {
    try {
        return Previewer{logbook, request, staged}.run();
    } catch (RefusedImport& refused) {
        return tl::unexpected{std::move(refused.refusal)};
    }
}

}  // namespace midden
