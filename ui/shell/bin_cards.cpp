// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shell/bin_cards.h"

#include <QLabel>
#include <QListView>
#include <QScopedValueRollback>
#include <QTimer>
#include <QVBoxLayout>

#include "ui/shared/batch_status_cache.h"
#include "ui/shared/book.h"
#include "ui/shell/card_delegate.h"
#include "ui/shell/card_model.h"

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
    setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Expanding);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(none_, 1);
    column->addWidget(list_, 1);

    connect(&book, &Book::changed, this, &BinCards::refresh);
    connect(&book.statusCache(), &BatchStatusCache::workedOut, this, &BinCards::refresh);
    connect(&book, &Book::looksAtChanged, this, &BinCards::follow);
    connect(list_->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& current) { choose(current.row()); });
    // An older batch of the bin may be looked at, and its card is chosen already.
    connect(list_, &QListView::clicked, this, [this](const QModelIndex& card) { choose(card.row()); });
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

QSize BinCards::minimumSizeHint() const {
    return {fontMetrics().averageCharWidth() * 16, fontMetrics().height() * 6};
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
    follow();
}

void BinCards::choose(int row) {
    if (row < 0 || isFollowing_) {
        return;
    }
    const BinSummary& summary = model_->summary(row);
    book_.lookAt(summary.bin.id, summary.batch ? std::optional{summary.batch->id} : std::nullopt);
}

/// Chooses the card of the bin that is looked at; none where that bin is out of use.
void BinCards::follow() {
    const QScopedValueRollback following{isFollowing_, true};
    QModelIndex card;
    for (int row = 0; row < model_->rowCount(); ++row) {
        card = book_.bin() == model_->summary(row).bin.id ? model_->index(row) : card;
    }
    if (card != list_->currentIndex()) {
        list_->setCurrentIndex(card);
    }
}

}  // namespace midden::ui
