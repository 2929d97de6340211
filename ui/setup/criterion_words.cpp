// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/criterion_words.h"

#include <QCoreApplication>
#include <QStringList>

#include "core/criteria/phrases.h"
#include "ui/shared/palette.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("criterion", source);
}

QString capital(const QString& words) {
    return words.left(1).toUpper() + words.mid(1);
}

/// "At or above 55 °C for 72 h (3 days) without a break."
QString keptWords(const Step& step) {
    const QString limit = capital(words::text(limitWords(step)));
    const QString kept = step.holdExceeds ? tr("more than %1").arg(holdWords(step.hold)) : holdWords(step.hold);
    switch (step.continuity) {
        case Continuity::consecutive:
            return tr("%1 for %2 without a break.").arg(limit, kept);
        case Continuity::cumulative:
            return tr("%1 for %2 in all; breaks are allowed.").arg(limit, kept);
        case Continuity::silent:
            return tr("%1 for %2. Whether without a break is not said: it is judged without one, and the sum of all "
                      "hours "
                      "is shown beside it.")
                .arg(limit, kept);
    }
    return {};
}

QString turningsWords(const TurningsAsked& asked) {
    const QString count = asked.count == 1 ? tr("1 turning") : tr("%1 turnings").arg(asked.count);
    return asked.minimumSpacing ? tr("At least %1 in that time, each at least %2 after the one before.")
                                      .arg(count, holdWords(*asked.minimumSpacing))
                                : tr("At least %1 in that time.").arg(count);
}

QString gapWords(const Step& step) {
    const QString gap = words::text(durationWords(maxGapFor(step)));
    return step.maxGap ? tr("Readings may lie at most %1 apart.").arg(gap)
                       : tr("Readings may lie at most %1 apart; the rule gives no figure of its own.").arg(gap);
}

QString conditionWords(const Condition& condition) {
    QString words = words::text(condition.words);
    if (condition.carbonNitrogen) {
        words += tr(" (C:N %1 to %2)")
                     .arg(words::number(condition.carbonNitrogen->least, 0),
                          words::number(condition.carbonNitrogen->most, 0));
    }
    return words;
}

/// Builds the page, heading by heading.
class Page {
  public:
    explicit Page(const Palette& look) : look_{look} {}

    void title(const QString& words, const QString& under) {
        html_ += QStringLiteral("<p style='margin:0 0 2px 0'><b>%1</b></p>").arg(words.toHtmlEscaped());
        html_ += QStringLiteral("<p style='margin:0 0 8px 0; color:%1'>%2</p>")
                     .arg(look_.muted.name(), under.toHtmlEscaped());
    }
    void part(const QString& heading, const QStringList& lines) {
        if (lines.join(QString{}).isEmpty()) {
            return;
        }
        html_ += QStringLiteral("<p style='margin:8px 0 2px 0; color:%1'>%2</p>")
                     .arg(look_.muted.name(), heading.toHtmlEscaped());
        for (const QString& line : lines) {
            html_ += QStringLiteral("<p style='margin:0 0 2px 0'>%1</p>").arg(line.toHtmlEscaped());
        }
    }
    void warning(const QString& words) {
        html_ += QStringLiteral("<p style='margin:2px 0; color:%1'>%2</p>")
                     .arg(look_.question.name(), words.toHtmlEscaped());
    }
    const QString& html() const { return html_; }

  private:
    const Palette& look_;
    QString html_;
};

QString sourceWords(const Citation& source) {
    return source.section.empty() ? words::text(source.document)
                                  : tr("%1, %2").arg(words::text(source.document), words::text(source.section));
}

QStringList linesOf(const Alternative& alternative) {
    QStringList lines;
    int number = 0;
    for (const Step& step : alternative.steps) {
        ++number;
        lines.append(alternative.steps.size() > 1 ? tr("Step %1. %2").arg(number).arg(stepWords(step))
                                                  : stepWords(step));
    }
    for (const Condition& condition : alternative.conditions) {
        lines.append(tr("Beside the readings: %1").arg(conditionWords(condition)));
    }
    return lines;
}

void addAlternatives(Page& page, const Criterion& criterion) {
    if (criterion.alternatives.size() == 1) {
        page.part(tr("The readings must show"), linesOf(criterion.alternatives.front()));
        return;
    }
    int number = 0;
    for (const Alternative& alternative : criterion.alternatives) {
        ++number;
        page.part(number == 1 ? tr("The readings must show one of these: %1").arg(words::text(alternative.title))
                              : tr("or: %1").arg(words::text(alternative.title)),
                  linesOf(alternative));
    }
}

}  // namespace

QString holdWords(Seconds hold) {
    QString exact = words::text(durationWords(hold));
    const std::int64_t wholeDays = hold.count / 86'400;
    if (wholeDays < 2 || hold.count % 86'400 != 0) {
        return exact;
    }
    return tr("%1 (%2 days)").arg(exact).arg(wholeDays);
}

QString stepWords(const Step& step) {
    QStringList sentences{keptWords(step)};
    if (step.withinStep) {
        sentences.append(tr("It counts inside the time of step %1.").arg(*step.withinStep + 1));
    }
    if (step.mean) {
        sentences.append((step.mean->exceeds ? tr("The average over that time must lie above %1.")
                                             : tr("The average over that time must be at least %1."))
                             .arg(words::text(limitWords(step.mean->threshold))));
    }
    if (step.turnings) {
        sentences.append(turningsWords(*step.turnings));
    }
    sentences.append(gapWords(step));
    if (const std::int64_t wholeDays = step.hold.count / 86'400; wholeDays >= 2 && step.hold.count % 86'400 == 0) {
        sentences.append(tr("Read once a day, that takes %1 readings: the time from one to the next is what counts.")
                             .arg(wholeDays + 1));
    }
    return sentences.join(QLatin1Char{' '});
}

QString originWords(const Criterion& criterion) {
    if (criterion.ofTheGroup) {
        return tr("this group’s own");
    }
    return criterion.jurisdiction.empty() ? tr("this logbook’s target") : words::text(criterion.jurisdiction);
}

QString informationPage(const Information& row, const Palette& look) {
    Page page{look};
    page.title(words::text(row.title), tr("%1 · told, not judged").arg(words::text(row.jurisdiction)));
    QStringList says;
    for (const std::string& sentence : row.says) {
        says.append(words::text(sentence));
    }
    page.part(tr("It says"), says);
    page.part(tr("Source"), {sourceWords(row.source)});
    page.part(tr("How it was checked"), {words::text(row.source.checked)});
    page.part(tr("For whom it is written"), {words::text(row.scope)});
    return page.html();
}

QString criterionPage(const Criterion& criterion, const Palette& look) {
    Page page{look};
    page.title(words::text(criterion.title),
               capital(originWords(criterion)) + QStringLiteral(" · ") + words::text(criterion.method));
    addAlternatives(page, criterion);
    QStringList conditions;
    for (const Condition& condition : criterion.conditions) {
        conditions.append(conditionWords(condition));
    }
    page.part(tr("It also asks, which a thermometer cannot show"), conditions);
    page.part(tr("Source"), {sourceWords(criterion.source)});
    if (criterion.source.fromMemory) {
        page.warning(tr("From memory, unverified."));
    }
    page.part(tr("How its figures were checked"), {words::text(criterion.source.checked)});
    page.part(tr("For whom it is written"), {words::text(criterion.scope)});
    page.part(tr("Note"), {words::text(criterion.note)});
    if (criterion.ofTheGroup) {
        page.part(tr("Where it lives"),
                  {tr("In this logbook only. Certificates that quote it say that it is the group's own rule.")});
    }
    return page.html();
}

}  // namespace midden::ui
