#!/usr/bin/env bash
# clang-format over everything of ours; prints what it would change and fails.
set -euo pipefail
cd "$(dirname "$0")/../.."
git ls-files --cached --others --exclude-standard -z -- '*.cpp' '*.h' | xargs -0 clang-format --dry-run --Werror
