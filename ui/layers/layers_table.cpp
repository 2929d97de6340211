// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_table.h"

#include "ui/shared/words.h"

namespace midden::ui {

void LayersTable::show(LayersPtr source, const LayersTongue& tongue) {
    beginResetModel();
    source_ = std::move(source);
    tongue_ = tongue;
    endResetModel();
}

int LayersTable::rowCount(const QModelIndex& parent) const {
    const bool isNothing = parent.isValid() || !source_ || source_->isEmpty();
    return isNothing ? 0 : static_cast<int>(source_->now().layers.size());
}

int LayersTable::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : columns;
}

QString LayersTable::cell(const LayerThen& layer, int column) const {
    const auto cm = [&](double below) {
        return source_->litresPerCm ? words::number(below / *source_->litresPerCm, 0) : tr("not known");
    };
    switch (column) {
        case fed:
            return fedWords(source_->history.origins[layer.id], tongue_.zone);
        case litres:
            return words::number(layer.toLitres - layer.fromLitres, 1);
        case from:
            return cm(layer.fromLitres);
        case to:
            return cm(layer.toLitres);
        case atLeast:
            return QString::number(layer.atLeast.count / 3'600);
        case longestRun:
            return QString::number(layer.longestRun.count / 3'600);
        default:
            return QString::number((layer.atMost.count + 3'599) / 3'600);
    }
}

QVariant LayersTable::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) {
        return {};
    }
    const auto& layers = source_->now().layers;
    const auto& layer = layers[layers.size() - 1 - static_cast<std::size_t>(index.row())];
    switch (role) {
        case Qt::DisplayRole:
            return cell(layer, index.column());
        case Qt::AccessibleTextRole:
            return tr("%1: %2").arg(headerData(index.column(), Qt::Horizontal, Qt::DisplayRole).toString(),
                                    cell(layer, index.column()));
        case Qt::TextAlignmentRole:
            return QVariant::fromValue(
                Qt::Alignment{Qt::AlignVCenter | (index.column() == fed ? Qt::AlignLeft : Qt::AlignRight)});
        default:
            return {};
    }
}

QVariant LayersTable::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
        return {};
    }
    switch (section) {
        case fed:
            return tr("Layer");
        case litres:
            return tr("Litres");
        case from:
            return tr("From (cm)");
        case to:
            return tr("To (cm)");
        case atLeast:
            return tr("At least (h)");
        case longestRun:
            return tr("Longest run (h)");
        case atMost:
            return tr("At most (h)");
        default:
            return {};
    }
}

}  // namespace midden::ui
