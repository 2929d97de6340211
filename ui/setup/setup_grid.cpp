// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/setup_grid.h"

#include <QCheckBox>
#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/shared/kept_typing.h"
#include "ui/shared/saved_line.h"
#include "ui/shared/speak.h"
#include "ui/shared/tone.h"

namespace midden::ui {

SetupGrid::SetupGrid(const QString& title, const QString& explanation, QWidget* parent)
    : QWidget{parent}, problem_{new QLabel{this}} {
    auto* heading = new QLabel{title, this};
    QFont bold = heading->font();
    bold.setWeight(QFont::DemiBold);
    heading->setFont(bold);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    column->addWidget(heading);
    if (!explanation.isEmpty()) {
        auto* words = new QLabel{explanation, this};
        words->setWordWrap(true);
        words->setForegroundRole(QPalette::PlaceholderText);
        column->addWidget(words);
    }
    problem_->setWordWrap(true);
    problem_->hide();
    column->addWidget(problem_);
}

void SetupGrid::clear(const QStringList& headings) {
    body_ = new QWidget{this};
    grid_ = new QGridLayout{body_};
    grid_->setContentsMargins(0, 0, 0, 0);
    grid_->setHorizontalSpacing(16);
    grid_->setVerticalSpacing(8);
    constexpr int behindAll = 9;
    grid_->setColumnStretch(behindAll, 1);
    auto* column = qobject_cast<QVBoxLayout*>(layout());
    column->insertWidget(column->indexOf(problem_), body_);
    row_ = 0;
    if (!headings.isEmpty()) {
        const int row = nextRow();
        for (int i = 0; i < headings.size(); ++i) {
            QLabel* heading = label(row, i, headings.at(i));
            heading->setForegroundRole(QPalette::PlaceholderText);
            heading->setWordWrap(true);
            heading->setAlignment(Qt::AlignLeft | Qt::AlignBottom);
        }
    }
}

void SetupGrid::remake(const QString& shape, const QStringList& headings, const std::function<void()>& addRows) {
    if (body_ != nullptr && shape == shape_) {
        return;
    }
    shape_ = shape;
    QWidget* old = body_;
    const KeptTyping typing{old};
    clear(headings);
    addRows();
    body_->show();  // with all its rows, for what is not shown cannot take the keyboard
    if (!typing.goOnIn(*body_)) {
        typing.giveToNextLine(*body_);
    }
    if (old != nullptr) {
        old->hide();
        old->setParent(nullptr);
        old->deleteLater();  // one of its lines may be what asked for this
    }
}

void SetupGrid::put(QWidget* widget, int row, int column) {
    grid_->addWidget(widget, row, column);
}

SavedLine* SetupGrid::line(int row, int column, const QString& name, const QString& spoken, int characters) {
    auto* made = new SavedLine{body_};
    made->setObjectName(name);
    made->setAccessibleName(spoken);
    made->setUsualWidth(made->fontMetrics().averageCharWidth() * characters + 24);
    connect(made, &SavedLine::enterPressed, made, [made] { made->nextInFocusChain()->setFocus(Qt::TabFocusReason); });
    put(made, row, column);
    return made;
}

SavedLine* SetupGrid::newLine(int row, int column, const QString& name, const QString& spoken,
                              const std::function<bool(const QString&)>& add) {
    constexpr int characters = 20;
    auto* made = new SavedLine{body_};
    made->setObjectName(name);
    made->setAccessibleName(spoken);
    made->setUsualWidth(made->fontMetrics().averageCharWidth() * characters + 24);
    connect(made, &SavedLine::typed, this, [made, add](const QString& typed) {
        if (!typed.trimmed().isEmpty()) {
            made->giveAway([&](const QString& given) { return add(given.trimmed()); });
        }
    });
    put(made, row, column);
    return made;
}

QLabel* SetupGrid::label(int row, int column, const QString& words) {
    auto* made = new QLabel{words, body_};
    put(made, row, column);
    return made;
}

QCheckBox* SetupGrid::check(int row, int column, const QString& name, const QString& spoken) {
    auto* made = new QCheckBox{body_};
    made->setObjectName(name);
    made->setAccessibleName(spoken);
    put(made, row, column);
    return made;
}

QPushButton* SetupGrid::button(int row, int column, const QString& name, const QString& words, const QString& spoken) {
    auto* made = new QPushButton{words, body_};
    made->setObjectName(name);
    made->setAccessibleName(spoken);
    made->setAutoDefault(true);
    put(made, row, column);
    return made;
}

QLabel* SetupGrid::addNote(const QString& words, const QString& source) {
    auto* note = new QLabel{words, this};
    note->setWordWrap(true);
    note->setToolTip(source);
    note->setForegroundRole(QPalette::PlaceholderText);
    qobject_cast<QVBoxLayout*>(layout())->addWidget(note);
    return note;
}

void SetupGrid::say(const QString& problem) {
    setTone(*problem_, Tone::question);
    speak(*problem_, problem);
}

}  // namespace midden::ui
