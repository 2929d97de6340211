// SPDX-License-Identifier: GPL-3.0-or-later
// The layers of a fed batch in History.
#include <QLabel>
#include <QToolButton>

#include "core/records/level.h"
#include "tests/ui/history/opened_history.h"
#include "ui/history/trace_view.h"
#include "ui/layers/layers_panel.h"
#include "ui/layers/layers_view.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

/// Fed every four days for six weeks, read at two heights, levelled and drawn from once.
BatchRecord fedRecord() {
    BatchRecord record = sixtyDays();
    record.batch.fed = true;
    record.bin.volumeLitres = 250;
    record.bin.heightCentimetres = 100;
    record.bin.hatchTopCentimetres = 12;
    record.tracks.pop_back();
    record.tracks[0].heightCentimetres = 15;
    record.tracks[1].heightCentimetres = 30;
    record.additions.clear();
    record.observations.clear();
    for (int day = 0; day < 60; day += 4) {
        Addition addition;
        addition.when = {afterHours(day * 24 + 1), {}};
        addition.material = "kitchen scraps";
        addition.massKilograms = 8;
        addition.volumeLitres = 16;
        addition.raw = true;
        record.additions.push_back(addition);
    }
    for (int day = 5; day < 60; day += 6) {
        Observation level;
        level.when = {afterHours(day * 24 + 2), {}};
        level.kind = ObservationKind::level;
        level.value = levelText(10 + day * 0.6);
        record.observations.push_back(level);
    }
    Harvest harvest;
    harvest.when = {afterHours(50 * 24), {}};
    harvest.volumeLitres = 20;
    record.harvests.push_back(harvest);
    return record;
}

QToolButton& layersButton(Opened& opened) {
    return *opened.screen.findChild<QToolButton*>("showLayers");
}

}  // namespace

TEST_CASE("a fed batch shows its layers in place of its temperatures") {
    const NoQtWarnings quiet;
    Opened opened{fedRecord()};
    auto& button = layersButton(opened);
    auto& view = *opened.screen.findChild<LayersView*>();
    REQUIRE(button.isVisible());
    CHECK_FALSE(view.isVisible());
    CHECK(opened.screen.trace().isVisible());
    QTest::keyClick(&button, Qt::Key_Space);
    CHECK(view.isVisible());
    CHECK_FALSE(opened.screen.trace().isVisible());
    CHECK_FALSE(opened.screen.findChild<QToolButton*>("whole")->isVisible());
    CHECK_FALSE(view.plan().areas.empty());
    CHECK(view.plan().thermometers.size() >= 2);
    QTest::keyClick(&view, Qt::Key_Up);
    CHECK(plain(opened.screen.findChild<QLabel*>("layerStory")->text()).startsWith("Fed "));
    QTest::keyClick(&button, Qt::Key_Space);
    CHECK_FALSE(view.isVisible());
    CHECK(opened.screen.trace().isVisible());
    CHECK(unnamed(opened.screen) == QStringList{});
    if (const auto folder = qEnvironmentVariable("MIDDENBOOK_PICTURES"); !folder.isEmpty()) {
        QTest::keyClick(&button, Qt::Key_Space);
        opened.screen.grab().save(folder + QStringLiteral("/history-layers.png"));
    }
}

TEST_CASE("thermometers have the same colours in the layers as in the chart") {
    Opened opened{fedRecord()};
    layersButton(opened).click();
    for (const auto& thermometer : opened.screen.findChild<LayersView*>()->plan().thermometers) {
        if (!thermometer.isMissing) {
            const auto& traces = opened.screen.trace().plan().traces;
            const auto same = std::ranges::find(traces, thermometer.name, &ChartTrace::position);
            REQUIRE(same != traces.end());
            CHECK(same->look == thermometer.look);
        }
    }
}

TEST_CASE("a filled batch has no layers to show") {
    Opened opened{sixtyDays()};
    CHECK_FALSE(layersButton(opened).isVisible());
    CHECK(opened.screen.trace().isVisible());
    layersButton(opened).setChecked(true);
    CHECK(opened.screen.trace().isVisible());
}

TEST_CASE("layers follow what is written down") {
    Opened opened{fedRecord()};
    layersButton(opened).click();
    auto& view = *opened.screen.findChild<LayersView*>();
    const auto feeds = [&] {
        int count = 0;
        for (const LayersMark& mark : view.plan().marks) {
            count += mark.kind == EventKind::feed ? mark.count : 0;
        }
        return count;
    };
    CHECK(feeds() == 15);
    Addition addition;
    addition.batch = *opened.book->batch();
    addition.when = {afterHours(62 * 24), {}};
    addition.material = "kitchen scraps";
    addition.massKilograms = 8;
    addition.raw = true;
    opened.book->change(Put<Addition>{addition}, "Added");
    opened.settle();
    CHECK(feeds() == 16);
    CHECK(view.isVisible());
}

TEST_CASE("History says of a fed batch what lies at its base, and nothing of a hold") {
    const NoQtWarnings quiet;
    Opened opened{fedRecord()};
    const QString words = plain(opened.screen.findChild<QLabel*>("hoursLeft")->text());
    CHECK(words.contains("layer: about"));
    CHECK(words.contains("at least"));
    CHECK_FALSE(words.contains("of 72 h"));
    CHECK_FALSE(words.contains("hold"));
}
