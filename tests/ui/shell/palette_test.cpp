// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/palette.h"
#include "tests/ui/support/qt_support.h"

using namespace midden::ui;

namespace {

// Web Content Accessibility Guidelines 2.2: 1.4.3 contrast of text 4.5, 1.4.11 contrast of controls 3.
constexpr double text = 4.5;
constexpr double control = 3.0;

}  // namespace

TEST_CASE("contrast is reckoned as the guidelines reckon it") {
    CHECK(contrast(Qt::black, Qt::white) == Approx(21.0));
    // Worked example of W3C technique G18 and common tools: #767676 on white is 4.54 (from memory, unverified).
    CHECK(contrast(QColor{0x76, 0x76, 0x76}, Qt::white) == Approx(4.54).margin(0.01));
}

TEST_CASE("words and traces stand out from every ground they are put on") {
    const Palette& look =
        GENERATE(as<std::reference_wrapper<const Palette>>{}, Palette::light(), Palette::dark()).get();
    for (const QColor& colour : {look.text, look.muted}) {
        CHECK(contrast(colour, look.ground) >= text);
        CHECK(contrast(colour, look.side) >= text);
        CHECK(contrast(colour, look.chosen) >= text);
    }
    CHECK(contrast(look.text, look.band) >= text);
    CHECK(contrast(look.question, look.ground) >= text);
    CHECK(contrast(look.onAccent, look.accent) >= text);
    CHECK(contrast(look.edge, look.ground) >= control);
    CHECK(contrast(look.outside, look.ground) >= control);
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(contrast(look.trace(i).colour, look.ground) >= text);
    }
}

TEST_CASE("traces differ in dash and mark too") {
    for (const Palette* look : {&Palette::light(), &Palette::dark()}) {
        for (std::size_t i = 0; i < 4; ++i) {
            for (std::size_t j = i + 1; j < 4; ++j) {
                CHECK(look->trace(i).dash != look->trace(j).dash);
                CHECK(look->trace(i).mark != look->trace(j).mark);
            }
        }
    }
}
