// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/round_screen.h"

#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QShortcut>
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>

#include "core/store/read/book_rules.h"
#include "ui/round/batch_forms.h"
#include "ui/round/entry_check.h"
#include "ui/round/reading_cell.h"
#include "ui/round/round_header.h"
#include "ui/round/round_table.h"
#include "ui/round/safety_line.h"
#include "ui/shared/batch_status_cache.h"
#include "ui/shared/bin_summary.h"
#include "ui/shared/hairline.h"
#include "ui/shared/inline_form.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr int clockMilliseconds = 20'000;

}  // namespace

RoundScreen::RoundScreen(Book& book, QWidget* parent)
    : QWidget{parent},
      book_{book},
      header_{new RoundHeader},
      table_{new RoundTable},
      summary_{new QLabel},
      actions_{new BatchActions},
      caution_{new QLabel},
      empty_{new QWidget},
      full_{new QWidget},
      formPlace_{new QVBoxLayout},
      scroll_{new QScrollArea} {
    layOut();
    connectParts();
    refresh();
    auto* clock = new QTimer{this};
    connect(clock, &QTimer::timeout, this, [this] {
        if (book_.isWatching()) {
            refresh();
        }
    });
    clock->start(clockMilliseconds);
}

void RoundScreen::layOut() {
    summary_->setObjectName(QStringLiteral("roundSummary"));
    summary_->setWordWrap(true);
    caution_->setObjectName(QStringLiteral("roundCaution"));
    caution_->setWordWrap(true);
    caution_->setForegroundRole(QPalette::PlaceholderText);

    auto* full = new QVBoxLayout{full_};
    full->setContentsMargins(0, 0, 0, 0);
    full->setSpacing(16);
    full->addWidget(header_);
    full->addWidget(table_);
    full->addWidget(new Hairline{Qt::Horizontal});
    full->addWidget(summary_);
    full->addWidget(actions_);
    full->addWidget(caution_);

    auto* sentence = new QLabel{tr("A logbook begins with a bin: the place you will stick the thermometer into.")};
    sentence->setWordWrap(true);
    auto* begin = new QPushButton{tr("&Name the first bin…")};
    begin->setObjectName(QStringLiteral("firstBin"));
    begin->setAccessibleName(tr("Name the first bin"));
    begin->setProperty("leading", true);
    begin->setAutoDefault(true);
    connect(begin, &QPushButton::clicked, this, [this] { startBatch({}); });
    auto* empty = new QVBoxLayout{empty_};
    empty->setContentsMargins(0, 32, 0, 0);
    empty->setSpacing(16);
    empty->addWidget(sentence);
    empty->addWidget(begin, 0, Qt::AlignLeft);

    auto* page = new QWidget;
    auto* column = new QVBoxLayout{page};
    column->setContentsMargins(24, 24, 24, 24);
    column->setSpacing(16);
    column->addWidget(empty_);
    column->addWidget(full_);
    column->addLayout(formPlace_);
    column->addStretch(1);
    scroll_->setWidget(page);
    scroll_->setWidgetResizable(true);
    scroll_->setFocusPolicy(Qt::NoFocus);
    auto* around = new QVBoxLayout{this};
    around->setContentsMargins(0, 0, 0, 0);
    around->addWidget(scroll_);
}

void RoundScreen::connectParts() {
    connect(&book_, &Book::changed, this, [this] {
        if (!isStoring_) {
            refresh();
        }
    });
    connect(&book_, &Book::looksAtChanged, this, [this] {
        follow(placeOfRow());
        showTarget();
    });
    connect(&book_.statusCache(), &BatchStatusCache::workedOut, this, &RoundScreen::refresh);
    connect(header_, &RoundHeader::timeTyped, this, [this](const QString& text) {
        const auto moment = readMoment(text, book_.zone(), book_.now());
        header_->questionTime(moment ? QString{} : words::text(moment.error().sentence()));
        if (moment) {
            asked_ = *moment;
            refresh();
        }
    });
    connect(header_, &RoundHeader::nowWanted, this, [this] {
        asked_.reset();
        header_->questionTime({});
        refresh();
        returnToCells();
    });
    ReadingCell* outside = header_->outside();
    connect(outside, &ReadingCell::typed, this, &RoundScreen::enterOutside);
    connect(outside, &ReadingCell::enterPressed, this, &RoundScreen::returnToCells);
    connect(outside, &ReadingCell::moveOn, this, &RoundScreen::returnToCells);
    connect(table_, &RoundTable::typed, this, &RoundScreen::enterReading);
    connect(table_, &RoundTable::enterPressed, this, &RoundScreen::goOn);
    connect(table_, &RoundTable::moveOn, this, [this](std::size_t row, int step) {
        if (const auto next = table_->rowAfter(row, step)) {
            goTo(*next);
        } else if (step < 0) {
            header_->outside()->setFocus();
        }
    });
    connect(table_, &RoundTable::entered, this, &RoundScreen::choose);
    connect(table_, &RoundTable::startWanted, this, [this](std::size_t row) { startBatch(plan_.rows.at(row).bin.id); });
    connect(actions_, &BatchActions::wanted, this, &RoundScreen::act);
    connect(actions_, &BatchActions::pointedAt, this, &RoundScreen::caution);
    auto* back = new QShortcut{Qt::Key_F2, this};
    back->setContext(Qt::WidgetWithChildrenShortcut);
    connect(back, &QShortcut::activated, this, &RoundScreen::goToQuestion);
}

Moment RoundScreen::roundTime(const NewestReadings& newest) const {
    return asked_ ? *asked_ : book_.zone().momentAt(roundGoingOn(newest, book_.now().at, roundLengthOf(book_.log())));
}

void RoundScreen::refresh() {
    const Place stoodAt = placeOfRow();
    const bool hadKeyboard = table_->isAncestorOf(window()->focusWidget());
    try {
        const NewestReadings newest = newestIn(book_.log());
        plan_ =
            planRound(book_.log(), newest, roundTime(newest), asked_ ? std::nullopt : std::optional{book_.now().at});
        std::map<BinId, BinSummary> summaries;
        for (const RoundRow& row : plan_.rows) {
            if (row.batch && row.firstOfBin) {
                summaries.emplace(row.bin.id, binSummary(book_, row.bin));
            }
        }
        table_->show(plan_, summaries, book_.now());
    } catch (const std::exception& error) {
        emit book_.troubled(QString::fromUtf8(error.what()));
        return;
    }
    QWidget* before = header_->outside();
    for (QWidget* stop : table_->stops()) {
        setTabOrder(before, stop);
        before = stop;
    }
    header_->show(plan_, book_.now(), asked_.has_value());
    follow(stoodAt);
    if (hadKeyboard && !table_->isAncestorOf(window()->focusWidget()) && row_ < table_->stops().size()) {
        table_->stops()[row_]->setFocus();  // the cell it was in is gone
    }
    refreshEmpty();
    showTarget();
    sayComplete();
}

void RoundScreen::refreshEmpty() {
    const bool empty = plan_.rows.empty();
    full_->setVisible(!empty);
    empty_->setVisible(empty && form_ == nullptr);
    if (auto* begin = empty_->findChild<QPushButton*>()) {
        begin->setEnabled(!plan_.readOnly);
    }
}

void RoundScreen::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    takeKeyboard(row_ == 0);
}

/// The place to go on typing; the air outside first where it is usually read.
void RoundScreen::takeKeyboard(bool outsideFirst) {
    if (plan_.rows.empty()) {
        empty_->findChild<QPushButton*>()->setFocus();
    } else if (outsideFirst && plan_.outsideLast && !plan_.outsideNow) {
        header_->outside()->setFocus();
    } else {
        returnToCells();
    }
}

}  // namespace midden::ui
