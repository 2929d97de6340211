// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/place_readings.h"

#include <algorithm>
#include <iterator>

namespace midden {

namespace {

using Places = std::map<Place, PlacedRows>;

void moveNotes(std::vector<StagedNote>&& from, std::vector<StagedNote>& to) {
    to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

/// Rows "of the batch's bin" go to wherever the batch stood.
void distribute(Places& places, std::size_t list, StagedPlace& staged, const std::vector<Stay>& stays) {
    for (const auto& stay : stays) {
        const auto [place, isNew] = places.try_emplace(Place{stay.bin, staged.where.position});
        const auto& parts = place->second.parts;
        const bool asked = std::any_of(parts.begin(), parts.end(), [&](const auto& part) { return part.list == list; });
        if (!asked) {
            place->second.parts.push_back(
                {list, [stays, bin = stay.bin](Instant at) { return binAt(stays, at) == bin; }});
        }
    }
    for (auto& note : staged.notes) {
        places[Place{binAt(stays, note.at), staged.where.position}].notes.push_back(std::move(note));
    }
}

/// The first row taken while the batch stood in that bin.
FileResult<std::optional<StagedReading>> firstIn(BinId bin, RowStream& rows, const std::vector<Stay>& stays) {
    const auto isOwn = [&](const StagedReading& row) { return binAt(stays, row.at()) == bin; };
    for (;;) {
        const auto block = rows.next();
        if (!block || block->empty()) {
            return block ? FileResult<std::optional<StagedReading>>{std::nullopt} : tl::unexpected{block.error()};
        }
        const auto own = std::find_if(block->begin(), block->end(), isOwn);
        if (own != block->end()) {
            return std::optional{*own};
        }
    }
}

FileResult<std::optional<Moment>> earliestReading(const Places& places, const StagedReadings& staged,
                                                  const std::vector<Stay>& stays) {
    std::optional<Moment> earliest;
    for (const auto& [place, placed] : places) {
        const auto isHere = [bin = place.bin](const Stay& stay) { return stay.bin == bin; };
        if (place.isOutside() || std::none_of(stays.begin(), stays.end(), isHere)) {
            continue;
        }
        RowStream rows{staged.rows, placed, staged.columns};
        const auto own = firstIn(*place.bin, rows, stays);
        if (!own) {
            return tl::unexpected{own.error()};
        }
        if (*own && (!earliest || (*own)->at() < earliest->at)) {
            earliest = Moment{(*own)->at(), staged.columns[(*own)->column()].offset};
        }
    }
    return earliest;
}

}  // namespace

BinId binAt(const std::vector<Stay>& stays, Instant at) {
    const auto later = std::find_if(stays.begin() + 1, stays.end(), [at](const Stay& stay) { return stay.since > at; });
    return std::prev(later)->bin;
}

Places placeReadings(StagedReadings& staged, const std::vector<Stay>& stays, const BinByName& binNamed) {
    Places places;
    for (std::size_t list = 0; list < staged.places.size(); ++list) {
        auto& from = staged.places[list];
        const auto& where = from.where;
        if (where.kind == StagedWhere::Bin::ofTheBatch && stays.size() > 1) {
            distribute(places, list, from, stays);
            continue;
        }
        Place place{std::nullopt, where.position};
        if (where.kind != StagedWhere::Bin::wholeSite) {
            place.bin = where.kind == StagedWhere::Bin::named ? binNamed(where.bin) : stays.front().bin;
        }
        places[place].parts.push_back({list});
        moveNotes(std::move(from.notes), places[place].notes);
    }
    return places;
}

FileResult<std::optional<Moment>> earliestEntry(const Places& places, const StagedImport& staged,
                                                const std::vector<Stay>& stays) {
    auto earliest = earliestReading(places, staged.readings, stays);
    if (!earliest) {
        return earliest;
    }
    const auto consider = [&](const auto& entries) {
        for (const auto& entry : entries) {
            *earliest = *earliest && (*earliest)->at <= entry.row.when.at ? *earliest : entry.row.when;
        }
    };
    consider(staged.additions);
    consider(staged.aerations);
    consider(staged.observations);
    consider(staged.harvests);
    return earliest;
}

}  // namespace midden
