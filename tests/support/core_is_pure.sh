#!/usr/bin/env bash
# core/ knows no Qt, no clock, no locale and no environment: whatever it needs is handed in.
set -u
if grep -rnE '#include <Q|std::locale|getenv|system_clock|setlocale|\btime\(nullptr\)' "$1/core"; then
    echo "the lines above do not belong in core/" >&2
    exit 1
fi
