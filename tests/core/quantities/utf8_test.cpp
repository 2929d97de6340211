// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quantities/utf8.h"

#include <catch2/catch.hpp>

using namespace midden;

TEST_CASE("letters of every script are shown as they are") {
    for (const std::string text : {"North", "Müller’s bin", "堆肥", "كومة", "🪱"}) {
        CHECK(printable(text) == text);
        CHECK_FALSE(firstControl(text));
    }
}

TEST_CASE("what would steer a terminal or break a line is made visible") {
    CHECK(printable("a\x1b[2Jb") == "a␛[2Jb");
    CHECK(printable("one\ntwo\r\tthree") == "one␊two␍␉three");
    CHECK(printable(std::string{"nul\0del\x7f", 8}) == "nul␀del␡");
    CHECK(printable("c1 \u009b31m") == "c1 �31m");
    CHECK(printable("turned \u202egnp and \u2066held\u2069") == "turned �gnp and �held�");
    CHECK(printable("a\u2028b\u2029c\u200fd\u061ce") == "a�b�c�d�e");
}

TEST_CASE("bytes that are not UTF-8 are shown one by one") {
    CHECK(printable("b\xff\xfe end") == "b�� end");
    CHECK(printable("cut \xe2\x90") == "cut ��");
}

TEST_CASE("only control characters that no CSV file takes are found") {
    CHECK(firstControl("a\tb\nc\r") == std::nullopt);
    CHECK(firstControl("ab\x1b") == 2);
    CHECK(firstControl("\x7f") == 0);
}
