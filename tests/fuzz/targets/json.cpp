// SPDX-License-Identifier: GPL-3.0-or-later
// Any text as JSON of a book: refused with a word, or a value that can be copied, written and read back; and as what an
// amendment says.
#include "core/quantities/json_text.h"
#include "core/store/schema/amendment_json.h"
#include "tests/fuzz/fuzz_input.h"

namespace midden {

namespace {

std::size_t depthOf(const nlohmann::json& value) {
    std::size_t depth = 0;
    if (value.is_structured()) {
        for (const auto& part : value) {
            depth = std::max(depth, depthOf(part));
        }
        ++depth;
    }
    return depth;
}

}  // namespace

}  // namespace midden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {  // NOLINT
    using namespace midden;
    using fuzz::expect;
    const auto text = fuzz::Input{data, size}.text();
    const auto read = readJson(text);
    if (!read) {
        expect(!read.error().wrong.empty(), "a refusal says what is wrong");
        expect(!amendedEntry(text), "what is not JSON is no entry");
        return 0;
    }
    expect(depthOf(*read) <= deepestJson, "nothing is deeper than it may be");
    const auto again = readJson(read->dump());
    expect(again && *again == *read, "what was read can be written and read back");
    if (const auto entry = amendedEntry(text)) {
        expect(depthOf(*entry) <= 1, "an entry is flat");
    }
    return 0;
}
