// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/stall/stall_panel.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include "core/logbook/book_rules.h"
#include "ui/common/book.h"
#include "ui/common/hairline.h"
#include "ui/common/palette.h"
#include "ui/common/words.h"

namespace midden::ui {

namespace {

constexpr int keysOnButtons = 9;  // Alt+1 … Alt+9

void dress(QLabel& label, const QColor& colour, bool bold) {
    auto palette = label.palette();
    palette.setColor(QPalette::WindowText, colour);
    label.setPalette(palette);
    auto font = label.font();
    font.setBold(bold);
    label.setFont(font);
}

}  // namespace

std::vector<Answer> answersTo(const CausePlan& cause) {
    Observation entry;
    std::vector<Answer> answers;
    if (cause.id == "not-known") {
        entry.kind = ObservationKind::squeeze;
        const std::pair<const char*, QString> results[] = {
            {"dry", StallPanel::tr("dry")}, {"right", StallPanel::tr("right")}, {"wet", StallPanel::tr("wet")}};
        for (const auto& [value, word] : results) {
            entry.value = value;
            const QString text = StallPanel::tr("Squeeze test: %1").arg(word);
            answers.push_back({text, text, entry});
        }
        return answers;
    }
    entry.kind = ObservationKind::remedy;
    entry.subject = cause.id;
    entry.value = words::utf8(cause.logged);
    answers.push_back(
        {StallPanel::tr("Log: %1").arg(cause.logged), StallPanel::tr("Log as done: %1").arg(cause.logged), entry});
    return answers;
}

StallPanel::StallPanel(Book& book, QWidget* parent)
    : QWidget{parent},
      book_{book},
      headline_{new QLabel{this}},
      opener_{new QPushButton{this}},
      scroll_{new QScrollArea{this}} {
    setObjectName(QStringLiteral("stallPanel"));
    headline_->setObjectName(QStringLiteral("stallHeadline"));
    headline_->setWordWrap(true);
    headline_->setTextFormat(Qt::PlainText);
    dress(*headline_, palette().color(QPalette::WindowText), true);
    opener_->setObjectName(QStringLiteral("stallOpener"));
    opener_->setShortcut(Qt::Key_F8);
    opener_->setCheckable(true);
    scroll_->setObjectName(QStringLiteral("stallCauses"));
    scroll_->setAccessibleName(tr("Likely causes"));
    scroll_->setWidgetResizable(true);
    scroll_->setFrameShape(QFrame::NoFrame);
    scroll_->setMinimumHeight(fontMetrics().height() * 13);
    scroll_->setVisible(false);

    auto* top = new QHBoxLayout;
    top->addWidget(headline_, 1);
    top->addWidget(opener_);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(16, 8, 16, 8);
    column->addLayout(top);
    column->addWidget(scroll_);

    connect(opener_, &QPushButton::toggled, this, &StallPanel::setOpen);
    connect(&book, &Book::changed, this, &StallPanel::refresh);
    connect(&book, &Book::looksAtChanged, this, [this] {
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
    scroll_->setVisible(open);
    opener_->setChecked(open);
    opener_->setText(open ? tr("Close (F8)") : tr("What to try (F8)"));
    opener_->setShortcut(Qt::Key_F8);  // setText takes the shortcut away
}

void StallPanel::takeKeyboard() {
    setOpen(true);
    if (auto* first = scroll_->findChild<QPushButton*>()) {
        first->setFocus();
    }
}

void StallPanel::refresh() {
    std::optional<StallPlan> plan;
    if (book_.batch()) {
        const auto record = book_.log().record(*book_.batch());
        const auto questions = questionsOf(book_.log());
        plan = stallPlanOf(record, stallsOf(record, questions.stalls, questions.materials), book_.zone(), book_.now());
    }
    if (plan) {
        headline_->setText(plan->headline);
        fill(*plan);
    }
    setVisible(plan.has_value());
}

QLabel* StallPanel::line(const QString& text, bool muted) {
    auto* label = new QLabel{text};
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    if (muted) {
        dress(*label, Palette::of(*this).muted, false);
    }
    return label;
}

QWidget* StallPanel::causeRow(const CausePlan& cause) {
    auto* row = new QWidget;
    auto* words = new QVBoxLayout;
    words->setSpacing(2);
    auto* name = line(cause.cause, false);
    dress(*name, name->palette().color(QPalette::WindowText), true);
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
    for (const auto& answer : answersTo(cause)) {
        buttons->addWidget(answerButton(answer));
    }
    buttons->addStretch(1);
    auto* columns = new QHBoxLayout{row};
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
        column->addWidget(causeRow(cause));
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
    connect(button, &QPushButton::clicked, this, [this, answer] { log(answer); });
    return button;
}

void StallPanel::log(const Answer& answer) {
    Observation entry = answer.entry;
    entry.batch = *book_.batch();
    entry.when = book_.now();
    // The list is made anew after the change; the button that was pressed must live until its press is over.
    QMetaObject::invokeMethod(
        this, [this, entry, label = answer.spoken] { book_.change(Put<Observation>{entry}, label); },
        Qt::QueuedConnection);
}

}  // namespace midden::ui
