// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/file_text.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
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

/// More than any file of readings should bring; keeps an endless pipe from filling the memory.
constexpr std::size_t mostBytes = std::size_t{4} << 30U;
constexpr std::size_t leastCapacity = 65'536;

}  // namespace

FileResult<FileText> FileText::open(const std::filesystem::path& file) {
    const Descriptor descriptor{::open(file.c_str(), O_RDONLY | O_CLOEXEC)};
    struct stat status {};
    if (descriptor.number < 0 || ::fstat(descriptor.number, &status) != 0) {
        return unreadable(file, errno);
    }
    FileText opened;
    const auto expected = S_ISREG(status.st_mode) ? static_cast<std::size_t>(status.st_size) : 0;
    if (const int error = opened.readAll(descriptor.number, expected); error != 0) {
        return unreadable(file, error);
    }
    return opened;
}

/// 0, or the error that stopped the reading. What the file is said to hold is only a first guess.
int FileText::readAll(int descriptor, std::size_t expected) {
    growTo(std::min(std::max(expected + 1, leastCapacity), mostBytes));
    for (;;) {
        const auto got = ::read(descriptor, bytes_.get() + size_, capacity_ - size_);
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got <= 0) {
            return got < 0 ? errno : 0;
        }
        size_ += static_cast<std::size_t>(got);
        if (size_ >= mostBytes) {
            return EFBIG;
        }
        if (size_ == capacity_) {
            growTo(std::min(2 * capacity_, mostBytes));
        }
    }
}

void FileText::growTo(std::size_t capacity) {
    std::unique_ptr<char[]> larger{new char[capacity]};  // std::make_unique would write zeros into all of it
    std::copy_n(bytes_.get(), size_, larger.get());
    bytes_ = std::move(larger);
    capacity_ = capacity;
}

}  // namespace midden
