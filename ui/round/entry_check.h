// SPDX-License-Identifier: GPL-3.0-or-later
// What becomes of a number typed into a cell of the Round.
#pragma once

#include <QString>
#include <optional>

#include "core/store/logbook.h"

namespace midden::ui {

/// Thresholds beyond which a number is asked about. Common practice, no source; settings of the logbook.
struct UnlikelyThresholds {
    Kelvins jump;          ///< since the last reading
    Kelvins belowOutside;  ///< colder than the air
    Celsius above;         ///< hotter than compost gets
};
UnlikelyThresholds unlikelyThresholdsOf(const Logbook& logbook);

/// What a typed number is held against.
struct EntryContext {
    TemperatureUnit unit = TemperatureUnit::celsius;
    std::optional<Celsius> last;
    std::optional<Celsius> outside;
    bool isOutside = false;  ///< the cell is the air outside: no warm or cold is unlikely there
    UnlikelyThresholds thresholds;
};

/// A number to be stored, or nothing; and what is to be said beside the cell.
struct Entry {
    std::optional<WrittenTemperature> written;
    QString question;  ///< empty = nothing is odd about it. Without `written`: why nothing is stored.
};
Entry readEntry(const QString& typed, const EntryContext& context);

}  // namespace midden::ui
