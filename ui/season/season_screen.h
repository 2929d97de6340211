// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "ui/season/season.h"
#include "ui/shared/background_task.h"

class QLabel;
class QStackedWidget;
class QStandardItemModel;
class QTableView;

namespace midden::ui {

class Book;
class TimeLineDelegate;
class TimeLineHeader;
class WaitingBar;

/// Every batch of the book on one time line, and its bins compared.
class SeasonScreen : public QWidget {
    Q_OBJECT

  public:
    explicit SeasonScreen(Book& book, QWidget* parent = nullptr);

    bool isLoading() const { return task_.isRunning(); }

  signals:
    void historyWanted();  ///< of the batch the book now looks at
    void roundWanted();    ///< to start a batch

  protected:
    void showEvent(QShowEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void prepareTables();
    QWidget* buildFull();
    QWidget* buildEmpty();
    void refresh();
    void load();
    void take(std::optional<Season> season, const QString& trouble);
    void fillBatches();
    void fillSums();
    void fitTables();
    void open(int row);

    Book& book_;
    Season season_;
    bool outdated_ = true;
    QStandardItemModel* batches_;
    QStandardItemModel* sums_;
    QTableView* batchTable_;
    QTableView* sumTable_;
    TimeLineHeader* months_;
    TimeLineDelegate* line_;
    QLabel* legend_;
    WaitingBar* waiting_;
    QStackedWidget* pages_;
    BackgroundTask task_;  ///< last, so that its work is dropped before anything it delivers to goes
};

}  // namespace midden::ui
