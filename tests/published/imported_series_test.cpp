// SPDX-License-Identifier: GPL-3.0-or-later
// Two published series all the way through: CSV, logbook, record, credited time. The expected hours were computed by
//     python3 tests/published/series_by_numpy.py tests/published/data
// (numpy 1.24) and the interpolated hours of beaver2 once more in R 4.2 with approxfun: 10.26272. Origin and licence of
// the data: tests/published/data/SOURCE.md.
#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

#include "core/exchange/plan/import.h"
#include "core/thermal/credit.h"
#include "tests/core/exchange/scratch.h"

using namespace midden;

namespace {

std::ifstream dataFile(const std::string& name) {
    std::ifstream in{std::string{MIDDENBOOK_SOURCE_DIR} + "/tests/published/data/" + name};
    REQUIRE(in);
    return in;
}

/// R counts the days from the beginning of 1990 and writes the time of day as HHMM: day 307 is 3 November.
std::string beaver2() {
    auto in = dataFile("r_beaver2.csv");
    std::string line;
    std::getline(in, line);
    std::ostringstream csv;
    csv << "time,temperature\n";
    while (std::getline(in, line)) {
        int day = 0;
        int clock = 0;
        char comma = 0;
        std::string temperature;
        std::istringstream fields{line};
        fields >> day >> comma >> clock >> comma;
        std::getline(fields, temperature, ',');
        const Instant at{631'152'000 + (day - 1) * 86'400 + clock / 100 * 3'600 + clock % 100 * 60};
        csv << isoUtc(at) << ',' << temperature << '\n';
    }
    return csv.str();
}

/// As published but for the header.
std::string seattle() {
    auto in = dataFile("noaa_seattle_hourly_2010_degF.csv");
    std::string line;
    std::getline(in, line);
    std::ostringstream csv;
    csv << "time,temperature_f\n" << in.rdbuf();
    return csv.str();
}

struct Imported {
    BatchRecord record;
    std::string refusal;
};

Imported import(const std::string& csv, std::string_view zone) {
    const testing::Scratch scratch;
    ImportRequest request;
    request.batch = "Published";
    request.bin = "North";
    request.files.readings = scratch.write("series.csv", csv);
    request.habits.zone = *TimeZone::named(zone);
    auto staged = readFiles(request);
    if (!staged) {
        return {{}, staged.error().sentence().substr(scratch.folder().string().size() + 1)};
    }
    auto book = Logbook::inMemory();
    REQUIRE(storeImport(book, request, std::move(*staged)));
    return {book.record(book.batchNamed("Published")->id), {}};
}

}  // namespace

TEST_CASE("the beaver series imported has the hours numpy and R find above 37.5 degrees") {
    const auto record = import(beaver2(), "UTC").record;
    REQUIRE(record.readings == 100);
    CHECK(isoUtc(record.batch.started.at) == "1990-11-03T09:30:00Z");
    const Limits limits{Celsius::ofTenThousandths(375'000)};
    const auto line = interpolatedRuns(record.tracks.at(0).samples, limits, hours(36));
    CHECK(total(line) / 3'600 == Approx(10.2627).margin(5e-5));
    CHECK(longest(line) / 3'600 == Approx(8.8294).margin(5e-5));
    const auto held = creditedRuns(record.tracks[0].samples, limits, hours(36));
    CHECK(total(held) == hours(10));
    CHECK(longest(held).hours() == Approx(8.6667).margin(5e-5));
}

TEST_CASE("the Seattle year imported has the hours numpy finds above 65 degrees Fahrenheit") {
    const auto record = import(seattle(), "UTC").record;
    REQUIRE(record.readings == 8'759);
    const Limits limits{toCelsius({650'000, TemperatureUnit::fahrenheit})};
    const auto line = interpolatedRuns(record.tracks.at(0).samples, limits, hours(36));
    CHECK(total(line) / 3'600 == Approx(1'025.5520).margin(5e-4));
    CHECK(longest(line) / 3'600 == Approx(12.4667).margin(5e-5));
    const auto held = creditedRuns(record.tracks[0].samples, limits, hours(36));
    CHECK(total(held) == hours(914));
    CHECK(longest(held) == hours(11));
    CHECK(gaps(record.tracks[0].samples, hours(1)).size() == 1);
}

// 14 March 2010 02:00 to 03:00 did not happen in Seattle: IANA time zone database, America/Los_Angeles.
TEST_CASE("the Seattle year has an hour that its own clocks never showed") {
    CHECK(import(seattle(), "America/Los_Angeles")
              .refusal.starts_with(
                  "series.csv:1732: the clocks of America/Los_Angeles went forward over \"2010/03/14 02:00\""));
}
