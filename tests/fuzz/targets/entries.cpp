// SPDX-License-Identifier: GPL-3.0-or-later
// The other files an import takes: the first byte chooses which one this is.
#include <array>

#include "core/exchange/plan/import.h"
#include "tests/fuzz/fuzz_input.h"

namespace midden {

namespace {

using fuzz::expect;
using File = std::optional<std::filesystem::path> ImportFiles::*;

constexpr std::array<File, 8> kinds{&ImportFiles::additions, &ImportFiles::aerations, &ImportFiles::observations,
                                    &ImportFiles::moves,     &ImportFiles::probes,    &ImportFiles::checks,
                                    &ImportFiles::bins,      &ImportFiles::positions};

ImportRequest requestFor(std::uint8_t how, const std::filesystem::path& file) {
    ImportRequest request;
    request.batch = "Spring";
    request.bin = "North";
    request.files.*kinds.at(how % kinds.size()) = file;
    request.start = Moment{Instant{1'700'000'000}, {}};
    if (how & 0x10U) {
        request.habits.zone = *TimeZone::named("Europe/London");
    }
    return request;
}

void import(const ImportRequest& request, StagedImport staged) {
    auto book = Logbook::inMemory();
    const auto outcome = storeImport(book, request, std::move(staged));
    if (!outcome) {
        expect(book.batches().empty() && book.bins().empty() && book.probes().empty(),
               "a refused import stores nothing");
        return;
    }
    expect(book.check({}).faults.empty(), "an import leaves a sound book");
    book.record(book.batches().front().id);
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
        try {
            midden::import(request, std::move(*staged));
        } catch (const midden::LogbookError& refused) {
            midden::fuzz::expect(refused.kind == midden::LogbookError::Kind::refused,
                                 "a book refuses in its own words");
        }
    } else {
        midden::fuzz::expect(!staged.error().problem.wrong.empty(), "a refusal says what is wrong");
    }
    return 0;
}
