// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "ui/recipe/recipe_plan.h"

class QGridLayout;
class QLabel;
class QLineEdit;

namespace midden::ui {

/// What goes in, one material and its amount a line. Enter goes on to the next cell; an empty line always waits below.
class RecipeLines : public QWidget {
    Q_OBJECT

  public:
    explicit RecipeLines(QWidget* parent = nullptr);

    void setKnown(const QStringList& names);
    std::vector<TypedLine> lines() const;
    void setLines(const std::vector<TypedLine>& lines);
    void append(const TypedLine& line);
    /// One for each of lines(), in their order.
    void setRemarks(const std::vector<ReadLine>& read);
    /// Puts the cursor into the first empty material.
    void begin();

  signals:
    void typed();

  private:
    struct Line {
        QLineEdit* material;
        QLineEdit* amount;
        QLabel* remark;
    };
    void addLine();
    void keepOneEmpty();
    void goOn(const QLineEdit* from);

    QGridLayout* grid_;
    std::vector<Line> lines_;
    QStringList known_;
};

}  // namespace midden::ui
