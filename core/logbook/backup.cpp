// SPDX-License-Identifier: GPL-3.0-or-later
#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Exception.h>
#include <sqlite3.h>

#include <system_error>

#include "core/logbook/schema.h"
#include "core/logbook/state.h"

namespace midden {

namespace fs = std::filesystem;

namespace {

/// Removed again unless the copy is whole.
class Unfinished {
  public:
    explicit Unfinished(fs::path file) : file_{std::move(file)} {}
    Unfinished(const Unfinished&) = delete;
    Unfinished& operator=(const Unfinished&) = delete;
    ~Unfinished() {
        std::error_code ignored;
        fs::remove(file_, ignored);
    }
    const fs::path& path() const { return file_; }

  private:
    fs::path file_;
};

void copyPages(DatabaseFile& from, const fs::path& to) {
    DatabaseFile copy{to, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
    setUpConnection(copy);
    try {
        SQLite::Backup backup{copy.connection(), from.connection()};
        backup.executeStep();
    } catch (const SQLite::Exception& error) {
        copy.fail(error.getErrorCode());
    }
    expectOurSchema(copy);
}

}  // namespace

void Logbook::backUpTo(const fs::path& copy) const {
    const auto name = copy.filename().u8string();
    const std::string shown{name.begin(), name.end()};
    std::error_code problem;
    if (fs::exists(fs::symlink_status(copy, problem))) {
        refuse(shown + " is already there; a backup never writes over a file");
    }
    fs::path part = fs::absolute(copy, problem);
    part += ".part";
    const Unfinished unfinished{part};
    fs::remove(part, problem);
    copyPages(state_->file, part);
    // A hard link, unlike a rename, never replaces a file that came there meanwhile; not every disk knows links.
    fs::create_hard_link(part, copy, problem);
    if (problem && !fs::exists(copy)) {
        fs::rename(part, copy, problem);
    }
    if (problem) {
        throw LogbookError{LogbookError::Kind::failed, "the backup " + shown + " could not be given its name"};
    }
}

}  // namespace midden
