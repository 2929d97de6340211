// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/parse_floor.h"

#include <fcntl.h>
#include <fmt/core.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <string>
#include <string_view>

#include "core/quantities/time.h"

namespace midden::bench {

namespace {

[[noreturn]] void giveUp(const char* what) {
    fmt::print(stderr, "the file for the parsing floor: {}\n", what);
    std::exit(1);
}

/// A field up to the separator or the line's end; control characters, quotes and high bytes are refused.
class Walker {
  public:
    explicit Walker(std::string_view text) : at_{text.data()}, end_{text.data() + text.size()} {}

    bool atEnd() const { return at_ == end_; }
    std::string_view field() {
        const char* const begin = at_;
        while (at_ != end_ && *at_ != ',' && *at_ != '\n') {
            if (*at_ < ' ' || *at_ == '"' || *at_ == 0x7F) {
                giveUp("holds more than plain text");
            }
            ++at_;
        }
        const std::string_view found{begin, static_cast<std::size_t>(at_ - begin)};
        at_ += at_ != end_ ? 1 : 0;
        return found;
    }

  private:
    const char* at_;
    const char* end_;
};

int twoDigits(std::string_view text, std::size_t at) {
    const auto tens = static_cast<unsigned>(text[at] - '0');
    const auto ones = static_cast<unsigned>(text[at + 1] - '0');
    return tens <= 9 && ones <= 9 ? static_cast<int>(tens * 10 + ones) : 100;
}

/// "2016-01-01T00:00:00Z"; the midnight of the last day is remembered.
class TimeParser {
  public:
    std::int64_t read(std::string_view text) {
        if (text.size() != 20 || text[10] != 'T' || text[13] != ':' || text[16] != ':' || text[19] != 'Z') {
            giveUp("has another form of time");
        }
        if (text.substr(0, day_.size()) != day_ || day_.empty()) {
            day_ = text.substr(0, 10);
            midnight_ = midnightOf(text);
        }
        const int hour = twoDigits(text, 11);
        const int minute = twoDigits(text, 14);
        const int second = twoDigits(text, 17);
        if (hour > 23 || minute > 59 || second > 59) {
            giveUp("has a time that is none");
        }
        return midnight_ + hour * 3'600 + minute * 60 + second;
    }

  private:
    static std::int64_t midnightOf(std::string_view text) {
        WallTime wall;
        wall.year = twoDigits(text, 0) * 100 + twoDigits(text, 2);
        wall.month = twoDigits(text, 5);
        wall.day = twoDigits(text, 8);
        if (text[4] != '-' || text[7] != '-' || !isReal(wall)) {
            giveUp("has a day that is none");
        }
        return instantOf(wall, {}).utcSeconds;
    }
    std::string day_;
    std::int64_t midnight_ = 0;
};

/// "58.25" in ten-thousandths.
std::int64_t decimal(std::string_view text) {
    const auto point = std::min(text.find('.'), text.size());
    std::int64_t value = 0;
    const auto take = [&](char digit) {
        if (digit < '0' || digit > '9') {
            giveUp("has a number that is none");
        }
        value = value * 10 + (digit - '0');
    };
    for (const char digit : text.substr(0, point)) {
        take(digit);
    }
    for (std::size_t place = point + 1; place < point + 5; ++place) {
        take(place < text.size() ? text[place] : '0');
    }
    return value;
}

Floor walk(std::string_view text) {
    Walker walker{text};
    for (int column = 0; column < 4; ++column) {
        walker.field();
    }
    Floor floor;
    TimeParser time;
    while (!walker.atEnd()) {
        const auto bin = walker.field();
        const auto position = walker.field();
        floor.sum += time.read(walker.field());
        floor.sum += decimal(walker.field()) + static_cast<std::int64_t>(bin.size() + position.size());
        ++floor.rows;
    }
    return floor;
}

}  // namespace

Floor parseOnly(const std::filesystem::path& file) {
    const int descriptor = ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
    struct stat status {};
    if (descriptor < 0 || ::fstat(descriptor, &status) != 0) {
        giveUp("cannot be opened");
    }
    const auto size = static_cast<std::size_t>(status.st_size);
    void* mapped = ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE, descriptor, 0);
    ::close(descriptor);
    if (mapped == MAP_FAILED) {
        giveUp("cannot be mapped");
    }
    ::madvise(mapped, size, MADV_SEQUENTIAL);
    const auto floor = walk({static_cast<const char*>(mapped), size});
    ::munmap(mapped, size);
    return floor;
}

}  // namespace midden::bench
