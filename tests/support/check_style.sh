#!/usr/bin/env bash
# clang-format and clang-tidy over everything of ours. Usage: check_style.sh BUILD_DIRECTORY
set -euo pipefail
cd "$(dirname "$0")/../.."
mapfile -t sources < <(git ls-files --cached --others --exclude-standard -- 'core/*.cpp' 'ui/*.cpp' 'app/*.cpp' 'tests/*.cpp')
mapfile -t headers < <(git ls-files --cached --others --exclude-standard -- '*.h')
clang-format --dry-run --Werror "${sources[@]}" "${headers[@]}"
printf '%s\n' "${sources[@]}" | xargs -P "$(nproc)" -n 4 clang-tidy -p "${1:-build/dev}" --quiet --extra-arg=-Wno-unknown-warning-option
