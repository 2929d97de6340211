// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "core/recipe/balance.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace midden::ui {

class FlowLayout;

/// "What would mend it": the materials to hand, how much of each, what is wanted, and the answer.
class ToHandPanel : public QWidget {
    Q_OBJECT

  public:
    explicit ToHandPanel(QWidget* parent = nullptr);

    /// The materials to choose from; those of `ticked` are to hand. Ids that are not in the list are left out.
    void setMaterials(const Materials& materials, const QStringList& offered, const QStringList& ticked);
    QStringList offered() const;
    QStringList ticked() const;

    std::vector<ToHand> toHand(const Materials& materials) const;
    Aim aim() const;
    void setAnswer(const QString& words, bool canBeTaken);

  signals:
    void typed();
    void taken();                            ///< the answer is to be put among what goes in
    void anotherAsked(const QString& name);  ///< this material is to hand as well

  private:
    struct Choice {
        QString id;
        QWidget* line;  ///< holds the two
        QCheckBox* here;
        QLineEdit* most;
    };
    void addChoice(const Material& material, bool ticked);
    void layOutFoot();

    FlowLayout* choicesRow_;
    QComboBox* aim_;
    QLineEdit* another_;
    QLabel* answer_;
    QPushButton* take_;
    std::vector<Choice> choices_;
};

}  // namespace midden::ui
