// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "core/exchange/cells.h"
#include "core/exchange/csv_writer.h"
#include "core/exchange/export_parts.h"

namespace midden {

namespace {

bool isDescribed(const Bin& bin) {
    return bin.volumeLitres || bin.insulationMillimetres || bin.conductivityWattsPerMetreKelvin || bin.retired ||
           !bin.note.empty();
}

void exportBins(const ExportPlan& plan, const std::vector<Bin>& bins) {
    if (std::none_of(bins.begin(), bins.end(), isDescribed)) {
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
    if (std::none_of(places.begin(), places.end(), [](const PlaceSetting& p) { return p.spotCheck; })) {
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
