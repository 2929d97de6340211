// SPDX-License-Identifier: GPL-3.0-or-later
// What people type into the window's lines: times and days in words and digits, and amounts.
#include <QString>

#include "tests/fuzz/fuzz_input.h"
#include "ui/shared/typed.h"

namespace midden {

namespace {

using fuzz::expect;

void check(const QString& typed, const TimeZone& zone) {
    const auto now = zone.momentAt(Instant{1'772'600'000});
    const auto moment = ui::readMoment(typed, zone, now);
    if (moment) {
        const auto again = ui::readMoment(ui::typedForm(*moment), zone, now);
        const bool toTheMinute = moment->at.utcSeconds % 60 == 0;
        expect(!toTheMinute || !again || again->at == moment->at || again->offset != moment->offset,
               "a time reads back as it is shown");
    } else {
        expect(!moment.error().wrong.empty(), "a refusal says what is wrong");
    }
    const auto day = ui::readDay(typed, zone, now);
    expect(!day || !ui::typedDay(*day).isEmpty(), "a day can be shown");
    const auto wall = ui::readWallTime(typed, wallTimeOf(now));
    expect(!wall || isReal(*wall), "only real times are read");
    const auto amount = ui::readAmount(typed);
    expect(!amount || *amount >= 0, "an amount is from 0 up");
}

}  // namespace

}  // namespace midden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {  // NOLINT
    using namespace midden;
    const auto text = fuzz::Input{data, size}.text();
    const auto typed = QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
    check(typed, TimeZone::utc());
    check(typed, *TimeZone::named("Europe/London"));
    return 0;
}
