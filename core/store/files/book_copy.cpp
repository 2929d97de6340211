// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/files/book_copy.h"

#include <fcntl.h>
#include <sqlite3.h>

#include <cerrno>
#include <memory>

#include "core/files/naming.h"
#include "core/store/schema/schema.h"
#include "core/store/state.h"

namespace midden {

namespace fs = std::filesystem;

namespace {

struct FinishBackup {
    void operator()(sqlite3_backup* backup) const noexcept { sqlite3_backup_finish(backup); }
};

LogbookError::Kind kindOf(FileTrouble::Kind kind) {
    switch (kind) {
        case FileTrouble::Kind::refused:
            return LogbookError::Kind::refused;
        case FileTrouble::Kind::unwritable:
            return LogbookError::Kind::readOnly;
        case FileTrouble::Kind::full:
            return LogbookError::Kind::full;
        default:
            return LogbookError::Kind::failed;
    }
}

/// SQLite keeps the rights a file has when it fills it.
void makePrivate(const fs::path& file) {
    const Descriptor made{::open(file.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600)};
    if (!made.isOpen()) {
        throw logbookErrorOf(troubleAt(file, errno));
    }
}

bool isStillAsFound(const Destination& place) {
    const auto now = fileStatus(place.path);
    return now.has_value() == place.isTaken() && (!now || identityOf(*now) == identityOf(*place.there));
}

}  // namespace

LogbookError logbookErrorOf(const FileTrouble& trouble) {
    return {kindOf(trouble.kind), trouble.what()};
}

void copyPages(DatabaseFile& from, DatabaseFile& to, const char* schema) {
    std::unique_ptr<sqlite3_backup, FinishBackup> backup{
        sqlite3_backup_init(to.handle(), schema, from.handle(), "main")};
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

TemporaryBook::TemporaryBook(const fs::path& wanted)
    : workplace_{asLogbookError([&] { return Workplace{destinationOf(wanted).path}; })} {
    makePrivate(path());
}

bool TemporaryBook::takeName(const fs::path& name) {
    return asLogbookError([&] {
        const auto place = destinationOf(name);
        return !place.isTaken() && hasNoSideFiles(place) && giveName(path(), place.path);
    });
}

bool hasNoSideFiles(const Destination& place) {
    for (const char* end : {"-journal", "-wal", "-shm"}) {
        const fs::path side = fs::path{place.path} += end;
        if (!fileStatus(side)) {
            continue;
        }
        if (!isStillAsFound(place)) {
            return false;
        }
        refuse(fileName(side) + " lies where " + fileName(place.path) +
               " is to be written, and belongs to another logbook of that name; move it away or choose another name");
    }
    return true;
}

void copyInto(DatabaseFile& from, const fs::path& to) {
    DatabaseFile target{to, SQLITE_OPEN_READWRITE};
    setUpConnection(target);
    copyPages(from, target);
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
