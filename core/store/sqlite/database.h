// SPDX-License-Identifier: GPL-3.0-or-later
// The thin layer between the logbook and SQLite: cached statements, transactions, and every refusal of the machine
// turned into a LogbookError with a sentence.
#pragma once

#include <SQLiteCpp/Database.h>

#include <concepts>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/records/entries.h"
#include "core/store/sqlite/logbook_error.h"
#include "core/store/sqlite/own_files.h"

namespace midden {

struct FinalizeStatement {
    void operator()(sqlite3_stmt* statement) const noexcept;
};
using OwnedStatement = std::unique_ptr<sqlite3_stmt, FinalizeStatement>;

/// An open SQLite file and the statements prepared on it so far.
class DatabaseFile {
  public:
    DatabaseFile(const std::filesystem::path& file, int flags);
    /// In memory, called after the file it is filled from.
    struct InMemoryOf {
        std::filesystem::path file;
    };
    explicit DatabaseFile(const InMemoryOf& of);

    /// Runs statements that give no rows.
    void run(const std::string& sql);
    std::int64_t number(const char* sql);
    std::string text(const char* sql);

    /// Throws what SQLite reported; `code` is its result.
    [[noreturn]] void fail(int code) const;
    void expectDone(int code) const;

    const std::filesystem::path& path() const { return path_; }
    std::string name() const;
    bool inTransaction() const;
    sqlite3* handle() const { return database_.getHandle(); }
    SQLite::Database& connection() { return database_; }

    OwnedStatement take(const char* sql);
    void giveBack(const char* sql, OwnedStatement statement) noexcept;

  private:
    std::filesystem::path path_;
    OwnFiles files_;  // outlives the connection
    SQLite::Database database_;
    std::map<const char*, std::vector<OwnedStatement>> resting_;  // by address: every text is a literal
};

/// One use of a cached statement. `sql` must live as long as the file: a literal.
class Query {
  public:
    Query(DatabaseFile& file, const char* sql);
    Query(const Query&) = delete;
    Query& operator=(const Query&) = delete;
    Query(Query&&) = delete;
    Query& operator=(Query&&) = delete;
    ~Query();

    /// Gives all parameters, in order.
    template <class... Values>
    Query& with(const Values&... values) {
        position_ = 0;
        (bind(++position_, values), ...);
        return *this;
    }
    /// Gives the next parameter.
    template <class Value>
    Query& add(const Value& value) {
        bind(++position_, value);
        return *this;
    }

    /// Gives the next parameter something in memory that only a function or table knowing `type`, a literal, can use.
    Query& addPointer(void* pointer, const char* type);

    /// Steps to the next row; false after the last.
    bool next();
    /// Runs to the end, and makes ready to run again. Returns the rows changed.
    int run();
    void again();

    // What stands in a column. A value of another kind, or out of range, is damage: other hands wrote it. It is told as
    // such before it is made narrower, so that it never passes for a value that somebody gave. NULL is 0 or no text.
    std::int64_t number(int column) const;
    double real(int column) const;
    std::string text(int column) const;
    bool isNull(int column) const;
    std::optional<std::int64_t> maybeNumber(int column) const;
    std::optional<double> maybeReal(int column) const;
    /// From `least` to `most`, both included, and not NULL.
    std::int64_t within(int column, std::int64_t least, std::int64_t most) const;
    Instant instant(int column) const;  ///< of the years 0 to 9999
    UtcOffset offset(int column) const;
    TemperatureUnit unit(int column) const;
    /// Ten-thousandths of a degree that a thermometer can show.
    std::int32_t written(int column, TemperatureUnit unit) const;
    /// One of the values an enumeration counts from 0 to `last`.
    template <class Enum>
    Enum choice(int column, Enum last) const {
        return static_cast<Enum>(within(column, 0, static_cast<std::int64_t>(last)));
    }
    /// Throws that the value of this column cannot be.
    [[noreturn]] void failAt(int column) const;

  private:
    void expectKind(int column, int kind) const;
    void bind(int index, std::int64_t value);
    void bind(int index, double value);
    void bind(int index, std::string_view value);
    void bindNull(int index);
    void bind(int index, std::integral auto value) { bind(index, static_cast<std::int64_t>(value)); }
    void bind(int index, const std::string& value) { bind(index, std::string_view{value}); }
    void bind(int index, const char* value) { bind(index, std::string_view{value}); }
    void bind(int index, Instant value) { bind(index, value.utcSeconds); }
    void bind(int index, Kelvins value) { bind(index, value.parts()); }
    void bind(int index, UtcOffset value) { bind(index, std::int64_t{value.minutes}); }
    template <class Enum>
    requires std::is_enum_v<Enum>
    void bind(int index, Enum value) { bind(index, static_cast<std::int64_t>(value)); }
    template <class Value>
    void bind(int index, const std::optional<Value>& value) {
        value ? bind(index, *value) : bindNull(index);
    }

    DatabaseFile& file_;
    const char* sql_;
    OwnedStatement statement_;
    int position_ = 0;
};

/// While it lives, the file's own rules of a kind are not asked on this connection.
class RulesPaused {
  public:
    enum class Which { foreignKeys, triggers };
    RulesPaused(DatabaseFile& file, Which which);
    RulesPaused(const RulesPaused&) = delete;
    RulesPaused& operator=(const RulesPaused&) = delete;
    ~RulesPaused();

  private:
    DatabaseFile& file_;
    int option_;
};

/// A transaction, or inside one a savepoint: undone unless committed.
class Transaction {
  public:
    explicit Transaction(DatabaseFile& file);
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction();
    void commit();

  private:
    DatabaseFile& file_;
    bool nested_;
    bool committed_ = false;
};

/// Everything read while this lives is of one moment, whatever other programs write.
class ReadTransaction {
  public:
    explicit ReadTransaction(DatabaseFile& file);
    ReadTransaction(const ReadTransaction&) = delete;
    ReadTransaction& operator=(const ReadTransaction&) = delete;
    ~ReadTransaction();

  private:
    DatabaseFile& file_;
    bool ours_;
};

/// SQL put together at run time, kept for as long as the program runs, as Query asks for.
const char* interned(const std::string& sql);

}  // namespace midden
