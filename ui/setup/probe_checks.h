// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QWidget>

#include "ui/shared/book.h"

class QGridLayout;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace midden::ui {

class ExplainedForm;
class WithdrawBar;

/// One thermometer: how it stands, a check to make, and the checks made.
class ProbeChecks : public QWidget {
    Q_OBJECT

  public:
    ProbeChecks(Book& book, ProbeId probe, QWidget* parent = nullptr);
    void refresh();

  protected:
  private:
    void layOut();
    QPushButton* addButton(const QString& words, const QString& name);
    void fillState(const Probe& probe, const std::vector<ThermometerCheck>& all);
    void fillPast(const std::vector<ThermometerCheck>& all);
    void addPast(const std::vector<ThermometerCheck>& all);
    void addPast(const ThermometerCheck& check, int row);
    void begin(ExplainedForm* form, QWidget* from);
    void askToWithdraw(const ThermometerCheck& check);
    std::optional<Probe> probe() const;

    Book& book_;
    ProbeId id_;
    QVBoxLayout* column_;
    QLabel* name_;
    QLabel* state_;
    QLabel* drift_;
    QLabel* overdue_;
    QPushButton* ice_;
    QPushButton* boiling_;
    QWidget* past_ = nullptr;
    QPointer<ExplainedForm> form_;
    WithdrawBar* bar_;
    EntryId leaving_;  ///< the check about to be withdrawn
};

}  // namespace midden::ui
