// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/merge/merge_work.h"

#include <QCoreApplication>

#include "core/store/care/copies.h"
#include "core/store/files/trial_copy.h"

namespace midden::ui {

namespace {

MergeFindings mergeInto(Logbook logbook, const MergeTask& task, const MergeChoices& choices) {
    const auto other = Logbook::open(task.other, Logbook::Mode::readOnly);
    logbook.setHand(task.who, [now = task.now] { return now; });
    return {logbook.merge(other,
                          [&](const MergeConflict& conflict) {
                              const auto choice = choices.find(conflict.key);
                              return choice == choices.end() ? Stands::byTheRule : choice->second;
                          }),
            {}};
}

MergeFindings troubleOf(const std::exception& error) {
    return {{}, QString::fromUtf8(error.what())};
}

}  // namespace

MergeFindings lookThrough(const MergeTask& task) {
    try {
        if (std::filesystem::equivalent(task.book, task.other)) {
            return {{}, QCoreApplication::translate("merge", "That is the book which is open here, not another copy.")};
        }
        const TrialCopy trial{task.book, std::filesystem::temp_directory_path()};
        return mergeInto(trial.open(), task, {});
    } catch (const std::exception& error) {
        return troubleOf(error);
    }
}

MergeFindings bringIn(const MergeTask& task, const MergeChoices& choices) {
    try {
        if (!task.copies.empty()) {
            keepCopy(task.book, task.copies, task.now);
        }
        return mergeInto(Logbook::open(task.book, Logbook::Mode::readWrite), task, choices);
    } catch (const std::exception& error) {
        return troubleOf(error);
    }
}

}  // namespace midden::ui
