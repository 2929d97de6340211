// SPDX-License-Identifier: GPL-3.0-or-later
// A typed temperature: what is read is within the readable range, and what is written out reads back the same.
#include "core/quantities/temperature.h"

#include "core/exchange/csv/cells.h"
#include "tests/fuzz/fuzz_input.h"

namespace midden {

namespace {

using fuzz::expect;

void check(std::string_view typed, TemperatureUnit assumed) {
    const auto read = parseTemperature(typed, assumed);
    if (!read) {
        expect(!read.error().wrong.empty(), "a refusal says what is wrong");
        return;
    }
    expect(isReadable(toCelsius(*read)), "only readable temperatures are read");
    for (const auto unit : {TemperatureUnit::celsius, TemperatureUnit::fahrenheit}) {
        const auto again = parseTemperature(writtenWithUnit(*read), unit);
        expect(again && *again == *read, "a temperature reads back as it was written");
    }
    const auto bare = parseTemperature(writtenNumber(*read), read->unit);
    expect(bare && *bare == *read, "a bare number reads back as it was written");
    for (int decimals = 0; decimals <= 4; ++decimals) {
        const auto shown = rounded(toCelsius(*read), decimals);
        expect(!shown.empty() && shown != "-0" && !shown.starts_with("-0.0000"), "no minus before nothing");
    }
}

}  // namespace

}  // namespace midden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {  // NOLINT
    using namespace midden;
    const auto text = fuzz::Input{data, size}.text();
    check(text, TemperatureUnit::celsius);
    check(text, TemperatureUnit::fahrenheit);
    const auto amount = parseDecimal(text);
    fuzz::expect(!amount || (*amount > -1e41 && *amount < 1e41), "a decimal number is a number");
    fuzz::expect(unguardedText(guardedText(text)) == text, "a guarded text reads back the same");
    return 0;
}
