// SPDX-License-Identifier: GPL-3.0-or-later
// What tests/bench/run cannot measure from outside the program: inputs, floors, and judging in memory.
#include <fmt/core.h>
#include <sqlite3.h>

#include <charconv>
#include <cstdlib>
#include <string_view>

#include "core/thermal/credit.h"
#include "tests/bench/invented_readings.h"
#include "tests/bench/parse_floor.h"
#include "tests/bench/row.h"

namespace midden::bench {

namespace {

[[noreturn]] void giveUp(const std::string& why) {
    fmt::print(stderr, "bench_core: {}\n", why);
    std::exit(1);
}

std::int64_t numberOf(std::string_view text) {
    std::int64_t value = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
    if (read.ec != std::errc{} || value < 1) {
        giveUp(fmt::format("{} is no number of rows", text));
    }
    return value;
}

struct Stored {
    std::int64_t at;
    std::int32_t raw;
};

/// Reads every row of the reading table into memory with nothing but SQLite.
void stepAllRows(const char* logbook) {
    sqlite3* database = nullptr;
    sqlite3_stmt* statement = nullptr;
    if (sqlite3_open_v2(logbook, &database, SQLITE_OPEN_READONLY, nullptr) != SQLITE_OK ||
        sqlite3_prepare_v2(database, "SELECT at, raw FROM reading ORDER BY series, at", -1, &statement, nullptr) !=
            SQLITE_OK) {
        giveUp(sqlite3_errmsg(database));
    }
    std::vector<Stored> rows;
    while (sqlite3_step(statement) == SQLITE_ROW) {
        rows.push_back({sqlite3_column_int64(statement, 0), sqlite3_column_int(statement, 1)});
    }
    fmt::print("{}\n", rows.size());
    sqlite3_finalize(statement);
    sqlite3_close(database);
}

std::int64_t sumOf(const std::vector<Sample>& samples) {
    std::int64_t sum = 0;
    for (const auto& sample : samples) {
        sum += sample.at.utcSeconds + sample.temperature().parts();
    }
    return sum;
}

void judgeInMemory(std::int64_t count) {
    constexpr int runs = 7;
    const auto samples = inventedSamples(count);
    const Limits limits{Celsius::ofTenThousandths(550'000)};
    std::int64_t kept = 0;
    const double summing = medianCpu(runs, [&] { kept += sumOf(samples); });
    const double judging = medianCpu(runs, [&] { kept += total(creditedRuns(samples, limits, hours(36))).count; });
    if (kept == 0) {
        giveUp("nothing was judged");
    }
    print({"judging in memory, one threshold", judging, "summing the same array", summing, 3});
}

void run(std::string_view what, const char* argument, const char* more) {
    if (what == "generate" && more != nullptr) {
        writeInventedCsv(more, numberOf(argument));
    } else if (what == "floor") {
        const auto floor = parseOnly(argument);
        fmt::print("{} {}\n", floor.rows, floor.sum);
    } else if (what == "step") {
        stepAllRows(argument);
    } else if (what == "judge") {
        judgeInMemory(numberOf(argument));
    } else {
        giveUp("generate ROWS FILE | floor FILE | step LOGBOOK | judge READINGS");
    }
}

}  // namespace

}  // namespace midden::bench

int main(int count, char** arguments) {
    if (count < 3) {
        fmt::print(stderr, "bench_core generate ROWS FILE | floor FILE | step LOGBOOK | judge READINGS\n");
        return 2;
    }
    midden::bench::run(arguments[1], arguments[2], count > 3 ? arguments[3] : nullptr);
    return 0;
}
