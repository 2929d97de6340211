// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/merge/conflicts_model.h"

#include <QFont>

#include "ui/shared/words.h"

namespace midden::ui {

ConflictsModel::ConflictsModel(const TimeZone& zone, QObject* parent) : QAbstractTableModel{parent}, zone_{zone} {}

void ConflictsModel::show(std::vector<MergeConflict> conflicts) {
    beginResetModel();
    rows_.clear();
    for (MergeConflict& conflict : conflicts) {
        const bool standsThere = conflict.theirsStands;
        rows_.push_back({std::move(conflict), standsThere});
    }
    endResetModel();
}

bool ConflictsModel::isChoice(int row) const {
    return rows_[static_cast<std::size_t>(row)].conflict.isChoice;
}

void ConflictsModel::set(int row, Stands side) {
    Row& changed = rows_[static_cast<std::size_t>(row)];
    if (changed.conflict.isChoice) {
        changed.theirsStands = side == Stands::byTheRule ? changed.conflict.theirsStands : side == Stands::theirs;
    }
}

void ConflictsModel::choose(int row, Stands side) {
    set(row, side);
    emit dataChanged(index(row, 0), index(row, columns - 1));
}

void ConflictsModel::turn(int row) {
    choose(row, rows_[static_cast<std::size_t>(row)].theirsStands ? Stands::ours : Stands::theirs);
}

void ConflictsModel::chooseAll(Stands side) {
    for (int row = 0; row < rowCount(); ++row) {
        set(row, side);
    }
    emit dataChanged(index(0, 0), index(rowCount() - 1, columns - 1));
}

MergeChoices ConflictsModel::choices() const {
    MergeChoices choices;
    for (const Row& row : rows_) {
        if (row.conflict.isChoice) {
            choices[row.conflict.key] = row.theirsStands ? Stands::theirs : Stands::ours;
        }
    }
    return choices;
}

int ConflictsModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int ConflictsModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : columns;
}

bool ConflictsModel::stands(const Row& row, int column) const {
    return column == (row.theirsStands ? theirs : ours);
}

QString ConflictsModel::wordsFor(const Row& row, int column) const {
    const auto side = [&](const MergeConflict::Side& one) {
        QString words = one.value.empty() ? tr("withdrawn") : words::text(one.value);
        QStringList hand;
        if (!one.who.empty()) {
            hand << words::text(one.who);
        }
        if (one.when) {
            hand << words::text(longDateTime(zone_.momentAt(*one.when)));
        }
        return hand.isEmpty() ? words : words + QLatin1Char{'\n'} + hand.join(QStringLiteral(", "));
    };
    switch (column) {
        case entry:
            return words::text(row.conflict.subject) + QLatin1Char{'\n'} +
                   words::text(longDateTime(zone_.momentAt(row.conflict.at)));
        case before:
            return row.conflict.before.empty() ? tr("nothing") : words::text(row.conflict.before);
        case ours:
            return side(row.conflict.ours);
        default:
            return row.conflict.isChoice ? side(row.conflict.theirs) : tr("cannot be, after the other choices");
    }
}

QVariant ConflictsModel::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) {
        return {};
    }
    const Row& row = rows_[static_cast<std::size_t>(index.row())];
    const int column = index.column();
    const bool isSide = column == ours || column == theirs;
    switch (role) {
        case Qt::DisplayRole:
            return isSide && stands(row, column) ? tr("✓ %1").arg(wordsFor(row, column)) : wordsFor(row, column);
        case Qt::AccessibleTextRole:
            return isSide ? (stands(row, column) ? tr("stands: %1") : tr("is struck through: %1"))
                                .arg(wordsFor(row, column))
                          : wordsFor(row, column);
        case Qt::FontRole: {
            QFont font;
            font.setBold(isSide && stands(row, column));
            font.setStrikeOut(isSide && !stands(row, column));
            return font;
        }
        case Qt::TextAlignmentRole:
            return QVariant::fromValue(Qt::AlignLeft | Qt::AlignVCenter);
        default:
            return {};
    }
}

QVariant ConflictsModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (role == Qt::TextAlignmentRole) {
        return QVariant::fromValue(Qt::AlignLeft | Qt::AlignVCenter);
    }
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
        return {};
    }
    switch (section) {
        case entry:
            return tr("entry");
        case before:
            return tr("both had");
        case ours:
            return tr("this book");
        default:
            return tr("other copy");
    }
}

}  // namespace midden::ui
