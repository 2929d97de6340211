// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/import/import_words.h"

#include <QCoreApplication>
#include <QLocale>
#include <QStringList>
#include <array>

#include "ui/shared/copies_words.h"
#include "ui/shared/words.h"

namespace midden::ui::words {

namespace {

constexpr qsizetype mostNames = 6;

QString tr(const char* source) {
    return QCoreApplication::translate("intake", source);
}

QString figure(std::int64_t count) {
    return QLocale{}.toString(static_cast<qlonglong>(count));
}

QString at(const TimeZone& zone, const Moment& when) {
    return text(longDateTime(zone.momentAt(when.at)));
}

/// "a, b, c and 12 more"
QString listed(const QStringList& names) {
    if (names.size() <= mostNames) {
        return names.join(QStringLiteral(", "));
    }
    return tr("%1 and %2 more")
        .arg(names.first(mostNames).join(QStringLiteral(", ")), figure(names.size() - mostNames));
}

QStringList texts(const std::vector<std::string>& names) {
    QStringList list;
    for (const std::string& name : names) {
        list << text(name);
    }
    return list;
}

QString countWords(const ImportCount& count) {
    if (count.alreadyThere == 0) {
        return tr("%1 new").arg(figure(count.added));
    }
    const QString there = tr("%1 in the book already").arg(figure(count.alreadyThere));
    return count.added == 0 ? there : tr("%1 new, %2").arg(figure(count.added), there);
}

/// "North: core, side; Shed: core"
QString placesWords(const std::vector<PlacePreview>& places) {
    QStringList bins;
    std::string bin;
    for (const PlacePreview& place : places) {
        const QString position = place.position.empty() ? tr("outside air") : text(place.position);
        if (!bins.isEmpty() && place.bin == bin) {
            bins.back() += QStringLiteral(", ") + position;
        } else {
            bins << (place.bin.empty() ? position : tr("%1: %2").arg(text(place.bin), position));
        }
        bin = place.bin;
    }
    if (bins.size() > mostNames) {
        const QString more = tr("and %1 more").arg(figure(bins.size() - mostNames));
        bins = bins.first(mostNames) << more;
    }
    return bins.join(QStringLiteral("; "));
}

ImportLine batchLine(const ImportOutcome& outcome, const TimeZone& zone) {
    const QString named = tr("“%1” in %2").arg(text(outcome.batch), text(outcome.bin));
    if (outcome.newBatch) {
        return {tr("New batch"), tr("%1, from %2 on").arg(named, at(zone, outcome.started))};
    }
    return {tr("Batch"),
            outcome.startMoved
                ? tr("%1; nobody gave its start, which moves back to %2").arg(named, at(zone, outcome.started))
                : named};
}

QString timesWords(const ImportPreview& foresight, const TimeZone& zone) {
    const QString first = at(zone, *foresight.first);
    const QString last = at(zone, *foresight.last);
    return first == last ? first : tr("%1 to %2").arg(first, last);
}

/// "sheets.csv:7: this time …" as "Line 7: this time …".
QString remarkWords(const std::string& remark, const std::filesystem::path& file) {
    const std::string before = file.string() + ':';
    return remark.starts_with(before) ? tr("Line %1").arg(text(remark.substr(before.size()))) : text(remark);
}

QString straysWords(std::int64_t count, const QString& one, const QString& many) {
    return count == 1 ? one : many.arg(figure(count));
}

struct Kind {
    ImportCount ImportOutcome::*count;
    const char* about;
    const char* one;
    const char* many;
};

constexpr std::array<Kind, 6> kinds{
    {{&ImportOutcome::readings, QT_TRANSLATE_NOOP("intake", "Readings"), QT_TRANSLATE_NOOP("intake", "1 reading"),
      QT_TRANSLATE_NOOP("intake", "%1 readings")},
     {&ImportOutcome::outside, QT_TRANSLATE_NOOP("intake", "Outside air"),
      QT_TRANSLATE_NOOP("intake", "1 outside temperature"), QT_TRANSLATE_NOOP("intake", "%1 outside temperatures")},
     {&ImportOutcome::additions, QT_TRANSLATE_NOOP("intake", "Additions"), QT_TRANSLATE_NOOP("intake", "1 addition"),
      QT_TRANSLATE_NOOP("intake", "%1 additions")},
     {&ImportOutcome::aerations, QT_TRANSLATE_NOOP("intake", "Aerations"), QT_TRANSLATE_NOOP("intake", "1 aeration"),
      QT_TRANSLATE_NOOP("intake", "%1 aerations")},
     {&ImportOutcome::observations, QT_TRANSLATE_NOOP("intake", "Observations"),
      QT_TRANSLATE_NOOP("intake", "1 observation"), QT_TRANSLATE_NOOP("intake", "%1 observations")},
     {&ImportOutcome::harvests, QT_TRANSLATE_NOOP("intake", "Harvests"), QT_TRANSLATE_NOOP("intake", "1 harvest"),
      QT_TRANSLATE_NOOP("intake", "%1 harvests")}}};

QList<ImportLine> countLines(const ImportOutcome& outcome) {
    QList<ImportLine> lines;
    for (const Kind& kind : kinds) {
        const ImportCount& count = outcome.*kind.count;
        if (count.added + count.alreadyThere > 0) {
            lines.push_back({tr(kind.about), countWords(count)});
        }
    }
    return lines;
}

}  // namespace

QString whatItHolds(const std::filesystem::path& file, FileKind kind) {
    const QString name = fileName(file);
    switch (kind) {
        case FileKind::additions:
            return tr("%1 holds additions.").arg(name);
        case FileKind::aerations:
            return tr("%1 holds aerations.").arg(name);
        case FileKind::observations:
            return tr("%1 holds observations.").arg(name);
        case FileKind::harvests:
            return tr("%1 holds harvests.").arg(name);
        default:
            return tr("%1 holds readings.").arg(name);
    }
}

QList<ImportLine> linesOf(const ImportPreview& foresight, const std::filesystem::path& file, const TimeZone& zone) {
    const ImportOutcome& outcome = foresight.outcome;
    QList<ImportLine> lines = countLines(outcome);
    if (foresight.first && foresight.last) {
        lines.push_back({tr("When"), timesWords(foresight, zone)});
    }
    if (!foresight.places.empty()) {
        lines.push_back({tr("Where"), placesWords(foresight.places)});
    }
    lines.push_back(batchLine(outcome, zone));
    for (const std::string& sentence : outcome.leaving) {
        lines.push_back({tr("Leaves its bin"), text(sentence), true});
    }
    if (!outcome.newBins.empty()) {
        lines.push_back({outcome.newBins.size() == 1 ? tr("New bin") : tr("New bins"), listed(texts(outcome.newBins))});
    }
    if (!outcome.newProbes.empty()) {
        lines.push_back({outcome.newProbes.size() == 1 ? tr("New thermometer") : tr("New thermometers"),
                         tr("%1; how exact is not known, so ±1 °C is taken").arg(listed(texts(outcome.newProbes)))});
    }
    if (outcome.ofOtherBatches > 0) {
        lines.push_back({tr("Other batches"),
                         straysWords(outcome.ofOtherBatches, tr("1 reading belongs to another, by its bin and time"),
                                     tr("%1 readings belong to others, by their bin and time"))});
    }
    if (outcome.ofNoBatch > 0) {
        lines.push_back(
            {tr("No batch"), straysWords(outcome.ofNoBatch, tr("1 reading: none stood in its bin at that time"),
                                         tr("%1 readings: none stood in their bin at that time"))});
    }
    for (const std::string& remark : outcome.remarks) {
        lines.push_back({tr("Please check"), remarkWords(remark, file)});
    }
    return lines;
}

bool bringsAnything(const ImportOutcome& outcome) {
    std::int64_t added = 0;
    for (const Kind& kind : kinds) {
        added += (outcome.*kind.count).added;
    }
    return added > 0 || outcome.newBatch || !outcome.newBins.empty();
}

QString cameIn(const ImportOutcome& outcome) {
    QStringList parts;
    for (const Kind& kind : kinds) {
        const std::int64_t added = (outcome.*kind.count).added;
        if (added > 0) {
            parts << straysWords(added, tr(kind.one), tr(kind.many));
        }
    }
    return parts.isEmpty() ? tr("Nothing new came into “%1”.").arg(text(outcome.batch))
                           : tr("Brought into “%1”: %2.").arg(text(outcome.batch), parts.join(QStringLiteral(", ")));
}

QString troubleOf(const ImportTrouble& trouble, const std::filesystem::path& file) {
    if (!trouble.refusal) {
        const bool says = trouble.machine.contains(QStringLiteral("othing was written"));
        return says ? trouble.machine : tr("%1 Nothing was written.").arg(trouble.machine);
    }
    const Refusal& refusal = *trouble.refusal;
    if (refusal.stopped) {
        return tr("Stopped. Nothing was written.");
    }
    const QString where = refusal.line == 0
                              ? fileName(file)
                              : tr("%1, line %2").arg(fileName(file), figure(static_cast<std::int64_t>(refusal.line)));
    QString expected = text(refusal.problem.expected);
    expected.replace(QStringLiteral("--unit"), tr("your answer to the question"));
    const QString wrong = tr("%1: %2.").arg(where, text(refusal.problem.wrong));
    return expected.isEmpty() ? tr("%1 Nothing was written.").arg(wrong)
                              : tr("%1 Expected: %2. Nothing was written.").arg(wrong, expected);
}

}  // namespace midden::ui::words
