// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/bin_cards.h"

#include <QLabel>
#include <QListView>
#include <QTimer>
#include <QVBoxLayout>

#include "ui/common/book.h"
#include "ui/common/outlooks.h"
#include "ui/window/card_delegate.h"
#include "ui/window/card_model.h"

namespace midden::ui {

namespace {

constexpr int clockMilliseconds = 30'000;

}  // namespace

BinCards::BinCards(Book& book, QWidget* parent)
    : QWidget{parent},
      book_{book},
      model_{new CardModel{book, this}},
      list_{new QListView{this}},
      none_{new QLabel{this}} {
    list_->setObjectName(QStringLiteral("binCards"));
    list_->setAccessibleName(tr("Bins"));
    list_->setModel(model_);
    list_->setItemDelegate(new CardDelegate{list_});
    list_->setFrameShape(QFrame::NoFrame);
    list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list_->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    list_->setBackgroundRole(QPalette::AlternateBase);
    list_->viewport()->setBackgroundRole(QPalette::AlternateBase);
    none_->setObjectName(QStringLiteral("noBins"));
    none_->setText(tr("Your bins will stand here."));
    none_->setMargin(16);
    none_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    none_->setForegroundRole(QPalette::PlaceholderText);
    none_->setWordWrap(true);
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::AlternateBase);
    setFocusProxy(list_);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Expanding);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(none_, 1);
    column->addWidget(list_, 1);

    connect(&book, &Book::changed, this, &BinCards::refresh);
    connect(&book.outlooks(), &Outlooks::workedOut, this, &BinCards::refresh);
    connect(&book, &Book::looksAtChanged, this, &BinCards::follow);
    connect(list_->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& current) { choose(current.row()); });
    auto* clock = new QTimer{this};
    connect(clock, &QTimer::timeout, this, [this] {
        model_->refreshClock();
        list_->doItemsLayout();
    });
    clock->start(clockMilliseconds);
    refresh();
}

QSize BinCards::sizeHint() const {
    return {fontMetrics().averageCharWidth() * 36, 400};
}

void BinCards::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    list_->doItemsLayout();  // words wrap to the width
}

bool BinCards::hasKeyboard() const {
    return list_->hasFocus();
}

void BinCards::refresh() {
    model_->refresh();
    list_->doItemsLayout();  // a card is as tall as it has things to say
    const bool empty = model_->rowCount() == 0;
    none_->setVisible(empty);
    list_->setVisible(!empty);
    if (empty) {
        book_.lookAt({}, {});
        return;
    }
    const int row = list_->currentIndex().row();
    if (row < 0) {
        list_->setCurrentIndex(model_->index(0));
    } else {
        choose(row);  // its batch may be another by now
    }
}

void BinCards::choose(int row) {
    if (row < 0) {
        return;
    }
    const Glance& glance = model_->glance(row);
    book_.lookAt(glance.bin.id, glance.batch ? std::optional{glance.batch->id} : std::nullopt);
}

/// Another part of the window chose a bin.
void BinCards::follow() {
    for (int row = 0; row < model_->rowCount(); ++row) {
        if (book_.bin() == model_->glance(row).bin.id && list_->currentIndex().row() != row) {
            const QSignalBlocker quiet{list_->selectionModel()};
            list_->setCurrentIndex(model_->index(row));
            list_->viewport()->update();
        }
    }
}

}  // namespace midden::ui
