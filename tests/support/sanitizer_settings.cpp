// SPDX-License-Identifier: GPL-3.0-or-later
// Read by the leak sanitizer (sanitizer/lsan_interface.h).

/// fontconfig holds the parts of a pattern by their distance from it, not by a pointer (fcint.h, FcPtrToOffset), so
/// the fonts it still holds when a program ends look lost, now and then: whenever no stale pointer is left to them.
extern "C" const char* __lsan_default_suppressions() {  // NOLINT(bugprone-reserved-identifier)
    return "leak:libfontconfig";
}

/// What was let pass is not told: tests read what a program writes.
extern "C" const char* __lsan_default_options() {  // NOLINT(bugprone-reserved-identifier)
    return "print_suppressions=0";
}
