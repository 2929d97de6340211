// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/bins_part.h"

#include <QCheckBox>
#include <QLabel>

#include "ui/round/safety_line.h"
#include "ui/setup/amend_bin.h"
#include "ui/shared/saved_line.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr std::size_t cellsInRow = 5;

QString figureText(const std::optional<double>& figure) {
    return figure ? words::localised(QString::number(*figure, 'g', 6).toStdString()) : QString{};
}

QString shapeOf(const std::vector<Bin>& bins) {
    QString shape;
    for (const Bin& bin : bins) {
        shape += QStringLiteral("%1|").arg(static_cast<qlonglong>(bin.id));
    }
    return shape;
}

QString named(const char* cell, BinId bin) {
    return QStringLiteral("%1_%2").arg(QLatin1String{cell}).arg(static_cast<qlonglong>(bin));
}

}  // namespace

BinsPart::BinsPart(Book& book, QWidget* parent)
    : SetupGrid{tr("Bins"), tr("Size and wall help to tell a stall from cold weather; leave out what you do not know."),
                parent},
      book_{book} {
    const SafetyLine caution = safetyLineFor(Act::settingUp);
    addNote(caution.words, caution.source)->setObjectName(QStringLiteral("binsCaution"));
    connect(&book, &Book::changed, this, &BinsPart::refresh);
    refresh();
}

void BinsPart::refresh() {
    const std::vector<Bin> bins = book_.log().bins();
    remake(shapeOf(bins),
           {tr("name"), tr("volume, L"), tr("wall, mm"), tr("its conductivity, W/\u2060(m·K)"), tr("in use")},
           [&] { addRows(bins); });
    for (std::size_t i = 0; i < fillers_.size(); ++i) {
        fillers_[i](bins[i / cellsInRow]);
    }
}

void BinsPart::addRows(const std::vector<Bin>& bins) {
    fillers_.clear();
    for (const Bin& bin : bins) {
        addRow(bin);
    }
    SavedLine* added =
        newLine(nextRow(), 0, QStringLiteral("newBin"), tr("Name of a new bin"), [this](const QString& name) {
            return book_.change(Put<Bin>{{.name = words::utf8(name)}}, tr("bin %1").arg(name));
        });
    added->setPlaceholderText(tr("new bin"));
    added->setReadOnly(book_.isReadOnly());
}

void BinsPart::addRow(const Bin& bin) {
    const int row = nextRow();
    addName(bin, row);
    addFigure(bin, row, 1, &Bin::volumeLitres);
    addFigure(bin, row, 2, &Bin::insulationMillimetres);
    addFigure(bin, row, 3, &Bin::conductivityWattsPerMetreKelvin);
    QCheckBox* used = check(row, 4, named("binUsed", bin.id), tr("%1 is in use").arg(words::text(bin.name)));
    used->setEnabled(!book_.isReadOnly());
    connect(used, &QCheckBox::clicked, this,
            [this, id = bin.id](bool checked) { amendBin(book_, id, [&](Bin& b) { b.retired = !checked; }); });
    fillers_.emplace_back([used](const Bin& now) { used->setChecked(!now.retired); });
}

void BinsPart::addName(const Bin& bin, int row) {
    SavedLine* name = line(row, 0, named("binName", bin.id), tr("Name of bin %1").arg(words::text(bin.name)), 20);
    name->setReadOnly(book_.isReadOnly());
    connect(name, &SavedLine::typed, this, [this, name, id = bin.id](const QString& typed) {
        const QString trimmed = typed.trimmed();
        say(trimmed.isEmpty() ? tr("A bin needs a name; to stop using one, clear its mark at the end of the line.")
                              : QString{});
        if (!trimmed.isEmpty() && amendBin(book_, id, [&](Bin& b) { b.name = words::utf8(trimmed); })) {
            name->setTaken();
        }
    });
    fillers_.emplace_back([name](const Bin& now) { name->setStored(words::text(now.name)); });
}

void BinsPart::addFigure(const Bin& bin, int row, int column, std::optional<double> Bin::*figure) {
    const QStringList spoken{
        {}, tr("Volume of %1 in litres"), tr("Wall of %1 in millimetres"), tr("Conductivity of the wall of %1")};
    SavedLine* cell = line(row, column, named("binFigure", bin.id) + QStringLiteral("_%1").arg(column),
                           spoken.at(column).arg(words::text(bin.name)), 10);
    cell->setAlignment(Qt::AlignRight);
    cell->setReadOnly(book_.isReadOnly());
    connect(cell, &SavedLine::typed, this, [this, cell, figure, id = bin.id](const QString& typed) {
        const auto amount = readAmount(typed);
        const bool usable = typed.trimmed().isEmpty() || (amount && *amount > 0);
        say(usable ? QString{}
                   : tr("Not saved: %1.")
                         .arg(amount ? tr("a size is more than nothing") : words::text(amount.error().sentence())));
        if (usable &&
            amendBin(book_, id, [&](Bin& b) { b.*figure = amount ? std::optional{*amount} : std::nullopt; })) {
            cell->setTaken();
        }
    });
    fillers_.emplace_back([cell, figure](const Bin& now) { cell->setStored(figureText(now.*figure)); });
}

}  // namespace midden::ui
