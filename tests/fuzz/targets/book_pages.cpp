// SPDX-License-Identifier: GPL-3.0-or-later
// A sound book with a few bytes changed, so that the trials get past SQLite's header. The input is a list of changes:
// three bytes say where (little end first, modulo the size), one how many, then the bytes that go there.
#include <sqlite3.h>

#include <fstream>
#include <iterator>

#include "core/certificate/issue.h"
#include "core/store/read/book_rules.h"
#include "tests/fuzz/fuzz_input.h"

namespace midden {

namespace {

constexpr Instant start{1'772'352'000};

void enter(Logbook& book, BinId bin, BatchId batch) {
    for (int hour = 0; hour < 96; hour += 8) {
        for (const auto* position : {"core", "side"}) {
            Reading reading;
            reading.place = {bin, position};
            reading.when = {start + hours(hour), {}};
            reading.written = {560'000 + hour * 100, TemperatureUnit::celsius};
            reading.note = hour == 8 ? "steaming" : "";
            book.apply(Put<Reading>{reading});
        }
    }
    Addition addition;
    addition.batch = batch;
    addition.when = {start, {}};
    addition.material = "straw";
    addition.massKilograms = 4;
    book.apply(Put<Addition>{addition});
    Aeration turning;
    turning.batch = batch;
    turning.when = {start + hours(30), {}};
    book.apply(Put<Aeration>{turning});
    Observation squeeze;
    squeeze.batch = batch;
    squeeze.when = {start + hours(31), {}};
    squeeze.kind = ObservationKind::squeeze;
    squeeze.value = "right";
    book.apply(Put<Observation>{squeeze});
    book.apply(Withdraw<Reading>{{{bin, "side"}, start + hours(16)}, "read the wrong bin"});
}

void fill(Logbook& book) {
    book.setHand("a steward", [] { return start; });
    Bin bin;
    bin.name = "North";
    const auto binId = std::get<BinId>(book.apply(Put<Bin>{bin}).id);
    Probe probe;
    probe.name = "long dial";
    const auto probeId = std::get<ProbeId>(book.apply(Put<Probe>{probe}).id);
    ThermometerCheck ice;
    ice.probe = probeId;
    ice.when = {start, {}};
    ice.read = {3'000, TemperatureUnit::celsius};
    book.apply(Put<ThermometerCheck>{ice});
    Batch batch;
    batch.name = "Spring";
    batch.started = {start, {}};
    batch.stays = {{start, binId}};
    const auto batchId = std::get<BatchId>(book.apply(Put<Batch>{batch}).id);
    enter(book, binId, batchId);
    book.setSetting(setting::zone, "Europe/London");
    const auto draft = draftCertificate(book, batchId, {targetOf(book)});
    storeOnce(book, numberedCertificate(book, draft, start + days(9)));
}

/// The same bytes every time, but for what the system's own source of chance puts into entry ids.
std::string soundBook() {
    sqlite3_test_control(SQLITE_TESTCTRL_PRNG_SEED, 4711, nullptr);
    const fuzz::BookFile file;
    {
        auto book = Logbook::open(file.path(), Logbook::Mode::createIfAbsent);
        fill(book);
    }
    std::ifstream in{file.path(), std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

std::string changed(std::string bytes, fuzz::Input changes) {
    while (changes.text().size() > 4) {
        std::size_t where = changes.takeByte();
        where |= std::size_t{changes.takeByte()} << 8U;
        where |= std::size_t{changes.takeByte()} << 16U;
        for (std::size_t count = changes.takeByte() % 16 + 1; count > 0 && !changes.text().empty(); --count) {
            bytes[where++ % bytes.size()] = static_cast<char>(changes.takeByte());
        }
    }
    return bytes;
}

}  // namespace

}  // namespace midden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {  // NOLINT
    static const std::string sound = midden::soundBook();
    const midden::fuzz::BookFile file;
    file.write(midden::changed(sound, {data, size}));
    midden::fuzz::readEverything(file.path());
    return 0;
}
