#!/usr/bin/env bash
# Line and branch coverage of core/ by all tests; prints a table and writes build/coverage/report.txt.
set -euo pipefail
cd "$(dirname "$0")/../.."
cmake --preset coverage -Wno-dev >/dev/null
cmake --build --preset coverage -- --quiet
find build/coverage -name '*.gcda' -delete
ctest --preset coverage -j "$(nproc)" --progress
counted=build/coverage/counted.json
gcovr --root . --filter core/ --exclude-throw-branches --json "$counted" build/coverage/core
{
    gcovr --root . --add-tracefile "$counted"
    gcovr --root . --add-tracefile "$counted" --branches | tail -4
} | tee build/coverage/report.txt
