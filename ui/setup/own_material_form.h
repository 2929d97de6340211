// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

#include "ui/setup/explained_form.h"
#include "ui/setup/own_material.h"

namespace midden::ui {

/// Adds a material of the group's own or changes the figures of one in the list.
class OwnMaterialForm : public ExplainedForm {
    Q_OBJECT

  public:
    /// Keeps the material; false when the book could not take it.
    using Keep = std::function<bool(const Material&)>;
    OwnMaterialForm(Materials all, std::optional<Material> changed, Keep keep, QWidget* parent = nullptr);

  private:
    void build();
    MaterialReading reading() const;
    void explain();
    QString save(const Keep& keep);

    Materials all_;
    std::optional<Material> changed_;
    QLineEdit* name_ = nullptr;
    QLineEdit* moisture_ = nullptr;
    QLineEdit* ratio_ = nullptr;
    QLineEdit* nitrogen_ = nullptr;
    QLineEdit* bulk_ = nullptr;
    QComboBox* raw_ = nullptr;
    QComboBox* kitchen_ = nullptr;
    QLineEdit* source_ = nullptr;
};

}  // namespace midden::ui
