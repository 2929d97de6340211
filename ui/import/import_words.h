// SPDX-License-Identifier: GPL-3.0-or-later
// What the window says of a CSV file that is brought in.
#pragma once

#include <QList>
#include <QString>

#include "ui/import/import_work.h"

namespace midden::ui::words {

/// A line of what was found: what it is about, and what is to be said.
struct ImportLine {
    QString about;
    QString said;
    bool takesAway = false;  ///< it would end something that runs in the book
};

/// "sheets.csv holds readings."
QString whatItHolds(const std::filesystem::path& file, FileKind kind);
/// What would come of the file, line by line.
QList<ImportLine> linesOf(const ImportPreview& foresight, const std::filesystem::path& file, const TimeZone& zone);
/// Would anything be written?
bool bringsAnything(const ImportOutcome& outcome);
/// "1,234 readings came into “North, spring”."
QString cameIn(const ImportOutcome& outcome);
/// Where it stopped, what is wrong there, what was expected, and that nothing was written.
QString troubleOf(const ImportTrouble& trouble, const std::filesystem::path& file);

}  // namespace midden::ui::words
