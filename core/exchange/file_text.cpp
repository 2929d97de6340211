// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/file_text.h"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <utility>

namespace midden {

namespace {

/// Closes the descriptor when it goes out of sight; a mapping outlives it.
struct Descriptor {
    int number;
    explicit Descriptor(int opened) : number{opened} {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        if (number >= 0) {
            ::close(number);
        }
    }
};

tl::unexpected<Refusal> unreadable(const std::filesystem::path& file, int error) {
    return tl::unexpected{
        Refusal{file.string(), 0, {std::string{"cannot be read: "} + std::strerror(error), "a CSV file"}}};
}

/// More than any pipe of readings should bring; keeps an endless one from filling the memory.
constexpr std::size_t mostFromPipe = std::size_t{1} << 30U;

/// 0, or the error that stopped the reading.
int readAll(int descriptor, std::string& into) {
    std::array<char, 65'536> block{};
    for (;;) {
        const auto got = ::read(descriptor, block.data(), block.size());
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got <= 0) {
            return got < 0 ? errno : 0;
        }
        into.append(block.data(), static_cast<std::size_t>(got));
        if (into.size() > mostFromPipe) {
            return EFBIG;
        }
    }
}

}  // namespace

FileResult<FileText> FileText::open(const std::filesystem::path& file) {
    const Descriptor descriptor{::open(file.c_str(), O_RDONLY | O_CLOEXEC)};
    struct stat status {};
    if (descriptor.number < 0 || ::fstat(descriptor.number, &status) != 0) {
        return unreadable(file, errno);
    }
    FileText opened;
    if (S_ISREG(status.st_mode) && status.st_size > 0) {
        const auto size = static_cast<std::size_t>(status.st_size);
        void* mapped = ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE, descriptor.number, 0);
        if (mapped != MAP_FAILED) {
            ::madvise(mapped, size, MADV_SEQUENTIAL);
            opened.mapped_ = static_cast<const char*>(mapped);
            opened.size_ = size;
            return opened;
        }
    }
    if (const int error = readAll(descriptor.number, opened.read_); error != 0) {
        return unreadable(file, error);
    }
    return opened;
}

FileText::FileText(FileText&& other) noexcept
    : mapped_{std::exchange(other.mapped_, nullptr)}, size_{other.size_}, read_{std::move(other.read_)} {}

FileText::~FileText() {
    if (mapped_ != nullptr) {
        ::munmap(const_cast<char*>(mapped_), size_);
    }
}

}  // namespace midden
