// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/common/inline_form.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/common/flow_layout.h"
#include "ui/common/tone.h"

namespace midden::ui {

namespace {

QString spoken(QString label) {
    return label.remove(QLatin1Char{'&'});
}

}  // namespace

InlineForm::InlineForm(const QString& title, const QString& go, QWidget* parent)
    : QWidget{parent},
      column_{new QVBoxLayout{this}},
      fields_{new FlowLayout{16}},
      problem_{new QLabel{this}},
      go_{new QPushButton{go, this}},
      cancel_{new QPushButton{tr("Cancel"), this}} {
    auto* heading = new QLabel{title, this};
    QFont bold = heading->font();
    bold.setWeight(QFont::DemiBold);
    heading->setFont(bold);
    problem_->setObjectName(QStringLiteral("formProblem"));
    problem_->setWordWrap(true);
    problem_->hide();
    go_->setObjectName(QStringLiteral("formSave"));
    go_->setAccessibleName(spoken(go));
    go_->setProperty("leading", true);
    go_->setAutoDefault(true);
    cancel_->setObjectName(QStringLiteral("formCancel"));
    cancel_->setAccessibleName(tr("Cancel"));
    cancel_->setAutoDefault(true);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(8);
    buttons->addWidget(go_);
    buttons->addWidget(cancel_);
    buttons->addStretch();
    column_->setContentsMargins(0, 8, 0, 8);
    column_->setSpacing(8);
    column_->addWidget(heading);
    column_->addLayout(fields_);
    column_->addWidget(problem_);
    column_->addLayout(buttons);
    connect(go_, &QPushButton::clicked, this, &InlineForm::submit);
    connect(cancel_, &QPushButton::clicked, this, &InlineForm::closed);
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
    column_->insertWidget(column_->indexOf(problem_), note);
    return note;
}

void InlineForm::begin() {
    show();
    if (first_ != nullptr) {
        first_->setFocus();
    }
}

void InlineForm::submit() {
    const QString problem = save_ ? save_() : QString{};
    problem_->setText(problem);
    problem_->setAccessibleName(problem);
    problem_->setVisible(!problem.isEmpty());
    setTone(*problem_, Tone::question);
    if (problem.isEmpty()) {
        emit saved();
        emit closed();
    }
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
