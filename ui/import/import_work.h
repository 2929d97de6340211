// SPDX-License-Identifier: GPL-3.0-or-later
// What bringing in a CSV file does beside the thread of the window. Nothing here knows a widget.
#pragma once

#include <QString>
#include <memory>

#include "core/exchange/plan/file_kind.h"
#include "core/exchange/plan/preview.h"

namespace midden::ui {

/// What the person says of a file that does not say it itself.
struct ImportAnswers {
    std::string batch;
    std::optional<std::string> bin;  ///< of a new batch
    std::optional<TimeZone> zone;    ///< of times without offset
    std::optional<TemperatureUnit> unit;
};

struct ImportTask {
    std::filesystem::path book;
    std::filesystem::path file;
    std::filesystem::path copies;  ///< where a copy of the book goes first; empty = none is kept
    std::string who;
    Instant now;
    FileKind kind = FileKind::readings;
    ImportAnswers answers = {};
};

/// Why nothing came of it; at most one of the two.
struct ImportTrouble {
    std::optional<Refusal> refusal;  ///< something about the file, or a stop
    QString machine;                 ///< what the machine refused, as a sentence

    bool isNone() const { return !refusal && machine.isEmpty(); }
};

struct ImportFindings {
    std::shared_ptr<const StagedImport> staged;  ///< read once, stored from here
    ImportPreview previewed;
    ImportTrouble trouble;
};

struct TakenIn {
    ImportOutcome outcome;
    ImportTrouble trouble;
};

/// Reads the whole file and says what it would bring. The book is only read.
ImportFindings readThrough(const ImportTask& task, const ProgressCallback& progress);
/// Keeps a copy of the book as it is, then stores what was read, all of it or nothing. The share stays at 0 until the
/// copy is there.
TakenIn takeIn(const ImportTask& task, const StagedImport& staged, const ProgressCallback& progress);

}  // namespace midden::ui
