// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/setup/explained_form.h"
#include "ui/setup/own_criterion.h"
#include "ui/shared/book.h"

namespace midden::ui {

/// Writes or amends a criterion of the group's own. What is wrong stands beside its field as soon as it is typed.
class OwnCriterionForm : public ExplainedForm {
    Q_OBJECT

  public:
    /// Keeps the criterion; false when the book could not take it.
    using Keep = std::function<bool(const Criterion&)>;
    OwnCriterionForm(const Book& book, std::optional<Criterion> amended, Keep keep, QWidget* parent = nullptr);

  private:
    void build();
    void fill(const OwnDraft& draft);
    OwnDraft draft() const;
    OwnReading reading() const;
    void explain();
    QString save(const Keep& keep);

    TemperatureUnit unit_;
    std::optional<Criterion> amended_;
    std::vector<Criterion> others_;
    QLineEdit* title_ = nullptr;
    QComboBox* exceeds_ = nullptr;
    QLineEdit* threshold_ = nullptr;
    QLineEdit* ceiling_ = nullptr;
    QLineEdit* hold_ = nullptr;
    QComboBox* holdUnit_ = nullptr;
    QComboBox* continuity_ = nullptr;
    QLineEdit* turnings_ = nullptr;
    QLineEdit* apart_ = nullptr;
    QLineEdit* gap_ = nullptr;
    QLineEdit* source_ = nullptr;
    QLineEdit* note_ = nullptr;
    QLabel* outcome_ = nullptr;
};

}  // namespace midden::ui
