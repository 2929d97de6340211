// SPDX-License-Identifier: GPL-3.0-or-later
// The canonical record of a certificate, as `verify` reads it out of a book: two of them, parted by a 0 byte.
#include "core/certificate/canonical.h"
#include "core/certificate/changes.h"
#include "core/quantities/sha256.h"
#include "tests/fuzz/fuzz_input.h"

namespace midden {

namespace {

using fuzz::expect;

void checkLines(std::string_view text) {
    while (!text.empty()) {
        const auto end = std::min(text.find('\n'), text.size());
        const auto line = CanonicalLine::parse(text.substr(0, end));
        const auto written = line.text();
        expect(!written.empty() && written.back() == '\n', "a line ends");
        const auto again = CanonicalLine::parse(std::string_view{written}.substr(0, written.size() - 1));
        expect(again.text() == written, "a line reads back as it was written");
        text.remove_prefix(std::min(end + 1, text.size()));
    }
}

}  // namespace

}  // namespace midden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {  // NOLINT
    using namespace midden;
    const auto text = fuzz::Input{data, size}.text();
    const auto cut = std::min(text.find('\0'), text.size());
    const auto first = text.substr(0, cut);
    const auto second = text.substr(std::min(cut + 1, text.size()));
    checkLines(text);
    partsOf(first);
    fuzz::expect(changesBetween(first, first).empty(), "a record has not changed from itself");
    for (const auto& change : changesBetween(first, second)) {
        fuzz::expect(!change.empty(), "a change is told in words");
    }
    fuzz::expect(sha256(text).size() == 64, "a digest has 64 digits");
    return 0;
}
