// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/air_part.h"

#include <QCoreApplication>
#include <QLabel>

#include "core/recipe/fact.h"
#include "core/thermal/vent.h"
#include "ui/setup/amend_bin.h"
#include "ui/shared/elided_label.h"
#include "ui/shared/saved_line.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr std::size_t cellsInRow = 5;
constexpr double warm = 55;
constexpr double cool = 10;

QString figureText(const std::optional<double>& figure) {
    return figure ? words::localised(QString::number(*figure, 'g', 6).toStdString()) : QString{};
}

QString nameOfCell(const char* cell, BinId bin) {
    return QStringLiteral("%1_%2").arg(QLatin1String{cell}).arg(static_cast<qlonglong>(bin));
}

}  // namespace

QString airInWords(const Bin& bin) {
    if (bin.airChangesPerHour && !bin.volumeLitres) {
        return AirPart::tr("the bin's volume is missing");
    }
    const auto air = airThrough(bin, warm, cool);
    if (!air) {
        return {};
    }
    const QString flow = words::number(air->cubicMetresAnHour, 1);
    const QString watts = words::number(ventWatts(air->cubicMetresAnHour, warm, cool), 0);
    return air->isMost ? AirPart::tr("at most %1 m³ an hour and %2 W").arg(flow, watts)
                       : AirPart::tr("%1 m³ an hour and about %2 W").arg(flow, watts);
}

AirPart::AirPart(Book& book, QWidget* parent)
    : SetupGrid{tr("Air through the bins"),
                tr("Warm air that leaves takes heat with it. Give the free area of the smaller of two openings and how "
                   "far "
                   "the upper lies above the lower. Or give how often an hour the air is changed, if somebody measured "
                   "it. Leave out what you do not know."),
                parent},
      book_{book} {
    const TradeFact& chimney = tradeFact("chimney");
    addNote(
        words::text(chimney.words + " " + chimney.limits) + QLatin1Char{' '} +
            tr("What leaves is told for 55 °C inside and 10 °C outside. A heap in the way lets far less through."),
        words::onSeveralLines(tr(
            "0.65·A·√(2·g·h·(Ti − To)/To): ASHRAE Handbook, Fundamentals (1997), page 25.13, equation 37, as quoted. "
            "Heat: the enthalpies of moist air, see the help on facts.")));
    connect(&book, &Book::changed, this, &AirPart::refresh);
    refresh();
}

void AirPart::refresh() {
    const std::vector<Bin> bins = book_.log().bins();
    QString shape;
    for (const Bin& bin : bins) {
        shape += nameOfCell("", bin.id);
    }
    remake(shape,
           {tr("bin"), tr("smaller opening, cm²"), tr("lower to upper opening, cm"), tr("changes of air an hour"),
            tr("what leaves with it")},
           [&] {
               fillers_.clear();
               for (const Bin& bin : bins) {
                   addRow(bin);
               }
           });
    for (std::size_t i = 0; i < fillers_.size(); ++i) {
        fillers_[i](bins[i / cellsInRow]);
    }
}

void AirPart::addRow(const Bin& bin) {
    const int row = nextRow();
    auto* name = new ElidedLabel{words::text(bin.name), this};
    put(name, row, 0);
    fillers_.emplace_back([name](const Bin& now) { name->setText(words::text(now.name)); });
    addFigure(bin, row, 1, &Bin::ventSquareCentimetres);
    addFigure(bin, row, 2, &Bin::ventRiseCentimetres);
    addFigure(bin, row, 3, &Bin::airChangesPerHour);
    auto* outcome = label(row, 4, {});
    outcome->setWordWrap(true);
    outcome->setObjectName(nameOfCell("binAirWords", bin.id));
    fillers_.emplace_back([outcome](const Bin& now) { outcome->setText(airInWords(now)); });
}

void AirPart::addFigure(const Bin& bin, int row, int column, std::optional<double> Bin::*figure) {
    const QStringList spoken{{},
                             tr("Smaller opening of %1 in square centimetres"),
                             tr("Height from the lower to the upper opening of %1 in centimetres"),
                             tr("Changes of air an hour in %1")};
    SavedLine* cell = line(row, column, nameOfCell("binAir", bin.id) + QStringLiteral("_%1").arg(column),
                           spoken.at(column).arg(words::text(bin.name)), 10);
    cell->setAlignment(Qt::AlignRight);
    cell->setReadOnly(book_.isReadOnly());
    connect(cell, &SavedLine::typed, this, [this, cell, figure, id = bin.id](const QString& typed) {
        const auto amount = readAmount(typed);
        const bool usable = typed.trimmed().isEmpty() || (amount && *amount >= 0);
        say(usable ? QString{}
                   : tr("Not saved: %1.")
                         .arg(amount ? tr("it is nothing at least") : words::text(amount.error().sentence())));
        if (usable &&
            amendBin(book_, id, [&](Bin& b) { b.*figure = amount ? std::optional{*amount} : std::nullopt; })) {
            cell->setTaken();
        }
    });
    fillers_.emplace_back([cell, figure](const Bin& now) { cell->setStored(figureText(now.*figure)); });
}

}  // namespace midden::ui
