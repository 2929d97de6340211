// SPDX-License-Identifier: GPL-3.0-or-later
// The parts of bench_faces. Each prints its rows; tests/bench/run says what they mean.
#pragma once

#include <QString>

namespace midden::bench {

/// What the program was asked for: two books of one batch "Long" in bin "North", and a folder to work in.
struct Books {
    QString large;
    QString small;
    QString folder;
    bool smoke = false;  ///< sizes of a moment

    int runs(int usual) const { return smoke ? 1 : usual; }
};

void measureStart(const Books& books);
void measureRound(const Books& books);
void measureHistory(const Books& books);
void measureCertificate(const Books& books);

/// Opens the book as the desktop program does, says when it was painted first, and ends. Copies would go to `copies`.
int showOnce(const QString& book, const QString& copies);

/// A copy to work on.
QString copyOf(const QString& book, const QString& folder, const QString& name);

/// Time spent waiting for the disk in fsync and fdatasync since the program began, nanoseconds on the clock.
double syncNanoseconds();

}  // namespace midden::bench
