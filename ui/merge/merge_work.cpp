// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/merge/merge_work.h"

#include <QCoreApplication>
#include <QTemporaryDir>

#include "core/logbook/copies.h"

namespace midden::ui {

namespace {

MergeFindings mergeInto(const std::filesystem::path& book, const MergeTask& task, const MergeChoices& choices) {
    const auto other = Logbook::open(task.other, Logbook::Mode::readOnly);
    auto logbook = Logbook::open(book, Logbook::Mode::readWrite);
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
        const QTemporaryDir folder;
        const std::filesystem::path trial = folder.filePath(QStringLiteral("trial.midden")).toStdString();
        Logbook::open(task.book, Logbook::Mode::readOnly).copyTo(trial);
        return mergeInto(trial, task, {});
    } catch (const std::exception& error) {
        return troubleOf(error);
    }
}

MergeFindings bringIn(const MergeTask& task, const MergeChoices& choices) {
    try {
        if (!task.copies.empty()) {
            keepCopy(task.book, task.copies, task.now);
        }
        return mergeInto(task.book, task, choices);
    } catch (const std::exception& error) {
        return troubleOf(error);
    }
}

}  // namespace midden::ui
