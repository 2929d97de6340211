// SPDX-License-Identifier: GPL-3.0-or-later
// What the cells of the list of entries say.
#include "ui/chart/entry_words.h"
#include "ui/history/entries_model.h"
#include "ui/shared/book.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

QString EntriesModel::display(const EntryRow& row, int column) const {
    switch (column) {
        case when:
            return row.late ? tr("%1, late").arg(words::fullTime(book_.zone().momentAt(row.when.at)))
                            : words::fullTime(book_.zone().momentAt(row.when.at));
        case what:
            return whatOf(row);
        case where:
            return whereOf(row);
        case typed:
            return valueOf(row, unit_);
        case corrected:
            return row.corrected ? words::degrees(*row.corrected, unit_) : QString{};
        case who:
            return whoOf(row);
        case note:
            return noteOf(row);
        default:
            return {};
    }
}

QString EntriesModel::forEditing(const EntryRow& row, int column) const {
    return column == when ? typedForm(book_.zone().momentAt(row.when.at)) : display(row, column);
}

/// Cells that say "58.5" on paper say where and in which unit aloud.
QString EntriesModel::spoken(const EntryRow& row, int column) const {
    QString shown = display(row, column);
    if (shown.isEmpty() || (column != typed && column != corrected)) {
        return shown;
    }
    const bool temperature = row.kind == RowKind::reading || row.kind == RowKind::outside;
    const bool saysUnit = shown.contains(QChar{0xB0});
    QString full = temperature && !saysUnit ? tr("%1 %2").arg(shown, words::unitName(unit_)) : shown;
    return row.was.isEmpty() || column != typed ? full : tr("%1, before it was amended %2").arg(full, row.was);
}

QVariant EntriesModel::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) {
        return {};
    }
    const EntryRow& entry = row(index.row());
    switch (role) {
        case Qt::DisplayRole:
            return display(entry, index.column());
        case Qt::EditRole:
            return forEditing(entry, index.column());
        case Qt::AccessibleTextRole:
            return spoken(entry, index.column());
        case Qt::ToolTipRole:
            return index.column() == note ? QVariant{display(entry, note)} : QVariant{};
        case Qt::TextAlignmentRole:
            return index.column() == corrected ? QVariant{Qt::AlignRight | Qt::AlignVCenter}
                                               : QVariant{Qt::AlignLeft | Qt::AlignVCenter};
        case wasRole:
            return entry.was;
        case lateRole:
            return entry.late;
        case kindRole:
            return static_cast<int>(entry.kind);
        default:
            return {};
    }
}

QVariant EntriesModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation == Qt::Horizontal && role == Qt::TextAlignmentRole && section == corrected) {
        return QVariant{Qt::AlignRight | Qt::AlignVCenter};
    }
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
        return {};
    }
    switch (section) {
        case when:
            return tr("When");
        case what:
            return tr("What");
        case where:
            return tr("Where");
        case typed:
            return tr("As typed, %1").arg(words::unitName(unit_));
        case corrected:
            return tr("Corrected, %1").arg(words::unitName(unit_));
        case who:
            return tr("Who");
        case note:
            return tr("Note");
        default:
            return {};
    }
}

Qt::ItemFlags EntriesModel::flags(const QModelIndex& index) const {
    if (!index.isValid()) {
        return Qt::NoItemFlags;
    }
    const EntryRow& entry = row(index.row());
    const bool hasNumber = entry.kind == RowKind::reading || entry.kind == RowKind::outside ||
                           entry.kind == RowKind::addition || entry.kind == RowKind::harvest;
    const bool typeable = index.column() == when || index.column() == note || (index.column() == typed && hasNumber);
    const Qt::ItemFlags basic = Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren;
    return typeable && canChange(index.row()) ? basic | Qt::ItemIsEditable : basic;
}

}  // namespace midden::ui
