// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/invented_readings.h"

#include <fmt/core.h>
#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>
#include <memory>

namespace midden::bench {

namespace {

constexpr std::int64_t minutesADay = 1'440;
constexpr std::int64_t cycle = 30 * minutesADay;

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};

/// 0 to `most` and back within `period`.
std::int64_t triangle(std::int64_t at, std::int64_t period, std::int64_t most) {
    const auto phase = at % period;
    return most * std::min(phase, period - phase) * 2 / period;
}

/// Bits that look thrown together, from a number.
std::uint64_t scrambled(std::uint64_t x) {
    x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9U;
    x = (x ^ (x >> 27U)) * 0x94d049bb133111ebU;
    return x ^ (x >> 31U);
}

void appendDate(fmt::memory_buffer& text, Instant at) {
    const auto moment = isoUtc(at);
    text.append(moment.data(), moment.data() + moment.size());
}

}  // namespace

std::int32_t inventedReading(std::int64_t minute, int position) {
    const auto slow = triangle(minute + position * cycle / 8, cycle, 520'000);
    const auto daily = triangle(minute, minutesADay, 15'000);
    const auto scatter = static_cast<std::int64_t>(scrambled(static_cast<std::uint64_t>(minute * 8 + position)) % 11);
    // A logger writes two decimals.
    return static_cast<std::int32_t>((180'000 + slow + daily + scatter * 100) / 100 * 100);
}

void writeInventedCsv(const std::filesystem::path& file, std::int64_t rows) {
    const std::unique_ptr<std::FILE, CloseFile> out{std::fopen(file.c_str(), "wb")};
    if (!out) {
        fmt::print(stderr, "{} cannot be written\n", file.string());
        std::exit(1);
    }
    fmt::memory_buffer text;
    fmt::format_to(std::back_inserter(text), "bin,position,time,temperature\n");
    for (std::int64_t row = 0; row < rows; ++row) {
        const auto minute = row / 2;
        const int position = static_cast<int>(row % 2);
        const auto read = inventedReading(minute, position);
        fmt::format_to(std::back_inserter(text), "North,{},", position == 0 ? "core" : "side");
        appendDate(text, inventedStart + Seconds{minute * 60});
        fmt::format_to(std::back_inserter(text), ",{}.{:02}\n", read / 10'000, read / 100 % 100);
        if (text.size() > 1'000'000 || row + 1 == rows) {
            std::fwrite(text.data(), 1, text.size(), out.get());
            text.clear();
        }
    }
}

std::vector<Sample> inventedSamples(std::int64_t count) {
    std::vector<Sample> samples;
    samples.reserve(static_cast<std::size_t>(count));
    for (std::int64_t minute = 0; minute < count; ++minute) {
        samples.emplace_back(inventedStart + Seconds{minute * 60},
                             Celsius::ofTenThousandths(inventedReading(minute, 0)), Kelvins::ofTenThousandths(10'000));
    }
    return samples;
}

}  // namespace midden::bench
