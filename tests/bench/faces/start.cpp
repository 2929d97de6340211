// SPDX-License-Identifier: GPL-3.0-or-later
// From the start of the program to its first painted window, in a process of its own each time.
#include <QApplication>
#include <QProcess>

#include "tests/bench/faces/first_paint.h"
#include "tests/bench/faces/parts.h"
#include "tests/bench/invented_readings.h"
#include "tests/bench/row.h"
#include "ui/shared/appearance.h"
#include "ui/shared/plain_text.h"
#include "ui/shared/qt_prompts.h"
#include "ui/shell/main_window.h"

namespace midden::bench {

namespace {

struct Started {
    double wall = 0;
    double cpu = 0;
};

/// A program that says when it painted first, and what it is to show.
struct Program {
    QString file;
    QStringList words;
};

Started startOnce(const Program& program) {
    QProcess child;
    const double begun = wallNanoseconds();
    child.start(program.file, program.words);
    child.waitForFinished(600'000);
    const auto said = QString::fromUtf8(child.readAllStandardOutput()).split(QLatin1Char{' '});
    if (said.size() != 2) {
        qFatal("bench_faces: the window was never painted");
    }
    return {said[0].toDouble() - begun, said[1].toDouble()};
}

/// Medians; both are started by turns.
std::pair<Started, Started> startBoth(const Program& one, const Program& other, int runs) {
    std::vector<double> times[4];
    for (int i = 0; i < runs; ++i) {
        const Started a = startOnce(one);
        const Started b = startOnce(other);
        times[0].push_back(a.wall);
        times[1].push_back(a.cpu);
        times[2].push_back(b.wall);
        times[3].push_back(b.cpu);
    }
    return {{median(times[0]), median(times[1])}, {median(times[2]), median(times[3])}};
}

Program showing(const QString& book) {
    return {QApplication::applicationFilePath(), {QStringLiteral("--show"), book, book + QStringLiteral("-copies")}};
}

Program emptyWindow() {
    return {QApplication::applicationDirPath() + QStringLiteral("/bench_empty_window"), {}};
}

/// Twenty bins of thirty thousand readings: about 10 MB.
QString tenMegabytes(const Books& books) {
    QString path = books.folder + QStringLiteral("/ten.midden");
    Logbook book = Logbook::open(path.toStdString(), Logbook::Mode::createIfAbsent);
    const int readings = books.smoke ? 100 : 30'000;
    for (int i = 0; i < 20; ++i) {
        const auto bin = std::get<BinId>(book.apply(Put<Bin>{{.name = "Bin " + std::to_string(i)}}).id);
        book.apply(Put<Batch>{
            {.name = "Batch " + std::to_string(i), .started = {inventedStart, {}}, .stays = {{inventedStart, bin}}}});
        std::vector<RawReading> raw;
        raw.reserve(static_cast<std::size_t>(readings));
        for (int minute = 0; minute < readings; ++minute) {
            raw.push_back({inventedStart + minutes(minute), inventedReading(minute, 0)});
        }
        book.addReadings({.place = {bin, "core"}}, raw);
    }
    return path;
}

}  // namespace

int showOnce(const QString& book, const QString& copies) {
    const FirstPaint first;
    // As app/desktop.cpp does.
    ui::apply(ui::Appearance::load(), *qApp);
    ui::showTextAsText(*qApp);
    ui::QtPrompts prompts;
    const auto clock = [] { return inventedStart + days(21); };
    ui::MainWindow window{prompts, clock};
    window.keepCopiesIn(copies.toStdString(), clock);
    window.openBook(book);
    window.show();
    return QApplication::exec();
}

void measureStart(const Books& books) {
    const int runs = books.runs(9);
    const auto [own, empty] = startBoth(showing(tenMegabytes(books)), emptyWindow(), runs);
    const auto clock = [](const Started& started) { return fmt::format("{:.0f} ms", started.wall / 1e6); };
    print({.name = "start to first paint",
           .measured = own.cpu,
           .against = "an empty window with a chart",
           .againstMeasured = empty.cpu,
           .goal = 1.5,
           .note = "on the clock " + clock(own) + " against " + clock(empty)});
    const auto [large, small] =
        startBoth(showing(copyOf(books.large, books.folder, QStringLiteral("large.midden"))),
                  showing(copyOf(books.small, books.folder, QStringLiteral("small.midden"))), runs);
    print({.name = "start: growth with the book",
           .measured = large.cpu,
           .against = "the same with the small book",
           .againstMeasured = small.cpu,
           .goal = 1.2,
           .note = "on the clock " + clock(large) + " against " + clock(small)});
}

}  // namespace midden::bench
