// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/output_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <string>

#include "core/files/naming.h"
#include "core/files/rights.h"

namespace midden {

namespace fs = std::filesystem;
using Kind = FileTrouble::Kind;

namespace {

constexpr off_t longestOutput = 1 << 28;

/// Empty where it is no plain file, or none that we write.
std::string contentOf(const Destination& destination) {
    const Descriptor file{::open(destination.path.c_str(), O_RDONLY | O_NONBLOCK | O_NOFOLLOW | O_CLOEXEC)};
    struct stat status {};
    if (!file.isOpen() || ::fstat(file.number(), &status) != 0 || !S_ISREG(status.st_mode) ||
        !(identityOf(status) == identityOf(*destination.there)) || status.st_size > longestOutput) {
        return {};
    }
    std::string content(static_cast<std::size_t>(status.st_size), '\0');
    std::size_t done = 0;
    while (done < content.size()) {
        const auto got = ::pread(file.number(), content.data() + done, content.size() - done, static_cast<off_t>(done));
        if (got <= 0 && errno != EINTR) {
            return {};
        }
        done += got > 0 ? static_cast<std::size_t>(got) : 0;
    }
    return content;
}

[[noreturn]] void refuseTaken(const fs::path& named) {
    throw FileTrouble{Kind::refused, fileName(named) +
                                         " is already there and is not a file of this kind as Middenbook left it, so "
                                         "it was left alone; expected another name"};
}

void writeAll(int file, std::string_view bytes, const fs::path& named) {
    while (!bytes.empty()) {
        const auto put = ::write(file, bytes.data(), bytes.size());
        if (put < 0 && errno != EINTR) {
            throw troubleAt(named, errno);
        }
        bytes.remove_prefix(put > 0 ? static_cast<std::size_t>(put) : 0);
    }
    if (::fsync(file) != 0) {
        throw troubleAt(named, errno);
    }
}

}  // namespace

OutputFile::OutputFile(const fs::path& named, IsOurs isOurs) : named_{named}, destination_{destinationOf(named)} {
    if (!destination_.isTaken()) {
        return;
    }
    if (!destination_.isPlainFile()) {
        throw FileTrouble{Kind::refused, named.string() + " is not a plain file; expected a new name"};
    }
    if (!isOurs(contentOf(destination_))) {
        refuseTaken(named);
    }
}

void OutputFile::write(std::string_view bytes) {
    workplace_.emplace(destination_.path);
    const auto& making = workplace_->making();
    const Descriptor file{::open(making.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666)};
    if (!file.isOpen()) {
        throw troubleAt(named_, errno);
    }
    writeAll(file.number(), bytes, named_);
    if (destination_.there) {
        giveRights(making, rightsIn(*destination_.there));
    }
}

void OutputFile::takeName() {
    const auto& making = workplace_->making();
    const bool done = destination_.there ? takePlaceOf(*destination_.there, making, destination_.path)
                                         : giveName(making, destination_.path);
    if (!done) {
        throw FileTrouble{Kind::refused,
                          fileName(named_) + " was made or changed by another program meanwhile, so it was left alone"};
    }
    workplace_.reset();
}

}  // namespace midden
