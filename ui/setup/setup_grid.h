// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QCheckBox;
class QGridLayout;
class QLabel;
class QPushButton;

namespace midden::ui {

class SavedLine;

/// A part of Setup: a title, a line of explanation, and rows of things that save themselves.
class SetupGrid : public QWidget {
    Q_OBJECT

  public:
    SetupGrid(const QString& title, const QString& explanation, QWidget* parent = nullptr);

    /// Throws away all rows.
    void clear(const QStringList& headings);
    /// What the rows are made from changed its shape? Remembers it for the next time.
    bool reshapes(const QString& shape);
    int nextRow() { return row_++; }

    SavedLine* line(int row, int column, const QString& name, const QString& spoken, int characters);
    QLabel* label(int row, int column, const QString& words);
    QCheckBox* check(int row, int column, const QString& name, const QString& spoken);
    QPushButton* button(int row, int column, const QString& name, const QString& words, const QString& spoken);
    void put(QWidget* widget, int row, int column);

    /// What is wrong with what was typed, under the rows; empty = nothing.
    void say(const QString& problem);

  private:
    QLabel* problem_;
    QWidget* body_ = nullptr;
    QGridLayout* grid_ = nullptr;
    QString shape_;
    int row_ = 0;
};

}  // namespace midden::ui
