// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/history_screen.h"

#include <QAction>
#include <QComboBox>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QStackedWidget>
#include <QTimer>
#include <QToolButton>
#include <algorithm>

#include "core/store/read/book_rules.h"
#include "ui/chart/entry_words.h"
#include "ui/history/entries_part.h"
#include "ui/history/figures_panel.h"
#include "ui/history/hours_left.h"
#include "ui/history/trace_view.h"
#include "ui/history/why_panel.h"
#include "ui/layers/layers_panel.h"
#include "ui/shared/batch_status_cache.h"
#include "ui/shared/bin_summary.h"
#include "ui/shared/book.h"
#include "ui/shared/looked_at.h"
#include "ui/shared/waiting_bar.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr int clockMilliseconds = 60'000;

}  // namespace

QString HistoryScreen::spoken() const {
    return line_->text();
}

void HistoryScreen::listen() {
    const auto outdate = [this] {
        outdated_ = true;
        if (isVisible()) {
            refresh();
        }
    };
    connect(&book_, &Book::changed, this, outdate);
    connect(&book_, &Book::looksAtChanged, this, outdate);
    connect(batches_, &QComboBox::activated, this, [this](int index) {
        const auto chosen = static_cast<BatchId>(batches_->itemData(index).toLongLong());
        if (book_.batch() == chosen) {
            load();  // after it was stopped
        }
        lookAtBatch(book_, chosen);
    });
    connect(&book_, &Book::aboutToWrite, &loader_, &BatchLoader::releaseFile);
    connect(&loader_, &BatchLoader::loaded, this, &HistoryScreen::take);
    connect(&loader_, &BatchLoader::failed, &book_, &Book::troubled);
    connect(waiting_, &WaitingBar::appeared, this, &HistoryScreen::letGo);
    connect(waiting_, &WaitingBar::stopWanted, this, &HistoryScreen::stop);
    connect(&loader_, &BatchLoader::busyChanged, this, &HistoryScreen::showBusy);
    connect(trace_, &TraceView::pointedAt, this,
            [this](std::optional<ReadingSpot> spot) { describe(spot ? spot : trace_->marked()); });
    connect(trace_, &TraceView::chosen, this, [this](std::optional<ReadingSpot> spot) {
        describe(spot);
        entries_->mark(spot);
    });
    connect(trace_, &TraceView::hourAsked, this, &HistoryScreen::explain);
    connect(trace_, &TraceView::stallAsked, this, &HistoryScreen::openStall);
    connect(entries_, &EntriesPart::chosen, this, [this](std::optional<ReadingSpot> spot) {
        trace_->mark(spot);
        describe(spot);
    });
    connect(why_, &WhyPanel::closed, this, [this] { trace_->markHour({}); });
    auto* clock = new QTimer{this};
    connect(clock, &QTimer::timeout, this, [this] {
        if (isVisible() && book_.isWatching()) {
            try {
                tellHours();
            } catch (const LogbookError&) {
                // Told a minute later; whatever is wrong with the file will be said elsewhere.
            }
        }
    });
    clock->start(clockMilliseconds);
}

void HistoryScreen::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (outdated_) {
        refresh();
    }
}

void HistoryScreen::refresh() {
    outdated_ = false;
    fillBatches();
    load();
}

/// The batch looked at, and every other the book holds, newest first.
void HistoryScreen::fillBatches() {
    batches_->clear();
    auto all = book_.log().batches();
    std::ranges::stable_sort(all, std::ranges::greater{}, [](const Batch& batch) { return batch.started.at; });
    for (const Batch& batch : all) {
        const QString started = words::text(shortDate(book_.zone().momentAt(batch.started.at)));
        const int year = wallTimeOf(batch.started).year;
        batches_->addItem(tr("%1, from %2 %3").arg(words::text(batch.name), started).arg(year),
                          static_cast<qlonglong>(batch.id));
        if (batch.id == book_.batch()) {
            batches_->setCurrentIndex(batches_->count() - 1);
        }
    }
    if (!book_.batch()) {
        batches_->setCurrentIndex(-1);
    }
}

void HistoryScreen::load() {
    if (!book_.batch()) {
        loader_.cancel();
        take(nullptr);
        return;
    }
    try {
        loader_.load(book_.log(), *book_.batch());
    } catch (const LogbookError& error) {
        emit book_.troubled(QString::fromUtf8(error.what()));
    }
}

void HistoryScreen::take(const LoadedPtr& batch) {
    const bool another = !batch_ || !batch || batch_->record.batch.id != batch->record.batch.id;
    batch_ = batch;
    if (another) {
        why_->clear();
        strips_ = {"target"};
    }
    const bool nothing = !batch || (batch->record.tracks.empty() && batch->record.additions.empty() &&
                                    batch->record.aerations.empty() && batch->record.observations.empty() &&
                                    batch->record.harvests.empty() && batch->record.amendedEntries == 0);
    showNothing(batch ? tr("Nothing has been written down for %1 yet.").arg(words::text(batch->record.batch.name))
                      : tr("No batch stands in this bin."),
                true);
    pages_->setCurrentWidget(nothing ? empty_ : full_);
    figuresButton_->setVisible(!nothing);
    layersButton_->setVisible(!nothing && batch_->layers);
    layers_->show(batch_ ? batch_->layers : nullptr, {book_.zone(), unitOf(book_.log())});
    figures_->show(batch_, unitOf(book_.log()));
    tellHours();
    fillCriteria();
    const bool wasMarked = trace_->marked().has_value();
    present();
    entries_->show(batch_);
    if (const auto spot = entries_->chosenSpot(); wasMarked && spot && spot != trace_->marked()) {
        trace_->mark(spot);  // a reading given another time is still the one that is looked at
    }
    describe(trace_->marked());
    showFace();
}

/// The layers of a fed batch in place of its temperatures, where they are wanted.
void HistoryScreen::showFace() {
    const bool isFull = pages_->currentWidget() == full_;
    const bool layers = isFull && layersButton_->isChecked() && batch_ && batch_->layers;
    if (layers) {
        why_->clear();
    }
    layers_->setVisible(layers);
    trace_->setVisible(!layers);
    line_->setVisible(!layers);
    zoom_->setVisible(isFull && !layers);
    criteria_->setVisible(isFull && !layers && !criteriaMenu_->isEmpty());
}

/// A strip for each criterion that is ticked; the book's own target to begin with.
void HistoryScreen::fillCriteria() {
    criteriaMenu_->clear();
    if (!batch_) {
        criteria_->hide();
        return;
    }
    for (const Judgement& judgement : batch_->review.criteria) {
        const Criterion& criterion = judgement.criterion;
        const QString words = criterion.jurisdiction.empty() ? words::text(criterion.title)
                                                             : tr("%1 – %2").arg(words::text(criterion.jurisdiction),
                                                                                 words::text(criterion.title));
        QAction* action = criteriaMenu_->addAction(QString{words}.replace(QLatin1Char{'&'}, QStringLiteral("&&")));
        action->setCheckable(true);
        action->setChecked(strips_.contains(criterion.id));
        connect(action, &QAction::toggled, this, [this, id = criterion.id](bool shown) {
            shown ? static_cast<void>(strips_.insert(id)) : static_cast<void>(strips_.erase(id));
            present();
        });
    }
    criteria_->setVisible(!criteriaMenu_->isEmpty() && pages_->currentWidget() == full_);
}

void HistoryScreen::present() {
    TraceSettings settings{book_.zone(), unitOf(book_.log()), {}};
    if (batch_) {
        for (const Judgement& judgement : batch_->review.criteria) {
            if (strips_.contains(judgement.criterion.id)) {
                settings.criteria.push_back(judgement.criterion.id);
            }
        }
        trace_->setAccessibleName(tr("Temperature chart of %1").arg(words::text(batch_->record.batch.name)));
    }
    trace_->show(batch_, settings);
}

void HistoryScreen::tellHours() {
    const bool isRead = batch_ && batch_->outlook.last;
    hours_->setVisible(isRead);
    if (!isRead) {
        return;
    }
    const HoursContext context{book_.statusCache().target(), book_.zone(), unitOf(book_.log()), book_.now()};
    const QString hours =
        batch_->fed ? fedWords(*batch_->fed, context) : hoursLeft(batch_->outlook, batch_->isFinished(), context);
    const QString forecast = batch_->isFinished() ? QString{} : forecastWords(batch_->outlook, context);
    hours_->setText(forecast.isEmpty() ? hours : hours + QLatin1Char{'\n'} + forecast);
}

void HistoryScreen::openStall(Instant from) {
    const auto found = std::ranges::find(batch_->review.stalls, from, &Stall::from);
    if (found != batch_->review.stalls.end()) {
        emit stallWanted(*found);
    }
}

void HistoryScreen::describe(std::optional<ReadingSpot> spot) {
    if (!batch_ || !spot) {
        line_->setText(batch_ ? tr("Point at a reading, or step from one to the next with the arrow keys.")
                              : QString{});
        line_->setEnabled(false);
        return;
    }
    std::optional<Reading> typed;
    try {
        typed = book_.log().reading(readingAt(*batch_, *spot));
    } catch (const LogbookError&) {
        // The sentence then goes without what was typed; whatever is wrong with the file will be said elsewhere.
    }
    line_->setEnabled(true);
    line_->setText(readingSentence(*batch_, *spot, typed, book_.zone(), unitOf(book_.log())));
    trace_->setAccessibleDescription(line_->text());
}

void HistoryScreen::explain(const QString& criterion, Instant at) {
    if (!batch_ || batch_->review.criteria.empty()) {
        return;
    }
    const auto& all = batch_->review.criteria;
    const std::string wanted = criterion.isEmpty() ? "target" : words::utf8(criterion);
    const auto found = std::ranges::find(all, wanted, [](const Judgement& one) { return one.criterion.id; });
    why_->explain(found == all.end() ? all.front() : *found, at, book_.zone());
    trace_->markHour(at);
}

}  // namespace midden::ui
