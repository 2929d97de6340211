// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/faults/faulty_disk.h"

#include <sqlite3.h>
#include <sys/stat.h>

#include <algorithm>

#include "tests/faults/faulty_vfs.h"
#include "tests/faults/trial_book.h"

namespace midden::faults {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t sector = 512;

std::uint64_t inodeOf(const std::string& path) {
    struct stat status {};
    return ::stat(path.c_str(), &status) == 0 ? status.st_ino : 0;
}

/// Marsaglia's xorshift: the same coins for the same start.
class Coins {
  public:
    explicit Coins(std::uint64_t start) : state_{start * 2 + 1} {}
    std::uint64_t next() {
        state_ ^= state_ << 13U;
        state_ ^= state_ >> 7U;
        state_ ^= state_ << 17U;
        return state_ >> 11U;
    }
    bool heads(std::uint64_t outOf = 2) { return next() % outOf == 0; }

  private:
    std::uint64_t state_;
};

void put(std::string& content, std::size_t at, std::string_view bytes) {
    content.resize(std::max(content.size(), at + bytes.size()), '\0');
    content.replace(at, bytes.size(), bytes);
}

/// What is left of writes and cuts that were not synced.
class Remains {
  public:
    Remains(Survival survival, std::uint64_t chance) : survival_{survival}, coins_{chance} {}

    std::string of(const FaultyDisk::Shadow& shadow) {
        std::string content = shadow.safe;
        if (survival_ != Survival::nothing) {
            for (const auto& change : shadow.pending) {
                change.isCut ? cut(content, change) : write(content, change);
            }
        }
        return content;
    }
    /// Did a folder entry that was not synced survive?
    bool keepsName() { return survival_ == Survival::everything || (survival_ != Survival::nothing && coins_.heads()); }

  private:
    void cut(std::string& content, const FaultyDisk::Change& change) {
        if (survival_ == Survival::everything || coins_.heads()) {
            content.resize(static_cast<std::size_t>(change.at), '\0');
        }
    }
    void write(std::string& content, const FaultyDisk::Change& change) {
        const auto start = static_cast<std::size_t>(change.at);
        for (std::size_t done = 0; done < change.bytes.size();) {
            const auto length = std::min(sector - (start + done) % sector, change.bytes.size() - done);
            std::string part = change.bytes.substr(done, length);
            if (survival_ == Survival::everything || coins_.heads()) {
                spoil(part);
                put(content, start + done, part);
            }
            done += length;
        }
    }
    void spoil(std::string& part) {
        if (survival_ == Survival::torn && coins_.heads(4)) {
            for (char& byte : part) {
                byte = static_cast<char>(coins_.next());
            }
        }
    }

    Survival survival_;
    Coins coins_;
};

}  // namespace

FaultyDisk::FaultyDisk() {
    installFaultyVfs(*this);
}

FaultyDisk& FaultyDisk::instance() {
    static FaultyDisk disk;
    return disk;
}

void FaultyDisk::plan(Fault fault, std::int64_t at) {
    fault_ = fault;
    at_ = at;
    events_ = growths_ = 0;
    struck_ = false;
}

void FaultyDisk::watch(const fs::path& folder) {
    folder_ = folder.empty() ? std::string{} : folder.string() + "/";
    shadows_.clear();
    namesAtLoss_.clear();
    unwatchedAtLoss_.clear();
}

int FaultyDisk::event(int failure, bool grows) {
    const bool lasting = fault_ == Fault::failsForGood || fault_ == Fault::powerLoss;
    const auto now = events_++;
    const auto growth = grows ? growths_++ : -1;
    if (fault_ == Fault::full) {
        const bool strikes = grows && growth >= at_;
        struck_ |= strikes;
        return strikes ? SQLITE_FULL : SQLITE_OK;
    }
    if (fault_ == Fault::none || now < at_ || (now > at_ && !lasting)) {
        return SQLITE_OK;
    }
    if (fault_ == Fault::powerLoss && !struck_) {
        freeze();
    }
    struck_ = true;
    return failure;
}

void FaultyDisk::cutPower() {
    if (!struck_) {
        freeze();
        struck_ = true;
    }
}

/// Remembers the folder as it stands, before the program that lost its power tidies up.
void FaultyDisk::freeze() {
    for (const auto& entry : fs::recursive_directory_iterator{folder_}) {
        if (!entry.is_regular_file()) {
            continue;
        }
        const auto inode = inodeOf(entry.path().string());
        namesAtLoss_[entry.path().string()] = inode;
        const bool isKnown =
            std::any_of(shadows_.begin(), shadows_.end(), [&](const auto& one) { return one.second.inode == inode; });
        if (!isKnown) {
            unwatchedAtLoss_[entry.path().string()] = bytesOf(entry.path());
        }
    }
}

void FaultyDisk::opened(const std::string& path, bool existed) {
    if (!watches(path) || struck_) {
        return;
    }
    const auto [found, isNew] = shadows_.try_emplace(path);
    auto& shadow = found->second;
    if (isNew || shadow.isDeleted) {
        shadow = {};
        shadow.nameIsSafe = existed;
        shadow.safe = existed ? bytesOf(path) : std::string{};
    }
    shadow.inode = inodeOf(path);
}

void FaultyDisk::written(const std::string& path, Change change) {
    if (watches(path) && !struck_) {
        shadows_[path].pending.push_back(std::move(change));
    }
}

void FaultyDisk::synced(const std::string& path) {
    if (!watches(path) || struck_) {
        return;
    }
    auto& shadow = shadows_[path];
    for (const auto& change : shadow.pending) {
        if (change.isCut) {
            shadow.safe.resize(static_cast<std::size_t>(change.at), '\0');
        } else {
            put(shadow.safe, static_cast<std::size_t>(change.at), change.bytes);
        }
    }
    shadow.pending.clear();
    if (path.ends_with("-journal")) {  // SQLite syncs the folder with a new journal, and so every name in it
        for (auto& [name, other] : shadows_) {
            other.nameIsSafe = true;
        }
        std::erase_if(shadows_, [](const auto& one) { return one.second.isDeleted; });
    }
}

void FaultyDisk::deleted(const std::string& path, bool folderSynced) {
    if (!watches(path) || struck_) {
        return;
    }
    if (folderSynced) {
        shadows_.erase(path);
    } else if (const auto found = shadows_.find(path); found != shadows_.end()) {
        found->second.isDeleted = true;
    }
}

void FaultyDisk::writeSurvivors(const fs::path& folder, Survival survival, std::uint64_t chance) const {
    Remains remains{survival, chance};
    const auto lay = [&](const std::string& path, const std::string& bytes) {
        const auto place = folder / path.substr(folder_.size());
        fs::create_directories(place.parent_path());
        write(place, bytes);
    };
    for (const auto& [path, bytes] : unwatchedAtLoss_) {
        lay(path, bytes);
    }
    for (const auto& [path, shadow] : shadows_) {
        const bool keptDeletion = shadow.isDeleted && remains.keepsName();
        const bool isThere = !keptDeletion && (shadow.nameIsSafe || remains.keepsName());
        const auto content = remains.of(shadow);
        if (isThere) {
            lay(path, content);
        }
        for (const auto& [name, inode] : namesAtLoss_) {  // given by a link or a renaming
            if (inode == shadow.inode && name != path && remains.keepsName()) {
                lay(name, content);
            }
        }
    }
}

}  // namespace midden::faults
