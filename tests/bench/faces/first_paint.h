// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QCoreApplication>
#include <QEvent>
#include <QTimer>
#include <cstdio>
#include <cstdlib>

#include "tests/bench/row.h"

namespace midden::bench {

/// Says on stdout when a window has been painted for the first time, and how much processor time that took, then ends
/// the program.
class FirstPaint : public QObject {
  public:
    FirstPaint() { QCoreApplication::instance()->installEventFilter(this); }

    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() == QEvent::Paint && !isSeen_) {
            isSeen_ = true;
            // Everything that is painted with it comes first.
            QTimer::singleShot(0, this, [] {
                std::printf("%.0f %.0f\n", wallNanoseconds(), cpuNanoseconds());
                std::fflush(stdout);
                std::_Exit(0);
            });
        }
        return QObject::eventFilter(watched, event);
    }

  private:
    bool isSeen_ = false;
};

}  // namespace midden::bench
