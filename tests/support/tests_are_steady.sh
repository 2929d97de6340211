#!/usr/bin/env bash
# No test waits for a fixed time or a short one, or takes its chance from elsewhere than the seed of the run; every
# random case has the tag that tests/random finds it by. Usage: tests_are_steady.sh FOLDER
set -euo pipefail
cd "$1/tests"
wrong=0
refuse() {
    if grep -rnE --include='*.cpp' --include='*.h' --exclude=qt_support.h "$1" core ui published; then
        echo "$2" >&2
        wrong=1
    fi
}
refuse 'QTest::(qWait|qSleep)\([1-9]' "wait for what is awaited: waitUntil, waitForWorkAside"
refuse 'qWaitFor\(|qWaitForWindow[A-Za-z]+\([^,]*\)+;|QTRY_|waitFor(Finished|Started|ReadyRead|BytesWritten)\(\)' \
    "wait for as long as it takes: waitUntil, or aMinute"
refuse 'random_device|srand\(|time\(nullptr\)|currentDateTime|system_clock::now' "take seedOfRun(), and a fixed time"

untagged=$(find core ui published -name '*_test.cpp' -exec awk '
    /^TEST_CASE\(/ { head = ""; inHead = 1 }
    inHead { head = head $0; if (/\) \{$/) inHead = 0 }
    /rc::check/ && head !~ /\[random\]/ { print FILENAME ":" FNR ": " head }' {} +)
if [ -n "$untagged" ]; then
    printf '%s\n' "$untagged" "these need the tag [random]" >&2
    wrong=1
fi
exit $wrong
