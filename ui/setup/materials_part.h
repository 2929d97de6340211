// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QWidget>

#include "core/recipe/material.h"
#include "ui/shared/book.h"

class QComboBox;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace midden::ui {

class ExplainedForm;

/// The list of materials: each with its figures and their source, the changed ones marked, own ones to add.
class MaterialsPart : public QWidget {
    Q_OBJECT

  public:
    explicit MaterialsPart(Book& book, QWidget* parent = nullptr);

  private:
    void layOut();
    void refresh();
    void showChosen();
    void begin(std::optional<Material> changed);
    bool keep(const Material& material);
    void takeBack();
    bool store(const std::vector<Material>& own, const QString& label);
    std::vector<Material> own() const;
    const Material* chosen() const;

    Book& book_;
    QComboBox* choice_;
    QLabel* page_;
    QLabel* source_;
    QPushButton* showSource_;
    QPushButton* change_;
    QPushButton* takeBack_;
    QPushButton* add_;
    QVBoxLayout* column_;
    QPointer<ExplainedForm> form_;
    Materials all_;
};

}  // namespace midden::ui
