// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QListWidget>
#include <vector>

#include "core/criteria/criterion.h"

namespace midden::ui {

/// The criteria by title, with whose they are under each.
class CriteriaList : public QListWidget {
    Q_OBJECT

  public:
    explicit CriteriaList(QWidget* parent = nullptr);
    /// Keeps the chosen one chosen where it is still there.
    void fill(const std::vector<Criterion>& criteria);
    void choose(const QString& id);
    QString chosen() const;

    QSize sizeHint() const override;
};

}  // namespace midden::ui
