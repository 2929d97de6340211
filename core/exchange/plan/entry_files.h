// SPDX-License-Identifier: GPL-3.0-or-later
// The files of a batch besides its readings. Rows may stand in any order.
#pragma once

#include <filesystem>
#include <vector>

#include "core/exchange/csv/refusal.h"
#include "core/exchange/plan/readings_file.h"
#include "core/records/entries.h"

namespace midden {

/// A row and the line it stands in.
template <class Row>
struct Lined {
    Row row;
    std::uint64_t line = 0;
};

/// From `since` on the batch stands in the bin of that name.
struct StagedMove {
    Moment since;
    std::string bin;
};

/// A thermometer check whose probe is still only a name.
struct StagedCheck {
    std::string probe;
    ThermometerCheck check;
};

/// A position whose bin is still only a name.
struct StagedPosition {
    std::string bin;
    std::string position;
    bool spotCheck = false;
    std::optional<double> heightCentimetres;
};

/// A file of one of the kinds that belong to a batch: `time`, the fields of its EntryDescription, optional `note`.
template <class E>
FileResult<std::vector<Lined<E>>> readEntries(const std::filesystem::path& file, const ReadingHabits& habits);
/// `time,bin`
FileResult<std::vector<Lined<StagedMove>>> readMoves(const std::filesystem::path& file, const ReadingHabits& habits);
/// `probe,accuracy` (±, in °C) + optional `note`
FileResult<std::vector<Lined<Probe>>> readProbes(const std::filesystem::path& file);
/// `time,probe,kind,read` + `altitude_m` or `pressure_hpa` for boiling, optional `unit,applies_from,note`
FileResult<std::vector<Lined<StagedCheck>>> readChecks(const std::filesystem::path& file, const ReadingHabits& habits);

/// `bin` + optional `volume_l,insulation_mm,conductivity_w_mk,retired,note`, `height_cm,hatch_top_cm`, and
/// `vent_cm2,vent_rise_cm,air_changes_h`
FileResult<std::vector<Lined<Bin>>> readBins(const std::filesystem::path& file);
/// `bin,position,spot_check` + optional `height_cm`
FileResult<std::vector<Lined<StagedPosition>>> readPositions(const std::filesystem::path& file);

}  // namespace midden
