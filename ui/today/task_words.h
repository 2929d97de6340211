// SPDX-License-Identifier: GPL-3.0-or-later
// A task as a line: the bin, what to do, until when, and why.
#pragma once

#include <QString>

#include "core/quantities/zone.h"
#include "core/review/tasks.h"

namespace midden::ui {

/// Where a task is done.
enum class TaskPlace { round, stall, certificate, setup };
TaskPlace placeOf(TaskKind kind);

/// What the words need to know of the book.
struct TaskContext {
    OutlookSettings settings;
    TaskSettings care;
    TimeZone zone = TimeZone::utc();
    TemperatureUnit unit = TemperatureUnit::celsius;
    Moment now;
};

struct TaskLine {
    QString where;
    QString what;
    QString until;  ///< "now", "by 20:10 today"; empty when it can wait
    QString why;

    /// All of it as one sentence, for the ear.
    QString spoken() const;
};
TaskLine lineOf(const Task& task, const TaskContext& context);

}  // namespace midden::ui
