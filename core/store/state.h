// SPDX-License-Identifier: GPL-3.0-or-later
// What an open logbook holds, private to core/store.
#pragma once

#include "core/store/logbook.h"
#include "core/store/schema/schema.h"
#include "core/store/sqlite/database.h"

namespace midden {

struct Logbook::State {
    State(const std::filesystem::path& path, int flags) : file{path, flags} {}
    explicit State(const DatabaseFile::InMemoryOf& of) : file{of} {}

    static State& of(const Logbook& book) { return *book.state_; }

    mutable DatabaseFile file;
    bool readOnly = false;
    bool undoing = false;  ///< the edit under way restores what stood before
    std::string who;
    std::function<Instant()> now;

    /// What the clock says; nothing when no clock was handed in.
    std::optional<Instant> clock() const;
};

/// What Logbook::open does, for a ladder of one's own.
std::unique_ptr<Logbook::State> openState(const std::filesystem::path& file, Logbook::Mode mode, Migrations steps);

/// A refusal of the book: the change contradicts what it holds.
[[noreturn]] void refuse(const std::string& sentence);

}  // namespace midden
