// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/csv/scratch_file.h"

#include <fcntl.h>
#include <fmt/core.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <string>

#include "core/store/logbook.h"

namespace midden {

namespace {

/// Nameless from the start where the disk can do that; else the name is taken away at once.
int openNameless(const std::filesystem::path& folder) {
    const int nameless = ::open(folder.c_str(), O_TMPFILE | O_RDWR | O_CLOEXEC, 0600);
    if (nameless >= 0 || errno == ENOENT || errno == EACCES || errno == ENOSPC) {
        return nameless;
    }
    std::string name = (folder / "middenbook-XXXXXX").string();
    const int named = ::mkostemp(name.data(), O_CLOEXEC);
    if (named >= 0) {
        ::unlink(name.c_str());
    }
    return named;
}

}  // namespace

ScratchFile::ScratchFile(const std::filesystem::path& folder) : folder_{folder}, file_{openNameless(folder)} {
    if (!file_.isOpen()) {
        fail(errno);
    }
}

std::uint64_t ScratchFile::append(std::span<const std::byte> bytes) {
    const auto begin = size_;
    while (!bytes.empty()) {
        const auto put = ::pwrite(file_.number(), bytes.data(), bytes.size(), static_cast<off_t>(size_));
        if (put < 0 && errno != EINTR) {
            fail(errno);
        }
        if (put > 0) {
            size_ += static_cast<std::uint64_t>(put);
            bytes = bytes.subspan(static_cast<std::size_t>(put));
        }
    }
    return begin;
}

void ScratchFile::read(std::uint64_t offset, std::span<std::byte> into) const {
    while (!into.empty()) {
        const auto got = ::pread(file_.number(), into.data(), into.size(), static_cast<off_t>(offset));
        if (got == 0 || (got < 0 && errno != EINTR)) {
            fail(got == 0 ? EIO : errno);
        }
        if (got > 0) {
            offset += static_cast<std::uint64_t>(got);
            into = into.subspan(static_cast<std::size_t>(got));
        }
    }
}

void ScratchFile::fail(int error) const {
    using Kind = LogbookError::Kind;
    if (error == ENOSPC || error == EDQUOT || error == EFBIG) {
        throw LogbookError{Kind::full, fmt::format("there is no space left in {} for what so long an import must keep "
                                                   "there meanwhile; nothing was written",
                                                   folder_.string())};
    }
    throw LogbookError{Kind::failed,
                       fmt::format("the folder {} cannot hold what so long an import must keep there meanwhile: {}; "
                                   "nothing was written",
                                   folder_.string(), std::strerror(error))};
}

}  // namespace midden
