// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/logbook/copying.h"

#include <sqlite3.h>

#include <memory>
#include <system_error>

#include "core/logbook/schema.h"

namespace midden {

namespace fs = std::filesystem;

namespace {

/// Eight hexadecimal digits that no other program uses at the same time.
std::string chance() {
    std::uint32_t number = 0;
    sqlite3_randomness(sizeof number, &number);
    std::string digits;
    for (int i = 0; i < 8; ++i, number >>= 4U) {
        digits += "0123456789abcdef"[number & 15U];
    }
    return digits;
}

struct FinishBackup {
    void operator()(sqlite3_backup* backup) const noexcept { sqlite3_backup_finish(backup); }
};

void copyPages(DatabaseFile& from, DatabaseFile& to) {
    std::unique_ptr<sqlite3_backup, FinishBackup> backup{
        sqlite3_backup_init(to.handle(), "main", from.handle(), "main")};
    const int copied = backup ? sqlite3_backup_step(backup.get(), -1) : sqlite3_errcode(to.handle());
    const int finished = sqlite3_backup_finish(backup.release());
    if (copied == SQLITE_BUSY || copied == SQLITE_LOCKED) {
        from.fail(copied);
    }
    if (copied != SQLITE_DONE) {
        to.fail(copied);
    }
    to.expectDone(finished);
}

}  // namespace

std::string fileName(const fs::path& file) {
    const auto name = file.filename().u8string();
    return {name.begin(), name.end()};
}

PassingFile::PassingFile(const fs::path& wanted) : file_{wanted} {
    file_ += '.' + chance() + std::string{passingEnd};
}

PassingFile::~PassingFile() {
    std::error_code ignored;
    fs::remove(file_, ignored);
    fs::remove(fs::path{file_} += "-journal", ignored);
}

bool PassingFile::takeName(const fs::path& name) {
    std::error_code problem;
    // A hard link, unlike a rename, never replaces a file that came there meanwhile; not every disk knows links.
    fs::create_hard_link(file_, name, problem);
    if (problem && !fs::exists(fs::symlink_status(name))) {
        fs::rename(file_, name, problem);
    }
    return !problem;
}

void copyInto(const fs::path& from, const fs::path& to) {
    DatabaseFile source{from, SQLITE_OPEN_READWRITE};
    DatabaseFile target{to, SQLITE_OPEN_READWRITE};
    setUpConnection(source);
    setUpConnection(target);
    copyPages(source, target);
}

void copyWhole(DatabaseFile& from, const fs::path& to) {
    DatabaseFile copy{to, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
    setUpConnection(copy);
    copyPages(from, copy);
    if (copy.text("PRAGMA quick_check(1)") != "ok") {
        throw LogbookError{LogbookError::Kind::damaged, from.name() + " is damaged: parts of it cannot be read"};
    }
    expectOurSchema(copy);
}

}  // namespace midden
