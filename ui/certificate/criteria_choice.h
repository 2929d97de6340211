// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <functional>
#include <vector>

#include "core/criteria/information.h"
#include "core/criteria/judgement.h"

class QCheckBox;
class QLabel;
class QVBoxLayout;

namespace midden::ui {

/// The criteria a certificate may judge by, each with where it is from and what the readings show of it.
class CriteriaChoice : public QWidget {
    Q_OBJECT

  public:
    explicit CriteriaChoice(QWidget* parent = nullptr);
    /// Below the criteria stand the rules that are told and not judged.
    void show(const std::vector<Judgement>& judgements, const std::function<bool(const std::string&)>& isChosen);

  signals:
    void chosen(const QString& id, bool isChosen);

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    struct Line {
        QString id;
        QString title;
        QCheckBox* box;
        QWidget* words;
    };
    void addLine(const Judgement& judgement);
    void addInformation(const Information& row);
    QLabel* addBox(const std::string& id, const std::string& title, const std::string& scope);
    void fitTitles();

    QVBoxLayout* column_;
    std::vector<Line> lines_;
};

/// "shown", "within the thermometer's error", "not shown"
QString verdictWords(Verdict verdict);

}  // namespace midden::ui
