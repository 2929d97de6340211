// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractListModel>

#include "ui/today/task_words.h"

namespace midden::ui {

/// The tasks in their words, most pressing first.
class TaskModel : public QAbstractListModel {
    Q_OBJECT

  public:
    enum Role { whatRole = Qt::UserRole, untilRole, whyRole };

    using QAbstractListModel::QAbstractListModel;
    void show(std::vector<Task> tasks, const TaskContext& context);
    const Task& task(int row) const { return tasks_.at(static_cast<std::size_t>(row)); }

    int rowCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;

  private:
    std::vector<Task> tasks_;
    std::vector<TaskLine> lines_;
};

}  // namespace midden::ui
