// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QListWidget>
#include <vector>

#include "core/criteria/information.h"

namespace midden::ui {

/// The criteria by title, with whose they are under each.
class CriteriaList : public QListWidget {
    Q_OBJECT

  public:
    explicit CriteriaList(QWidget* parent = nullptr);
    /// The criteria, then the rules that are told and not judged. Keeps the chosen one chosen where it is still there.
    void fill(const std::vector<Criterion>& criteria, const std::vector<Information>& information);
    void choose(const QString& id);
    QString chosen() const;

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  private:
    void add(const std::string& id, const QString& title, const QString& origin, bool isOwn);
};

}  // namespace midden::ui
