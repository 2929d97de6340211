// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/import/import_work.h"

#include "core/store/care/copies.h"
#include "ui/shared/copies_words.h"

namespace midden::ui {

namespace {

/// Of the time it takes to look a long file through, roughly, where the book holds few of its rows.
constexpr double readingShare = 0.9;

double overall(const ImportProgress& progress) {
    switch (progress.stage) {
        case ImportProgress::Stage::reading:
            return progress.share * readingShare;
        case ImportProgress::Stage::comparing:
            return readingShare + progress.share * (1 - readingShare);
        default:
            return progress.share;
    }
}

ImportRequest requestOf(const ImportTask& task, const ProgressCallback& progress) {
    ImportRequest request;
    request.batch = task.answers.batch;
    request.bin = task.answers.bin;
    request.habits.zone = task.answers.zone;
    request.habits.unit = task.answers.unit;
    request.habits.progress = [progress](const ImportProgress& stage) { return progress(overall(stage)); };
    if (const QString chosen = qEnvironmentVariable("TMPDIR"); !chosen.isEmpty()) {
        request.habits.room.scratchFolder = chosen.toStdString();
    }
    switch (task.kind) {
        case FileKind::readings:
            request.files.readings = task.file;
            break;
        case FileKind::additions:
            request.files.additions = task.file;
            break;
        case FileKind::aerations:
            request.files.aerations = task.file;
            break;
        case FileKind::observations:
            request.files.observations = task.file;
            break;
        case FileKind::harvests:
            request.files.harvests = task.file;
            break;
    }
    return request;
}

/// Nothing is thrown into the window's thread.
template <class Outcome, class Work>
Outcome withTroubleTold(Work work) {
    Outcome outcome;
    try {
        work(outcome);
    } catch (const std::exception& error) {
        outcome.trouble.machine = words::sentence(error);
    }
    return outcome;
}

}  // namespace

ImportFindings readThrough(const ImportTask& task, const ProgressCallback& progress) {
    return withTroubleTold<ImportFindings>([&](ImportFindings& findings) {
        const ImportRequest request = requestOf(task, progress);
        auto staged = readFiles(request);
        if (!staged) {
            findings.trouble.refusal = std::move(staged.error());
            return;
        }
        auto previewed = preview(Logbook::open(task.book, Logbook::Mode::readOnly), request, *staged);
        if (!previewed) {
            findings.trouble.refusal = std::move(previewed.error());
            return;
        }
        findings.previewed = *std::move(previewed);
        findings.staged = std::make_shared<const StagedImport>(*std::move(staged));
    });
}

TakenIn takeIn(const ImportTask& task, const StagedImport& staged, const ProgressCallback& progress) {
    return withTroubleTold<TakenIn>([&](TakenIn& done) {
        if (!task.copies.empty()) {
            keepCopy(task.book, task.copies, task.now);
        }
        if (!progress(0)) {
            done.trouble.refusal = stoppedImport();
            return;
        }
        auto logbook = Logbook::open(task.book, Logbook::Mode::readWrite);
        logbook.setHand(task.who, [now = task.now] { return now; });
        auto stored = storeImport(logbook, requestOf(task, progress), staged);
        if (!stored) {
            done.trouble.refusal = std::move(stored.error());
            return;
        }
        done.outcome = *std::move(stored);
    });
}

}  // namespace midden::ui
