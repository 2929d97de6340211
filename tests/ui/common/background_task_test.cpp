// SPDX-License-Identifier: GPL-3.0-or-later
// Work beside the window's own thread.
#include "ui/shared/background_task.h"

#include <QElapsedTimer>
#include <QImage>
#include <QPainter>
#include <QTest>
#include <QThread>
#include <array>

#include "tests/ui/support/qt_support.h"

using midden::testing::aMinute;
using midden::testing::waitUntil;
using midden::ui::BackgroundTask;

TEST_CASE("the window can paint while long work takes all threads there are for it") {
    std::atomic<bool> isEnough = false;
    std::atomic<int> begun = 0;
    std::atomic<int> gaveUp = 0;
    std::vector<std::unique_ptr<BackgroundTask>> works(static_cast<std::size_t>(2 * QThread::idealThreadCount()));
    for (auto& work : works) {
        work = std::make_unique<BackgroundTask>();
        work->start([&](const BackgroundTask::TaskProgress& progress) -> BackgroundTask::Delivery {
            ++begun;
            QElapsedTimer clock;
            clock.start();
            while (!isEnough && !progress.isUnwanted() && clock.elapsed() < aMinute) {
                QThread::msleep(1);
            }
            gaveUp += isEnough ? 0 : 1;
            return [] {};
        });
    }
    REQUIRE(waitUntil([&] { return begun == QThread::idealThreadCount(); }));
    QImage picture{2'000, 2'000, QImage::Format_ARGB32_Premultiplied};
    picture.fill(Qt::white);
    QPainter painter{&picture};
    QLinearGradient shade{0, 0, 2'000, 2'000};
    shade.setColorAt(0, QColor{0, 0, 0, 40});
    shade.setColorAt(1, QColor{200, 0, 0, 160});
    painter.fillRect(picture.rect(), shade);
    painter.end();
    CHECK(gaveUp == 0);
    isEnough = true;
    for (auto& work : works) {
        CHECK(waitUntil([&] { return !work->isRunning(); }));
    }
}
