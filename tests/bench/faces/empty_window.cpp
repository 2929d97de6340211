// SPDX-License-Identifier: GPL-3.0-or-later
// What Qt itself takes to show a window with nothing but an empty chart in it.
#include <QApplication>
#include <QChart>
#include <QChartView>
#include <QMainWindow>

#include "tests/bench/faces/first_paint.h"

int main(int argc, char** argv) {
    const QApplication program{argc, argv};
    const midden::bench::FirstPaint first;
    QMainWindow window;
    window.setCentralWidget(new QChartView{new QChart});
    window.resize(1'180, 760);
    window.show();
    return QApplication::exec();
}
