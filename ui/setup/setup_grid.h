// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <functional>

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

    /// Begins the rows.
    void clear(const QStringList& headings);
    /// Makes the rows anew when what they are made from has changed its shape since the last time. Where the keyboard
    /// is and what is half typed stays; rows are told apart by the names of their cells, so these say what they are of.
    void remake(const QString& shape, const QStringList& headings, const std::function<void()>& addRows);
    int nextRow() { return row_++; }

    SavedLine* line(int row, int column, const QString& name, const QString& spoken, int characters);
    /// A line for something new: Enter adds it and the empty line waits for the next. `add` is given the name without
    /// spaces around it, and says whether it was taken.
    SavedLine* newLine(int row, int column, const QString& name, const QString& spoken,
                       const std::function<bool(const QString&)>& add);
    QLabel* label(int row, int column, const QString& words);
    QCheckBox* check(int row, int column, const QString& name, const QString& spoken);
    QPushButton* button(int row, int column, const QString& name, const QString& words, const QString& spoken);
    void put(QWidget* widget, int row, int column);

    /// A quiet line at the end; the tooltip names its source.
    QLabel* addNote(const QString& words, const QString& source);
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
