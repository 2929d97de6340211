// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/csv/text_source.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <string>
#include <utility>

#include "core/exchange/csv/scratch_file.h"

namespace midden {

namespace {

using Amount = FileResult<std::size_t>;

tl::unexpected<Refusal> unreadable(const std::filesystem::path& file, int error) {
    return tl::unexpected{
        Refusal{file.string(), 0, {std::string{"cannot be read: "} + std::strerror(error), "a CSV file"}}};
}

class TextInMemory : public TextSource {
  public:
    explicit TextInMemory(std::string_view text) : text_{text} {}

    Amount read(std::uint64_t offset, std::span<char> into) override {
        const auto rest = text_.substr(std::min<std::uint64_t>(offset, text_.size()));
        return rest.copy(into.data(), into.size());
    }
    std::uint64_t size() const override { return text_.size(); }

  private:
    std::string_view text_;
};

/// `readOnce(offset, into)` is one of the system's calls: it may be interrupted, or give less than there is.
template <class ReadOnce>
Amount readFully(const std::filesystem::path& file, std::span<char> into, ReadOnce readOnce) {
    std::size_t size = 0;
    while (size < into.size()) {
        const auto got = readOnce(size, into.subspan(size));
        if (got == 0) {
            break;
        }
        if (got < 0 && errno != EINTR) {
            return unreadable(file, errno);
        }
        size += got > 0 ? static_cast<std::size_t>(got) : 0;
    }
    return size;
}

class PlainFile : public TextSource {
  public:
    PlainFile(std::filesystem::path name, Descriptor file, const struct stat& status)
        : name_{std::move(name)}, file_{std::move(file)}, status_{status} {}

    Amount read(std::uint64_t offset, std::span<char> into) override {
        return readFully(name_, into, [&](std::size_t done, std::span<char> rest) {
            return ::pread(file_.number(), rest.data(), rest.size(), static_cast<off_t>(offset + done));
        });
    }
    std::uint64_t size() const override { return static_cast<std::uint64_t>(status_.st_size); }
    std::optional<Problem> changed() const override {
        struct stat now {};
        const bool same = ::fstat(file_.number(), &now) == 0 && now.st_size == status_.st_size &&
                          now.st_mtim.tv_sec == status_.st_mtim.tv_sec &&
                          now.st_mtim.tv_nsec == status_.st_mtim.tv_nsec;
        return same ? std::nullopt
                    : std::optional{Problem{"the file was changed while it was read",
                                            "a file that no other program is writing; try again, or take a copy"}};
    }

  private:
    std::filesystem::path name_;
    Descriptor file_;
    struct stat status_;
};

/// What came out of it so far is kept, for a pipe gives everything once.
class Pipe : public TextSource {
  public:
    Pipe(std::filesystem::path name, Descriptor file, const std::filesystem::path& scratchFolder)
        : name_{std::move(name)}, file_{std::move(file)}, kept_{scratchFolder} {}

    Amount read(std::uint64_t offset, std::span<char> into) override {
        const auto again = std::min<std::uint64_t>(kept_.size() - std::min(offset, kept_.size()), into.size());
        kept_.read(offset, std::as_writable_bytes(into.first(again)));
        const auto fresh = into.subspan(again);
        auto got = readFully(name_, fresh, [&](std::size_t, std::span<char> rest) {
            return ::read(file_.number(), rest.data(), rest.size());
        });
        if (got) {
            kept_.append(std::as_bytes(fresh.first(*got)));
            *got += again;
        }
        return got;
    }

  private:
    std::filesystem::path name_;
    Descriptor file_;
    ScratchFile kept_;
};

}  // namespace

std::shared_ptr<TextSource> TextSource::ofText(std::string_view text) {
    return std::make_shared<TextInMemory>(text);
}

FileResult<std::shared_ptr<TextSource>> TextSource::open(const std::filesystem::path& file,
                                                         const std::filesystem::path& scratchFolder) {
    Descriptor descriptor{::open(file.c_str(), O_RDONLY | O_CLOEXEC)};
    struct stat status {};
    if (!descriptor.isOpen() || ::fstat(descriptor.number(), &status) != 0) {
        return unreadable(file, errno);
    }
    if (S_ISDIR(status.st_mode)) {
        return unreadable(file, EISDIR);
    }
    if (S_ISREG(status.st_mode)) {
        return std::make_shared<PlainFile>(file, std::move(descriptor), status);
    }
    return std::make_shared<Pipe>(file, std::move(descriptor), scratchFolder);
}

}  // namespace midden
