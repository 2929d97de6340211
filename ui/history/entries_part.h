// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "ui/history/loaded_batch.h"

class QTableView;

namespace midden::ui {

class Book;
class EntriesModel;
class WithdrawBar;

/// The entries under the chart: filtered by kind, corrected in place, withdrawn with a reason.
class EntriesPart : public QWidget {
    Q_OBJECT

  public:
    explicit EntriesPart(Book& book, QWidget* parent = nullptr);
    void show(const LoadedPtr& batch);
    /// Selects the line of a reading without saying so.
    void mark(std::optional<ReadingSpot> spot);
    /// The reading of the chosen line, if it is one inside the batch.
    std::optional<ReadingSpot> chosenSpot() const;
    EntriesModel& model() { return *model_; }
    QTableView& table() { return *table_; }

  signals:
    void chosen(std::optional<midden::ui::ReadingSpot> spot);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    QWidget* buildFilters();
    void prepareTable();
    void askToWithdraw();
    void tellChoice();
    void stand(const QModelIndex& cell, int top);
    bool isTyping() const;

    EntriesModel* model_;
    QTableView* table_;
    WithdrawBar* withdraw_;
    QWidget* filters_;
    LoadedPtr held_;      ///< to be shown once nothing is being typed
    bool quiet_ = false;  ///< the selection follows the chart; do not send it back
};

}  // namespace midden::ui
