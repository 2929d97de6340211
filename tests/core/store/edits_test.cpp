// SPDX-License-Identifier: GPL-3.0-or-later
// Every edit gives the edit that undoes it: a law, tried on random seasons.
#include <catch2/catch.hpp>

#include "tests/core/store/random_season.h"

using namespace midden;
using namespace midden::trial;

TEST_CASE("edits undone in reverse leave the book as it was", "[random]") {
    const bool holds = rc::check([] {
        auto book = Logbook::inMemory();
        book.setHand("Ada", [] { return at(70).at; });
        const int steps = upTo(40);
        std::vector<std::string> before;
        std::vector<Edit> inverses;
        for (int i = 0; i < steps; ++i) {
            const Edit edit = upTo(2) == 0 ? someChange(book) : somePut(book);
            const auto now = textOf(book);
            try {
                inverses.push_back(book.apply(edit).inverse);
                before.push_back(now);
            } catch (const LogbookError& error) {
                RC_ASSERT(error.kind == LogbookError::Kind::refused);
                RC_ASSERT(textOf(book) == now);
            }
        }
        RC_CLASSIFY(inverses.size() > 15, "more than 15 edits");
        const auto atTheEnd = textOf(book);
        std::vector<Edit> again;
        while (!inverses.empty()) {
            again.push_back(book.apply(inverses.back()).inverse);
            inverses.pop_back();
            RC_ASSERT(textOf(book) == before.back());
            before.pop_back();
        }
        while (!again.empty()) {
            book.apply(again.back());
            again.pop_back();
        }
        RC_ASSERT(textOf(book) == atTheEnd);
    });
    CHECK(holds);
}
