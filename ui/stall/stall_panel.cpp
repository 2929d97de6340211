// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/stall/stall_panel.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include "ui/round/batch_forms.h"
#include "ui/shared/batch_status_cache.h"
#include "ui/shared/book.h"
#include "ui/shared/hairline.h"
#include "ui/shared/inline_form.h"
#include "ui/shared/tone.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr int keysOnButtons = 9;    // Alt+1 … Alt+9
constexpr int narrowLetters = 100;  // buttons then stand below the words, not beside them

void embolden(QLabel& label) {
    auto font = label.font();
    font.setBold(true);
    label.setFont(font);
}

}  // namespace

StallPanel::StallPanel(Book& book, QWidget* parent)
    : QWidget{parent},
      book_{book},
      headline_{new QLabel{this}},
      opener_{new QPushButton{this}},
      scroll_{new QScrollArea{this}},
      column_{new QVBoxLayout{this}} {
    setObjectName(QStringLiteral("stallPanel"));
    headline_->setObjectName(QStringLiteral("stallHeadline"));
    headline_->setWordWrap(true);
    headline_->setTextFormat(Qt::PlainText);
    embolden(*headline_);
    opener_->setObjectName(QStringLiteral("stallOpener"));
    opener_->setShortcut(Qt::Key_F8);
    opener_->setCheckable(true);
    scroll_->setObjectName(QStringLiteral("stallCauses"));
    scroll_->setAccessibleName(tr("Likely causes"));
    scroll_->setWidgetResizable(true);
    scroll_->setFrameShape(QFrame::NoFrame);
    scroll_->setVisible(false);

    auto* top = new QHBoxLayout;
    top->addWidget(headline_, 1);
    top->addWidget(opener_);
    column_->setContentsMargins(16, 0, 16, 8);
    column_->setSpacing(8);
    column_->addWidget(new Hairline{Qt::Horizontal, this});
    column_->addLayout(top);
    column_->addWidget(scroll_);

    connect(opener_, &QPushButton::toggled, this, &StallPanel::setOpen);
    connect(&book, &Book::changed, this, &StallPanel::refresh);
    connect(&book.statusCache(), &BatchStatusCache::workedOut, this, &StallPanel::refresh);
    connect(&book, &Book::looksAtChanged, this, [this] {
        past_.reset();
        setOpen(false);
        refresh();
    });
    setOpen(false);
    refresh();
}

bool StallPanel::isOpen() const {
    return scroll_->isVisibleTo(this);
}

void StallPanel::setOpen(bool open) {
    if (!open && form_ != nullptr) {
        form_->hide();
        form_->deleteLater();  // it may be what closes the panel
        form_ = nullptr;
    }
    if (!open && past_) {
        past_.reset();
        refresh();
    }
    if (open) {
        refresh();  // laid out for the width there is
    }
    scroll_->setVisible(open && form_ == nullptr);
    opener_->setChecked(open);
    opener_->setText(open ? tr("Close (F8)") : tr("What to try (F8)"));
    opener_->setShortcut(Qt::Key_F8);  // setText takes the shortcut away
    settle();
}

void StallPanel::setDiscreet(bool discreet) {
    isDiscreet_ = discreet;
    settle();
}

void StallPanel::setRoom(int height) {
    room_ = height;
    settle();
}

void StallPanel::settle() {
    setMaximumHeight(isOpen() && form_ == nullptr && room_ > 0 ? room_ : QWIDGETSIZE_MAX);
    QSizePolicy policy = sizePolicy();
    policy.setRetainSizeWhenHidden(keepsPlace_ && !isDiscreet_);
    setSizePolicy(policy);
    setVisible(hasPlan_ && (isOpen() || form_ != nullptr || !isDiscreet_));
}

const BatchStatus* StallPanel::status() const {
    return book_.batch() ? book_.statusCache().of(*book_.batch()) : nullptr;
}

/// A bin whose strip may be shown next.
const BatchStatus* StallPanel::firstStalled() const {
    for (const Bin& bin : book_.log().bins()) {
        const auto batch = bin.retired ? std::nullopt : book_.log().occupant(bin.id, book_.now().at);
        const BatchStatus* one = batch ? book_.statusCache().of(*batch) : nullptr;
        if (one != nullptr && one->outlook.stall) {
            return one;
        }
    }
    return nullptr;
}

void StallPanel::showStall(const Stall& stall) {
    past_ = stall.to ? std::optional{stall} : std::nullopt;
    const BatchStatus* now = status();
    if (!past_ && now != nullptr && now->record.batch.finished) {
        past_ = stall;
        past_->to = now->record.batch.finished->at;
    }
    refresh();
    setOpen(true);
    scroll_->setFocus();
}

void StallPanel::takeKeyboard() {
    setOpen(true);
    if (auto* first = scroll_->findChild<QPushButton*>()) {
        first->setFocus();
    }
}

void StallPanel::refresh() {
    std::optional<StallPlan> plan;
    const BatchStatus* now = status();
    if (now != nullptr && (past_ || now->outlook.stall)) {
        plan = stallPlanOf(now->record, past_ ? *past_ : *now->outlook.stall, book_.zone(), book_.now());
    }
    hasPlan_ = plan.has_value();
    const BatchStatus* next = plan ? now : firstStalled();
    keepsPlace_ = next != nullptr;
    if (plan) {
        headline_->setText(plan->headline);
        fill(*plan);
    } else if (next != nullptr) {  // unseen: it keeps the place that it will take, so that no row jumps
        headline_->setText(stallPlanOf(next->record, *next->outlook.stall, book_.zone(), book_.now()).headline);
    }
    settle();
}

QLabel* StallPanel::line(const QString& text, bool muted) {
    auto* label = new QLabel{text};
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    setTone(*label, muted ? Tone::quiet : Tone::plain);
    return label;
}

QWidget* StallPanel::causeRow(const CausePlan& cause, bool isOver) {
    auto* row = new QWidget;
    auto* words = new QVBoxLayout;
    words->setSpacing(2);
    auto* name = line(cause.cause, false);
    embolden(*name);
    words->addWidget(name);
    if (!cause.reasons.isEmpty()) {
        words->addWidget(line(tr("Because %1.").arg(cause.reasons), false));
    }
    words->addWidget(line(cause.remedy, false));
    if (!cause.caution.isEmpty()) {
        words->addWidget(line(tr("Take care: %1").arg(cause.caution), false));
    }
    words->addWidget(line(tr("Source: %1").arg(cause.source), true));
    auto* buttons = new QVBoxLayout;
    for (const auto& answer : isOver ? std::vector<Answer>{} : answersTo(cause)) {
        buttons->addWidget(answerButton(answer));
    }
    buttons->addStretch(1);
    const bool isNarrow = width() < narrowLetters * fontMetrics().averageCharWidth();
    auto* columns = new QBoxLayout{isNarrow ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight, row};
    columns->setContentsMargins(0, 8, 0, 8);
    columns->setSpacing(16);
    columns->addLayout(words, 1);
    columns->addLayout(buttons);
    return row;
}

void StallPanel::fill(const StallPlan& plan) {
    auto* page = new QWidget;
    auto* column = new QVBoxLayout{page};
    column->setContentsMargins(0, 0, 8, 0);
    column->setSpacing(4);
    if (!plan.heat.isEmpty()) {
        column->addWidget(line(plan.heat, false));
        column->addWidget(line(plan.heatBasis, true));
    }
    for (const auto& tried : plan.tried) {
        column->addWidget(line(tr("Tried %1").arg(tried), false));
    }
    answers_ = 0;
    for (const auto& cause : plan.causes) {
        column->addWidget(new Hairline{Qt::Horizontal, page});
        column->addWidget(causeRow(cause, plan.isOver));
    }
    column->addStretch(1);
    scroll_->setWidget(page);  // deletes the page before
}

QPushButton* StallPanel::answerButton(const Answer& answer) {
    const int number = ++answers_;
    const QString key = number <= keysOnButtons ? QStringLiteral("&%1  ").arg(number) : QString{};
    auto* button = new QPushButton{key + answer.text};
    button->setObjectName(QStringLiteral("logRemedy%1").arg(number));
    button->setAccessibleName(answer.spoken);
    button->setEnabled(!book_.isReadOnly());
    connect(button, &QPushButton::clicked, this, [this, given = answer] { this->answer(given); });
    return button;
}

void StallPanel::answer(const Answer& answer) {
    // The list is made anew after the change; the button that was pressed must live until its press is over.
    QMetaObject::invokeMethod(
        this, [this, answer] { answer.adds ? askWhatWentIn(answer) : log(answer); }, Qt::QueuedConnection);
}

/// What went in belongs into the log as an addition; only then is the remedy one that was tried.
void StallPanel::askWhatWentIn(const Answer& answer) {
    FormTarget target{.book = book_, .when = book_.now(), .bin = {}, .batch = {}};
    for (const Batch& batch : book_.log().batches()) {
        if (batch.id == book_.batch()) {
            target.batch = batch;
        }
    }
    if (!target.batch) {
        return;
    }
    delete form_;
    form_ = makeAddedForm(target, this);
    column_->addWidget(form_);
    scroll_->hide();
    settle();
    connect(form_, &InlineForm::saved, this, [this, answer] { log(answer); });
    connect(form_, &InlineForm::closed, this, [this, form = form_] {
        if (form_ == form) {
            form->hide();
            form->deleteLater();
            form_ = nullptr;
            takeKeyboard();
        }
    });
    form_->begin();
}

void StallPanel::log(const Answer& answer) {
    Observation entry = answer.entry;
    entry.batch = *book_.batch();
    entry.when = book_.now();
    book_.changeTogether(answer.spoken, [&](const Book::Apply& apply) {
        apply(Put<Observation>{entry});
        for (const AerationKind act : answer.acts) {
            apply(Put<Aeration>{{.batch = entry.batch, .when = entry.when, .kind = act}});
        }
    });
}

}  // namespace midden::ui
