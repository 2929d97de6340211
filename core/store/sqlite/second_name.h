// SPDX-License-Identifier: GPL-3.0-or-later
// A file may have several names (hard links). SQLite's journal has only the one the book was opened by, so a change
// that was broken off under one name is not taken back under another, or is taken back there much later.
#pragma once

#include <filesystem>

#include "core/records/entries.h"
#include "core/store/sqlite/logbook_error.h"

namespace midden {

/// The book has a second name, so it can only be read. Of the kind readOnly.
class SecondName : public LogbookError {
  public:
    explicit SecondName(const std::string& sentence) : LogbookError{Kind::readOnly, sentence} {}
};

/// Throws SecondName while the file has more than one name. Asked before each change.
void expectOneName(const std::filesystem::path& book);

/// Throws LogbookError{failed} when the file has several names and beside one of them in this folder lies a journal:
/// what the file holds is then half of a change. Asked before reading, which a second name does not forbid otherwise.
void expectNoBrokenChange(const std::filesystem::path& book);

}  // namespace midden
