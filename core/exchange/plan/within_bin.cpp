// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/within_bin.h"

#include <fmt/core.h>

#include <algorithm>

#include "core/exchange/plan/store_entries.h"
#include "core/records/level.h"

namespace midden {

namespace {

/// A heap stands above the rim at most by half, and a bucket is never so much looser than what it was taken from.
constexpr double mostOfBin = 1.5;

const Bin* binAt(const FedBounds& bounds, Instant at) {
    const auto& stays = bounds.batch.stays;
    if (stays.empty()) {
        return nullptr;
    }
    const auto* stay = &stays.front();
    for (const auto& one : stays) {
        stay = one.since <= at ? &one : stay;
    }
    const auto found =
        std::find_if(bounds.bins.begin(), bounds.bins.end(), [&](const Bin& bin) { return bin.id == stay->bin; });
    return found == bounds.bins.end() ? nullptr : &*found;
}

std::optional<Problem> tooHigh(const Observation& seen, const Bin* bin) {
    const auto level = levelOf(seen);
    if (!level || bin == nullptr || !bin->heightCentimetres || *level <= mostOfBin * *bin->heightCentimetres) {
        return std::nullopt;
    }
    return Problem{fmt::format("value: a level of {} cm in bin \"{}\", which is {:g} cm high", seen.value, bin->name,
                               *bin->heightCentimetres),
                   fmt::format("at most {:g}", mostOfBin * *bin->heightCentimetres)};
}

std::optional<Problem> tooMuch(const Harvest& harvest, const Bin* bin) {
    if (bin == nullptr || !bin->volumeLitres || harvest.volumeLitres <= mostOfBin * *bin->volumeLitres) {
        return std::nullopt;
    }
    return Problem{fmt::format("volume_l: a harvest of {:g} litres from bin \"{}\", which holds {:g}",
                               harvest.volumeLitres, bin->name, *bin->volumeLitres),
                   fmt::format("at most {:g}", mostOfBin * *bin->volumeLitres)};
}

std::optional<Problem> tooEarly(const Harvest& harvest, std::optional<Instant> firstFeed) {
    if (firstFeed && *firstFeed <= harvest.when.at) {
        return std::nullopt;
    }
    return Problem{"time: nothing had been fed by then", "a harvest after the first addition"};
}

void expect(const std::optional<Problem>& problem, const std::optional<std::filesystem::path>& file,
            std::uint64_t line) {
    if (problem) {
        refuseImport(tl::unexpected{Refusal{file ? file->string() : std::string{}, line, *problem}});
    }
}

}  // namespace

std::optional<Instant> firstFeed(const Logbook& logbook, std::optional<BatchId> batch, const StagedImport& staged) {
    if (staged.harvests.empty()) {
        return std::nullopt;
    }
    std::optional<Instant> first;
    const auto consider = [&](const Addition& addition) {
        first = first ? std::min(*first, addition.when.at) : addition.when.at;
    };
    for (const auto& addition : batch ? logbook.additions(*batch) : std::vector<Addition>{}) {
        consider(addition);
    }
    for (const auto& addition : staged.additions) {
        consider(addition.row);
    }
    return first;
}

void expectWithinBins(const ImportRequest& request, const StagedImport& staged, const FedBounds& bounds) {
    for (const auto& [seen, line] : staged.observations) {
        expect(tooHigh(seen, binAt(bounds, seen.when.at)), request.files.observations, line);
    }
    for (const auto& [harvest, line] : staged.harvests) {
        expect(tooEarly(harvest, bounds.firstFeed), request.files.harvests, line);
        expect(tooMuch(harvest, binAt(bounds, harvest.when.at)), request.files.harvests, line);
    }
}

std::optional<Problem> aboveTheRim(std::string_view what, std::optional<double> height, const Bin& bin) {
    if (!height || !bin.heightCentimetres || *height <= *bin.heightCentimetres) {
        return std::nullopt;
    }
    return Problem{fmt::format("{}: {:g} cm lies above the rim of bin \"{}\", which is {:g} cm high", what, *height,
                               bin.name, *bin.heightCentimetres),
                   fmt::format("at most {:g}", *bin.heightCentimetres)};
}

}  // namespace midden
