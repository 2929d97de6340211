#!/usr/bin/env bash
# clang-tidy over everything of ours. Usage: check_style.sh BUILD_DIRECTORY [FILE …]
set -euo pipefail
cd "$(dirname "$0")/../.."
build=${1:-build/dev}
sources=("${@:2}")
[ ${#sources[@]} -gt 0 ] || mapfile -t sources < <(git ls-files --cached --others --exclude-standard -- '*.cpp')
printf '%s\n' "${sources[@]}" |
    xargs -P "$(nproc)" -n 4 clang-tidy -p "$build" --quiet --extra-arg=-Wno-unknown-warning-option 2>/dev/null
