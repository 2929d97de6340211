// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QWidget>
#include "ui/shared/book.h"

#include "core/criteria/criterion.h"

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace midden::ui {

class CriteriaList;
class ExplainedForm;

/// Every criterion the book knows, the chosen one in full, and the group's own to write, edit and remove.
class CriteriaPart : public QWidget {
    Q_OBJECT

  public:
    explicit CriteriaPart(Book& book, QWidget* parent = nullptr);

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void layOut();
    void refresh();
    void showChosen();
    void begin(std::optional<Criterion> amended);
    bool keep(const Criterion& criterion);
    void remove();
    bool store(const std::vector<Criterion>& own, const QString& label);
    const Criterion* chosen() const;

    Book& book_;
    CriteriaList* list_;
    QLabel* page_;
    QPushButton* add_;
    QPushButton* edit_;
    QPushButton* remove_;
    QVBoxLayout* column_;
    QPointer<ExplainedForm> form_;
    std::vector<Criterion> all_;
};

}  // namespace midden::ui
