// SPDX-License-Identifier: GPL-3.0-or-later
// Times as files write them, and names of time zones as books keep them.
#include "core/exchange/times/written_time.h"
#include "core/quantities/zone.h"
#include "tests/fuzz/fuzz_input.h"

namespace midden {

namespace {

using fuzz::expect;

void checkIso(std::string_view text) {
    const auto read = parseIsoTime(text);
    if (!read) {
        expect(!read.error().wrong.empty(), "a refusal says what is wrong");
        return;
    }
    expect(isReal(read->wall), "only real times are read");
    const Moment moment{instantOf(read->wall, read->offset), read->offset};
    expect(wallTimeOf(moment) == read->wall, "an instant shows the time it was made of");
    const auto again = parseIsoTime(isoLocal(moment));
    expect(again && again->wall == read->wall && again->offset == read->offset, "a time reads back as it was written");
    longDateTime(moment);
    shortDate(moment);
}

void checkWritten(std::string_view text) {
    const auto read = parseWrittenTime(text);
    if (!read) {
        expect(!read.error().wrong.empty(), "a refusal says what is wrong");
        return;
    }
    if (!read->orderOpen) {
        expect(isReal(read->wall), "only real times are read");
    } else if (read->isUndecided()) {
        expect(read->in(DateOrder::dayFirst) != read->in(DateOrder::monthFirst), "undecided dates differ");
    }
}

void checkZone(std::string_view text) {
    const auto zone = TimeZone::named(text);
    if (zone) {
        expect(zone->momentAt(Instant{1'772'352'000}).at.utcSeconds == 1'772'352'000, "a zone leaves instants alone");
    }
}

}  // namespace

}  // namespace midden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {  // NOLINT
    const auto text = midden::fuzz::Input{data, size}.text();
    midden::checkIso(text);
    midden::checkWritten(text);
    midden::checkZone(text);
    return 0;
}
