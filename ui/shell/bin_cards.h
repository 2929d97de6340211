// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QLabel;
class QListView;

namespace midden::ui {

class Book;
class CardModel;

/// The pane of bin cards. The chosen card is that of the bin the book is looked at by; choosing another looks there.
class BinCards : public QWidget {
    Q_OBJECT

  public:
    explicit BinCards(Book& book, QWidget* parent = nullptr);
    bool hasKeyboard() const;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    void refresh();
    void choose(int row);
    void follow();

    bool isFollowing_ = false;  ///< the card is chosen for what the window looks at already
    Book& book_;
    CardModel* model_;
    QListView* list_;
    QLabel* none_;
};

}  // namespace midden::ui
