// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/batch_forms.h"

#include <QComboBox>
#include <QCompleter>
#include <QCoreApplication>
#include <QLabel>
#include <QLineEdit>
#include <array>

#include "ui/common/inline_form.h"
#include "ui/common/typed.h"
#include "ui/common/words.h"
#include "ui/round/known_materials.h"
#include "ui/round/safety_line.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("forms", source);
}

QString nameOf(const FormTarget& target) {
    return words::text(target.batch->name);
}

/// Applies and says in words that it did not work; the bar above has the reason.
QString outcome(bool done) {
    return done ? QString{} : tr("Nothing was saved.");
}

QString enterObservation(const FormTarget& target, ObservationKind kind, const QString& value, const QString& label) {
    Observation entry{.batch = target.batch->id, .when = target.when, .kind = kind};
    (kind == ObservationKind::note ? entry.note : entry.value) = words::utf8(value);
    return outcome(target.book.change(Put<Observation>{entry}, label));
}

struct AddedFields {
    QLineEdit* material = nullptr;
    QLineEdit* mass = nullptr;
    QComboBox* raw = nullptr;
};

QString enterAddition(const FormTarget& target, const AddedFields& fields) {
    const QString material = fields.material->text().trimmed();
    if (material.isEmpty()) {
        return tr("Say what was added.");
    }
    const auto mass = readAmount(fields.mass->text());
    if (!mass) {
        return tr("Weight: %1.").arg(words::text(mass.error().sentence()));
    }
    Addition entry{
        .batch = target.batch->id, .when = target.when, .material = words::utf8(material), .massKilograms = *mass};
    if (fields.raw->currentIndex() > 0) {
        entry.raw = fields.raw->currentIndex() == 1;
    }
    return outcome(target.book.change(
        Put<Addition>{entry},
        tr("%1, %2 kg added to %3")
            .arg(material, words::localised(fields.mass->text().trimmed().toStdString()), nameOf(target))));
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

QString moveTo(const FormTarget& target, const Bin& bin, const QString& typed) {
    const auto when = readMoment(typed, target.book.zone(), target.book.now());
    if (!when) {
        return tr("Moved: %1.").arg(words::text(when.error().sentence()));
    }
    if (when->at <= target.batch->stays.back().since) {
        return tr("Moved: the batch came to where it stands later than that.");
    }
    Batch batch = *target.batch;
    batch.stays.push_back({when->at, bin.id});
    const QString label = tr("batch %1 moved to %2").arg(nameOf(target), words::text(bin.name));
    return outcome(target.book.changeTogether(label, [&](const Book::Apply& apply) {
        apply(Amend<Batch>{batch.id, batch, {}});
        apply(Put<Aeration>{{.batch = batch.id, .when = *when, .kind = AerationKind::turned}});
    }));
}

std::vector<Bin> otherBins(const FormTarget& target) {
    std::vector<Bin> others;
    for (const Bin& bin : target.book.log().bins()) {
        if (!bin.retired && bin.id != target.batch->stays.back().bin) {
            others.push_back(bin);
        }
    }
    return others;
}

}  // namespace

bool enterAeration(const FormTarget& target, AerationKind kind) {
    return target.book.change(Put<Aeration>{{.batch = target.batch->id, .when = target.when, .kind = kind}},
                              QStringLiteral("%1, %2").arg(nameOf(target), words::kindOf(kind)));
}

InlineForm* makeAddedForm(const FormTarget& target, QWidget* parent) {
    auto* form = new InlineForm{tr("Added to %1").arg(nameOf(target)), tr("Save"), parent};
    form->setObjectName(QStringLiteral("addedForm"));
    AddedFields fields;
    fields.material = form->addLine("addedMaterial", tr("&Material"), 24);
    auto* completer = new QCompleter{knownMaterials(target.book.log(), target.batch->id), fields.material};
    completer->setCaseSensitivity(Qt::CaseInsensitive);
    completer->setFilterMode(Qt::MatchContains);
    fields.material->setCompleter(completer);
    fields.mass = form->addLine("addedMass", tr("Weight, &kg"), 8);
    fields.raw =
        form->addChoice("addedRaw", tr("Ra&w material?"), {tr("as the material list says"), tr("raw"), tr("not raw")});
    const SafetyLine caution = safetyLineFor(Act::adding);
    form->addNote(tr("Raw material starts the hold again. %1").arg(caution.words), caution.source);
    QLabel* note = form->addNote({}, {});
    note->hide();
    QObject::connect(fields.material, &QLineEdit::textChanged, note, [note](const QString& material) {
        QString sources;
        note->setText(materialCautions(material, &sources));
        note->setToolTip(sources);
        note->setVisible(!note->text().isEmpty());
    });
    form->onSave([target, fields] { return enterAddition(target, fields); });
    return form;
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
    form->onSave([target, when] { return finish(target, when->text()); });
    return form;
}

InlineForm* makeMoveForm(const FormTarget& target, QWidget* parent) {
    const std::vector<Bin> bins = otherBins(target);
    QStringList names;
    for (const Bin& bin : bins) {
        names << words::text(bin.name);
    }
    auto* form = new InlineForm{tr("Turn %1 into another bin").arg(nameOf(target)), tr("Move the batch"), parent};
    form->setObjectName(QStringLiteral("moveForm"));
    auto* where = form->addChoice("moveBin", tr("&To"), names);
    auto* when = form->addLine("moveWhen", tr("&Moved"), 24);
    when->setText(typedForm(target.when));
    const SafetyLine caution = safetyLineFor(Act::turning);
    form->addNote(tr("The move is entered as a turning too. %1").arg(caution.words), caution.source);
    form->onSave([=] {
        return bins.empty() ? tr("There is no other bin yet; add one in Setup.")
                            : moveTo(target, bins.at(static_cast<std::size_t>(where->currentIndex())), when->text());
    });
    return form;
}

}  // namespace midden::ui
