// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractListModel>
#include <vector>

#include "ui/shared/bin_summary.h"

namespace midden::ui {

class Book;

/// The bins in use, one row each, in the words their cards say.
class CardModel : public QAbstractListModel {
    Q_OBJECT

  public:
    enum Role { phaseRole = Qt::UserRole, creditRole, dueRole, shareRole, binRole };

    explicit CardModel(const Book& book, QObject* parent = nullptr);

    int rowCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    const BinSummary& summary(int row) const { return summaries_.at(static_cast<std::size_t>(row)); }
    /// Looks at the book again.
    void refresh();
    /// Only the clock has moved: how long ago it was read, and whether its hold still runs.
    void refreshClock();

  private:
    /// The two most pressing things to do.
    QStringList dueWords(const BinSummary& summary) const;
    QString creditWords(const BinSummary& summary) const;
    QString spoken(const BinSummary& summary) const;

    const Book& book_;
    // What is painted is known by then: the file may be held by somebody else.
    TemperatureUnit unit_ = TemperatureUnit::celsius;
    std::vector<BinSummary> summaries_;
};

}  // namespace midden::ui
