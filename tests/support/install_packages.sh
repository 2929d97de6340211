#!/usr/bin/env bash
# Installs what is missing on a Debian 12 system: `build` to build and run the program, `test` for every check as well.
# Without the right to install, prints the line to run and stops.
set -euo pipefail

build=(build-essential cmake ninja-build ccache
    qt6-base-dev libqt6opengl6-dev qt6-charts-dev qt6-svg-dev libgl-dev
    libsqlitecpp-dev libsqlite3-dev libhowardhinnant-date-dev libexpected-dev libfmt-dev nlohmann-json3-dev
    libcli11-dev libglpk-dev nettle-dev tzdata fontconfig fonts-dejavu-core
    catch2 librapidcheck-dev poppler-utils)
checks=(git clang clang-format clang-tidy libclang-rt-14-dev gcovr qpdf sqlite3 python3 python3-jsonschema python3-numpy)

wanted=("${build[@]}")
[ "${1:-build}" = test ] && wanted+=("${checks[@]}")

missing=()
for package in "${wanted[@]}"; do
    dpkg-query --show --showformat='${Status}' "$package" 2>/dev/null | grep -q 'install ok installed' || missing+=("$package")
done
[ ${#missing[@]} -eq 0 ] && exit 0

if [ "$(id -u)" = 0 ]; then
    as_root=()
elif command -v sudo >/dev/null && sudo -v; then
    as_root=(sudo)
else
    echo "These packages are needed. Please have somebody who may install software run this line:" >&2
    echo "  apt-get update && apt-get install --no-install-recommends ${missing[*]}" >&2
    exit 1
fi
echo "Installing: ${missing[*]}"
"${as_root[@]}" apt-get update -qq
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install --yes --no-install-recommends -qq "${missing[@]}" >/dev/null
