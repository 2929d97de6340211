// SPDX-License-Identifier: GPL-3.0-or-later
// Books made by hostile hands. Each is opened by a process of its own, which may take 60 seconds and 3 GB: it reads
// everything a screen would, and tries to write an entry. It may be refused with a sentence; it may not crash, hang,
// run what was planted, or change a file it refuses.
// Usage: faults_crafted [EVERY_NTH]
#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <sqlite3.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <cstring>

#include "core/store/logbook.h"
#include "tests/faults/tally.h"
#include "tests/faults/trial_book.h"
#include "tests/fuzz/fuzz_input.h"

using namespace midden;
using namespace midden::faults;
namespace fs = std::filesystem;

namespace {

using Texts = std::vector<std::string>;

/// Takes STRICT, CHECK and the like away from the tables, runs the statement, and puts the rules back as they were.
std::string behindTheRules(const std::string& sql) {
    return "PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF; PRAGMA writable_schema = ON;"
           "CREATE TEMP TABLE rules AS SELECT rowid AS place, sql FROM sqlite_schema;"
           "UPDATE sqlite_schema SET sql = replace(replace(sql, ') STRICT, WITHOUT', ') WITHOUT'), ') STRICT', ')') "
           "WHERE type = 'table';"
           "DELETE FROM sqlite_schema WHERE type = 'trigger';"
           "PRAGMA schema_version = 1000; PRAGMA writable_schema = RESET;" +
           sql + ";";
}

/// Every column of every table, filled with what does not belong there.
Texts wrongValues(const fs::path& book) {
    Texts all;
    SQLite::Database database{book.string(), SQLite::OPEN_READONLY};
    SQLite::Statement columns{database,
                              "SELECT t.name, c.name FROM pragma_table_list t JOIN pragma_table_info(t.name) c "
                              "WHERE t.schema = 'main' AND t.type = 'table' AND t.name NOT LIKE 'sqlite%'"};
    while (columns.executeStep()) {
        const auto set =
            "UPDATE OR IGNORE " + columns.getColumn(0).getString() + " SET " + columns.getColumn(1).getString() + " = ";
        for (const char* value : {"9223372036854775807", "-9223372036854775808", "77", "1e308", "-1e308", "9e999",
                                  "'text where a number belongs'", "x'ff00fe'", "CAST(x'41ff42' AS TEXT)", "''",
                                  "zeroblob(3000000)", "'<b>' || char(0, 10, 0x202e) || '&amp;'"}) {
            all.push_back(set + value);
        }
    }
    return all;
}

Texts schemas() {
    return {
        "CREATE TRIGGER planted AFTER INSERT ON reading BEGIN UPDATE setting SET value = 'PLANTED'; END",
        "CREATE TRIGGER planted AFTER UPDATE ON hand BEGIN DELETE FROM bin; END",
        "CREATE TRIGGER planted AFTER INSERT ON reading BEGIN SELECT load_extension('/tmp/evil'); END",
        "CREATE TRIGGER planted AFTER INSERT ON reading BEGIN SELECT writefile('/tmp/evil', 'x'); END",
        "DROP TABLE setting; CREATE VIEW setting AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) "
        "SELECT i AS name, i AS value FROM n",
        "ALTER TABLE batch RENAME TO hidden; CREATE VIEW batch AS SELECT * FROM hidden",
        "CREATE VIEW loop AS SELECT * FROM loop2; CREATE VIEW loop2 AS SELECT 1",
        "CREATE VIEW deep AS SELECT " + std::string(400, '(') + "1" + std::string(400, ')'),
        "CREATE TABLE extra(a, b GENERATED ALWAYS AS (length(zeroblob(900000000))) STORED)",
        "CREATE INDEX slow ON bin(length(hex(zeroblob(1000))))",
        "DROP TRIGGER reading_withdrawn; CREATE TRIGGER reading_withdrawn BEFORE DELETE ON reading BEGIN SELECT 1; END",
        "CREATE VIRTUAL TABLE t USING fts5(x)",
        "CREATE VIRTUAL TABLE t USING rtree(id, a, b)",
        "PRAGMA application_id = 7",
        "PRAGMA user_version = -1",
        "PRAGMA user_version = 2147483647",
        "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET rootpage = 2 WHERE name = 'bin'",
        "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET rootpage = 99999 WHERE name = 'reading'",
        "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = 'CREATE TABLE bin(x)' WHERE name = 'bin'",
        "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = 'no SQL at all' WHERE name = 'bin'",
        "PRAGMA writable_schema = ON; DELETE FROM sqlite_schema",
    };
}

class Trials {
  public:
    explicit Trials(Tally& tally) : tally_{tally} {
        makeBook(folder_ / "sound.midden");
        sound_ = bytesOf(folder_ / "sound.midden");
        wrong_ = wrongValues(folder_ / "sound.midden");
    }

    void bySql(std::size_t step) {
        for (const auto& sql : schemas()) {
            write(book_, sound_);
            const bool made = execute(sql);
            open("crafted schemas", sql, made);
        }
        for (std::size_t at = 0; at < wrong_.size(); at += step) {
            write(book_, sound_);
            execute(behindTheRules(wrong_[at]));
            restoreRules();
            open("values where they cannot be", wrong_[at], false);
        }
    }

    void byPages(std::size_t step) {
        constexpr std::size_t page = 8'192;
        for (std::size_t at = 0; at < sound_.size(); at += page * step) {
            for (const char fill : {'\0', '\xff', '\x05'}) {
                auto bytes = sound_;
                bytes.replace(at, page, page, fill);
                openBytes("pages overwritten", bytes);
            }
            auto shuffled = sound_;
            shuffled.replace(at, page, sound_.substr((at + 3 * page) % (sound_.size() - page), page));
            openBytes("pages overwritten", shuffled);
            openBytes("files cut short", sound_.substr(0, at));
            openBytes("files cut short", sound_.substr(0, at + page / 3));
        }
    }

    void byKind() {
        const auto kind = "files that are none, or strange";
        openBytes(kind, "");
        openBytes(kind, std::string(100'000, '\0'));
        openBytes(kind, "time,temperature\n");
        auto wal = sound_;
        wal[18] = wal[19] = 2;
        openBytes(kind, wal);
        write(fs::path{book_} += "-journal", std::string(4'096, 'j'));
        openBytes(kind, sound_);
        write(fs::path{book_} += "-journal", "\xd9\xd5\x05\xf9\x20\xa1\x63\xd7" + std::string(40'000, '\xff'));
        openBytes(kind, sound_);
        fs::remove(fs::path{book_} += "-journal");
        const auto special = [&](auto make) {
            fs::remove_all(book_);
            make();
            open(kind, "a special file", false);
            fs::remove_all(book_);
        };
        special([&] { fs::create_directory(book_); });
        special([&] { tally_.expect(::mkfifo(book_.c_str(), 0600) == 0, "a pipe with a name"); });
        special([&] { fs::create_symlink(folder_ / "nowhere", book_); });
        special([&] { fs::create_symlink(book_, book_); });
        special([&] { fs::create_symlink(folder_ / "sound.midden", book_); });
        special([&] { fs::create_symlink("/dev/zero", book_); });
        special([&] { fs::create_symlink("/dev/full", book_); });
    }

  private:
    bool execute(const std::string& sql) {
        SQLite::Database database{book_.string(), SQLite::OPEN_READWRITE};
        const int done = sqlite3_exec(database.getHandle(), sql.c_str(), nullptr, nullptr, nullptr);
        tally_.add("crafts SQLite itself would not make", done == SQLITE_OK ? 0 : 1);
        return done == SQLITE_OK;
    }

    /// The schema of a sound book over whatever the tables hold now.
    void restoreRules() {
        const auto sound = (folder_ / "sound.midden").string();
        execute("PRAGMA writable_schema = ON; ATTACH '" + sound +
                "' AS sound; DELETE FROM main.sqlite_schema WHERE type = 'trigger';"
                "UPDATE main.sqlite_schema AS m SET sql = (SELECT s.sql FROM sound.sqlite_schema s "
                "WHERE s.type = m.type AND s.name = m.name);"
                "INSERT INTO main.sqlite_schema SELECT * FROM sound.sqlite_schema WHERE type = 'trigger';"
                "PRAGMA main.schema_version = 2000");
    }

    void openBytes(const std::string& kind, const std::string& bytes) {
        write(book_, bytes);
        open(kind, "bytes", false);
    }

    static constexpr int refusedStatus = 42;

    bool isRefused() const {
        try {
            Logbook::open(book_, Logbook::Mode::readOnly);
            return false;
        } catch (const LogbookError&) {
            return true;
        }
    }

    /// In a process of its own, under limits.
    void open(const std::string& kind, const std::string& craft, bool refused) {
        tally_.add(kind);
        const auto before = refused ? bytesOf(book_) : std::string{};
        const auto child = ::fork();
        if (child == 0) {
            const rlimit seconds{60, 60};
            [[maybe_unused]] const rlimit bytes{rlim_t{3} << 30U, rlim_t{3} << 30U};
            ::setrlimit(RLIMIT_CPU, &seconds);
#ifndef __SANITIZE_ADDRESS__
            ::setrlimit(RLIMIT_AS, &bytes);
#endif
            ::alarm(120);
            const bool refusedAtTheDoor = isRefused();
            fuzz::readEverything(book_);
            ::_exit(refusedAtTheDoor ? refusedStatus : 0);
        }
        int status = -1;
        ::waitpid(child, &status, 0);
        const bool atTheDoor = WIFEXITED(status) && WEXITSTATUS(status) == refusedStatus;
        tally_.add(atTheDoor ? "crafted files refused with a sentence" : "crafted files opened and read safely");
        tally_.expect(atTheDoor || (WIFEXITED(status) && WEXITSTATUS(status) == 0),
                      "a crafted book ended the program (" + std::to_string(status) + "): " + kind + ", " + craft);
        tally_.expect(!refused || bytesOf(book_) == before, "a refused book is left alone: " + craft);
    }

    Tally& tally_;
    Folder folder_{Folder::Where::inMemory};
    fs::path book_ = folder_ / "crafted.midden";
    std::string sound_;
    Texts wrong_;
};

}  // namespace

int main(int argc, char** argv) {
    const auto step = argc > 1 ? std::max(1UL, std::strtoul(argv[1], nullptr, 10)) : 1;
    Tally tally;
    Trials trials{tally};
    trials.bySql(step);
    trials.byPages(step);
    trials.byKind();
    return tally.tell();
}
