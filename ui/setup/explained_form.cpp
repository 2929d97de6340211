// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/explained_form.h"

#include <QComboBox>
#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/shared/in_view.h"
#include "ui/shared/named_button.h"
#include "ui/shared/speak.h"
#include "ui/shared/tone.h"

namespace midden::ui {

namespace {

QString spoken(QString label) {
    return label.remove(QLatin1Char{'&'});
}

}  // namespace

ExplainedForm::ExplainedForm(const QString& title, const QString& go, QWidget* parent)
    : QWidget{parent},
      column_{new QVBoxLayout{this}},
      grid_{new QGridLayout},
      problem_{new QLabel{this}},
      go_{namedButton(go, "formSave", this)},
      cancel_{namedButton(tr("Cancel"), "formCancel", this)} {
    auto* heading = new QLabel{title, this};
    QFont bold = heading->font();
    bold.setWeight(QFont::DemiBold);
    heading->setFont(bold);
    problem_->setObjectName(QStringLiteral("formProblem"));
    problem_->setWordWrap(true);
    setTone(*problem_, Tone::question);
    problem_->hide();
    go_->setProperty("leading", true);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(8);
    buttons->addWidget(go_);
    buttons->addWidget(cancel_);
    buttons->addStretch();
    grid_->setHorizontalSpacing(16);
    grid_->setVerticalSpacing(8);
    grid_->setColumnStretch(2, 1);
    column_->setContentsMargins(0, 8, 0, 8);
    column_->setSpacing(8);
    column_->addWidget(heading);
    column_->addLayout(grid_);
    column_->addWidget(problem_);
    column_->addLayout(buttons);
    new InView{this, {go_, cancel_}};
    connect(go_, &QPushButton::clicked, this, &ExplainedForm::submit);
    connect(cancel_, &QPushButton::clicked, this, &ExplainedForm::closed);
}

QLabel* ExplainedForm::addLead(const QString& words, const QString& source) {
    auto* lead = new QLabel{words, this};
    lead->setWordWrap(true);
    lead->setToolTip(source);
    column_->insertWidget(column_->indexOf(grid_), lead);
    return lead;
}

QLabel* ExplainedForm::addOutcome(const char* name) {
    auto* outcome = new QLabel{this};
    outcome->setObjectName(QLatin1String{name});
    outcome->setWordWrap(true);
    column_->insertWidget(column_->indexOf(problem_), outcome);
    return outcome;
}

void ExplainedForm::addRow(const QString& label, QWidget* field) {
    const int row = grid_->rowCount();
    auto* words = new QLabel{label, this};
    words->setBuddy(field);
    auto* remark = new QLabel{this};
    remark->setObjectName(field->objectName() + QStringLiteral("Remark"));
    remark->setWordWrap(true);
    grid_->addWidget(words, row, 0);
    grid_->addWidget(field, row, 1, Qt::AlignLeft);
    grid_->addWidget(remark, row, 2);
    field->setAccessibleName(spoken(label));
    rows_.insert(field, {words, field, remark});
    follow(field);
}

/// Puts the field after the last one in the order of the Tab key.
void ExplainedForm::follow(QWidget* field) {
    if (first_ == nullptr) {
        first_ = field;
    } else {
        setTabOrder(last_, field);
    }
    last_ = field;
    setTabOrder(last_, go_);
    setTabOrder(go_, cancel_);
}

QLineEdit* ExplainedForm::addLine(const char* name, const QString& label, int characters) {
    auto* line = new QLineEdit{this};
    line->setObjectName(QLatin1String{name});
    line->setFixedWidth(line->fontMetrics().averageCharWidth() * characters + 24);
    addRow(label, line);
    connect(line, &QLineEdit::textChanged, this, &ExplainedForm::typed);
    return line;
}

QComboBox* ExplainedForm::addChoice(const char* name, const QString& label, const QStringList& choices) {
    auto* choice = new QComboBox{this};
    choice->setObjectName(QLatin1String{name});
    choice->addItems(choices);
    addRow(label, choice);
    connect(choice, &QComboBox::currentIndexChanged, this, &ExplainedForm::typed);
    return choice;
}

QComboBox* ExplainedForm::addChoiceBeside(QLineEdit* line, const char* name, const QString& spokenName,
                                          const QStringList& choices) {
    auto* choice = new QComboBox{this};
    choice->setObjectName(QLatin1String{name});
    choice->setAccessibleName(spokenName);
    choice->addItems(choices);
    int row = 0;
    int column = 0;
    int ignored = 0;
    grid_->getItemPosition(grid_->indexOf(line), &row, &column, &ignored, &ignored);
    grid_->removeWidget(line);
    auto* pair = new QHBoxLayout;
    pair->setSpacing(8);
    pair->addWidget(line);
    pair->addWidget(choice);
    pair->addStretch();
    grid_->addLayout(pair, row, column);
    follow(choice);
    connect(choice, &QComboBox::currentIndexChanged, this, &ExplainedForm::typed);
    return choice;
}

void ExplainedForm::remark(const QWidget* field, const QString& words, Tone tone) {
    Row& row = rows_[field];
    row.remark->setText(words);
    setTone(*row.remark, tone);
    row.field->setAccessibleDescription(words);
}

QString ExplainedForm::remarkOn(const QWidget* field) const {
    return rows_.value(field).remark->text();
}

void ExplainedForm::setRowShown(const QWidget* field, bool shown) {
    const Row row = rows_.value(field);
    row.label->setVisible(shown);
    row.field->setVisible(shown);
    row.remark->setVisible(shown);
}

void ExplainedForm::begin() {
    show();
    if (first_ != nullptr) {
        first_->setFocus(Qt::TabFocusReason);
    }
}

void ExplainedForm::beginIn(QVBoxLayout* column, QPointer<ExplainedForm>& place, const std::function<void()>& goOn) {
    const auto leave = [](ExplainedForm* form) {
        form->hide();
        form->deleteLater();
    };
    if (place != nullptr) {
        leave(place);
    }
    place = this;
    column->addWidget(this);
    connect(this, &ExplainedForm::closed, this, [this, leave, goOn] {
        leave(this);
        goOn();
    });
    begin();
}

void ExplainedForm::submit() {
    const QString problem = save_ ? save_() : QString{};
    speak(*problem_, problem);
    if (problem.isEmpty()) {
        emit saved();
        emit closed();
    }
}

void ExplainedForm::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        emit closed();
        return;
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        submit();  // lines and choices pass the key on; buttons take it themselves
        return;
    }
    QWidget::keyPressEvent(event);
}

}  // namespace midden::ui
