#!/usr/bin/env bash
# Every book that an earlier version wrote still opens, says what it said then, and can be written to.
# Usage: formats_open.sh MIDDENBOOK. A book of each format lies in tests/support/formats, with its review of then.
set -euo pipefail
program=$1
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export XDG_DATA_HOME=$folder
count=0
for book in "$(dirname "$0")"/formats/*.midden; do
    cp "$book" "$folder/book.midden"
    chmod 600 "$folder/book.midden"
    "$program" check "$folder/book.midden" >/dev/null
    "$program" review --json "$folder/book.midden" >"$folder/now.json"
    python3 "$(dirname "$0")/says_what_it_said.py" "${book%.midden}.json" "$folder/now.json"
    printf 'time,temperature\n2027-01-01T08:00Z,40\n' >"$folder/r.csv"
    "$program" import "$folder/book.midden" --batch "A later batch" --bin Later --readings "$folder/r.csv" >/dev/null
    printf 'time,material,mass_kg\n2027-01-01T08:00Z,bread,5\n' >"$folder/a.csv"
    "$program" import "$folder/book.midden" --batch "A later batch" --bin Later --additions "$folder/a.csv" >/dev/null
    "$program" review --json "$folder/book.midden" >"$folder/later.json"
    python3 "$(dirname "$0")/says_what_it_said.py" "${book%.midden}.json" \
        <(python3 -c 'import json, sys; r = json.load(open(sys.argv[1])); r["batches"] = [b for b in r["batches"] if b["batch"] != "A later batch"]; print(json.dumps(r))' "$folder/later.json")
    "$program" check "$folder/book.midden" >/dev/null
    rm "$folder/book.midden"
    count=$((count + 1))
done
[ "$count" -gt 0 ]
