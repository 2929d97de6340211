// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractTableModel>

#include "ui/layers/layers_words.h"

namespace midden::ui {

/// The layers as they stand now, the highest first, as they lie.
class LayersTable : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { fed, litres, from, to, atLeast, longestRun, atMost, columns };

    using QAbstractTableModel::QAbstractTableModel;
    void show(LayersPtr source, const LayersTongue& tongue);

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

  private:
    QString cell(const LayerThen& layer, int column) const;

    LayersPtr source_;
    LayersTongue tongue_;
};

}  // namespace midden::ui
