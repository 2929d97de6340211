// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/entries_part.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QScrollBar>
#include <QTableView>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/chart/entry_words.h"
#include "ui/history/amend_delegate.h"
#include "ui/history/entries_model.h"
#include "ui/history/withdraw_bar.h"
#include "ui/shared/flow_layout.h"

namespace midden::ui {

EntriesPart::EntriesPart(Book& book, QWidget* parent)
    : QWidget{parent},
      model_{new EntriesModel{book, this}},
      table_{new QTableView{this}},
      withdraw_{new WithdrawBar{this}},
      filters_{buildFilters()} {
    prepareTable();
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins({});
    column->setSpacing(4);
    column->addWidget(filters_);
    column->addWidget(withdraw_);
    column->addWidget(table_, 1);
    connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &EntriesPart::tellChoice);
    connect(withdraw_, &WithdrawBar::withdrawn, this, [this](const QString& why) {
        const QModelIndex current = table_->currentIndex();
        if (current.isValid()) {
            model_->withdraw(current.row(), why);
        }
        table_->setFocus();
    });
    connect(withdraw_, &WithdrawBar::kept, table_, [this] { table_->setFocus(); });
}

/// A splitter asks nobody how tall he is at his width.
void EntriesPart::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    filters_->setMinimumHeight(filters_->layout()->heightForWidth(width()));
}

void EntriesPart::prepareTable() {
    table_->setObjectName(QStringLiteral("entries"));
    table_->setAccessibleName(tr("Entries of the batch"));
    table_->setAccessibleDescription(tr("Enter or F2: correct. Delete: withdraw."));
    table_->setToolTip(tr("Enter or F2: correct a time, a value or a note. Delete: withdraw the entry."));
    table_->setModel(model_);
    auto* delegate = new AmendDelegate{table_};
    table_->setItemDelegate(delegate);
    connect(
        delegate, &AmendDelegate::closeEditor, this,
        [this] {
            if (held_ && !isTyping()) {
                show(LoadedPtr{held_});
            }
        },
        Qt::QueuedConnection);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::EditKeyPressed | QAbstractItemView::DoubleClicked);
    table_->setShowGrid(false);
    table_->setTabKeyNavigation(false);
    table_->setWordWrap(false);
    table_->setFrameShape(QFrame::NoFrame);
    table_->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    table_->installEventFilter(this);
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    table_->verticalHeader()->setDefaultSectionSize(fontMetrics().height() + 8);
    QHeaderView* header = table_->horizontalHeader();
    header->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    header->setHighlightSections(false);
    header->setStretchLastSection(true);
    const int letter = fontMetrics().averageCharWidth();
    for (const auto& [section, letters] : {std::pair{EntriesModel::when, 30},
                                           {EntriesModel::what, 24},
                                           {EntriesModel::where, 14},
                                           {EntriesModel::typed, 26},
                                           {EntriesModel::corrected, 15},
                                           {EntriesModel::who, 14}}) {
        header->resizeSection(section, letters * letter);
    }
}

QWidget* EntriesPart::buildFilters() {
    auto* row = new QWidget{this};
    auto* line = new FlowLayout{8, row};
    line->addWidget(new QLabel{tr("Show"), row});
    const std::pair<RowKind, QString> kinds[]{
        {RowKind::reading, tr("Readings")},         {RowKind::outside, tr("Outside air")},
        {RowKind::addition, tr("Additions")},       {RowKind::aeration, tr("Air and water")},
        {RowKind::observation, tr("Observations")}, {RowKind::harvest, tr("Harvests")},
        {RowKind::amendment, tr("Amendments")}};
    for (const auto& [kind, words] : kinds) {
        auto* button = new QToolButton{row};
        button->setText(words);
        button->setCheckable(true);
        button->setChecked(true);
        button->setAutoRaise(true);
        button->setObjectName(QStringLiteral("show%1").arg(static_cast<int>(kind)));
        button->setToolTip(tr("Show or hide: %1").arg(words));
        connect(button, &QToolButton::toggled, this,
                [this, what = kind](bool shown) { model_->showKind(what, shown); });
        line->addWidget(button);
    }
    return row;
}

void EntriesPart::show(const LoadedPtr& batch) {
    const bool isSame = batch && model_->batch() == batch->record.batch.id;
    if (isSame && isTyping()) {
        held_ = batch;  // filling the list anew would throw away what is being typed
        return;
    }
    held_.reset();
    const QModelIndex current = isSame ? table_->currentIndex() : QModelIndex{};
    quiet_ = true;
    if (current.isValid()) {
        const EntryMark mark = model_->markOf(current.row());
        const Instant at = model_->row(current.row()).when.at;
        const int top = table_->rowViewportPosition(current.row());
        model_->show(batch);
        const int row = model_->rowOf(mark);
        stand(model_->index(row >= 0 ? row : model_->firstNotAfter(at), current.column()), top);
    } else {
        model_->show(batch);
    }
    quiet_ = false;
}

/// Chooses the cell, and leaves its line as far from the top as it was.
void EntriesPart::stand(const QModelIndex& cell, int top) {
    if (!cell.isValid()) {
        return;
    }
    table_->setCurrentIndex(cell);
    QScrollBar* bar = table_->verticalScrollBar();
    bar->setValue(bar->value() + table_->rowViewportPosition(cell.row()) - top);
    table_->scrollTo(cell);
}

bool EntriesPart::isTyping() const {
    const auto editors = table_->findChildren<AmendEditor*>();
    return std::ranges::any_of(editors,
                               [](const AmendEditor* editor) { return editor->isVisible() && editor->isTyping(); });
}

std::optional<ReadingSpot> EntriesPart::chosenSpot() const {
    const QModelIndex current = table_->currentIndex();
    return current.isValid() ? model_->spotOfRow(current.row()) : std::nullopt;
}

void EntriesPart::mark(std::optional<ReadingSpot> spot) {
    const int row = spot ? model_->rowOf(*spot) : -1;
    quiet_ = true;
    if (row >= 0) {
        table_->setCurrentIndex(model_->index(row, EntriesModel::typed));
    } else {
        table_->clearSelection();
    }
    quiet_ = false;
}

void EntriesPart::tellChoice() {
    const QModelIndex current = table_->currentIndex();
    if (!quiet_ && current.isValid()) {
        emit chosen(model_->spotOfRow(current.row()));
    }
}

void EntriesPart::askToWithdraw() {
    const QModelIndex current = table_->currentIndex();
    if (!current.isValid() || !model_->canChange(current.row())) {
        return;
    }
    withdraw_->ask(model_->named(current.row()));
}

bool EntriesPart::eventFilter(QObject* watched, QEvent* event) {
    if (watched != table_ || event->type() != QEvent::KeyPress) {
        return QWidget::eventFilter(watched, event);
    }
    const int key = static_cast<QKeyEvent*>(event)->key();
    const QModelIndex current = table_->currentIndex();
    if (key == Qt::Key_Delete) {
        askToWithdraw();
        return true;
    }
    const bool enter = key == Qt::Key_Return || key == Qt::Key_Enter;
    if (enter && current.isValid() && current.flags().testFlag(Qt::ItemIsEditable)) {
        table_->edit(current);
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

}  // namespace midden::ui
