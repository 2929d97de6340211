// SPDX-License-Identifier: GPL-3.0-or-later
// bench_faces --large BOOK --small BOOK [--smoke] [--only PART]: how fast the screens are. Needs no display.
#include <QApplication>
#include <QFile>
#include <QTemporaryDir>
#include <cstdlib>
#include <iostream>

#include "tests/bench/faces/parts.h"

namespace midden::bench {

QString copyOf(const QString& book, const QString& folder, const QString& name) {
    QString copy = folder + QLatin1Char{'/'} + name;
    if (!QFile::copy(book, copy)) {
        std::cerr << "bench_faces: " << qPrintable(book) << " cannot be copied\n";
        std::exit(1);
    }
    return copy;
}

namespace {

struct Part {
    const char* name;
    void (*measure)(const Books&);
};

int measureAll(const QStringList& words) {
    const auto after = [&](const char* word) {
        const auto at = words.indexOf(QLatin1String{word});
        return at < 0 ? QString{} : words.value(at + 1);
    };
    const QTemporaryDir folder{after("--large") + QStringLiteral("-faces-XXXXXX")};
    const Books books{after("--large"), after("--small"), folder.path(), words.contains(QLatin1String{"--smoke"})};
    if (!QFile::exists(books.large) || !QFile::exists(books.small) || !folder.isValid()) {
        std::cerr
            << "usage: bench_faces --large BOOK --small BOOK [--smoke] [--only start|round|history|certificate]\n";
        return 2;
    }
    // Settings of the person who runs this are neither read nor written.
    qputenv("XDG_CONFIG_HOME", folder.path().toUtf8());
    const QString only = after("--only");
    for (const auto& [name, measure] : {Part{"start", measureStart}, Part{"round", measureRound},
                                        Part{"history", measureHistory}, Part{"certificate", measureCertificate}}) {
        if (only.isEmpty() || only == QLatin1String{name}) {
            measure(books);
        }
    }
    return 0;
}

}  // namespace
}  // namespace midden::bench

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication program{argc, argv};
    QApplication::setApplicationName(QStringLiteral("middenbook"));
    QApplication::setOrganizationName(QStringLiteral("middenbook"));
    const QStringList words = QApplication::arguments().mid(1);
    return words.value(0) == QLatin1String{"--show"} ? midden::bench::showOnce(words.value(1), words.value(2))
                                                     : midden::bench::measureAll(words);
}
