// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shell/card_model.h"

#include <algorithm>

#include "ui/shared/book.h"
#include "ui/shared/fed_words.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr qsizetype mostDue = 2;
constexpr qsizetype mostDueOfFed = 4;

/// Of the hold, as far as it is shown; of a fed batch for what lies lowest.
double shareOf(const BinSummary& summary) {
    if (summary.fed) {
        const Seconds hours = summary.fed->oldest ? summary.fed->oldest->atLeast : Seconds{};
        return summary.fed->ready ? 1.0 : std::min(1.0, hours.hours() / summary.target.hold.hours());
    }
    return summary.outlook.targetShown
               ? 1.0
               : std::min(1.0, summary.outlook.holdSoFar().hours() / summary.target.hold.hours());
}

}  // namespace

CardModel::CardModel(const Book& book, QObject* parent) : QAbstractListModel{parent}, book_{book} {}

int CardModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(summaries_.size());
}

QVariant CardModel::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) {
        return {};
    }
    const BinSummary& shown = summary(index.row());
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
            return creditWords(shown);
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

QString CardModel::creditWords(const BinSummary& summary) const {
    if (!summary.fed) {
        return words::credit(summary, unit_);
    }
    const QString layers = words::lowestLayers(
        *summary.fed, {book_.zone(), book_.now(), unit_, summary.target.threshold, summary.target.hold});
    return layers.at(0).toUpper() + layers.mid(1);
}

QStringList CardModel::dueWords(const BinSummary& summary) const {
    return words::due(summary, book_.zone(), book_.now()).mid(0, summary.fed ? mostDueOfFed : mostDue);
}

QString CardModel::spoken(const BinSummary& summary) const {
    QStringList parts{words::text(summary.bin.name), words::phase(summary, unit_), creditWords(summary),
                      dueWords(summary).join(QStringLiteral(", "))};
    parts.removeAll(QString{});
    return parts.join(QStringLiteral(", "));
}

void CardModel::refresh() {
    unit_ = unitOf(book_.log());
    std::vector<BinSummary> fresh;
    for (const Bin& bin : book_.log().bins()) {
        if (!bin.retired) {
            fresh.push_back(binSummary(book_, bin));
        }
    }
    const bool sameBins = std::equal(fresh.begin(), fresh.end(), summaries_.begin(), summaries_.end(),
                                     [](const BinSummary& a, const BinSummary& b) { return a.bin.id == b.bin.id; });
    if (sameBins) {
        summaries_ = std::move(fresh);
        refreshClock();
        return;
    }
    beginResetModel();
    summaries_ = std::move(fresh);
    endResetModel();
}

void CardModel::refreshClock() {
    for (BinSummary& summary : summaries_) {
        summary.outlook = outlookAt(std::move(summary.outlook), book_.now().at);
    }
    if (!summaries_.empty()) {
        emit dataChanged(index(0), index(rowCount() - 1));
    }
}

}  // namespace midden::ui
