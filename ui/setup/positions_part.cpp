// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/positions_part.h"

#include <QCheckBox>
#include <QLabel>
#include <QPushButton>

#include "ui/shared/saved_line.h"
#include "ui/shared/words.h"

namespace midden::ui {

PositionsPart::PositionsPart(Book& book, QWidget* parent)
    : SetupGrid{tr("Positions"),
                tr("Where the thermometer goes. Every position counts for the hold, except spot checks."), parent},
      book_{book} {
    connect(&book, &Book::changed, this, &PositionsPart::refresh);
    refresh();
}

void PositionsPart::refresh() {
    QString shape;
    for (const Bin& bin : book_.log().bins()) {
        shape += words::text(bin.name) + (bin.retired ? QStringLiteral("-|") : QStringLiteral("|"));
        for (const PlaceSetting& place : book_.log().places(bin.id)) {
            shape += words::text(place.place.position) + (place.spotCheck ? QStringLiteral("*,") : QStringLiteral(","));
        }
    }
    remake(shape, {tr("bin"), tr("position"), tr("spot check")}, [this] { addRows(); });
}

void PositionsPart::addRows() {
    for (const Bin& bin : book_.log().bins()) {
        if (bin.retired) {
            continue;
        }
        bool first = true;
        for (const PlaceSetting& place : book_.log().places(bin.id)) {
            addPosition(bin, place, first);
            first = false;
        }
        addNew(bin, first);
    }
}

void PositionsPart::addPosition(const Bin& bin, const PlaceSetting& place, bool first) {
    const int row = nextRow();
    const QString position = words::text(place.place.position);
    const QString name = words::text(bin.name);
    label(row, 0, first ? name : QString{});
    label(row, 1, position);
    const QString id = QStringLiteral("%1_%2").arg(static_cast<qlonglong>(bin.id)).arg(position);
    QCheckBox* spot = check(row, 2, QStringLiteral("spot_") + id, tr("%1, %2 is a spot check").arg(name, position));
    spot->setChecked(place.spotCheck);
    spot->setEnabled(!book_.isReadOnly());
    connect(spot, &QCheckBox::clicked, this, [this, place](bool checked) {
        PlaceSetting now = place;
        for (const PlaceSetting& one : book_.log().places(*place.place.bin)) {
            now = one.place == place.place ? one : now;
        }
        now.spotCheck = checked;
        book_.change(Amend<PlaceSetting>{place.place, now, {}},
                     tr("%1: %2").arg(words::text(place.place.position),
                                      checked ? tr("a spot check") : tr("counts for the hold")));
    });
    QPushButton* remove =
        button(row, 3, QStringLiteral("remove_") + id, tr("Remove"), tr("Remove %1, %2").arg(name, position));
    remove->setEnabled(!book_.isReadOnly());
    remove->setToolTip(tr("Readings taken there stay in the book."));
    connect(remove, &QPushButton::clicked, this, [this, place] {
        book_.change(Withdraw<PlaceSetting>{place.place, {}},
                     tr("position %1 removed").arg(words::text(place.place.position)));
    });
}

void PositionsPart::addNew(const Bin& bin, bool first) {
    const int row = nextRow();
    label(row, 0, first ? words::text(bin.name) : QString{});
    SavedLine* added =
        newLine(row, 1, QStringLiteral("newPosition_%1").arg(static_cast<qlonglong>(bin.id)),
                tr("New position in %1").arg(words::text(bin.name)), [this, id = bin.id](const QString& position) {
                    return book_.change(Put<PlaceSetting>{{.place = {id, words::utf8(position)}}},
                                        tr("position %1").arg(position));
                });
    added->setPlaceholderText(tr("new position"));
    added->setReadOnly(book_.isReadOnly());
}

}  // namespace midden::ui
