// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/print_sheet.h"

#include <QFileInfo>
#include <QMarginsF>
#include <QPdfWriter>
#include <QPrinter>
#include <QSaveFile>

#include "ui/common/book.h"
#include "ui/common/prompts.h"
#include "ui/round/round_sheet.h"

namespace midden::ui {

namespace {

const QMarginsF margins{15, 12, 15, 12};

}  // namespace

void printRoundSheet(Book& book, Prompts& prompts, QWidget* window) {
    QPrinter printer{QPrinter::HighResolution};
    printer.setPageMargins(margins, QPageLayout::Millimeter);
    if (!prompts.choosePrinter(window, printer)) {
        return;
    }
    if (paintSheet(printer, planSheet(book.log()))) {
        emit book.told(Book::tr("The round sheet went to the printer."));
    } else {
        emit book.troubled(Book::tr("The printer did not take the round sheet; save it as PDF instead."));
    }
}

void saveRoundSheet(Book& book, Prompts& prompts, QWidget* window) {
    const auto path = prompts.fileToSave(window, Book::tr("Save the round sheet"), QStringLiteral("round-sheet.pdf"),
                                         Book::tr("PDF (*.pdf)"));
    if (!path) {
        return;
    }
    QSaveFile file{*path};
    bool done = file.open(QIODevice::WriteOnly);
    if (done) {
        QPdfWriter writer{&file};
        writer.setPageSize(QPageSize{QPageSize::A4});
        writer.setPageMargins(margins, QPageLayout::Millimeter);
        writer.setTitle(planSheet(book.log()).title);
        done = paintSheet(writer, planSheet(book.log()));
    }
    if (done && file.commit()) {
        emit book.told(Book::tr("Saved: %1").arg(QFileInfo{*path}.fileName()));
    } else {
        emit book.troubled(Book::tr("The round sheet could not be saved: %1").arg(file.errorString()));
    }
}

}  // namespace midden::ui
