// SPDX-License-Identifier: GPL-3.0-or-later
// The plumbing between SQLite and the faulty disk: every call is passed on to the system's VFS, unless the disk fails.
#include "tests/faults/faulty_vfs.h"

#include <sqlite3.h>

#include <cstddef>
#include <cstring>
#include <new>

#include "tests/faults/faulty_disk.h"

namespace midden::faults {

namespace {

FaultyDisk* disk = nullptr;
sqlite3_vfs* real = nullptr;

/// An open file of ours; that of the system's VFS lies behind it.
struct File {
    sqlite3_file base;
    std::string* path;  ///< ours until closed; null for files without a name
};
constexpr std::size_t realOffset = (sizeof(File) + 15) / 16 * 16;

File& ours(sqlite3_file* file) {
    return *reinterpret_cast<File*>(file);
}
sqlite3_file* theirs(sqlite3_file* file) {
    return reinterpret_cast<sqlite3_file*>(reinterpret_cast<char*>(file) + realOffset);
}
std::string pathOf(sqlite3_file* file) {
    return ours(file).path == nullptr ? std::string{} : *ours(file).path;
}

int closeFile(sqlite3_file* file) {
    delete ours(file).path;
    ours(file).path = nullptr;
    return theirs(file)->pMethods == nullptr ? SQLITE_OK : theirs(file)->pMethods->xClose(theirs(file));
}

int readFile(sqlite3_file* file, void* into, int size, sqlite3_int64 at) {
    return theirs(file)->pMethods->xRead(theirs(file), into, size, at);
}

int writeFile(sqlite3_file* file, const void* bytes, int size, sqlite3_int64 at) {
    sqlite3_int64 length = 0;
    theirs(file)->pMethods->xFileSize(theirs(file), &length);
    if (const int failure = disk->event(SQLITE_IOERR_WRITE, at + size > length); failure != SQLITE_OK) {
        return failure;
    }
    disk->written(pathOf(file), {at, {static_cast<const char*>(bytes), static_cast<std::size_t>(size)}});
    return theirs(file)->pMethods->xWrite(theirs(file), bytes, size, at);
}

int truncateFile(sqlite3_file* file, sqlite3_int64 size) {
    if (const int failure = disk->event(SQLITE_IOERR_TRUNCATE); failure != SQLITE_OK) {
        return failure;
    }
    disk->written(pathOf(file), {size, {}, true});
    return theirs(file)->pMethods->xTruncate(theirs(file), size);
}

/// The system's own sync is left out: nothing of a trial needs to outlive this machine.
int syncFile(sqlite3_file* file, int /*flags*/) {
    if (const int failure = disk->event(SQLITE_IOERR_FSYNC); failure != SQLITE_OK) {
        return failure;
    }
    disk->synced(pathOf(file));
    return SQLITE_OK;
}

int fileSize(sqlite3_file* file, sqlite3_int64* size) {
    return theirs(file)->pMethods->xFileSize(theirs(file), size);
}
int lockFile(sqlite3_file* file, int level) {
    return theirs(file)->pMethods->xLock(theirs(file), level);
}
int unlockFile(sqlite3_file* file, int level) {
    return theirs(file)->pMethods->xUnlock(theirs(file), level);
}
int checkReserved(sqlite3_file* file, int* held) {
    return theirs(file)->pMethods->xCheckReservedLock(theirs(file), held);
}
int controlFile(sqlite3_file* file, int operation, void* argument) {
    return theirs(file)->pMethods->xFileControl(theirs(file), operation, argument);
}
int sectorSize(sqlite3_file* file) {
    return theirs(file)->pMethods->xSectorSize(theirs(file));
}
int characteristics(sqlite3_file* file) {
    return theirs(file)->pMethods->xDeviceCharacteristics(theirs(file));
}

// Version 1: no shared memory and no mapping, which a book never uses.
const sqlite3_io_methods methods{1,           closeFile,  readFile,        writeFile,  truncateFile,
                                 syncFile,    fileSize,   lockFile,        unlockFile, checkReserved,
                                 controlFile, sectorSize, characteristics, nullptr,    nullptr,
                                 nullptr,     nullptr,    nullptr,         nullptr};

bool isThere(const char* path) {
    int found = 0;
    return real->xAccess(real, path, SQLITE_ACCESS_EXISTS, &found) == SQLITE_OK && found != 0;
}

int openFile(sqlite3_vfs* /*vfs*/, const char* name, sqlite3_file* file, int flags, int* outFlags) {
    auto* const mine = new (file) File{};
    const bool existed = name != nullptr && isThere(name);
    const bool makes = name != nullptr && (flags & SQLITE_OPEN_CREATE) != 0 && !existed;
    if (const int failure = makes ? disk->event(SQLITE_CANTOPEN) : SQLITE_OK; failure != SQLITE_OK) {
        return failure;
    }
    const int opened = real->xOpen(real, name, theirs(file), flags, outFlags);
    if (theirs(file)->pMethods != nullptr) {
        mine->base.pMethods = &methods;
        mine->path = name == nullptr ? nullptr : new std::string{name};
    }
    if (opened == SQLITE_OK && name != nullptr) {
        disk->opened(name, existed);
    }
    return opened;
}

int deleteFile(sqlite3_vfs* /*vfs*/, const char* name, int syncFolder) {
    if (isThere(name)) {
        if (const int failure = disk->event(SQLITE_IOERR_DELETE); failure != SQLITE_OK) {
            return failure;
        }
        disk->deleted(name, syncFolder != 0);
    }
    return real->xDelete(real, name, 0);
}

int accessFile(sqlite3_vfs* /*vfs*/, const char* name, int flags, int* result) {
    return real->xAccess(real, name, flags, result);
}
int fullName(sqlite3_vfs* /*vfs*/, const char* name, int size, char* into) {
    return real->xFullPathname(real, name, size, into);
}

}  // namespace

void installFaultyVfs(FaultyDisk& faulty) {
    static sqlite3_vfs vfs;
    disk = &faulty;
    real = sqlite3_vfs_find(nullptr);
    vfs = *real;
    vfs.pNext = nullptr;
    vfs.zName = "faulty";
    vfs.szOsFile = static_cast<int>(realOffset) + real->szOsFile;
    vfs.xOpen = openFile;
    vfs.xDelete = deleteFile;
    vfs.xAccess = accessFile;
    vfs.xFullPathname = fullName;
    sqlite3_vfs_register(&vfs, 1);
}

}  // namespace midden::faults
