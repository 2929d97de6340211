// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <map>
#include <optional>

#include "ui/round/batch_actions.h"
#include "ui/round/round_plan.h"
#include "ui/shared/book.h"

class QLabel;
class QScrollArea;
class QVBoxLayout;

namespace midden::ui {

class InlineForm;
class RoundHeader;
class RoundTable;
struct Entry;
struct FormTarget;

/// The daily round: a number per place, typed from top to bottom, each on disk when the cursor leaves it.
class RoundScreen : public QWidget {
    Q_OBJECT

  public:
    explicit RoundScreen(Book& book, QWidget* parent = nullptr);
    /// Puts the cursor into the bin's first cell that still waits for its number.
    void goToBin(BinId bin);

  protected:
    void focusInEvent(QFocusEvent* event) override;

  private:
    void layOut();
    void connectParts();
    void refresh();
    void refreshEmpty();
    Moment roundTime(const NewestReadings& newest) const;

    void enterOutside(const QString& text);
    void enterReading(std::size_t row, const QString& text);
    bool store(const Reading& wanted, const std::optional<Reading>& stored, const Entry& entry, const QString& label);
    void goOn(std::size_t row);
    void goTo(std::size_t row);
    void goToQuestion();
    void sayComplete();
    void choose(std::size_t row);
    void follow(const Place& before);
    Place placeOfRow() const;
    void returnToCells();
    void takeKeyboard(bool outsideFirst);

    void act(BatchActions::Kind kind);
    void caution(BatchActions::Kind kind);
    void openForm(InlineForm* form);
    void startBatch(std::optional<BinId> bin);
    FormTarget target() const;
    void showTarget();

    Book& book_;
    std::optional<Moment> asked_;  ///< a round of the past, as typed; no value: the one going on
    RoundPlan plan_;
    bool isStoring_ = false;  ///< what is shown follows once the cell has been told
    std::size_t row_ = 0;     ///< where the cursor is, or was last, in the bin that is looked at
    RoundHeader* header_;
    RoundTable* table_;
    QLabel* summary_;
    BatchActions* actions_;
    QLabel* caution_;
    QWidget* empty_;
    QWidget* full_;
    QVBoxLayout* formPlace_;
    QScrollArea* scroll_;
    InlineForm* form_ = nullptr;
};

}  // namespace midden::ui
