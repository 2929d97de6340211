// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/setup/explained_form.h"
#include "ui/shared/book.h"

namespace midden::ui {

/// A guided check of one thermometer in melting ice or boiling water.
class CheckForm : public ExplainedForm {
    Q_OBJECT

  public:
    CheckForm(Book& book, const Probe& probe, CheckKind kind, QWidget* parent = nullptr);
    /// To amend a check that is in the book.
    CheckForm(Book& book, const Probe& probe, const ThermometerCheck& entered, QWidget* parent = nullptr);

  private:
    void build();
    void addBoilingFields();
    void fill(const ThermometerCheck& entered);
    void explain();
    void explainBoiling();
    void explainOutcome(const Result<ThermometerCheck>& check);
    QString save();

    Result<WrittenTemperature> read() const;
    Result<std::optional<double>> altitude() const;
    Result<std::optional<double>> pressure() const;
    Result<std::optional<Instant>> reachesBackTo() const;
    /// The check as typed so far, or the first thing that is wrong with it.
    Result<ThermometerCheck> typedCheck() const;
    TemperatureUnit unit() const;
    /// This probe's checks as they will be with `check` among them.
    std::vector<ThermometerCheck> with(const ThermometerCheck& check) const;

    Book& book_;
    Probe probe_;
    CheckKind kind_;
    EntryId amended_;   ///< empty for a new check
    std::string note_;  ///< kept as it was
    QLineEdit* reading_ = nullptr;
    QLineEdit* altitude_ = nullptr;
    QLineEdit* pressure_ = nullptr;
    QLineEdit* when_ = nullptr;
    QComboBox* holds_ = nullptr;
    QLineEdit* since_ = nullptr;
    QLineEdit* why_ = nullptr;
    QLabel* outcome_ = nullptr;
};

}  // namespace midden::ui
