// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/why.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>

#include "ui/chart/entry_words.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString say(const char* words) {
    return QCoreApplication::translate("Why", words);
}

/// A clock time that ends between two stretches belongs to the later one.
const Evidence* evidenceAt(const Judgement& judgement, Instant at) {
    const Evidence* found = nullptr;
    for (const Evidence& piece : judgement.evidence) {
        if (piece.interval.from <= at && at <= piece.interval.to) {
            found = &piece;
        }
    }
    return found;
}

QString stepWords(const Step& step) {
    const QString limit = step.exceeds ? say("above %1") : say("at or above %1");
    QString words = limit.arg(words::written(step.threshold));
    if (step.ceiling) {
        words += say(" and up to %1").arg(words::written(*step.ceiling));
    }
    words += step.holdExceeds ? say(" for more than %1").arg(words::length(step.hold))
                              : say(" for %1").arg(words::length(step.hold));
    if (step.continuity == Continuity::cumulative) {
        words += say(", added up");
    }
    if (step.turnings) {
        words += say(", with %1 turnings").arg(step.turnings->count);
    }
    return words;
}

}  // namespace

QString whySentence(const Judgement& judgement, Instant at, const TimeZone& zone) {
    const Evidence* piece = evidenceAt(judgement, at);
    const QString title = words::text(judgement.criterion.title);
    if (piece == nullptr) {
        return say("%1: not credited towards “%2”, for it lies outside the readings.")
            .arg(words::fullTime(zone.momentAt(at)), title);
    }
    const QString from = words::fullTime(zone.momentAt(piece->interval.from));
    const QString to = words::fullTime(zone.momentAt(piece->interval.to));
    const QString verdict = piece->credited ? say("credited towards “%1”") : say("not credited towards “%1”");
    QString sentence = say("%1 to %2: %3").arg(from, to, verdict.arg(title));
    if (!piece->reason.empty()) {
        sentence += say(": %1").arg(words::text(piece->reason));
    }
    return sentence + QLatin1Char{'.'};
}

QString criterionWords(const Criterion& criterion) {
    QStringList lines;
    for (const Alternative& alternative : criterion.alternatives) {
        QStringList steps;
        for (const Step& step : alternative.steps) {
            steps.append(stepWords(step));
        }
        const QString asked = steps.join(say(", and "));
        lines.append(alternative.title.empty() ? say("Asks: %1.").arg(asked)
                                               : say("Asks (%1): %2.").arg(words::text(alternative.title), asked));
    }
    if (!criterion.scope.empty()) {
        lines.append(say("Written for: %1").arg(words::text(criterion.scope)));
    }
    const QString document = words::text(criterion.source.document);
    const QString section = words::text(criterion.source.section);
    if (!document.isEmpty()) {
        lines.append(section.isEmpty() ? say("Source: %1.").arg(document)
                                       : say("Source: %1, %2.").arg(document, section));
    }
    if (!criterion.source.checked.empty()) {
        lines.append(say("Checked: %1").arg(words::text(criterion.source.checked)));
    }
    if (criterion.source.fromMemory) {
        lines.append(say("From memory, unverified."));
    }
    if (criterion.ofTheGroup) {
        lines.append(say("The group's own rule."));
    }
    return lines.join(QLatin1Char{'\n'});
}

}  // namespace midden::ui
