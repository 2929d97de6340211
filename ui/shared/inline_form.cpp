// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/inline_form.h"

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/shared/flow_layout.h"
#include "ui/shared/in_view.h"
#include "ui/shared/speak.h"
#include "ui/shared/tone.h"

namespace midden::ui {

namespace {

QString spoken(QString label) {
    return label.remove(QLatin1Char{'&'});
}

}  // namespace

InlineForm::InlineForm(const QString& title, const QString& go, QWidget* parent)
    : QWidget{parent},
      column_{new QVBoxLayout{this}},
      fieldsPlace_{new QWidget{this}},
      fields_{new FlowLayout{16, fieldsPlace_}},
      problem_{new QLabel{this}},
      go_{new QPushButton{go, this}},
      cancel_{new QPushButton{tr("Cancel"), this}},
      buttons_{new QWidget{this}},
      question_{new QuestionBar{this}} {
    auto* heading = new QLabel{title, this};
    QFont bold = heading->font();
    bold.setWeight(QFont::DemiBold);
    heading->setFont(bold);
    problem_->setObjectName(QStringLiteral("formProblem"));
    problem_->setWordWrap(true);
    setTone(*problem_, Tone::question);
    problem_->hide();
    go_->setObjectName(QStringLiteral("formSave"));
    go_->setAccessibleName(spoken(go));
    go_->setProperty("leading", true);
    go_->setAutoDefault(true);
    cancel_->setObjectName(QStringLiteral("formCancel"));
    cancel_->setAccessibleName(tr("Cancel"));
    cancel_->setAutoDefault(true);
    auto* row = new QHBoxLayout{buttons_};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(8);
    row->addWidget(go_);
    row->addWidget(cancel_);
    row->addStretch();
    fields_->setContentsMargins(0, 0, 0, 0);
    column_->setContentsMargins(0, 8, 0, 8);
    column_->setSpacing(8);
    for (QWidget* part : {static_cast<QWidget*>(heading), fieldsPlace_, static_cast<QWidget*>(problem_),
                          static_cast<QWidget*>(question_), buttons_}) {
        column_->addWidget(part);
    }
    new InView{this, {question_, buttons_}};
    connect(go_, &QPushButton::clicked, this, &InlineForm::submit);
    connect(cancel_, &QPushButton::clicked, this, &InlineForm::closed);
    connect(question_, &QuestionBar::agreed, this, &InlineForm::goOn);
    connect(question_, &QuestionBar::declined, this, [this] {
        if (fieldsPlace_->isHidden()) {
            emit closed();
        } else {
            stopAsking();
        }
    });
}

void InlineForm::addField(const QString& label, QWidget* field) {
    auto* pair = new QWidget{this};
    auto* column = new QVBoxLayout{pair};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(4);
    auto* words = new QLabel{label, pair};
    words->setBuddy(field);
    column->addWidget(words);
    column->addWidget(field);
    fields_->addWidget(pair);
    field->setAccessibleName(spoken(label));
    if (first_ == nullptr) {
        first_ = field;
    } else {
        setTabOrder(last_, field);
    }
    last_ = field;
    setTabOrder(last_, go_);
    setTabOrder(go_, cancel_);
}

QLineEdit* InlineForm::addLine(const char* name, const QString& label, int characters) {
    auto* line = new QLineEdit{this};
    line->setObjectName(QLatin1String{name});
    line->setMinimumWidth(line->fontMetrics().averageCharWidth() * characters + 24);
    addField(label, line);
    return line;
}

QComboBox* InlineForm::addChoice(const char* name, const QString& label, const QStringList& choices) {
    auto* choice = new QComboBox{this};
    choice->setObjectName(QLatin1String{name});
    choice->addItems(choices);
    addField(label, choice);
    return choice;
}

QCheckBox* InlineForm::addCheck(const char* name, const QString& words, bool checked) {
    auto* check = new QCheckBox{words, this};
    check->setObjectName(QLatin1String{name});
    check->setChecked(checked);
    addField(QStringLiteral(" "), check);
    check->setAccessibleName(spoken(words));
    return check;
}

QLabel* InlineForm::addNote(const QString& words, const QString& source) {
    auto* note = new QLabel{words, this};
    note->setWordWrap(true);
    note->setForegroundRole(QPalette::PlaceholderText);
    note->setToolTip(source);
    column_->addWidget(note);
    return note;
}

QLabel* InlineForm::addWarning(const char* name) {
    auto* warning = new QLabel{this};
    warning->setObjectName(QLatin1String{name});
    warning->setWordWrap(true);
    setTone(*warning, Tone::question);
    warning->hide();
    column_->insertWidget(column_->indexOf(problem_), warning);
    return warning;
}

void InlineForm::begin() {
    show();
    if (!askedFirst_.words.isEmpty()) {
        fieldsPlace_->hide();
        ask(askedFirst_);
    } else if (first_ != nullptr) {
        first_->setFocus();
    }
}

void InlineForm::ask(const Question& question) {
    before_ = QApplication::focusWidget();
    asked_ = question;
    say({});
    buttons_->hide();
    question_->ask(question);
}

void InlineForm::stopAsking() {
    QWidget* next = before_ != nullptr && isAncestorOf(before_) && before_ != go_ ? before_.data() : first_;
    question_->hide();
    buttons_->show();
    if (next != nullptr) {
        next->setFocus();
    }
}

/// The question was answered with yes. What it spoke of may have changed meanwhile.
void InlineForm::goOn() {
    if (fieldsPlace_->isHidden()) {
        fieldsPlace_->show();
        stopAsking();
        return;
    }
    const Question now = ask_();
    if (now.words.isEmpty() || now.words == asked_.words) {
        stopAsking();
        save();
    } else {
        ask(now);
    }
}

void InlineForm::submit() {
    const Question question = ask_ ? ask_() : Question{};
    if (question.words.isEmpty()) {
        save();
    } else {
        ask(question);
    }
}

void InlineForm::save() {
    const QString problem = save_ ? save_() : QString{};
    say(problem);
    if (problem.isEmpty()) {
        emit saved();
        emit closed();
    }
}

void InlineForm::say(const QString& problem) {
    if (QWidget* field = QApplication::focusWidget(); field != nullptr && fieldsPlace_->isAncestorOf(field)) {
        field->setAccessibleDescription(problem);
    }
    speak(*problem_, problem);
}

void InlineForm::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        emit closed();
        return;
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        submit();  // lines, check boxes and choices leave the key to the form
        return;
    }
    QWidget::keyPressEvent(event);
}

}  // namespace midden::ui
