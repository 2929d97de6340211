// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "ui/recipe/recipe_plan.h"
#include "ui/shared/book.h"

class QComboBox;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace midden::ui {

class Gauge;
class RecipeLines;
class QuestionBar;
class ToHandPanel;

/// Today's buckets, what they make with what is in the bin already, and what would mend it. The same page plans a new
/// batch (into an empty bin) and corrects a running one.
class RecipeScreen : public QWidget {
    Q_OBJECT

  public:
    explicit RecipeScreen(Book& book, QWidget* parent = nullptr);

  protected:
    void focusInEvent(QFocusEvent* event) override;

  private:
    void layOut();
    void layOutGauges(QVBoxLayout* column);
    void layOutFoot(QVBoxLayout* column);
    QLabel* quietLine(QVBoxLayout* column, const char* name);
    void connectParts();

    void refreshBook();
    void refreshBatches();
    void refreshToHand();
    void refresh();
    void showMixture(const Mixture& mixture);
    void showKnown();
    void showMend(const std::vector<Portion>& portions);
    void showCautions();
    std::optional<Batch> chosenBatch() const;
    std::vector<Addition> alreadyIn() const;
    std::optional<double> binLitres() const;

    void keepTicked();
    void takeMend();
    void offer(const QString& name);
    /// Those typed, as entries of the batch made now.
    std::vector<Addition> typedFor(BatchId batch) const;
    void askAndLog();
    void logAdditions();

    Book& book_;
    Materials materials_;
    Measures measures_;
    std::vector<ReadLine> read_;
    Mend mend_;
    QComboBox* into_;
    RecipeLines* lines_;
    Gauge* ratio_;
    Gauge* moisture_;
    QLabel* ratioWords_ = nullptr;
    QLabel* moistureWords_ = nullptr;
    QLabel* doubts_ = nullptr;
    QLabel* known_ = nullptr;
    QPushButton* showSources_;
    QLabel* sources_ = nullptr;
    QLabel* room_ = nullptr;
    QLabel* cautions_ = nullptr;
    ToHandPanel* toHand_;
    QPushButton* log_;
    QuestionBar* question_;
};

}  // namespace midden::ui
