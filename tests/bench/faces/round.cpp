// SPDX-License-Identifier: GPL-3.0-or-later
// A number typed in Round: Enter to saved, taken in everywhere and repainted.
#include <QApplication>
#include <QLineEdit>
#include <QTest>

#include "tests/bench/faces/parts.h"
#include "tests/bench/invented_readings.h"
#include "tests/bench/row.h"
#include "ui/shared/batch_status_cache.h"
#include "ui/shared/qt_prompts.h"
#include "ui/shell/main_window.h"
#include "ui/shell/workspace.h"

namespace midden::bench {

namespace {

constexpr int bins = 20;

/// Nineteen bins more, each with a typed batch as long as a season.
void addTypedBins(Logbook& book, Instant now) {
    for (int i = 1; i < bins; ++i) {
        const auto bin = std::get<BinId>(book.apply(Put<Bin>{{.name = fmt::format("Typed {:02}", i)}}).id);
        const Instant start = now - days(120);
        book.apply(
            Put<Batch>{{.name = fmt::format("Typed batch {:02}", i), .started = {start, {}}, .stays = {{start, bin}}}});
        for (const std::string position : {"core", "side"}) {
            std::vector<RawReading> raw;
            raw.reserve(119);
            for (int day = 0; day < 119; ++day) {
                raw.push_back({start + days(day), inventedReading(day * 1'440, 0)});
            }
            book.addReadings({.place = {bin, position}}, raw);
        }
    }
}

/// After the newest reading, to the hour.
Instant roundTime(const Logbook& book) {
    const auto newest = book.lastReadings(book.binNamed("North")->id).front().last.when.at;
    return {(newest.utcSeconds / 3'600 + 3) * 3'600};
}

struct Typed {
    std::vector<double> cpu;
    std::vector<double> wall;  ///< the disk's own time taken off
    std::vector<double> disk;
};

void typeInto(QLineEdit& cell, Typed& typed) {
    cell.setFocus();
    QTest::keyClicks(&cell, QStringLiteral("58.5"));
    QApplication::processEvents();
    const double disk = syncNanoseconds();
    const double wall = wallNanoseconds();
    const double cpu = cpuNanoseconds();
    QTest::keyClick(&cell, Qt::Key_Return);
    QApplication::processEvents();
    QApplication::processEvents();  // paints what the first pass asked for
    const double waited = syncNanoseconds() - disk;
    typed.cpu.push_back(cpuNanoseconds() - cpu);
    typed.wall.push_back(wallNanoseconds() - wall - waited);
    typed.disk.push_back(waited);
}

/// The first position of every bin, "North" among them.
Typed typedRound(const QString& path) {
    Instant now;
    {
        Logbook book = Logbook::open(path.toStdString(), Logbook::Mode::readWrite);
        now = roundTime(book);
        addTypedBins(book, now);
    }
    ui::QtPrompts prompts;
    ui::MainWindow window{prompts, [now] { return now; }};
    if (!window.openBook(path)) {
        qFatal("bench_faces: the book could not be opened");
    }
    window.show();
    window.activateWindow();
    window.workspace()->showScreen(QStringLiteral("round"));
    if (!QTest::qWaitFor([&] { return !window.book()->statusCache().isBusy(); }, 600'000)) {
        qFatal("bench_faces: the batches were never worked out");
    }
    QTest::qWait(50);
    Typed typed;
    for (auto* cell : window.findChildren<QLineEdit*>()) {
        if (cell->objectName().startsWith(QLatin1String{"cell_"}) &&
            cell->objectName().endsWith(QLatin1String{"_core"})) {
            typeInto(*cell, typed);
        }
    }
    if (typed.cpu.size() != bins) {
        qFatal("bench_faces: not every bin could be read");
    }
    return typed;
}

}  // namespace

void measureRound(const Books& books) {
    const Typed large = typedRound(copyOf(books.large, books.folder, QStringLiteral("large-round.midden")));
    const Typed small = typedRound(copyOf(books.small, books.folder, QStringLiteral("small-round.midden")));
    const auto most = *std::max_element(large.cpu.begin(), large.cpu.end());
    print({.name = "Round: keystroke to saved and repainted, without the disk",
           .measured = median(large.cpu),
           .goal = 16e6,
           .note = fmt::format("20 bins; at most {:.1f} ms; on the clock {:.1f} ms, and {:.1f} ms for the disk",
                               most / 1e6, median(large.wall) / 1e6, median(large.disk) / 1e6)});
    print({.name = "Round: growth with the book",
           .measured = median(large.cpu),
           .against = "the same with the small book",
           .againstMeasured = median(small.cpu),
           .goal = 1.2});
}

}  // namespace midden::bench
