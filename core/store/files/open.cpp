// SPDX-License-Identifier: GPL-3.0-or-later
#include <sqlite3.h>

#include <system_error>

#include "core/store/files/book_copy.h"
#include "core/store/files/new_book.h"
#include "core/store/schema/schema.h"
#include "core/store/sqlite/second_name.h"
#include "core/store/state.h"

namespace midden {

namespace fs = std::filesystem;
using Kind = LogbookError::Kind;

namespace {

std::string sqliteName(const fs::path& file) {
    const auto name = file.u8string();
    return {name.begin(), name.end()};
}

std::string nameOf(const fs::path& file) {
    return sqliteName(file.filename());
}

[[noreturn]] void throwAbsent(const fs::path& file) {
    throw LogbookError{Kind::absent, "there is no logbook " + nameOf(file)};
}

/// The file as SQLite shall open it: never a name with a special meaning, never anything but a plain file.
fs::path plainFile(const fs::path& file, Logbook::Mode mode) {
    std::error_code ignored;
    const auto status = fs::status(file, ignored);
    if (file.empty()) {
        throw LogbookError{Kind::absent, "a logbook needs a name"};  // SQLite would take none for a passing file
    }
    if (status.type() == fs::file_type::not_found && mode != Logbook::Mode::createIfAbsent) {
        throwAbsent(file);  // one that may not be looked at is left to SQLite, which says so
    }
    if (fs::exists(status) && !fs::is_regular_file(status)) {
        throw LogbookError{Kind::foreign, nameOf(file) + " is not a file"};
    }
    const auto whole = fs::absolute(file, ignored);
    return ignored ? file : whole;
}

int flagsFor(Logbook::Mode mode) {
    const int base = SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX;
    return mode == Logbook::Mode::createIfAbsent ? base | SQLITE_OPEN_CREATE : base;
}

/// Before the first step onto a newer format, a copy beside the book: "NAME before format 2.midden". It gets its name
/// once it is whole, so that an attempt that was broken off leaves nothing that could be taken for it.
void copyBeside(DatabaseFile& file, std::int64_t format) {
    fs::path copy = file.path();
    copy.replace_filename(file.path().stem().concat(" before format " + std::to_string(format)));
    copy.concat(file.path().extension().string());
    if (fs::exists(copy)) {
        return;  // an earlier attempt made it, and has changed nothing since
    }
    TemporaryBook whole{copy};
    Query{file, "VACUUM INTO ?"}.with(sqliteName(whole.path())).run();
    asLogbookError([&] { giveRights(whole.path(), rightsOf(file.path())); });
    whole.takeName(copy);  // unless another program made it at the same time
}

void expectOurs(DatabaseFile& file, std::int64_t newest) {
    if (file.number("PRAGMA application_id") != applicationId) {
        throw LogbookError{Kind::foreign, file.name() + " belongs to another program, so it was left alone"};
    }
    const auto format = file.number("PRAGMA user_version");
    if (format > newest) {
        throw LogbookError{Kind::newer, file.name() + " was written by a later Middenbook (format " +
                                            std::to_string(format) + "; this one knows formats up to " +
                                            std::to_string(newest) + "), so it was left alone"};
    }
    if (format < 1) {
        throw LogbookError{Kind::damaged, file.name() + " does not say which format it has"};
    }
}

/// True once the file holds anything. A hot journal is rolled back by this first look.
bool holdsAnything(DatabaseFile& file) {
    return file.number("PRAGMA page_count") > 0;
}

/// Its own rules run while it is brought up to date, so it must be ours before.
void expectOurOlderSchema(DatabaseFile& file, Migrations steps) {
    expectOurSchema(file, steps.first(static_cast<std::size_t>(file.number("PRAGMA user_version"))));
    expectSoundRows(file);
}

bool isOlder(DatabaseFile& file, Migrations steps) {
    return file.number("PRAGMA user_version") < std::ssize(steps);
}

void bringUpToDate(DatabaseFile& file, Migrations steps) {
    expectOurOlderSchema(file, steps);
    copyBeside(file, std::ssize(steps));
    migrate(file, steps);
}

/// A book of an older format that is only read is brought up to date in memory; its file stays as it is.
std::unique_ptr<Logbook::State> upToDateInMemory(DatabaseFile& book, Migrations steps) {
    auto state = std::make_unique<Logbook::State>(DatabaseFile::InMemoryOf{book.path()});
    setUpConnection(state->file);
    copyPages(book, state->file);
    expectOurOlderSchema(state->file, steps);
    migrate(state->file, steps);
    state->readOnly = true;
    return state;
}

/// Of the newest format by now.
std::unique_ptr<Logbook::State> opened(std::unique_ptr<Logbook::State> state, Migrations steps) {
    expectOurSchema(state->file, steps);
    expectSoundRows(state->file);
    state->file.run(state->readOnly ? "PRAGMA query_only = ON" : "PRAGMA journal_mode = DELETE");
    return state;
}

}  // namespace

std::unique_ptr<Logbook::State> openState(const fs::path& file, Logbook::Mode mode, Migrations steps) {
    const auto whole = plainFile(file, mode);
    mode == Logbook::Mode::readOnly ? expectNoBrokenChange(whole) : expectOneName(whole);
    auto state = std::make_unique<Logbook::State>(whole, flagsFor(mode));
    DatabaseFile& book = state->file;
    setUpConnection(book);
    state->readOnly = mode == Logbook::Mode::readOnly || sqlite3_db_readonly(book.handle(), "main") == 1;
    if (state->readOnly && mode != Logbook::Mode::readOnly) {
        throw LogbookError{Kind::readOnly, nameOf(file) + " cannot be written to"};
    }
    if (!holdsAnything(book)) {
        if (mode != Logbook::Mode::createIfAbsent) {
            throwAbsent(file);
        }
        migrate(book, steps);
    }
    expectOurs(book, std::ssize(steps));
    if (isOlder(book, steps) && state->readOnly) {
        state = upToDateInMemory(book, steps);
    } else if (isOlder(book, steps)) {
        bringUpToDate(book, steps);
    }
    return opened(std::move(state), steps);
}

Logbook Logbook::open(const fs::path& file, Mode mode) {
    tidyUpAfterKilled(file.has_parent_path() ? file.parent_path() : fs::path{"."});
    if (mode == Mode::createIfAbsent) {
        while (isUnwritten(file) && !beginBook(file, [](Logbook&) {})) {
        }
        mode = Mode::readWrite;
    }
    return Logbook{openState(file, mode, migrations)};
}

void Logbook::copyTo(const fs::path& file) const {
    DatabaseFile& book = state_->file;
    book.run("PRAGMA query_only = OFF");  // it forbids writing the other file as well
    Query{book, "VACUUM INTO ?"}.with(sqliteName(file)).run();
    book.run(state_->readOnly ? "PRAGMA query_only = ON" : "PRAGMA query_only = OFF");
}

Logbook Logbook::inMemory() {
    auto state = std::make_unique<State>(":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE);
    setUpConnection(state->file);
    migrate(state->file);
    return Logbook{std::move(state)};
}

}  // namespace midden
