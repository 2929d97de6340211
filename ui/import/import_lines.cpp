// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/import/import_lines.h"

#include <QCoreApplication>
#include <QGridLayout>
#include <QLabel>

#include "ui/shared/book.h"
#include "ui/shared/hold_loss.h"
#include "ui/shared/tone.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("intake", source);
}

/// What the raw material among the additions takes from the hold of a batch in the book; empty = nothing.
QString holdLost(const Book& book, const ImportFindings& findings) {
    const ImportOutcome& outcome = findings.previewed.outcome;
    const auto batch = book.log().batchNamed(outcome.batch);
    if (!batch || outcome.additions.added == 0) {
        return {};
    }
    std::vector<Addition> additions;
    for (const auto& addition : findings.staged->additions) {
        additions.push_back(addition.row);
    }
    return holdLoss(book, batch->id, additions);
}

}  // namespace

QList<words::ImportLine> linesOf(const Book& book, const ImportFindings& findings, const std::filesystem::path& file) {
    auto lines = words::linesOf(findings.previewed, file, book.zone());
    if (const QString loss = holdLost(book, findings); !loss.isEmpty()) {
        lines.push_back({tr("The hold"), tr("There is raw material in it. %1").arg(loss), true});
    }
    return lines;
}

QWidget* makeLines(const QList<words::ImportLine>& lines, QWidget* parent) {
    auto* made = new QWidget{parent};
    made->setObjectName(QStringLiteral("intakeLines"));
    auto* grid = new QGridLayout{made};
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(16);
    grid->setVerticalSpacing(8);
    grid->setColumnStretch(1, 1);
    int row = 0;
    for (const words::ImportLine& line : lines) {
        auto* about = new QLabel{line.about, made};
        setTone(*about, Tone::quiet);
        auto* said = new QLabel{line.said, made};
        said->setObjectName(QStringLiteral("intakeLine"));
        said->setWordWrap(true);
        if (line.takesAway) {
            setTone(*said, Tone::question);
        }
        grid->addWidget(about, row, 0, Qt::AlignTop);
        grid->addWidget(said, row++, 1);
    }
    return made;
}

}  // namespace midden::ui
