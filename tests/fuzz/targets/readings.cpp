// SPDX-License-Identifier: GPL-3.0-or-later
// A CSV file of readings or of outside air. The first byte chooses how it is asked for. What is accepted must go into
// a book that is sound afterwards, whole or not at all.
#include <algorithm>

#include "core/exchange/plan/import.h"
#include "tests/fuzz/fuzz_input.h"

namespace midden {

namespace {

using fuzz::expect;

ImportRequest requestFor(std::uint8_t how, const std::filesystem::path& file) {
    ImportRequest request;
    request.batch = "Spring";
    request.bin = "North";
    (how % 8 >= 6 ? request.files.outside : request.files.readings) = file;
    if (how % 2 == 1) {
        request.habits.zone = *TimeZone::named("Europe/London");
    }
    if (how % 4 >= 2) {
        request.habits.unit = TemperatureUnit::fahrenheit;
    }
    return request;
}

void checkRefusal(const Refusal& refusal, std::string_view text) {
    const auto breaks = std::count_if(text.begin(), text.end(), [](char c) { return c == '\n' || c == '\r'; });
    expect(refusal.line <= static_cast<std::uint64_t>(breaks) + 1, "a refusal names a line of the file");
    expect(!refusal.problem.wrong.empty(), "a refusal says what is wrong");
}

void import(const ImportRequest& request, StagedImport staged, std::string_view text) {
    auto book = Logbook::inMemory();
    const auto outcome = storeImport(book, request, std::move(staged));
    if (!outcome) {
        checkRefusal(outcome.error(), text);
        expect(book.batches().empty() && book.bins().empty(), "a refused import stores nothing");
        return;
    }
    const auto report = book.check({});
    expect(report.faults.empty(), "an import leaves a sound book");
    expect(report.readings == outcome->readings.added + outcome->outside.added, "what is counted as added is there");
    inWords(*outcome, false);
}

}  // namespace

}  // namespace midden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {  // NOLINT
    midden::fuzz::Input input{data, size};
    const auto how = input.takeByte();
    const midden::fuzz::MemoryFile file{input.text()};
    const auto request = midden::requestFor(how, file.path());
    auto staged = midden::readFiles(request);
    if (staged) {
        midden::import(request, std::move(*staged), input.text());
    } else {
        midden::checkRefusal(staged.error(), input.text());
    }
    return 0;
}
