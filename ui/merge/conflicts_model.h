// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractTableModel>

#include "core/quantities/zone.h"
#include "ui/merge/merge_work.h"

namespace midden::ui {

/// The entries of which two copies hold different values, side by side, and which of them shall stand.
class ConflictsModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { entry, before, ours, theirs, columns };
    explicit ConflictsModel(const TimeZone& zone, QObject* parent = nullptr);

    void show(std::vector<MergeConflict> conflicts);
    bool isChoice(int row) const;
    /// Stands::byTheRule: the later value again.
    void choose(int row, Stands side);
    void turn(int row);
    void chooseAll(Stands side);
    MergeChoices choices() const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

  private:
    struct Row {
        MergeConflict conflict;
        bool theirsStands;
    };
    QString wordsFor(const Row& row, int column) const;
    bool stands(const Row& row, int column) const;
    void set(int row, Stands side);

    TimeZone zone_;
    std::vector<Row> rows_;
};

}  // namespace midden::ui
