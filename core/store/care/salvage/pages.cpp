// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/care/salvage/pages.h"

#include <array>
#include <bit>
#include <string_view>

namespace midden::salvage {

namespace {

constexpr std::string_view magic{"SQLite format 3\0", 16};
constexpr std::size_t fileHead = 100;

bool isKind(unsigned char flag) {
    return flag == 2 || flag == 5 || flag == 10 || flag == 13;
}

}  // namespace

std::uint32_t bigEndian(Bytes bytes, std::size_t at, std::size_t count) {
    std::uint32_t number = 0;
    for (std::size_t i = 0; i < count; ++i) {
        number = number << 8U | bytes[at + i];
    }
    return number;
}

Pages::Pages(std::string file) : file_{std::move(file)} {
    readSize();
    guessSize();
}

void Pages::setSize(std::size_t size) {
    size_ = size;
    count_ = static_cast<PageNumber>(file_.size() / size_);
}

double Pages::soundShare() const {
    PageNumber sound = 0;
    for (PageNumber number = 1; number <= count_; ++number) {
        sound += treePage(*this, number) ? 1U : 0U;
    }
    return count_ == 0 ? 0 : static_cast<double>(sound) / count_;
}

/// As the head of the file says it, unless that cannot be true. No book leaves room at the end of its pages.
void Pages::readSize() {
    if (file_.size() < fileHead || !file_.starts_with(magic)) {
        return;
    }
    const Bytes head{reinterpret_cast<const unsigned char*>(file_.data()), file_.size()};
    const std::uint32_t written = bigEndian(head, 16, 2);
    const std::size_t size = written == 1 ? 65'536 : written;
    if (size >= 512 && std::has_single_bit(size) && head[20] == 0) {
        setSize(size);
    }
}

/// The smallest size at which pages begin as those of trees do: at half the true size every other one does not, at
/// twice that size they all do again. What the head says stands where nothing speaks against it.
void Pages::guessSize() {
    constexpr double clearlyMore = 4.0 / 3;
    constexpr double asMany = 0.9;
    constexpr std::array<std::size_t, 3> sizes{4'096, 8'192, 16'384};
    std::size_t likely = size_ == 0 ? sizes.front() : size_;
    double most = size_ == 0 ? 0 : soundShare();
    for (const std::size_t size : sizes) {
        setSize(size);
        const double share = soundShare();
        if (share > most * clearlyMore || (size < likely && share > most * asMany)) {
            likely = size;
            most = share;
        }
    }
    setSize(likely);
}

Bytes Pages::page(PageNumber number) const {
    if (number < 1 || number > count_) {
        return {};
    }
    return {reinterpret_cast<const unsigned char*>(file_.data()) + (number - 1) * size_, size_};
}

std::vector<PageNumber> Pages::freePages() const {
    std::vector<PageNumber> free;
    const Bytes first = page(1);
    if (!file_.starts_with(magic) || first.empty()) {
        return free;
    }
    PageNumber trunk = bigEndian(first, 32, 4);
    for (PageNumber steps = 0; trunk != 0 && steps < count_; ++steps) {
        const Bytes bytes = page(trunk);
        const std::uint32_t leaves = bytes.empty() ? 0 : bigEndian(bytes, 4, 4);
        if (bytes.empty() || leaves > size_ / 4 - 2) {
            break;
        }
        free.push_back(trunk);
        for (std::size_t i = 0; i < leaves; ++i) {
            free.push_back(bigEndian(bytes, 8 + 4 * i, 4));
        }
        trunk = bigEndian(bytes, 0, 4);
    }
    return free;
}

std::optional<TreePage> treePage(const Pages& pages, PageNumber number) {
    const Bytes bytes = pages.page(number);
    const std::size_t head = number == 1 ? fileHead : 0;
    if (bytes.empty() || !isKind(bytes[head])) {
        return std::nullopt;
    }
    TreePage page{static_cast<PageKind>(bytes[head]), bytes, {}, 0};
    const std::size_t cells = bigEndian(bytes, head + 3, 2);
    const std::size_t list = head + (page.isLeaf() ? 8 : 12);
    if (list + 2 * cells > pages.usable()) {
        return std::nullopt;
    }
    page.lastChild = page.isLeaf() ? 0 : bigEndian(bytes, head + 8, 4);
    for (std::size_t i = 0; i < cells; ++i) {
        const std::size_t at = bigEndian(bytes, list + 2 * i, 2);
        if (at < list + 2 * cells || at >= pages.usable()) {
            return std::nullopt;
        }
        page.cells.push_back(at);
    }
    return page;
}

}  // namespace midden::salvage
