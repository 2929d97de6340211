// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/place_readings.h"

#include <algorithm>

namespace midden {

namespace {

template <class T>
void append(std::vector<T>& to, std::vector<T>&& from) {
    if (to.empty()) {
        to = std::move(from);
    } else {
        to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
    }
}

using Places = std::map<Place, StagedPlace>;

/// The whole staged place belongs to one place of the book.
void moveTo(Places& places, const Place& place, StagedPlace&& staged) {
    append(places[place].rows, std::move(staged.rows));
    append(places[place].notes, std::move(staged.notes));
}

/// Rows "of the batch's bin" go to wherever the batch stood.
void distribute(Places& places, StagedPlace&& staged, const std::vector<Stay>& stays) {
    const auto placeAt = [&](Instant at) -> StagedPlace& {
        return places[Place{binAt(stays, at), staged.where.position}];
    };
    for (const auto& row : staged.rows) {
        placeAt(row.at()).rows.push_back(row);
    }
    for (auto& note : staged.notes) {
        placeAt(note.at).notes.push_back(std::move(note));
    }
}

}  // namespace

BinId binAt(const std::vector<Stay>& stays, Instant at) {
    const auto later = std::find_if(stays.begin() + 1, stays.end(), [at](const Stay& stay) { return stay.since > at; });
    return std::prev(later)->bin;
}

FileResult<Places> placeReadings(StagedReadings& staged, const std::vector<Stay>& stays, const BinByName& binNamed) {
    Places places;
    for (auto& place : staged.places) {
        const auto& where = place.where;
        if (where.kind == StagedWhere::Bin::wholeSite) {
            moveTo(places, {std::nullopt, {}}, std::move(place));
        } else if (where.kind == StagedWhere::Bin::named) {
            const Place named{binNamed(where.bin), where.position};
            moveTo(places, named, std::move(place));
        } else if (stays.size() == 1) {
            moveTo(places, {stays.front().bin, where.position}, std::move(place));
        } else {
            distribute(places, std::move(place), stays);
        }
    }
    staged.places.clear();
    for (auto& [place, rows] : places) {
        if (auto refusal = sortAndMerge(rows, staged.columns)) {
            return tl::unexpected{std::move(*refusal)};
        }
    }
    return places;
}

std::optional<Moment> earliestOf(const Places& places, const std::vector<StagedColumn>& columns,
                                 const std::vector<Stay>& stays) {
    std::optional<Moment> earliest;
    for (const auto& [place, staged] : places) {
        if (place.isOutside()) {
            continue;
        }
        const BinId bin = *place.bin;
        const auto own = std::find_if(staged.rows.begin(), staged.rows.end(),
                                      [&](const StagedReading& row) { return binAt(stays, row.at()) == bin; });
        if (own != staged.rows.end() && (!earliest || own->at() < earliest->at)) {
            earliest = Moment{own->at(), columns[own->column()].offset};
        }
    }
    return earliest;
}

}  // namespace midden
