// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/today/today_screen.h"

#include <QLabel>
#include <QListView>
#include <QLocale>
#include <QTimer>
#include <QVBoxLayout>

#include "core/store/read/bin_statuses.h"
#include "core/store/read/book_rules.h"
#include "ui/round/safety_line.h"
#include "ui/shared/batch_status_cache.h"
#include "ui/shared/bin_summary.h"
#include "ui/shared/book.h"
#include "ui/shared/tone.h"
#include "ui/shared/words.h"
#include "ui/today/task_delegate.h"
#include "ui/today/task_model.h"

namespace midden::ui {

namespace {

constexpr int clockMilliseconds = 60'000;

/// Midnight by the steward's own zone.
Instant endOfDay(const TimeZone& zone, Moment now) {
    const WallTime wall = wallTimeOf(now);
    const Seconds left = days(1) - (hours(wall.hour) + minutes(wall.minute) + Seconds{wall.second});
    const Instant guess = now.at + left;
    // Where the clocks change in between, the guess is off by the change.
    return guess + Seconds{(now.offset.minutes - zone.momentAt(guess).offset.minutes) * 60};
}

Act actOf(TaskKind kind) {
    switch (kind) {
        case TaskKind::openUp:
        case TaskKind::watchHeat:
            return Act::opening;
        case TaskKind::tryRemedy:
        case TaskKind::turn:
        case TaskKind::beginCuring:
            return Act::turning;
        default:
            return Act::reading;
    }
}

}  // namespace

TodayScreen::TodayScreen(Book& book, QWidget* parent)
    : QWidget{parent},
      book_{book},
      model_{new TaskModel{this}},
      heading_{new QLabel{this}},
      list_{new QListView{this}},
      pending_{new QLabel{this}},
      nothing_{new QLabel{this}},
      caution_{new QLabel{this}} {
    layOut();
    listen();
}

void TodayScreen::layOut() {
    heading_->setObjectName(QStringLiteral("todayHeading"));
    pending_->setObjectName(QStringLiteral("todayPending"));
    setTone(*pending_, Tone::quiet);
    nothing_->setObjectName(QStringLiteral("todayNothing"));
    nothing_->setWordWrap(true);
    nothing_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    caution_->setObjectName(QStringLiteral("todayCaution"));
    caution_->setWordWrap(true);
    setTone(*caution_, Tone::quiet);
    list_->setObjectName(QStringLiteral("tasks"));
    list_->setAccessibleName(tr("What needs doing today"));
    list_->setModel(model_);
    list_->setItemDelegate(new TaskDelegate{list_});
    list_->setFrameShape(QFrame::NoFrame);
    list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list_->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    list_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 24, 24, 16);
    column->setSpacing(16);
    column->addWidget(heading_);
    column->addWidget(pending_);
    column->addWidget(nothing_, 1);
    column->addWidget(list_, 1);
    column->addWidget(caution_);
}

void TodayScreen::listen() {
    const auto outdate = [this] {
        outdated_ = true;
        if (isVisible()) {
            refresh();
        }
    };
    connect(&book_, &Book::changed, this, outdate);
    connect(&book_.statusCache(), &BatchStatusCache::workedOut, this, outdate);
    // Enter and a double click; which of the two a single click is, is the desktop's own habit.
    connect(list_, &QListView::activated, this, [this](const QModelIndex& index) { go(index.row()); });
    connect(list_->selectionModel(), &QItemSelectionModel::currentChanged, this, &TodayScreen::describe);
    auto* clock = new QTimer{this};
    connect(clock, &QTimer::timeout, this, [this] {
        if (isVisible() && book_.isWatching()) {
            refresh();
        }
    });
    clock->start(clockMilliseconds);
}

void TodayScreen::refresh() {
    const Moment now = book_.now();
    const int row = list_->currentIndex().row();
    try {
        const TaskContext context{outlookSettingsOf(book_.log()), taskSettingsOf(book_.log()), book_.zone(),
                                  unitOf(book_.log()), now};
        int pending = 0;
        std::vector<BinStatus> statuses;
        for (const BatchId batch : batchesAskedAfter(book_.log(), now.at)) {
            if (const BinStatus* status = book_.statusCache().status(batch)) {
                statuses.push_back(*status);
                statuses.back().isCertified = !book_.log().certificates(batch).empty();
            } else {
                ++pending;
            }
        }
        tellPending(pending);
        model_->show(tasksFor(statuses, {now.at, endOfDay(book_.zone(), now)}, context.care), context);
        nothing_->setText(pending > 0        ? QString{}
                          : statuses.empty() ? tr("What needs doing will stand here once a batch stands in a bin.")
                                             : tr("Nothing needs doing today."));
    } catch (const LogbookError& error) {
        emit book_.troubled(QString::fromUtf8(error.what()));
        return;
    }
    outdated_ = false;
    const int count = model_->rowCount();
    heading_->setText(count == 1 ? tr("1 thing to do today") : tr("%1 things to do today").arg(count));
    heading_->setVisible(count > 0);
    list_->setVisible(count > 0);
    caution_->setVisible(count > 0);
    nothing_->setVisible(count == 0);
    if (count > 0) {
        list_->setCurrentIndex(model_->index(std::clamp(row, 0, count - 1)));
    }
    describe();
}

/// Long batches take a moment; until then their part of the list is missing.
void TodayScreen::tellPending(int batches) {
    pending_->setText(batches == 1 ? tr("1 batch is being worked out …")
                                   : tr("%1 batches are being worked out …").arg(batches));
    pending_->setVisible(batches > 0);
}

void TodayScreen::describe() {
    const int row = list_->currentIndex().row();
    const bool isTask = row >= 0 && row < model_->rowCount();
    const SafetyLine line = safetyLineFor(isTask ? actOf(model_->task(row).kind) : Act::reading);
    caution_->setText(tr("Enter goes to where it is done. %1").arg(line.words));
    caution_->setToolTip(line.source);
}

void TodayScreen::go(int row) {
    const Task task = model_->task(row);
    if (task.bin) {
        book_.lookAt(task.bin, task.batch);
    }
    emit wanted(placeOf(task.kind), task.bin);
}

void TodayScreen::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (outdated_) {
        refresh();
    }
}

void TodayScreen::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    if (list_->isVisibleTo(this)) {
        list_->setFocus();
    }
}

void TodayScreen::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    list_->doItemsLayout();  // words wrap to the width
}

}  // namespace midden::ui
