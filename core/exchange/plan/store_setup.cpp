// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/store_setup.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <tuple>

#include "core/exchange/plan/store_entries.h"
#include "core/exchange/plan/within_bin.h"

namespace midden {

namespace {

/// Takes over what is new; false when both say something and it differs.
template <class Value>
bool complete(std::optional<Value>& held, const std::optional<Value>& said) {
    if (!held) {
        held = said;
    }
    return !said || held == said;
}

bool complete(std::string& held, const std::string& said) {
    if (held.empty()) {
        held = said;
    }
    return said.empty() || held == said;
}

/// What may be known of a bin in figures.
constexpr std::array figures{
    &Bin::volumeLitres,        &Bin::insulationMillimetres, &Bin::conductivityWattsPerMetreKelvin,
    &Bin::heightCentimetres,   &Bin::hatchTopCentimetres,   &Bin::ventSquareCentimetres,
    &Bin::ventRiseCentimetres, &Bin::airChangesPerHour};

bool sayTheSame(const Bin& one, const Bin& other) {
    return std::tie(one.note, one.retired) == std::tie(other.note, other.retired) &&
           std::all_of(figures.begin(), figures.end(), [&](auto figure) { return one.*figure == other.*figure; });
}

[[noreturn]] void refuseBin(const ImportRequest& request, std::uint64_t line, Problem problem) {
    refuseImport(tl::unexpected{Refusal{request.files.bins->string(), line, std::move(problem)}});
}

/// Its hatch, and the positions that the book has in it.
void expectBelowRim(const Logbook& logbook, const ImportRequest& request, const Bin& bin, std::uint64_t line) {
    auto problem = aboveTheRim("hatch_top_cm", bin.hatchTopCentimetres, bin);
    for (const auto& place : bin.id == BinId{} ? std::vector<PlaceSetting>{} : logbook.places(bin.id)) {
        if (!problem && aboveTheRim("", place.heightCentimetres, bin)) {
            problem = Problem{fmt::format("height_cm: position \"{}\" of bin \"{}\" is {:g} cm high in the logbook",
                                          place.place.position, bin.name, *place.heightCentimetres),
                              "a bin that is no lower"};
        }
    }
    if (problem) {
        refuseBin(request, line, *problem);
    }
}

void storeBin(Logbook& logbook, const ImportRequest& request, const Lined<Bin>& lined, ImportCount& count) {
    const auto found = logbook.binNamed(lined.row.name);
    if (!found) {
        expectBelowRim(logbook, request, lined.row, lined.line);
        logbook.apply(Put<Bin>{lined.row});
        ++count.added;
        return;
    }
    auto bin = *found;
    const bool agrees = std::all_of(figures.begin(), figures.end(),
                                    [&](auto figure) { return complete(bin.*figure, lined.row.*figure); });
    if (!agrees || !complete(bin.note, lined.row.note)) {
        refuseBin(request, lined.line,
                  {fmt::format("the logbook says something else of bin \"{}\"", bin.name),
                   "what the logbook says, or nothing"});
    }
    bin.retired = bin.retired || lined.row.retired;
    expectBelowRim(logbook, request, bin, lined.line);
    if (sayTheSame(bin, *found)) {
        ++count.alreadyThere;
        return;
    }
    logbook.apply(Amend<Bin>{bin.id, bin, "import"});
    ++count.added;
}

Bin binFor(Logbook& logbook, const std::string& name, ImportOutcome& outcome) {
    if (const auto found = logbook.binNamed(name)) {
        return *found;
    }
    outcome.newBins.push_back(name);
    Bin bin;
    bin.name = name;
    bin.id = std::get<BinId>(logbook.apply(Put<Bin>{bin}).id);
    return bin;
}

}  // namespace

void storeBins(Logbook& logbook, const ImportRequest& request, const StagedImport& staged, ImportOutcome& outcome) {
    for (const auto& bin : staged.bins) {
        storeBin(logbook, request, bin, outcome.bins);
    }
}

void storePositions(Logbook& logbook, const ImportRequest& request, const StagedImport& staged,
                    ImportOutcome& outcome) {
    for (const auto& [row, line] : staged.positions) {
        const auto bin = binFor(logbook, row.bin, outcome);
        if (auto problem = aboveTheRim("height_cm", row.heightCentimetres, bin)) {
            refuseImport(tl::unexpected{Refusal{request.files.positions->string(), line, *std::move(problem)}});
        }
        PlaceSetting setting{{bin.id, row.position}, row.spotCheck, row.heightCentimetres};
        const auto places = logbook.places(*setting.place.bin);
        const auto held = std::find_if(places.begin(), places.end(),
                                       [&](const PlaceSetting& other) { return other.place == setting.place; });
        if (held == places.end()) {
            logbook.apply(Put<PlaceSetting>{setting});
            ++outcome.positions.added;
            continue;
        }
        setting.heightCentimetres = row.heightCentimetres ? row.heightCentimetres : held->heightCentimetres;
        if (held->spotCheck != setting.spotCheck || held->heightCentimetres != setting.heightCentimetres) {
            logbook.apply(Amend<PlaceSetting>{setting.place, setting, "import"});
            ++outcome.positions.added;
        } else {
            ++outcome.positions.alreadyThere;
        }
    }
}

}  // namespace midden
