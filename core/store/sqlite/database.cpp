// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/sqlite/database.h"

#include <SQLiteCpp/Exception.h>
#include <sqlite3.h>

#include <cerrno>
#include <mutex>
#include <new>
#include <set>
#include <system_error>

#include "core/store/sqlite/second_name.h"

namespace midden {

namespace {

std::string sqliteName(const std::filesystem::path& file) {
    const auto name = file.u8string();
    return {name.begin(), name.end()};
}

LogbookError outOfMemory(const std::string& name) {
    return {LogbookError::Kind::failed, name + " needs more memory than this computer has to give"};
}

/// Why SQLite refused a row. Only the file's own rules speak for themselves.
std::string refusedRow(int code, const std::string& trigger) {
    switch (code) {
        case SQLITE_CONSTRAINT_TRIGGER:
            return trigger;
        case SQLITE_CONSTRAINT_CHECK:
        case SQLITE_CONSTRAINT_DATATYPE:
            return "one of its values is outside what a logbook can hold";
        case SQLITE_CONSTRAINT_NOTNULL:
            return "one of its values is missing";
        case SQLITE_CONSTRAINT_FOREIGNKEY:
            return "it belongs to something that is not in the book";
        default:
            return "the book holds one with that name or at that time already";
    }
}

/// What SQLite reported of a file, and the system behind it.
struct Report {
    int code;
    int systemError;
    std::string text;  ///< in SQLite's words, unless a rule of the file spoke
};

LogbookError brokenOff(const Report& report, const std::string& name) {
    using Kind = LogbookError::Kind;
    if (report.systemError == EFBIG) {
        return {Kind::full, name + " may not grow any further: the size of files is limited here"};
    }
    return {Kind::failed, name + " could not be read or written; is its disk still there?"};
}

/// What went wrong, in words.
LogbookError refusal(const Report& report, const std::string& name) {
    using Kind = LogbookError::Kind;
    if (report.code == SQLITE_READONLY_DBMOVED) {
        return {Kind::moved, name + " is no longer where it was: it was moved, deleted or replaced by another file"};
    }
    switch (report.code & 0xff) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return {Kind::busy, "another program is writing to " + name + "; try again in a moment"};
        case SQLITE_FULL:
            return {Kind::full, "there is no space left for " + name + "; nothing of this change was kept"};
        case SQLITE_READONLY:
        case SQLITE_PERM:
            return {Kind::readOnly, name + " or its folder cannot be written to"};
        case SQLITE_CORRUPT:
            return {Kind::damaged, name + " is damaged: parts of it cannot be read"};
        case SQLITE_NOTADB:
            return {Kind::foreign, name + " is not a logbook"};
        case SQLITE_CONSTRAINT:
            return {Kind::refused, "the logbook refuses this entry: " + refusedRow(report.code, report.text)};
        case SQLITE_MISMATCH:
            return {Kind::refused, "the logbook refuses this entry: " + refusedRow(SQLITE_CONSTRAINT_CHECK, {})};
        case SQLITE_TOOBIG:
            return {Kind::refused, "one text or value is longer than a logbook can hold"};
        case SQLITE_CANTOPEN:
            return {Kind::readOnly, name + " or its folder cannot be opened for writing"};
        case SQLITE_IOERR:
            return report.code == SQLITE_IOERR_NOMEM ? outOfMemory(name) : brokenOff(report, name);
        case SQLITE_NOMEM:
            return outOfMemory(name);
        default:
            return {Kind::failed,
                    name + " cannot be used as a logbook (SQLite's reason " + std::to_string(report.code) + ")"};
    }
}

/// Never a name with a meaning of its own to SQLite, such as "file:…".
std::string wholeName(const std::filesystem::path& file) {
    std::error_code ignored;
    const auto whole = std::filesystem::absolute(file, ignored);
    return sqliteName(file == ":memory:" || ignored ? file : whole);
}

SQLite::Database opened(const std::filesystem::path& file, int flags, const OwnFiles& files) {
    try {
        return SQLite::Database{wholeName(file), flags, 0, files.name()};
    } catch (const SQLite::Exception& error) {
        const std::string name = sqliteName(file.filename());
        const bool mayNotBeSeen = error.getErrorCode() == SQLITE_CANTOPEN && (flags & SQLITE_OPEN_CREATE) == 0;
        if (mayNotBeSeen) {
            throw LogbookError{LogbookError::Kind::failed, name + " or its folder cannot be opened"};
        }
        throw refusal({error.getExtendedErrorCode(), 0, error.what()}, name);
    }
}

}  // namespace

void FinalizeStatement::operator()(sqlite3_stmt* statement) const noexcept {
    sqlite3_finalize(statement);
}

DatabaseFile::DatabaseFile(const std::filesystem::path& file, int flags)
    : path_{file == ":memory:" ? std::filesystem::path{} : file}, database_{opened(file, flags, files_)} {}

DatabaseFile::DatabaseFile(const InMemoryOf& of)
    : path_{of.file}, database_{opened(":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, files_)} {}

std::string DatabaseFile::name() const {
    return path_.empty() ? "the trial copy" : sqliteName(path_.filename());
}

bool DatabaseFile::inTransaction() const {
    return sqlite3_get_autocommit(handle()) == 0;
}

void DatabaseFile::run(const std::string& sql) {
    expectDone(sqlite3_exec(handle(), sql.c_str(), nullptr, nullptr, nullptr));
}

std::int64_t DatabaseFile::number(const char* sql) {
    Query query{*this, sql};
    return query.next() ? query.number(0) : 0;
}

std::string DatabaseFile::text(const char* sql) {
    Query query{*this, sql};
    return query.next() ? query.text(0) : std::string{};
}

void DatabaseFile::fail(int code) const {
    if (!files_.refusal().empty()) {
        throw LogbookError{LogbookError::Kind::foreign, files_.refusal()};
    }
    throw refusal({code, sqlite3_system_errno(handle()), sqlite3_errmsg(handle())}, name());
}

void DatabaseFile::expectDone(int code) const {
    if (code != SQLITE_OK && code != SQLITE_DONE && code != SQLITE_ROW) {
        fail(code);
    }
}

OwnedStatement DatabaseFile::take(const char* sql) {
    auto& resting = resting_[sql];
    if (!resting.empty()) {
        OwnedStatement statement = std::move(resting.back());
        resting.pop_back();
        return statement;
    }
    sqlite3_stmt* statement = nullptr;
    expectDone(sqlite3_prepare_v3(handle(), sql, -1, SQLITE_PREPARE_PERSISTENT, &statement, nullptr));
    return OwnedStatement{statement};
}

void DatabaseFile::giveBack(const char* sql, OwnedStatement statement) noexcept {
    sqlite3_reset(statement.get());
    sqlite3_clear_bindings(statement.get());
    try {
        resting_[sql].push_back(std::move(statement));
    } catch (const std::bad_alloc&) {  // NOLINT(bugprone-empty-catch): it is prepared anew when it is needed again
    }
}

Query::Query(DatabaseFile& file, const char* sql) : file_{file}, sql_{sql}, statement_{file.take(sql)} {}

Query::~Query() {
    file_.giveBack(sql_, std::move(statement_));
}

Query& Query::addPointer(void* pointer, const char* type) {
    file_.expectDone(sqlite3_bind_pointer(statement_.get(), ++position_, pointer, type, nullptr));
    return *this;
}

bool Query::next() {
    const int code = sqlite3_step(statement_.get());
    if (code == SQLITE_ROW) {
        return true;
    }
    if (code != SQLITE_DONE) {
        file_.fail(code);
    }
    return false;
}

int Query::run() {
    while (next()) {
    }
    const int changed = sqlite3_changes(file_.handle());
    again();
    return changed;
}

void Query::again() {
    sqlite3_reset(statement_.get());
    position_ = 0;
}

void Query::bind(int index, std::int64_t value) {
    file_.expectDone(sqlite3_bind_int64(statement_.get(), index, value));
}
void Query::bind(int index, double value) {
    file_.expectDone(sqlite3_bind_double(statement_.get(), index, value));
}
void Query::bind(int index, std::string_view value) {
    // A null pointer would be bound as NULL: an empty text is a text.
    const char* bytes = value.empty() ? "" : value.data();
    file_.expectDone(sqlite3_bind_text64(statement_.get(), index, bytes, value.size(), SQLITE_TRANSIENT, SQLITE_UTF8));
}
void Query::bindNull(int index) {
    file_.expectDone(sqlite3_bind_null(statement_.get(), index));
}

RulesPaused::RulesPaused(DatabaseFile& file, Which which)
    : file_{file}, option_{which == Which::triggers ? SQLITE_DBCONFIG_ENABLE_TRIGGER : SQLITE_DBCONFIG_ENABLE_FKEY} {
    sqlite3_db_config(file_.handle(), option_, 0, nullptr);
}

RulesPaused::~RulesPaused() {
    sqlite3_db_config(file_.handle(), option_, 1, nullptr);
}

Transaction::Transaction(DatabaseFile& file) : file_{file}, nested_{file.inTransaction()} {
    if (!nested_ && !file_.path().empty()) {
        expectOneName(file_.path());
    }
    file_.run(nested_ ? "SAVEPOINT step" : "BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
    if (!committed_ && file_.inTransaction()) {
        const char* undo = nested_ ? "ROLLBACK TO step; RELEASE step" : "ROLLBACK";
        sqlite3_exec(file_.handle(), undo, nullptr, nullptr, nullptr);
    }
}

void Transaction::commit() {
    file_.run(nested_ ? "RELEASE step" : "COMMIT");
    committed_ = true;
}

ReadTransaction::ReadTransaction(DatabaseFile& file) : file_{file}, ours_{!file.inTransaction()} {
    if (ours_) {
        file_.run("BEGIN");
    }
}

ReadTransaction::~ReadTransaction() {
    if (ours_) {
        sqlite3_exec(file_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
    }
}

const char* interned(const std::string& sql) {
    static std::set<std::string> texts;
    static std::mutex guard;
    const std::lock_guard lock{guard};
    return texts.insert(sql).first->c_str();
}

}  // namespace midden
