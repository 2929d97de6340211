// SPDX-License-Identifier: GPL-3.0-or-later
// What stands between SQLite and the disk: a connection touches the file of its book and that file's journal, and
// nothing else that a file may name.
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <set>
#include <string>

namespace midden {

/// SQLite's own way to the disk (a VFS), for one connection. A journal beside a book may name a further file, which
/// SQLite deletes once it has rolled back; a `-wal` file is played into a book. Whoever made the book may have made
/// those as well, so they are refused before anything is read, written or deleted. Must outlive the connection.
class OwnFiles {
  public:
    OwnFiles();
    OwnFiles(const OwnFiles&) = delete;
    OwnFiles& operator=(const OwnFiles&) = delete;
    ~OwnFiles();

    /// What SQLite knows it by.
    const std::string& name() const { return name_; }
    /// What was refused, as a sentence for the person; empty = nothing was.
    const std::string& refusal() const { return refusal_; }

  private:
    static int openFile(sqlite3_vfs* own, const char* name, sqlite3_file* file, int flags, int* outFlags);
    static int deleteFile(sqlite3_vfs* own, const char* name, int syncFolder);
    static int accessFile(sqlite3_vfs* own, const char* name, int flags, int* result);

    int openJournal(const char* name, sqlite3_file* file, int flags, int* outFlags);
    std::string foreignJournal(const std::string& journal, sqlite3_file* file) const;
    std::int64_t bookBytes(const std::string& journal) const;
    bool isJournal(const std::string& name) const;
    bool isWriteAheadLog(const std::string& name) const;
    int refuse(const std::string& sentence, int code);

    sqlite3_vfs* system_;
    std::string name_;
    sqlite3_vfs vfs_;
    std::set<std::string> books_;  ///< the files this connection was asked to open, by their whole names
    std::string refusal_;
};

}  // namespace midden
