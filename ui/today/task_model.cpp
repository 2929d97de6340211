// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/today/task_model.h"

namespace midden::ui {

void TaskModel::show(std::vector<Task> tasks, const TaskContext& context) {
    beginResetModel();
    tasks_ = std::move(tasks);
    lines_.clear();
    for (const Task& task : tasks_) {
        lines_.push_back(lineOf(task, context));
    }
    endResetModel();
}

int TaskModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(tasks_.size());
}

QVariant TaskModel::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) {
        return {};
    }
    const TaskLine& line = lines_.at(static_cast<std::size_t>(index.row()));
    switch (role) {
        case Qt::DisplayRole:
        case Qt::ToolTipRole:
            return line.where;
        case Qt::AccessibleTextRole:
            return line.spoken();
        case whatRole:
            return line.what;
        case untilRole:
            return line.until;
        case whyRole:
            return line.why;
        default:
            return {};
    }
}

}  // namespace midden::ui
