// SPDX-License-Identifier: GPL-3.0-or-later
// Sentences about copies, and about what went wrong with a file.
#pragma once

#include <QStringList>
#include <exception>
#include <filesystem>

#include "core/quantities/zone.h"
#include "core/store/care/book_summary.h"
#include "core/store/care/comparison.h"

namespace midden::ui::words {

QString fileName(const std::filesystem::path& file);
/// "Wed 4 March 2026 08:10"
QString fullDayAndTime(Moment moment);
QString noCopies();
QString noCopiesAtAll();
QString howCopiesAreKept(const QString& bookPath);
/// One line each.
QStringList insideOf(const BookSummary& inside, const TimeZone& zone);
QStringList differences(const std::vector<CountDifference>& differences);
/// What the machine refused as a whole sentence, with what to do where there is something to do.
QString sentence(const std::exception& error);
/// The same; where another program on this computer holds the file, its name.
QString sentenceAbout(const std::filesystem::path& file, const std::exception& error);

}  // namespace midden::ui::words
