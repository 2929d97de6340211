// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <array>
#include <set>

#include "core/exchange/csv/cells.h"
#include "core/exchange/csv/csv_writer.h"
#include "core/exchange/export/export_parts.h"

namespace midden {

namespace {

/// Columns that are left out of a file in which nothing would stand in them.
struct RareFigure {
    std::string_view column;
    std::optional<double> Bin::*figure;
};
constexpr std::array<RareFigure, 5> rareFigures{{{"height_cm", &Bin::heightCentimetres},
                                                 {"hatch_top_cm", &Bin::hatchTopCentimetres},
                                                 {"vent_cm2", &Bin::ventSquareCentimetres},
                                                 {"vent_rise_cm", &Bin::ventRiseCentimetres},
                                                 {"air_changes_h", &Bin::airChangesPerHour}}};

bool isDescribed(const Bin& bin) {
    return bin.volumeLitres || bin.insulationMillimetres || bin.conductivityWattsPerMetreKelvin || bin.retired ||
           !bin.note.empty() || std::any_of(rareFigures.begin(), rareFigures.end(), [&](const RareFigure& one) {
               return (bin.*one.figure).has_value();
           });
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
    std::string header = "bin,volume_l,insulation_mm,conductivity_w_mk,retired,note";
    std::vector<std::optional<double> Bin::*> shown;
    for (const auto& [column, figure] : rareFigures) {
        if (std::any_of(bins.begin(), bins.end(), [&](const Bin& bin) { return (bin.*figure).has_value(); })) {
            header += "," + std::string{column};
            shown.push_back(figure);
        }
    }
    CsvWriter out{plan.root / "bins.csv", header};
    for (const auto& bin : bins) {
        std::vector<std::string> cells{guardedText(bin.name),
                                       plainNumber(bin.volumeLitres),
                                       plainNumber(bin.insulationMillimetres),
                                       plainNumber(bin.conductivityWattsPerMetreKelvin),
                                       bin.retired ? "yes" : "no",
                                       guardedText(bin.note)};
        for (const auto figure : shown) {
            cells.push_back(plainNumber(bin.*figure));
        }
        out.row(std::vector<std::string_view>{cells.begin(), cells.end()});
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
    const auto hasNews = [&](const PlaceSetting& one) {
        return one.spotCheck || one.heightCentimetres || !known.contains(one.place);
    };
    if (std::none_of(places.begin(), places.end(), hasNews)) {
        return;
    }
    const bool hasHeights = std::any_of(places.begin(), places.end(),
                                        [](const PlaceSetting& one) { return one.heightCentimetres.has_value(); });
    CsvWriter out{plan.root / "positions.csv",
                  hasHeights ? "bin,position,spot_check,height_cm" : "bin,position,spot_check"};
    for (const auto& setting : places) {
        const auto bin = guardedText(plan.binNames.at(*setting.place.bin));
        const auto position = guardedText(setting.place.position);
        const auto height = plainNumber(setting.heightCentimetres);
        const std::array<std::string_view, 4> cells{bin, position, setting.spotCheck ? "yes" : "no", height};
        out.row(std::span{cells}.first(hasHeights ? 4 : 3));
    }
    out.close();
}

}  // namespace midden
