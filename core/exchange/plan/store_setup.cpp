// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/store_setup.h"

#include <fmt/core.h>

#include <algorithm>
#include <tuple>

#include "core/exchange/plan/store_entries.h"

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

auto likenessOf(const Bin& b) {
    return std::tuple{b.volumeLitres, b.insulationMillimetres, b.conductivityWattsPerMetreKelvin, b.note, b.retired};
}

void storeBin(Logbook& logbook, const ImportRequest& request, const Lined<Bin>& lined, ImportCount& count) {
    const auto found = logbook.binNamed(lined.row.name);
    if (!found) {
        logbook.apply(Put<Bin>{lined.row});
        ++count.added;
        return;
    }
    auto bin = *found;
    const bool volumeAgrees = complete(bin.volumeLitres, lined.row.volumeLitres);
    const bool wallAgrees = complete(bin.insulationMillimetres, lined.row.insulationMillimetres) &&
                            complete(bin.conductivityWattsPerMetreKelvin, lined.row.conductivityWattsPerMetreKelvin);
    if (!volumeAgrees || !wallAgrees || !complete(bin.note, lined.row.note)) {
        refuseImport(tl::unexpected{Refusal{request.files.bins->string(),
                                            lined.line,
                                            {fmt::format("the logbook says something else of bin \"{}\"", bin.name),
                                             "what the logbook says, or nothing"}}});
    }
    bin.retired = bin.retired || lined.row.retired;
    if (likenessOf(bin) == likenessOf(*found)) {
        ++count.alreadyThere;
        return;
    }
    logbook.apply(Amend<Bin>{bin.id, bin, "import"});
    ++count.added;
}

BinId binFor(Logbook& logbook, const std::string& name, ImportOutcome& outcome) {
    if (const auto found = logbook.binNamed(name)) {
        return found->id;
    }
    outcome.newBins.push_back(name);
    Bin bin;
    bin.name = name;
    return std::get<BinId>(logbook.apply(Put<Bin>{bin}).id);
}

}  // namespace

void storeBins(Logbook& logbook, const ImportRequest& request, const StagedImport& staged, ImportOutcome& outcome) {
    for (const auto& bin : staged.bins) {
        storeBin(logbook, request, bin, outcome.bins);
    }
}

void storePositions(Logbook& logbook, const StagedImport& staged, ImportOutcome& outcome) {
    for (const auto& [row, line] : staged.positions) {
        const PlaceSetting setting{{binFor(logbook, row.bin, outcome), row.position}, row.spotCheck};
        const auto places = logbook.places(*setting.place.bin);
        const auto held = std::find_if(places.begin(), places.end(),
                                       [&](const PlaceSetting& other) { return other.place == setting.place; });
        if (held == places.end()) {
            logbook.apply(Put<PlaceSetting>{setting});
            ++outcome.positions.added;
        } else if (held->spotCheck != setting.spotCheck) {
            logbook.apply(Amend<PlaceSetting>{setting.place, setting, "import"});
            ++outcome.positions.added;
        } else {
            ++outcome.positions.alreadyThere;
        }
    }
}

}  // namespace midden
