// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/batch_forms.h"

#include <QComboBox>
#include <QCoreApplication>
#include <QLineEdit>
#include <array>

#include "ui/round/safety_line.h"
#include "ui/shared/inline_form.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("forms", source);
}

QString enterObservation(const FormTarget& target, ObservationKind kind, const QString& value, const QString& label) {
    Observation entry{.batch = target.batch->id, .when = target.when, .kind = kind};
    (kind == ObservationKind::note ? entry.note : entry.value) = words::utf8(value);
    return outcome(target.book.change(Put<Observation>{entry}, label));
}

QString finish(const FormTarget& target, const QString& typed) {
    const auto when = readMoment(typed, target.book.zone(), target.book.now());
    if (!when) {
        return tr("Finished: %1.").arg(words::text(when.error().sentence()));
    }
    Batch batch = *target.batch;
    batch.finished = *when;
    return outcome(target.book.change(Amend<Batch>{batch.id, batch, {}}, tr("batch %1 finished").arg(nameOf(target))));
}

}  // namespace

QString nameOf(const FormTarget& target) {
    return words::text(target.batch->name);
}

QString outcome(bool done) {
    return done ? QString{} : tr("Nothing was saved.");
}

bool enterAeration(const FormTarget& target, AerationKind kind) {
    return target.book.change(Put<Aeration>{{.batch = target.batch->id, .when = target.when, .kind = kind}},
                              QStringLiteral("%1, %2").arg(nameOf(target), words::kindOf(kind)));
}

InlineForm* makeSqueezeForm(const FormTarget& target, QWidget* parent) {
    auto* form = new InlineForm{tr("Squeeze test of %1").arg(nameOf(target)), tr("Save"), parent};
    form->setObjectName(QStringLiteral("squeezeForm"));
    auto* felt = form->addChoice("squeezeFelt", tr("A fi&stful, squeezed hard"),
                                 {tr("a few drops: right"), tr("crumbles: dry"), tr("water runs: wet")});
    form->onSave([target, felt] {
        const std::array<const char*, 3> values{"right", "dry", "wet"};
        const QString value = QLatin1String{values.at(static_cast<std::size_t>(felt->currentIndex()))};
        return enterObservation(target, ObservationKind::squeeze, value,
                                tr("squeeze test of %1: %2").arg(nameOf(target), felt->currentText()));
    });
    return form;
}

InlineForm* makeNoteForm(const FormTarget& target, QWidget* parent) {
    auto* form = new InlineForm{tr("Note on %1").arg(nameOf(target)), tr("Save"), parent};
    form->setObjectName(QStringLiteral("noteForm"));
    auto* note = form->addLine("noteText", tr("&Note"), 48);
    form->onSave([target, note] {
        const QString text = note->text().trimmed();
        return text.isEmpty()
                   ? tr("Write a few words first.")
                   : enterObservation(target, ObservationKind::note, text, tr("note on %1").arg(nameOf(target)));
    });
    return form;
}

InlineForm* makeFinishForm(const FormTarget& target, QWidget* parent) {
    auto* form = new InlineForm{tr("Finish %1").arg(nameOf(target)), tr("Finish the batch"), parent};
    form->setObjectName(QStringLiteral("finishForm"));
    auto* when = form->addLine("finishWhen", tr("&Finished"), 24);
    when->setText(typedForm(target.when));
    form->addNote(tr("Its log stays in the book; readings from then on belong to the next batch."), {});
    const SafetyLine caution = safetyLineFor(Act::takingOut);
    form->addNote(caution.words, caution.source);
    form->onSave([target, when] { return finish(target, when->text()); });
    return form;
}

}  // namespace midden::ui
