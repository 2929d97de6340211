// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/card_model.h"

#include <algorithm>

#include "ui/common/book.h"
#include "ui/common/words.h"

namespace midden::ui {

namespace {

constexpr qsizetype mostDue = 2;

double shareOf(const Glance& glance) {
    return glance.outlook.targetShown ? 1.0
                                      : std::min(1.0, glance.outlook.holdSoFar().hours() / glance.target.hold.hours());
}

}  // namespace

CardModel::CardModel(const Book& book, QObject* parent) : QAbstractListModel{parent}, book_{book} {}

int CardModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(glances_.size());
}

QVariant CardModel::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) {
        return {};
    }
    const Glance& shown = glance(index.row());
    switch (role) {
        case Qt::DisplayRole:
            return words::text(shown.bin.name);
        case Qt::AccessibleTextRole:
            return spoken(shown);
        case Qt::ToolTipRole:
            return words::text(shown.batch ? shown.bin.name + "\n" + shown.batch->name : shown.bin.name);
        case phaseRole:
            return words::phase(shown, unit_);
        case creditRole:
            return words::credit(shown, unit_);
        case dueRole:
            return dueWords(shown);
        case shareRole:
            return shareOf(shown);
        case binRole:
            return QVariant::fromValue(static_cast<qlonglong>(shown.bin.id));
        default:
            return {};
    }
}

QStringList CardModel::dueWords(const Glance& glance) const {
    return words::due(glance, book_.zone(), book_.now()).mid(0, mostDue);
}

QString CardModel::spoken(const Glance& glance) const {
    QStringList parts{words::text(glance.bin.name), words::phase(glance, unit_), words::credit(glance, unit_),
                      dueWords(glance).join(QStringLiteral(", "))};
    parts.removeAll(QString{});
    return parts.join(QStringLiteral(", "));
}

void CardModel::refresh() {
    unit_ = unitOf(book_.log());
    std::vector<Glance> fresh;
    for (const Bin& bin : book_.log().bins()) {
        if (!bin.retired) {
            fresh.push_back(glanceAt(book_, bin));
        }
    }
    const bool sameBins = std::equal(fresh.begin(), fresh.end(), glances_.begin(), glances_.end(),
                                     [](const Glance& a, const Glance& b) { return a.bin.id == b.bin.id; });
    if (sameBins) {
        glances_ = std::move(fresh);
        refreshClock();
        return;
    }
    beginResetModel();
    glances_ = std::move(fresh);
    endResetModel();
}

void CardModel::refreshClock() {
    for (Glance& glance : glances_) {
        glance.outlook = outlookAt(std::move(glance.outlook), book_.now().at);
    }
    if (!glances_.empty()) {
        emit dataChanged(index(0), index(rowCount() - 1));
    }
}

}  // namespace midden::ui
