// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/thermometer_gap.h"

#include <catch2/catch.hpp>

using namespace midden;

TEST_CASE("one more thermometer helps most in the widest gap between two in the heap") {
    const auto gap = widestGap({72, 22, 45, 50}, 70);
    REQUIRE(gap);
    CHECK(gap->fromCm == 22);
    CHECK(gap->toCm == 45);
    CHECK(gap->helpsAtCm == Approx(33.5));  // half way, so that both pairs tell what lies between them
}

TEST_CASE("in a gap that one more cannot close it goes as far up as two together reach") {
    const auto gap = widestGap({10, 70}, 90);
    REQUIRE(gap);
    CHECK(gap->helpsAtCm == Approx(30));
}

TEST_CASE("a single thermometer leaves what lies above it") {
    const auto gap = widestGap({20}, 60);
    REQUIRE(gap);
    CHECK(gap->toCm == 60);
    CHECK_FALSE(widestGap({45}, 60));
}

TEST_CASE("thermometers that reach one another need no other") {
    CHECK_FALSE(widestGap({22, 42, 62}, 70));
    CHECK_FALSE(widestGap({0.1, 20.1}, 70));
    CHECK_FALSE(widestGap({22, 80}, 30));  // the other stands above the heap
    CHECK_FALSE(widestGap({}, 70));
}
