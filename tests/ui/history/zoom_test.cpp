// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/zoom.h"

#include <rapidcheck.h>

#include <catch2/catch.hpp>

using namespace midden;
using namespace midden::ui;

namespace {
constexpr Interval whole{Instant{0}, Instant{1'000'000}};
}

TEST_CASE("zooming keeps the instant under the cursor where it was") {
    const Interval visible{Instant{200'000}, Instant{600'000}};
    const Interval closer = zoomed(visible, whole, Instant{300'000}, 0.5);
    CHECK(closer == Interval{Instant{250'000}, Instant{450'000}});
}

TEST_CASE("no zoom and no move leaves the batch nor comes closer than ten minutes", "[random]") {
    CHECK(rc::check([] {
        const auto from = *rc::gen::inRange(0, 900'000);
        Interval visible{Instant{from}, Instant{from + *rc::gen::inRange(600, 100'001)}};
        for (int i = 0; i < 20; ++i) {
            if (*rc::gen::arbitrary<bool>()) {
                const Instant about{*rc::gen::inRange(visible.from.utcSeconds, visible.to.utcSeconds + 1)};
                visible = zoomed(visible, whole, about, *rc::gen::element(0.3, 0.8, 1.25, 4.0));
            } else {
                visible = moved(visible, whole, *rc::gen::element(-0.9, -0.15, 0.15, 0.9));
            }
            RC_ASSERT(visible.from >= whole.from);
            RC_ASSERT(visible.to <= whole.to);
            RC_ASSERT(visible.length() >= closestLook);
        }
    }));
}

TEST_CASE("a move to show an instant is no longer than it must be") {
    const Interval visible{Instant{200'000}, Instant{300'000}};
    CHECK(showing(visible, whole, Instant{250'000}) == visible);
    CHECK(showing(visible, whole, Instant{400'000}) == Interval{Instant{305'000}, Instant{405'000}});
    CHECK(showing(visible, whole, Instant{0}) == Interval{Instant{0}, Instant{100'000}});
}
