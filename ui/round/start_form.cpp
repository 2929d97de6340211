// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCheckBox>
#include <QCoreApplication>
#include <QLineEdit>
#include <QLocale>

#include "ui/round/batch_forms.h"
#include "ui/round/safety_line.h"
#include "ui/round/takeover.h"
#include "ui/shared/inline_form.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("forms", source);
}

/// "North, March 2026", with a number when that is taken.
QString freeBatchName(const Logbook& logbook, const QString& bin, Moment when) {
    const WallTime wall = wallTimeOf(when);
    const QString plain =
        QStringLiteral("%1, %2 %3").arg(bin, QLocale{}.standaloneMonthName(wall.month)).arg(wall.year);
    QString name = plain;
    for (int n = 2; logbook.batchNamed(words::utf8(name)); ++n) {
        name = plain + QStringLiteral(" (%1)").arg(n);
    }
    return name;
}

struct StartFields {
    QLineEdit* bin = nullptr;  ///< null when the bin is given
    QLineEdit* batch = nullptr;
    QLineEdit* started = nullptr;
    QCheckBox* core = nullptr;
    QCheckBox* side = nullptr;
    QCheckBox* fed = nullptr;
    QLineEdit* who = nullptr;
};

std::vector<std::string> positionsChosen(const StartFields& fields) {
    std::vector<std::string> positions;
    if (fields.core != nullptr && fields.core->isChecked()) {
        positions.emplace_back("core");
    }
    if (fields.side != nullptr && fields.side->isChecked()) {
        positions.emplace_back("side");
    }
    return positions;
}

QString problemWith(const StartFields& fields, const Logbook& logbook) {
    if (fields.bin != nullptr) {
        const QString bin = fields.bin->text().trimmed();
        if (bin.isEmpty()) {
            return tr("Give the bin a name, such as the place it stands in.");
        }
        if (logbook.binNamed(words::utf8(bin))) {
            return tr("There is a bin called %1 already.").arg(bin);
        }
        if (positionsChosen(fields).empty()) {
            return tr("Choose at least one position to read; you can add others in Setup.");
        }
    }
    const QString batch = fields.batch->text().trimmed();
    if (batch.isEmpty()) {
        return tr("Give the batch a name.");
    }
    return logbook.batchNamed(words::utf8(batch)) ? tr("There is a batch called %1 already.").arg(batch) : QString{};
}

void put(const Book::Apply& apply, const StartFields& fields, std::optional<Bin> bin, Moment started) {
    BinId id{};
    if (bin) {
        id = bin->id;
    } else {
        const Applied made = apply(Put<Bin>{{.name = words::utf8(fields.bin->text().trimmed())}});
        id = std::get<BinId>(made.id);
        for (const std::string& position : positionsChosen(fields)) {
            apply(Put<PlaceSetting>{{.place = {id, position}}});
        }
    }
    apply(Put<Batch>{{.name = words::utf8(fields.batch->text().trimmed()),
                      .started = started,
                      .startGiven = true,
                      .stays = {{started.at, id}},
                      .fed = fields.fed->isChecked()}});
}

QString start(const FormTarget& target, const StartFields& fields) {
    Book& book = target.book;
    const QString problem = problemWith(fields, book.log());
    if (!problem.isEmpty()) {
        return problem;
    }
    auto started = readDay(fields.started->text(), book.zone(), book.now());
    if (!started) {
        return tr("Started: %1.").arg(words::text(started.error().sentence()));
    }
    if (target.bin) {
        started = behindReadings(book.log(), {book.log().occupant(target.bin->id, started->at)}, *started);
    }
    if (fields.who != nullptr && !fields.who->text().trimmed().isEmpty()) {
        book.setSetting(setting::who, fields.who->text().trimmed());
    }
    const QString label = tr("batch %1 started").arg(fields.batch->text().trimmed());
    const bool done =
        book.changeTogether(label, [&](const Book::Apply& apply) { put(apply, fields, target.bin, *started); });
    return done ? QString{} : tr("Nothing was saved.");
}

void suggestName(const StartFields& fields, Book& book, Moment when) {
    QObject::connect(
        fields.bin, &QLineEdit::textChanged, fields.batch, [&book, batch = fields.batch, when](const QString& bin) {
            if (!batch->isModified()) {
                batch->setText(bin.trimmed().isEmpty() ? QString{} : freeBatchName(book.log(), bin.trimmed(), when));
            }
        });
}

/// Before a field is shown for the batch that stands here now, and again where the day typed meets another one.
void askAboutRunning(InlineForm& form, const FormTarget& target, const StartFields& fields) {
    const auto question = [&book = target.book, bin = *target.bin](Moment at) {
        const auto running = runningIn(book.log(), bin.id, at.at);
        return std::pair{running, running ? takeoverQuestion(book, tr("a new batch"), *running, bin, at) : Question{}};
    };
    const auto [now, first] = question(target.when);
    form.askFirst(first);
    const auto known = now ? std::optional{now->id} : std::nullopt;
    form.onAsk([target, fields, question, known] {
        const auto started = readDay(fields.started->text(), target.book.zone(), target.book.now());
        if (!started || !problemWith(fields, target.book.log()).isEmpty()) {
            return Question{};
        }
        const auto [running, asked] = question(*started);
        return running && running->id != known ? asked : Question{};
    });
}

}  // namespace

InlineForm* makeStartForm(const FormTarget& target, QWidget* parent) {
    Book& book = target.book;
    const bool newBin = !target.bin;
    auto* form = new InlineForm{
        newBin ? tr("A new bin and the batch in it") : tr("A new batch in %1").arg(words::text(target.bin->name)),
        tr("Start the batch"), parent};
    form->setObjectName(QStringLiteral("startForm"));
    StartFields fields;
    if (newBin) {
        fields.bin = form->addLine("startBin", tr("&Bin's name"), 16);
    }
    fields.batch = form->addLine("startBatch", tr("Batc&h"), 28);
    fields.started = form->addLine("startWhen", tr("&Started"), 24);
    fields.started->setText(typedForm(target.when));
    if (newBin) {
        fields.core = form->addCheck("startCore", tr("read the core"), true);
        fields.side = form->addCheck("startSide", tr("and the side"), true);
        suggestName(fields, book, target.when);
    } else {
        fields.batch->setText(freeBatchName(book.log(), words::text(target.bin->name), target.when));
    }
    fields.fed = form->addCheck("startFed", tr("&fed on top every few days, emptied at the base"), false);
    if (book.setting(setting::who).isEmpty()) {
        fields.who = form->addLine("startWho", tr("&Your name, if you like"), 20);
    }
    if (target.bin) {
        askAboutRunning(*form, target, fields);
    } else {
        const SafetyLine caution = safetyLineFor(Act::settingUp);
        form->addNote(caution.words, caution.source);
    }
    form->onSave([target, fields] { return start(target, fields); });
    return form;
}

}  // namespace midden::ui
