// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as a logbook's file.
#include "tests/fuzz/fuzz_input.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {  // NOLINT
    const midden::fuzz::BookFile file;
    file.write(midden::fuzz::Input{data, size}.text());
    midden::fuzz::readEverything(file.path());
    return 0;
}
