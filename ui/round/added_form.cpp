// SPDX-License-Identifier: GPL-3.0-or-later
// What was added to a batch: weighed or measured, and what raw material would take from its hold.
#include <QComboBox>
#include <QCompleter>
#include <QCoreApplication>
#include <QLabel>
#include <QLineEdit>

#include "core/store/read/book_rules.h"
#include "ui/round/batch_forms.h"
#include "ui/round/known_materials.h"
#include "ui/round/safety_line.h"
#include "ui/round/typed_level.h"
#include "ui/shared/batch_status_cache.h"
#include "ui/shared/fed_words.h"
#include "ui/shared/hold_loss.h"
#include "ui/shared/inline_form.h"
#include "ui/shared/tone.h"
#include "ui/shared/typed_addition.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("forms", source);
}

struct AddedFields {
    QLineEdit* material = nullptr;
    QLineEdit* amount = nullptr;
    QComboBox* raw = nullptr;
    QLineEdit* level = nullptr;  ///< of a fed batch only
    QLabel* amountWords = nullptr;
    QLabel* loss = nullptr;
    QLabel* cautions = nullptr;
};

ReadLine typedIn(const FormTarget& target, const AddedFields& fields) {
    const Book& book = target.book;
    ReadLine read =
        readLine({fields.material->text(), fields.amount->text()}, measuresOf(book), materialsOf(book.log()));
    if (read.addition) {
        read.addition->batch = target.batch->id;
        read.addition->when = target.when;
        if (fields.raw->currentIndex() > 0) {
            read.addition->raw = fields.raw->currentIndex() == 1;
        }
    }
    return read;
}

QString enterAddition(const FormTarget& target, const AddedFields& fields) {
    if (fields.material->text().trimmed().isEmpty()) {
        return tr("Say what was added.");
    }
    const ReadLine read = typedIn(target, fields);
    if (!read.addition) {
        return read.remark.isEmpty() || !read.wrong ? tr("Say how much was added.") : read.remark;
    }
    const auto level =
        fields.level != nullptr ? readLevel(fields.level->text(), target.bin) : Result<std::optional<double>>{};
    if (!level) {
        return tr("Surface: %1.").arg(words::text(level.error().sentence()));
    }
    const QString kilograms = words::localised(QString::number(read.addition->massKilograms, 'g', 6).toStdString());
    const QString label = tr("%1, %2 kg added to %3")
                              .arg(words::text(read.addition->material), kilograms, words::text(target.batch->name));
    const bool done = target.book.changeTogether(label, [&](const Book::Apply& apply) {
        apply(Put<Addition>{*read.addition});
        if (*level) {
            apply(Put<Observation>{levelEntry(target.batch->id, target.when, **level)});
        }
    });
    return done ? QString{} : tr("Nothing was saved.");
}

/// Before an amount is typed, what raw material alone would do.
std::vector<Addition> about(const FormTarget& target, const AddedFields& fields) {
    Addition addition = typedIn(target, fields).addition.value_or(Addition{});
    addition.batch = target.batch->id;
    addition.when = target.when;
    addition.material = words::utf8(fields.material->text().trimmed());
    if (fields.raw->currentIndex() > 0) {
        addition.raw = fields.raw->currentIndex() == 1;
    }
    return addition.material.empty() ? std::vector<Addition>{} : std::vector{addition};
}

void show(QLabel* line, const QString& words) {
    line->setText(words);
    line->setVisible(!words.isEmpty());
}

void follow(const FormTarget& target, const AddedFields& fields) {
    QString sources;
    show(fields.cautions, materialCautions(fields.material->text(), &sources));
    fields.cautions->setToolTip(sources);
    const ReadLine read = typedIn(target, fields);
    const bool hasAmount = !fields.amount->text().trimmed().isEmpty();
    show(fields.amountWords, hasAmount && !fields.material->text().trimmed().isEmpty() ? read.remark : QString{});
    setTone(*fields.amountWords, read.wrong ? Tone::question : Tone::quiet);
    const QString loss = holdLoss(target.book, target.batch->id, about(target, fields));
    show(fields.loss, loss.isEmpty() ? QString{} : tr("This is raw material. %1").arg(loss));
    fields.raw->setAccessibleDescription(fields.loss->text());
}

Question lossOf(const FormTarget& target, const AddedFields& fields) {
    const ReadLine read = typedIn(target, fields);
    return read.addition ? holdLossQuestion(target.book, target.batch->id, std::vector{*read.addition}) : Question{};
}

}  // namespace

InlineForm* makeAddedForm(const FormTarget& target, QWidget* parent) {
    auto* form = new InlineForm{tr("Added to %1").arg(words::text(target.batch->name)), tr("Save"), parent};
    form->setObjectName(QStringLiteral("addedForm"));
    AddedFields fields;
    fields.material = form->addLine("addedMaterial", tr("&Material"), 24);
    auto* completer = new QCompleter{knownMaterials(target.book.log(), target.batch->id), fields.material};
    completer->setCaseSensitivity(Qt::CaseInsensitive);
    completer->setFilterMode(Qt::MatchContains);
    fields.material->setCompleter(completer);
    fields.amount = form->addLine("addedMass", tr("How m&uch"), 20);
    fields.amount->setPlaceholderText(tr("10 kg or 2 buckets"));
    fields.raw =
        form->addChoice("addedRaw", tr("Ra&w material?"), {tr("as the material list says"), tr("raw"), tr("not raw")});
    fields.amountWords = form->addWarning("addedAmountWords");
    fields.loss = form->addWarning("addedLoss");
    fields.cautions = form->addWarning("addedCautions");
    setTone(*fields.cautions, Tone::quiet);
    const SafetyLine caution = safetyLineFor(Act::adding);
    if (target.batch->fed) {
        fields.level = form->addLine("addedLevel", levelLabel(target.bin), 6);
        fields.level->setPlaceholderText(tr("if measured"));
        form->addNote(
            tr("Measure the surface at least every two weeks: without it no hours are counted. %1").arg(caution.words),
            caution.source);
        if (const BatchStatus* status = target.book.statusCache().of(target.batch->id); status && status->fed) {
            form->addNote(words::feedingAdvice(status->fed->advice, unitOf(target.book.log())),
                          tr("Reckoned by us from published parts: the heat kitchen waste makes, what walls and air "
                             "take. See the help on fed bins."));
        }
    } else {
        form->addNote(tr("Raw material starts the hold again. %1").arg(caution.words), caution.source);
    }
    const auto show = [target, fields] { follow(target, fields); };
    QObject::connect(fields.material, &QLineEdit::textChanged, form, show);
    QObject::connect(fields.amount, &QLineEdit::textChanged, form, show);
    QObject::connect(fields.raw, &QComboBox::currentIndexChanged, form, show);
    form->onAsk([target, fields] { return lossOf(target, fields); });
    form->onSave([target, fields] { return enterAddition(target, fields); });
    return form;
}

}  // namespace midden::ui
