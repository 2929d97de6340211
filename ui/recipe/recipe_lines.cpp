// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipe/recipe_lines.h"

#include <QCompleter>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QStringListModel>

#include "ui/shared/tone.h"

namespace midden::ui {

RecipeLines::RecipeLines(QWidget* parent) : QWidget{parent}, grid_{new QGridLayout{this}} {
    grid_->setContentsMargins(0, 0, 0, 0);
    grid_->setHorizontalSpacing(16);
    grid_->setVerticalSpacing(4);
    grid_->addWidget(new QLabel{tr("What goes in")}, 0, 0);
    grid_->addWidget(new QLabel{tr("How much")}, 0, 1);
    grid_->setColumnStretch(2, 1);
    addLine();
}

void RecipeLines::setKnown(const QStringList& names) {
    known_ = names;
    for (const Line& line : lines_) {
        if (auto* model = qobject_cast<QStringListModel*>(line.material->completer()->model())) {
            model->setStringList(known_);
        }
    }
}

void RecipeLines::addLine() {
    const int row = static_cast<int>(lines_.size()) + 1;
    const int characters = fontMetrics().averageCharWidth();
    Line line{new QLineEdit{this}, new QLineEdit{this}, new QLabel{this}};
    line.material->setObjectName(QStringLiteral("material%1").arg(row));
    line.material->setAccessibleName(tr("Material, line %1").arg(row));
    line.material->setMinimumWidth(30 * characters);
    auto* completer = new QCompleter{known_, line.material};
    completer->setCaseSensitivity(Qt::CaseInsensitive);
    completer->setFilterMode(Qt::MatchContains);
    line.material->setCompleter(completer);
    line.amount->setObjectName(QStringLiteral("amount%1").arg(row));
    line.amount->setAccessibleName(tr("Amount, line %1").arg(row));
    line.amount->setFixedWidth(26 * characters);
    if (row == 1) {
        line.material->setPlaceholderText(tr("wet grass"));
        line.amount->setPlaceholderText(tr("10 kg or 2 buckets"));
    }
    line.remark->setWordWrap(true);
    grid_->addWidget(line.material, row, 0);
    grid_->addWidget(line.amount, row, 1);
    grid_->addWidget(line.remark, row, 2);
    grid_->setRowMinimumHeight(row, line.amount->sizeHint().height());
    for (QLineEdit* cell : {line.material, line.amount}) {
        connect(cell, &QLineEdit::textChanged, this, [this] {
            keepOneEmpty();
            emit typed();
        });
        connect(cell, &QLineEdit::returnPressed, this, [this, cell] { goOn(cell); });
    }
    if (!lines_.empty()) {
        setTabOrder(lines_.back().amount, line.material);
    }
    setTabOrder(line.material, line.amount);
    lines_.push_back(line);
}

void RecipeLines::keepOneEmpty() {
    if (!lines_.back().material->text().isEmpty() || !lines_.back().amount->text().isEmpty()) {
        addLine();
    }
}

void RecipeLines::goOn(const QLineEdit* from) {
    for (std::size_t i = 0; i < lines_.size(); ++i) {
        if (lines_[i].material == from) {
            lines_[i].amount->setFocus();
        } else if (lines_[i].amount == from && i + 1 < lines_.size()) {
            lines_[i + 1].material->setFocus();
        }
    }
}

std::vector<TypedLine> RecipeLines::lines() const {
    std::vector<TypedLine> all;
    all.reserve(lines_.size());
    for (const Line& line : lines_) {
        all.push_back({line.material->text(), line.amount->text()});
    }
    return all;
}

void RecipeLines::setLines(const std::vector<TypedLine>& lines) {
    const QSignalBlocker quiet{this};
    for (const Line& line : lines_) {
        line.material->setText({});  // unlike clear(), with nothing to undo
        line.amount->setText({});
    }
    for (const TypedLine& line : lines) {
        append(line);
    }
}

void RecipeLines::append(const TypedLine& typedLine) {
    for (const Line line : std::vector<Line>{lines_}) {  // a copy: filling the last line adds one behind it
        if (line.material->text().isEmpty() && line.amount->text().isEmpty()) {
            line.material->setText(typedLine.material);
            line.amount->setText(typedLine.amount);
            return;
        }
    }
}

void RecipeLines::setRemarks(const std::vector<ReadLine>& read) {
    for (std::size_t i = 0; i < lines_.size() && i < read.size(); ++i) {
        lines_[i].remark->setText(read[i].remark);
        setTone(*lines_[i].remark, read[i].wrong ? Tone::question : Tone::quiet);
    }
}

void RecipeLines::begin() {
    for (const Line& line : lines_) {
        if (line.material->text().isEmpty()) {
            line.material->setFocus();
            return;
        }
    }
}

}  // namespace midden::ui
