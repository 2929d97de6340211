// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/known_materials.h"

#include "core/recipe/caution.h"
#include "core/recipe/material.h"
#include "ui/shared/words.h"

namespace midden::ui {

QStringList knownMaterials(const Logbook& logbook, BatchId batch) {
    QStringList names;
    for (const Addition& addition : logbook.additions(batch)) {
        names << words::text(addition.material);
    }
    for (const Material& material : builtInMaterials().all()) {
        names << words::text(material.name);
    }
    names.removeDuplicates();
    return names;
}

QString materialCautions(const QString& material, QString* sources) {
    QStringList sentences;
    QStringList said;
    for (const Caution& caution : cautionsFor(words::utf8(material))) {
        sentences << words::text(caution.words);
        said << words::text(caution.source);
    }
    *sources = said.join(QStringLiteral("; "));
    return sentences.join(QLatin1Char{' '});
}

}  // namespace midden::ui
