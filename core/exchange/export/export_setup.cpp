// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <set>

#include "core/exchange/csv/cells.h"
#include "core/exchange/csv/csv_writer.h"
#include "core/exchange/export/export_parts.h"

namespace midden {

namespace {

bool isDescribed(const Bin& bin) {
    return bin.volumeLitres || bin.insulationMillimetres || bin.conductivityWattsPerMetreKelvin || bin.retired ||
           !bin.note.empty();
}

/// Bins whose names stand in other files or in the lines of README.txt.
std::set<BinId> binsToldElsewhere(const ExportPlan& plan) {
    std::set<BinId> told;
    for (const Batch& batch : plan.batches) {
        for (const Stay& stay : batch.stays) {
            told.insert(stay.bin);
        }
    }
    for (const Place& place : plan.logbook.placesRead()) {
        if (place.bin) {
            told.insert(*place.bin);
        }
    }
    return told;
}

void exportBins(const ExportPlan& plan, const std::vector<Bin>& bins) {
    const auto told = binsToldElsewhere(plan);
    const auto hasNews = [&](const Bin& bin) { return isDescribed(bin) || !told.contains(bin.id); };
    if (std::none_of(bins.begin(), bins.end(), hasNews)) {
        return;
    }
    CsvWriter out{plan.root / "bins.csv", "bin,volume_l,insulation_mm,conductivity_w_mk,retired,note"};
    for (const auto& bin : bins) {
        out.row({guardedText(bin.name), plainNumber(bin.volumeLitres), plainNumber(bin.insulationMillimetres),
                 plainNumber(bin.conductivityWattsPerMetreKelvin), bin.retired ? "yes" : "no", guardedText(bin.note)});
    }
    out.close();
}

}  // namespace

void exportSetup(const ExportPlan& plan) {
    const auto bins = plan.logbook.bins();
    exportBins(plan, bins);
    std::vector<PlaceSetting> places;
    for (const auto& bin : bins) {
        const auto own = plan.logbook.places(bin.id);
        places.insert(places.end(), own.begin(), own.end());
    }
    const auto read = plan.logbook.placesRead();
    const std::set<Place> known{read.begin(), read.end()};
    const auto hasNews = [&](const PlaceSetting& one) { return one.spotCheck || !known.contains(one.place); };
    if (std::none_of(places.begin(), places.end(), hasNews)) {
        return;
    }
    CsvWriter out{plan.root / "positions.csv", "bin,position,spot_check"};
    for (const auto& setting : places) {
        out.row({guardedText(plan.binNames.at(*setting.place.bin)), guardedText(setting.place.position),
                 setting.spotCheck ? "yes" : "no"});
    }
    out.close();
}

}  // namespace midden
