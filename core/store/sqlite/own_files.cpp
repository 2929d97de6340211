// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/sqlite/own_files.h"

#include <array>
#include <atomic>
#include <filesystem>
#include <string_view>
#include <system_error>

namespace midden {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view journalEnd = "-journal";
constexpr std::string_view writeAheadEnd = "-wal";
/// How a journal begins, and how the name of a further file at its end ends (https://www.sqlite.org/fileformat2.html,
/// "The Rollback Journal").
constexpr std::string_view journalMark{"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8};

std::string lastPart(const std::string& name) {
    return name.substr(name.rfind('/') + 1);
}

std::string withoutEnd(const std::string& name, std::string_view end) {
    return name.ends_with(end) ? name.substr(0, name.size() - end.size()) : std::string{};
}

/// Anything but a plain file: a link, a pipe, a folder, a device.
bool isOdd(const std::string& name) {
    std::error_code ignored;
    const auto status = fs::symlink_status(name, ignored);
    return fs::exists(status) && !fs::is_regular_file(status);
}

std::int64_t sizeOf(sqlite3_file* file) {
    sqlite3_int64 size = 0;
    return file->pMethods->xFileSize(file, &size) == SQLITE_OK ? size : 0;
}

std::string bytesAt(sqlite3_file* file, std::int64_t at, std::size_t count) {
    std::string bytes(count, '\0');
    const int read = file->pMethods->xRead(file, bytes.data(), static_cast<int>(count), at);
    return read == SQLITE_OK ? bytes : std::string(count, '\0');
}

/// Four bytes, so that the product of two still fits its type.
std::uint64_t numberAt(const std::string& bytes, std::size_t at) {
    std::uint64_t number = 0;
    for (const char byte : bytes.substr(at, 4)) {
        number = number * 256 + static_cast<unsigned char>(byte);
    }
    return number;
}

/// Does the journal's end name a file that SQLite would delete with it?
bool namesAnotherFile(sqlite3_file* journal) {
    constexpr std::size_t tail = 16;  // length of the name, its sum, the mark
    const auto size = sizeOf(journal);
    return size >= static_cast<std::int64_t>(tail) &&
           bytesAt(journal, size - static_cast<std::int64_t>(tail), tail).substr(8) == journalMark;
}

/// Of so many bytes the journal says the book was.
std::uint64_t bytesBefore(sqlite3_file* journal) {
    const auto head = bytesAt(journal, 0, 28);
    return head.starts_with(journalMark) ? numberAt(head, 16) * numberAt(head, 24) : 0;
}

std::string nextName() {
    static std::atomic<int> count{0};
    return "midden-" + std::to_string(++count);
}

OwnFiles& of(sqlite3_vfs* own) {
    return *static_cast<OwnFiles*>(own->pAppData);
}

}  // namespace

OwnFiles::OwnFiles() : system_{sqlite3_vfs_find(nullptr)}, name_{nextName()}, vfs_{*system_} {
    vfs_.pNext = nullptr;
    vfs_.zName = name_.c_str();
    vfs_.pAppData = this;
    vfs_.xOpen = openFile;
    vfs_.xDelete = deleteFile;
    vfs_.xAccess = accessFile;
    sqlite3_vfs_register(&vfs_, 0);
}

OwnFiles::~OwnFiles() {
    sqlite3_vfs_unregister(&vfs_);
}

bool OwnFiles::isJournal(const std::string& name) const {
    return books_.contains(withoutEnd(name, journalEnd));
}

bool OwnFiles::isWriteAheadLog(const std::string& name) const {
    return books_.contains(withoutEnd(name, writeAheadEnd));
}

int OwnFiles::refuse(const std::string& sentence, int code) {
    refusal_ = sentence + ", so nothing was opened or changed";
    return code;
}

std::int64_t OwnFiles::bookBytes(const std::string& journal) const {
    std::error_code absent;
    const auto size = fs::file_size(withoutEnd(journal, journalEnd), absent);
    return absent ? 0 : static_cast<std::int64_t>(size);
}

/// What makes a journal none of a book; empty where nothing does. Every page a book had and has no more is in its
/// journal, so it cannot have been larger than the two are together.
std::string OwnFiles::foreignJournal(const std::string& journal, sqlite3_file* file) const {
    if (namesAnotherFile(file)) {
        return lastPart(journal) +
               " beside the book names another file, which would be deleted. Middenbook writes no "
               "such thing";
    }
    if (bytesBefore(file) > static_cast<std::uint64_t>(bookBytes(journal) + sizeOf(file))) {
        return lastPart(journal) +
               " beside the book says that the book was larger than it can have been. It was not "
               "left there by Middenbook";
    }
    return {};
}

int OwnFiles::openJournal(const char* name, sqlite3_file* file, int flags, int* outFlags) {
    if (isOdd(name)) {
        return refuse(lastPart(name) + " beside the book is not a file", SQLITE_CANTOPEN);
    }
    const int opened = system_->xOpen(system_, name, file, flags, outFlags);
    if (opened != SQLITE_OK || (flags & SQLITE_OPEN_CREATE) != 0) {
        return opened;
    }
    const auto wrong = foreignJournal(name, file);
    if (wrong.empty()) {
        return opened;
    }
    file->pMethods->xClose(file);
    file->pMethods = nullptr;
    return refuse(wrong, SQLITE_CANTOPEN);
}

int OwnFiles::openFile(sqlite3_vfs* own, const char* name, sqlite3_file* file, int flags, int* outFlags) {
    OwnFiles& files = of(own);
    file->pMethods = nullptr;
    if (name == nullptr) {  // room for sorting and the like, without a name from the start
        return files.system_->xOpen(files.system_, name, file, flags, outFlags);
    }
    if ((flags & SQLITE_OPEN_MAIN_DB) != 0) {
        files.books_.emplace(name);
        return files.system_->xOpen(files.system_, name, file, flags, outFlags);
    }
    if ((flags & SQLITE_OPEN_MAIN_JOURNAL) != 0 && files.isJournal(name)) {
        return files.openJournal(name, file, flags, outFlags);
    }
    if ((flags & SQLITE_OPEN_WAL) != 0) {
        return files.refuse(
            "another program has made a write-ahead log of " + lastPart(withoutEnd(name, writeAheadEnd)) +
                ", which Middenbook does not read; that program, or \"PRAGMA journal_mode=DELETE\" in an SQLite tool, "
                "makes it a plain file again",
            SQLITE_CANTOPEN);
    }
    return files.refuse("the book would open " + lastPart(name) + ", a file that is not its own", SQLITE_CANTOPEN);
}

int OwnFiles::deleteFile(sqlite3_vfs* own, const char* name, int syncFolder) {
    OwnFiles& files = of(own);
    if (!files.isJournal(name)) {
        return files.refuse("the book would delete " + lastPart(name) + ", a file that is not its own",
                            SQLITE_IOERR_DELETE);
    }
    return files.system_->xDelete(files.system_, name, syncFolder);
}

int OwnFiles::accessFile(sqlite3_vfs* own, const char* name, int flags, int* result) {
    OwnFiles& files = of(own);
    if (files.isJournal(name) && isOdd(name)) {
        return files.refuse(lastPart(name) + " beside the book is not a file", SQLITE_IOERR_ACCESS);
    }
    const bool isOwn = files.books_.contains(name) || files.isJournal(name) || files.isWriteAheadLog(name);
    if (!isOwn) {
        return files.refuse("the book would look for " + lastPart(name) + ", a file that is not its own",
                            SQLITE_IOERR_ACCESS);
    }
    const int code = files.system_->xAccess(files.system_, name, flags, result);
    if (code == SQLITE_OK && *result != 0 && files.isWriteAheadLog(name)) {
        return files.refuse(lastPart(name) +
                                " beside the book was left there by another program, and Middenbook does "
                                "not read such a log; that program can bring it into the book",
                            SQLITE_IOERR_ACCESS);
    }
    return code;
}

}  // namespace midden
