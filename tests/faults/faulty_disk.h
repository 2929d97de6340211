// SPDX-License-Identifier: GPL-3.0-or-later
// A disk that fails when it is told to: an SQLite VFS over the system's own, made the default of this process.
//
// Everything is counted in events: a write, a cut, a sync, a deletion, the making of a file. A trial runs an operation
// once without a fault to learn how many events it has, and then again for each of them with the fault at that event.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

struct sqlite3_file;

namespace midden::faults {

enum class Fault {
    none,
    full,          ///< from this growth of a file on, none can grow
    failsOnce,     ///< this event fails as a broken cable would, later ones work
    failsForGood,  ///< this event and all after it fail
    powerLoss      ///< nothing from this event on reaches the disk, and what was not synced may be lost or torn
};

/// What power loss leaves of that which was written but not synced.
enum class Survival {
    nothing,     ///< all of it is lost
    everything,  ///< all of it had reached the disk
    some,        ///< each sector of 512 bytes by the toss of a coin
    torn         ///< as before, and some of those that were kept hold rubbish
};

class FaultyDisk {
  public:
    /// The one of this process; made SQLite's default at the first call.
    static FaultyDisk& instance();

    /// Starts to count from 0. The fault strikes at event `at`, counted from 0; for `full`, at that growth.
    void plan(Fault fault, std::int64_t at = 0);
    /// Forgets the plan: from now on everything works.
    void mend() { plan(Fault::none); }
    std::int64_t events() const { return events_; }
    std::int64_t growths() const { return growths_; }
    bool struck() const { return struck_; }
    /// The power goes now, unless it went before.
    void cutPower();

    /// Watches what is written into the folder, as power loss needs. Files there now count as safely on the disk.
    void watch(const std::filesystem::path& folder);
    /// Writes the folder as it stands after the power loss that struck. `chance` chooses the coins.
    void writeSurvivors(const std::filesystem::path& folder, Survival survival, std::uint64_t chance) const;

    struct Change {
        std::int64_t at = 0;  ///< where a write begins, or the size a cut leaves
        std::string bytes;
        bool isCut = false;
    };
    struct Shadow {
        std::string safe;             ///< content that no power loss can take
        bool nameIsSafe = false;      ///< the folder's own entry has been synced
        bool isDeleted = false;       ///< by a deletion that was not synced
        std::vector<Change> pending;  ///< since the last sync, in order
        std::uint64_t inode = 0;
    };

    // What the VFS asks; each returns an SQLite result to fail with, or SQLITE_OK.
    int event(int failure, bool grows = false);
    void opened(const std::string& path, bool existed);
    void written(const std::string& path, Change change);
    void synced(const std::string& path);
    void deleted(const std::string& path, bool folderSynced);

  private:
    FaultyDisk();
    bool watches(const std::string& path) const { return !folder_.empty() && path.starts_with(folder_); }
    void freeze();

    Fault fault_ = Fault::none;
    std::int64_t at_ = 0;
    std::int64_t events_ = 0;
    std::int64_t growths_ = 0;
    bool struck_ = false;
    std::string folder_;
    std::map<std::string, Shadow> shadows_;
    std::map<std::string, std::uint64_t> namesAtLoss_;  ///< the folder's entries and their inodes when power was lost
    std::map<std::string, std::string> unwatchedAtLoss_;
};

}  // namespace midden::faults
