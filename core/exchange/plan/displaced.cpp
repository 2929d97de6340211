// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/displaced.h"

#include <fmt/format.h>

#include <algorithm>

namespace midden {

namespace {

std::string nameOf(const Logbook& logbook, BinId id) {
    const auto bins = logbook.bins();
    const auto bin = std::find_if(bins.begin(), bins.end(), [&](const Bin& one) { return one.id == id; });
    return bin == bins.end() ? std::string{} : bin->name;
}

}  // namespace

std::vector<std::string> displacedBy(const Logbook& logbook, const Batch& coming) {
    const auto known = logbook.batch(coming.id);
    std::vector<std::string> sentences;
    for (const Stay& stay : coming.stays) {
        const bool isOld = known && std::any_of(known->stays.begin(), known->stays.end(), [&](const Stay& other) {
                               return other.bin == stay.bin && other.since == stay.since;
                           });
        const auto occupancy = isOld ? std::nullopt : logbook.occupant(stay.bin, stay.since);
        const auto leaving = occupancy && *occupancy != coming.id ? logbook.batch(*occupancy) : std::nullopt;
        if (leaving && (!leaving->finished || leaving->finished->at > stay.since)) {
            sentences.push_back(fmt::format(
                "Batch \"{}\" leaves bin \"{}\" to batch \"{}\": it counts as finished on {}.", leaving->name,
                nameOf(logbook, stay.bin), coming.name, longDateTime({stay.since, coming.started.offset})));
        }
    }
    return sentences;
}

}  // namespace midden
