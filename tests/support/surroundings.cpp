// SPDX-License-Identifier: GPL-3.0-or-later
// Linked into every test program, so that it runs the same everywhere and every time, by hand as by ctest: zone,
// locale, the random cases of rapidcheck, and the names and keys that entries, bins and batches are given.
// RC_PARAMS="seed=NUMBER" asks for other cases, names and keys; tests/random does.
#define CATCH_CONFIG_EXTERNAL_INTERFACES
#include "tests/support/surroundings.h"

#include <sqlite3.h>

#include <algorithm>
#include <atomic>
#include <catch2/catch.hpp>
#include <cstdint>
#include <cstdlib>
#include <random>
#include <string>

namespace {

constexpr std::uint64_t usualSeed = 20'260'301;

/// Before `main`, and so before rapidcheck reads it. What the test starts inherits zone and locale.
std::uint64_t settle() {
    ::setenv("TZ", "Europe/London", 1);
    ::setenv("LC_ALL", "C.UTF-8", 1);
    ::unsetenv("LANGUAGE");
    const char* const given = std::getenv("RC_PARAMS");
    std::string params = given != nullptr ? given : "";
    const std::string key = "seed=";
    const auto place = params.find(key);
    if (place != std::string::npos) {
        return std::strtoull(params.c_str() + place + key.size(), nullptr, 10);
    }
    params += (params.empty() ? "" : " ") + key + std::to_string(usualSeed);
    ::setenv("RC_PARAMS", params.c_str(), 1);
    return usualSeed;
}

const std::uint64_t seed = settle();
std::atomic<std::uint64_t> state{seed};

/// SplitMix64 (Steele, Lea and Flood 2014).
std::uint64_t nextNumber() {
    std::uint64_t number = state.fetch_add(0x9E37'79B9'7F4A'7C15);
    number = (number ^ (number >> 30U)) * 0xBF58'476D'1CE4'E5B9;
    number = (number ^ (number >> 27U)) * 0x94D0'49BB'1331'11EB;
    return number ^ (number >> 31U);
}

/// In place of SQLite's own `randomblob`, of which the keys in books are made.
void randomBlob(sqlite3_context* context, int /*count*/, sqlite3_value** values) {
    std::string bytes(static_cast<std::size_t>(std::max(1, sqlite3_value_int(values[0]))), '\0');
    for (char& byte : bytes) {
        byte = static_cast<char>(nextNumber());
    }
    sqlite3_result_blob(context, bytes.data(), static_cast<int>(bytes.size()), SQLITE_TRANSIENT);
}

int onConnection(sqlite3* connection, char** /*message*/, const void* /*routines*/) {
    return sqlite3_create_function(connection, "randomblob", 1, SQLITE_UTF8 | SQLITE_INNOCUOUS, nullptr, randomBlob,
                                   nullptr, nullptr);
}

/// Each test case meets the same numbers whether or not others ran before it.
class Restart : public Catch::TestEventListenerBase {
  public:
    using TestEventListenerBase::TestEventListenerBase;

    void testRunStarting(const Catch::TestRunInfo& info) override {
        TestEventListenerBase::testRunStarting(info);
        sqlite3_auto_extension(reinterpret_cast<void (*)()>(onConnection));
    }
    void testCaseStarting(const Catch::TestCaseInfo& info) override {
        TestEventListenerBase::testCaseStarting(info);
        state = seed;
    }
};

}  // namespace

CATCH_REGISTER_LISTENER(Restart)

std::uint64_t midden::testing::seedOfRun() {
    return seed;
}

/// In place of the C++ library's own, of which the names of entries are made.
std::random_device::result_type std::random_device::_M_getval() {
    return static_cast<result_type>(nextNumber());
}
