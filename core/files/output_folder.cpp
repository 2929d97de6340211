// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/output_folder.h"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

#include "core/files/naming.h"
#include "core/files/rights.h"

namespace midden {

namespace fs = std::filesystem;

namespace {

/// "D/" is D.
fs::path withoutSlash(const fs::path& named) {
    if (named.empty()) {
        throw FileTrouble{FileTrouble::Kind::refused,
                          "there is no folder without a name; expected a new or an empty one"};
    }
    std::error_code problem;
    const auto plain = fs::absolute(named, problem).lexically_normal();
    if (problem) {
        throw troubleAt(named, problem.value());
    }
    return plain.has_filename() ? plain : plain.parent_path();
}

[[noreturn]] void refuseTaken(const fs::path& named) {
    throw FileTrouble{FileTrouble::Kind::refused,
                      named.string() + " is there already; expected a new or an empty folder"};
}

bool isEmptyFolder(const Destination& destination) {
    std::error_code problem;
    return S_ISDIR(destination.there->st_mode) && fs::is_empty(destination.path, problem) && !problem;
}

}  // namespace

OutputFolder::OutputFolder(const fs::path& named) : named_{named} {
    makeAbove();
    try {
        destination_ = destinationOf(withoutSlash(named));
        judge();
        workplace_.emplace(destination_.path);
        if (::mkdir(making().c_str(), 0777) != 0) {
            throw troubleAt(named, errno);
        }
    } catch (const FileTrouble&) {
        removeAbove();
        throw;
    }
}

OutputFolder::~OutputFolder() {
    workplace_.reset();
    removeAbove();
}

void OutputFolder::makeAbove() {
    std::vector<fs::path> absent;
    std::error_code none;
    for (auto folder = withoutSlash(named_).parent_path(); !fs::exists(fs::symlink_status(folder, none));
         folder = folder.parent_path()) {
        absent.push_back(folder);
    }
    for (auto folder = absent.rbegin(); folder != absent.rend(); ++folder) {
        if (::mkdir(folder->c_str(), 0777) != 0) {
            const int error = errno;
            removeAbove();
            throw troubleAt(*folder, error);
        }
        above_.push_back(*folder);
    }
}

void OutputFolder::judge() const {
    if (destination_.isTaken() && !isEmptyFolder(destination_)) {
        refuseTaken(named_);
    }
}

/// An empty folder may give its name to another by a plain renaming, which fails on any other.
void OutputFolder::takeName() {
    if (destination_.isTaken()) {
        giveRights(making(), rightsIn(*destination_.there));
        syncTree(making());
        if (::rename(making().c_str(), destination_.path.c_str()) != 0) {
            if (errno == ENOTEMPTY || errno == EEXIST || errno == ENOTDIR) {
                refuseTaken(named_);
            }
            throw troubleAt(destination_.path, errno);
        }
        syncFolder(destination_.path.parent_path());
    } else {
        syncTree(making());
        if (!giveName(making(), destination_.path)) {
            refuseTaken(named_);
        }
    }
    above_.clear();
}

void OutputFolder::removeAbove() noexcept {
    for (auto folder = above_.rbegin(); folder != above_.rend(); ++folder) {
        ::rmdir(folder->c_str());
    }
    above_.clear();
}

}  // namespace midden
