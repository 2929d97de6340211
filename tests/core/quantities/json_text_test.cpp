// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quantities/json_text.h"

#include <catch2/catch.hpp>
#include <string>

using namespace midden;

namespace {

std::string nested(std::size_t levels, const std::string& open, const std::string& close) {
    std::string text;
    for (std::size_t i = 0; i < levels; ++i) {
        text += open;
    }
    text += "1";
    for (std::size_t i = 0; i < levels; ++i) {
        text += close;
    }
    return text;
}

}  // namespace

TEST_CASE("JSON is read down to a depth and no further") {
    for (const auto& [open, close] : {std::pair{"[", "]"}, std::pair{"{\"a\":", "}"}, std::pair{"[{\"a\":", "}]"}}) {
        const std::size_t each = std::string{open}.size() > 1 && open[0] == '[' ? 2 : 1;
        CHECK(readJson(nested(deepestJson / each, open, close)));
        CHECK_FALSE(readJson(nested(deepestJson / each + 1, open, close)));
        CHECK_FALSE(readJson(nested(100'000, open, close)));
        CHECK_FALSE(readJson(nested(100'000, open, "")));
    }
}

TEST_CASE("brackets and commas within a text count for nothing") {
    const auto read = readJson(R"({"a": ")" + std::string(1'000, '[') + R"(\"\\", "b": ")" +
                               std::string(2 * mostValuesOfJson, ',') + R"("})");
    REQUIRE(read);
    CHECK(read->at("a").get<std::string>().size() == 1'002);
}

TEST_CASE("JSON of too many values or bytes is refused before it is built") {
    std::string many = "[1";
    for (std::size_t i = 0; i < mostValuesOfJson; ++i) {
        many += ",1";
    }
    CHECK(readJson(many + "]").error().wrong == "the text holds too much");
    CHECK(readJson('"' + std::string(longestJson, 'a') + '"').error().wrong == "the text is too long");
}

TEST_CASE("what is no JSON is refused with its place") {
    for (const char* text : {"", "no", "{", "[1,]", "{\"a\" 1}", "\"\xff\"", "1e999", "[1] 2", "\"open"}) {
        const auto read = readJson(text);
        REQUIRE_FALSE(read);
        CHECK_THAT(read.error().wrong, Catch::StartsWith("the text is not JSON"));
    }
}
