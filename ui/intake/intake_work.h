// SPDX-License-Identifier: GPL-3.0-or-later
// What bringing in a CSV file does beside the thread of the window. Nothing here knows a widget.
#pragma once

#include <QString>
#include <memory>

#include "core/exchange/file_kind.h"
#include "core/exchange/foresee.h"

namespace midden::ui {

/// What the person says of a file that does not say it itself.
struct IntakeAnswers {
    std::string batch;
    std::optional<std::string> bin;  ///< of a new batch
    std::optional<TimeZone> zone;    ///< of times without offset
    std::optional<TemperatureUnit> unit;
};

struct IntakeTask {
    std::filesystem::path book;
    std::filesystem::path file;
    std::filesystem::path copies;  ///< where a copy of the book goes first; empty = none is kept
    std::string who;
    Instant now;
    FileKind kind = FileKind::readings;
    IntakeAnswers answers = {};
};

/// Why nothing came of it; at most one of the two.
struct IntakeTrouble {
    std::optional<Refusal> refusal;  ///< something about the file, or a stop
    QString machine;                 ///< what the machine refused, as a sentence

    bool isNone() const { return !refusal && machine.isEmpty(); }
};

struct IntakeFindings {
    std::shared_ptr<const StagedImport> staged;  ///< read once, stored from here
    Foresight foreseen;
    IntakeTrouble trouble;
};

struct IntakeOutcome {
    ImportOutcome outcome;
    IntakeTrouble trouble;
};

/// Reads the whole file and says what it would bring. The book is only read.
IntakeFindings readThrough(const IntakeTask& task, const Onlooker& watch);
/// Keeps a copy of the book as it is, then stores what was read, all of it or nothing. The share stays at 0 until the
/// copy is there.
IntakeOutcome takeIn(const IntakeTask& task, const StagedImport& staged, const Onlooker& watch);

}  // namespace midden::ui
