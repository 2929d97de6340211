// SPDX-License-Identifier: GPL-3.0-or-later
#include <QLabel>
#include <QTest>
#include <QToolButton>

#include "tests/ui/support/made_batch.h"
#include "tests/ui/support/made_book.h"
#include "tests/ui/support/qt_support.h"
#include "ui/history/history_screen.h"
#include "ui/history/hours_left.h"
#include "ui/history/trace_view.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

/// Invented: hot too briefly, cold for two days, hot again; read daily with the air outside.
BatchRecord withStall(std::initializer_list<double> temperatures) {
    BatchRecord record = madeRecord();
    Track track{"core", false, {}};
    double hour = 0;
    for (const double temperature : temperatures) {
        track.samples.push_back(sampleAt(hour, temperature));
        record.outside.push_back(sampleAt(hour, 10));
        hour += 24;
    }
    record.tracks.push_back(track);
    return record;
}

struct Opened {
    explicit Opened(const BatchRecord& record, double nowHour) : book{record, afterHours(nowHour)}, screen{*book} {
        screen.resize(1'200, 900);
        screen.show();
        REQUIRE(waitUntil([&] { return !screen.isLoading(); }));
        QCoreApplication::processEvents();
        QObject::connect(&screen, &HistoryScreen::stallWanted, [this](const Stall& stall) { wanted = stall; });
    }
    QString words(const char* name) const { return plain(screen.findChild<QLabel*>(name)->text()); }

    MadeBook book;
    HistoryScreen screen;
    std::optional<Stall> wanted;
};

HoursContext contextAt(double hour) {
    return {HoldTarget{}, TimeZone::utc(), TemperatureUnit::celsius, {afterHours(hour), {}}};
}

BinOutlook outlook(const BatchRecord& record) {
    return outlookOf(record, stallsOf(record));
}

}  // namespace

TEST_CASE("the heat it made stands under the temperatures on the same time axis") {
    NoQtWarnings quiet;
    Opened opened{withStall({20, 58, 60, 44, 38, 34, 50, 52}), 169};
    TraceView& trace = opened.screen.trace();
    const ChartHeat& heat = trace.plan().heat;
    REQUIRE(heat.steps.size() == 7);
    for (const ChartHeatStep& step : heat.steps) {
        CHECK(step.low <= step.rate);
        CHECK(step.rate <= step.high);
    }
    CHECK(heat.lowest <= 0);
    CHECK(heat.caption.contains("per hour"));
    const ChartLayout& layout = trace.layoutNow();
    CHECK(layout.heat.top() >= layout.plot.bottom());
    CHECK(layout.heat.left() == layout.plot.left());
    CHECK(layout.heat.width() == layout.plot.width());
}

TEST_CASE("without outside temperatures no heat is drawn and the figures say what is missing") {
    NoQtWarnings quiet;
    BatchRecord record = withStall({20, 58, 60, 44, 38, 34});
    record.outside.clear();
    Opened opened{record, 121};
    CHECK(opened.screen.trace().plan().heat.steps.empty());
    CHECK(opened.screen.trace().layoutNow().heat.isEmpty());
    opened.screen.findChild<QToolButton*>("figures")->click();
    CHECK(opened.words("heatFigures").contains("once temperatures outside are read"));
    CHECK(opened.words("teachingSources").startsWith("For teaching only, never a verdict."));
}

TEST_CASE("many rounds are drawn as few steps with the widest band") {
    BatchRecord record = madeRecord();
    record.tracks.push_back(madeTrack("core", 0, 2, 3'000));
    for (int i = 0; i < 500; ++i) {
        record.outside.push_back(sampleAt(i * 12.0, 8));
    }
    const BatchReview review = reviewOf(record, {});
    REQUIRE(review.heat.rates.size() > 2'000);
    ChartView view;
    view.visible = wholeBatch(record);
    view.width = 300;
    view.columns = 300;
    view.textWidth = [](const QString& text) { return 7.0 * static_cast<double>(text.size()); };
    view.withHeat = true;
    const ChartPlan plan = chartPlan(record, review, view);
    CHECK(plan.heat.steps.size() <= 301);
    CHECK(plan.heat.steps.size() > 100);
    view.withHeat = false;
    CHECK(chartPlan(record, review, view).heat.steps.empty());
}

TEST_CASE("a stalled stretch asks for its stall by click by enter and by F8") {
    NoQtWarnings quiet;
    Opened opened{withStall({20, 58, 60, 44, 38, 34, 50, 52}), 169};
    TraceView& trace = opened.screen.trace();
    const ChartLayout layout = trace.layoutNow();
    REQUIRE(trace.plan().stalls.size() == 1);
    QTest::mouseClick(trace.viewport(), Qt::LeftButton, {},
                      QPointF{layout.xOf(afterHours(100)), layout.stalls.center().y()}.toPoint());
    REQUIRE(opened.wanted);
    CHECK(opened.wanted->from == afterHours(72));
    opened.wanted.reset();
    trace.setFocus();
    QTest::keyClick(&trace, Qt::Key_F8);
    CHECK(opened.wanted);
    opened.wanted.reset();
    for (int i = 0; i < 5; ++i) {
        QTest::keyClick(&trace, Qt::Key_Right);
    }
    QTest::keyClick(&trace, Qt::Key_Space);
    CHECK_FALSE(opened.wanted);
    CHECK(opened.screen.findChild<QLabel*>("why")->isVisible());
    QTest::keyClick(&trace, Qt::Key_Return);
    CHECK(opened.wanted);
}

TEST_CASE("the line of hours says what is credited what is short and how late the next reading may be") {
    const BatchRecord record = withStall({30, 58, 60});
    const QString words = plain(hoursLeft(outlook(record), false, contextAt(49)));
    CHECK(words ==
          "24 of 72 h credited, 48 h short. If every reading until then qualifies and the next round is on "
          "time, a reading from 08:00 on Thu 5 March completes it. Read again by 20:00 tomorrow, or the "
          "hold breaks.");
    CHECK(plain(hoursLeft(outlook(record), false, contextAt(90))) ==
          "The hold broke at 20:00 on Wed 4 March with 24 of 72 h credited, because no reading came in time. A round "
          "that "
          "was read in that time, typed in with its own time, brings it back.");
    CHECK(plain(hoursLeft(outlook(record), true, contextAt(49))) == "The longest hold was 24 of 72 h.");
    BatchRecord asRead = withStall({55.5, 58, 60, 55.5, 40});
    for (Sample& sample : asRead.tracks[0].samples) {
        sample = {sample.at, sample.temperature(), Kelvins::ofTenThousandths(10'000)};
    }
    CHECK(plain(hoursLeft(outlook(asRead), true, contextAt(97))) ==
          "The longest hold was 24 of 72 h. That is with the thermometer's error held against every reading; as read "
          "it was 72 h.");
    CHECK(
        plain(hoursLeft(outlook(withStall({58, 58, 60, 60})), false, contextAt(73))).startsWith("The target is shown"));
    CHECK(plain(hoursLeft(outlook(withStall({58, 60, 50})), false, contextAt(49))).startsWith("No hold is running"));
}

TEST_CASE("a band for the next round is shown with its tried error or not at all") {
    NoQtWarnings quiet;
    Opened few{withStall({20, 58, 60, 61}), 73};
    CHECK_FALSE(few.screen.trace().plan().forecast);
    CHECK_FALSE(few.words("hoursLeft").contains("Shaded"));
    Opened many{withStall({20, 40, 55, 60, 61, 60, 62, 60, 61, 59, 60, 58}), 265};
    const auto& forecast = many.screen.trace().plan().forecast;
    REQUIRE(forecast);
    CHECK(forecast->low < forecast->high);
    CHECK(forecast->at > afterHours(264));
    CHECK(many.screen.trace().visible().to > forecast->at);
    CHECK(many.words("hoursLeft").contains("missed by up to"));
}

TEST_CASE("the figures fold out and in") {
    NoQtWarnings quiet;
    Opened opened{withStall({20, 58, 60, 44, 38, 34, 50, 52}), 169};
    auto* panel = opened.screen.findChild<QWidget*>("figuresPanel");
    CHECK_FALSE(panel->isVisible());
    auto* button = opened.screen.findChild<QToolButton*>("figures");
    button->setFocus();
    QTest::keyClick(button, Qt::Key_Space);
    CHECK(panel->isVisible());
    CHECK(opened.words("heatFigures").contains("°C per hour"));
    CHECK(opened.words("heatLimits").contains("left out"));
    CHECK(opened.words("teachingFigures").contains("days at 10 °C"));
    CHECK(opened.screen.findChild<QWidget*>("ratePicture")->isVisible());
    QTest::keyClick(button, Qt::Key_Space);
    CHECK_FALSE(panel->isVisible());
}
