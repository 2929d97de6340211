// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "ui/today/task_words.h"

class QLabel;
class QListView;

namespace midden::ui {

class Book;
class TaskModel;

/// What needs doing today over all bins, most pressing first. Enter goes to where it is done.
class TodayScreen : public QWidget {
    Q_OBJECT

  public:
    explicit TodayScreen(Book& book, QWidget* parent = nullptr);

  signals:
    /// The window now looks at the task's bin and batch; show the place.
    void wanted(midden::ui::TaskPlace place, std::optional<midden::BinId> bin);

  protected:
    void showEvent(QShowEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void layOut();
    void listen();
    void refresh();
    void go(int row);
    void describe();
    void tellPending(int batches);

    Book& book_;
    bool outdated_ = true;
    TaskModel* model_;
    QLabel* heading_;
    QListView* list_;
    QLabel* pending_;
    QLabel* nothing_;
    QLabel* caution_;
};

}  // namespace midden::ui
