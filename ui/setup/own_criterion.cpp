// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/own_criterion.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "core/criteria/criteria_json.h"
#include "core/criteria/phrases.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("own", source);
}

constexpr int hour = 3'600;
constexpr int day = 24 * hour;

/// Stands in for the parts that are not being looked at, so that the reader speaks of one part at a time.
Criterion sound() {
    Criterion criterion = defaultTarget();
    criterion.id = "own";
    criterion.jurisdiction = "own";
    criterion.source.checked = "own";
    return criterion;
}

/// What the reader of the file says to one step.
std::optional<Problem> refusal(const Step& step) {
    Criterion trial = sound();
    trial.alternatives.front().steps = {step};
    const auto read = parseGroupCriterion(criterionText(trial));
    return read ? std::nullopt : std::optional{read.error()};
}

Step soundStep() {
    return sound().alternatives.front().steps.front();
}

QString sayExpected(const QString& typed, const QString& expected) {
    return tr("“%1” cannot be used; expected %2").arg(typed.trimmed(), expected);
}

std::string plain(const QString& typed) {
    QString text = typed.simplified();
    return words::utf8(text.replace(QChar{0x2212}, QLatin1Char{'-'}));
}

class Reader {
  public:
    explicit Reader(const OwnDraft& draft) : draft_{draft}, step_{soundStep()} {
        step_.exceeds = draft.exceeds;
        step_.continuity = draft.continuity;
        readThreshold();
        readCeiling();
        if (!draft.hold.trimmed().isEmpty()) {
            readTime(OwnField::hold, draft.hold, draft.holdInDays ? day : hour,
                     [](Step& step, Seconds hold) { step.hold = hold; });
        }
        readTurnings();
        if (!draft.gapHours.trimmed().isEmpty()) {
            readTime(OwnField::gap, draft.gapHours, hour, [](Step& step, Seconds gap) { step.maxGap = gap; });
        }
    }

    std::map<OwnField, QString>& wrong() { return wrong_; }
    const Step& step() const { return step_; }

  private:
    void readThreshold() {
        if (draft_.threshold.trimmed().isEmpty()) {
            return;
        }
        const auto written = parseTemperature(plain(draft_.threshold), draft_.unit);
        if (!written) {
            wrong_[OwnField::threshold] = words::text(written.error().sentence());
            return;
        }
        step_.threshold = *written;
        ask(OwnField::threshold, draft_.threshold, tr("a temperature such as 55 °C"));
    }

    void readCeiling() {
        if (draft_.ceiling.trimmed().isEmpty()) {
            return;
        }
        const auto written = parseTemperature(plain(draft_.ceiling), draft_.unit);
        if (!written) {
            wrong_[OwnField::ceiling] = words::text(written.error().sentence());
            return;
        }
        step_.ceiling = *written;
        ask(OwnField::ceiling, draft_.ceiling, tr("a temperature above the lower one"));
    }

    template <class Set>
    void readTime(OwnField field, const QString& typed, int unitSeconds, Set set) {
        const auto amount = readAmount(typed);
        if (!amount) {
            wrong_[field] = words::text(amount.error().sentence());
            return;
        }
        set(step_, Seconds{std::llround(*amount * unitSeconds)});
        ask(field, typed, tr("a time from 1 minute to 10 years"));
    }

    void readTurnings() {
        const bool none = draft_.turnings.trimmed().isEmpty();
        if (none && !draft_.apartHours.trimmed().isEmpty()) {
            wrong_[OwnField::apart] = tr("say first how many turnings");
        }
        if (none) {
            return;
        }
        const auto count = readAmount(draft_.turnings);
        if (!count || std::floor(*count) != *count) {
            wrong_[OwnField::turnings] = sayExpected(draft_.turnings, tr("a whole number, from 1 to 1000"));
            return;
        }
        step_.turnings = TurningsAsked{static_cast<int>(*count), {}};
        ask(OwnField::turnings, draft_.turnings, tr("a whole number, from 1 to 1000"));
        if (!draft_.apartHours.trimmed().isEmpty()) {
            readTime(OwnField::apart, draft_.apartHours, hour,
                     [](Step& step, Seconds apart) { step.turnings->minimumSpacing = apart; });
        }
    }

    /// What was set last is the only thing that can be refused. It is taken back then, so that the next field is
    /// judged by itself.
    void ask(OwnField field, const QString& typed, const QString& expected) {
        if (refusal(step_)) {
            wrong_[field] = sayExpected(typed, expected);
            step_ = accepted_;
        }
        accepted_ = step_;
    }

    const OwnDraft& draft_;
    Step step_;
    Step accepted_ = soundStep();
    std::map<OwnField, QString> wrong_;
};

/// "Fernhill: hot, 60 °C" → "fernhill-hot-60-c"
std::string nameFrom(const QString& title) {
    QString name;
    for (const QChar& c : title.toLower()) {
        const bool usable =
            (c >= QLatin1Char{'a'} && c <= QLatin1Char{'z'}) || (c >= QLatin1Char{'0'} && c <= QLatin1Char{'9'});
        if (usable) {
            name += c;
        } else if (!name.isEmpty() && !name.endsWith(QLatin1Char{'-'})) {
            name += QLatin1Char{'-'};
        }
    }
    if (name.endsWith(QLatin1Char{'-'})) {
        name.chop(1);
    }
    return "own-" + words::utf8(name.isEmpty() ? QStringLiteral("rule") : name);
}

std::string freeName(const QString& title, const std::vector<Criterion>& others) {
    const std::string wanted = nameFrom(title);
    const auto taken = [&](const std::string& id) {
        return std::any_of(others.begin(), others.end(), [&](const auto& other) { return other.id == id; });
    };
    std::string name = wanted;
    for (int n = 2; taken(name); ++n) {
        name = wanted + "-" + std::to_string(n);
    }
    return name;
}

bool isTitleTaken(const OwnDraft& draft, const std::optional<Criterion>& amended,
                  const std::vector<Criterion>& others) {
    return std::any_of(others.begin(), others.end(), [&](const Criterion& other) {
        const bool itself = amended && other.id == amended->id;
        return !itself && words::text(other.title).compare(draft.title.trimmed(), Qt::CaseInsensitive) == 0;
    });
}

std::string orElse(const QString& typed, const QString& otherwise) {
    return words::utf8(typed.trimmed().isEmpty() ? otherwise : typed.trimmed());
}

Criterion withHead(const OwnDraft& draft, const std::optional<Criterion>& amended,
                   const std::vector<Criterion>& others) {
    Criterion criterion = amended.value_or(Criterion{});
    if (!amended) {
        criterion.id = freeName(draft.title, others);
        criterion.jurisdiction = words::utf8(tr("This group’s own"));
        criterion.scope = words::utf8(tr("This group's own bins. It is nobody else's rule."));
        criterion.method = words::utf8(tr("any bin"));
        criterion.source.checked = words::utf8(tr("Written by the group; checked against no document."));
        criterion.alternatives = {Alternative{}};
        criterion.alternatives.front().steps = {Step{}};
    }
    criterion.title = words::utf8(draft.title.trimmed());
    criterion.source.document = orElse(draft.source, tr("The group itself, no other source"));
    criterion.note = words::utf8(draft.note.trimmed());
    return criterion;
}

QString hoursText(Seconds time) {
    return words::localised(QString::number(time.hours(), 'g', 9).toStdString());
}

}  // namespace

OwnReading readOwn(const OwnDraft& draft, const std::optional<Criterion>& amended,
                   const std::vector<Criterion>& others) {
    Reader reader{draft};
    OwnReading reading{reader.wrong(), {}};
    if (isTitleTaken(draft, amended, others)) {
        reading.wrong[OwnField::title] = tr("another criterion has this title");
    }
    const bool missing =
        draft.title.trimmed().isEmpty() || draft.threshold.trimmed().isEmpty() || draft.hold.trimmed().isEmpty();
    if (missing || !reading.wrong.empty()) {
        return reading;
    }
    Criterion criterion = withHead(draft, amended, others);
    Alternative& first = criterion.alternatives.front();
    const Step was = first.steps.front();
    first.steps.front() = reader.step();
    first.steps.front().mean = was.mean;
    first.steps.front().holdExceeds = was.holdExceeds;
    if (first.steps.size() == 1) {
        first.title = limitWords(reader.step()) + " for " + durationWords(reader.step().hold);
    }
    const auto read = parseGroupCriterion(criterionText(criterion));
    if (read) {
        reading.criterion = *read;
    } else {
        reading.wrong[OwnField::title] = words::text(read.error().sentence());
    }
    return reading;
}

OwnDraft draftOf(const Criterion& criterion) {
    const Step& step = criterion.alternatives.front().steps.front();
    const auto temperature = [](WrittenTemperature t) { return words::text(writtenWithUnit(t)); };
    OwnDraft draft;
    draft.title = words::text(criterion.title);
    draft.exceeds = step.exceeds;
    draft.threshold = temperature(step.threshold);
    draft.ceiling = step.ceiling ? temperature(*step.ceiling) : QString{};
    draft.holdInDays = step.hold.count % day == 0;
    draft.hold = draft.holdInDays ? QString::number(step.hold.count / day) : hoursText(step.hold);
    draft.continuity = step.continuity;
    if (step.turnings) {
        draft.turnings = QString::number(step.turnings->count);
        draft.apartHours = step.turnings->minimumSpacing ? hoursText(*step.turnings->minimumSpacing) : QString{};
    }
    draft.gapHours = step.maxGap ? hoursText(*step.maxGap) : QString{};
    draft.source = words::text(criterion.source.document);
    draft.note = words::text(criterion.note);
    return draft;
}

}  // namespace midden::ui
