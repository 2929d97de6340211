// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/print_sheet.h"

#include <QBuffer>
#include <QFileInfo>
#include <QMarginsF>
#include <QPdfWriter>
#include <QPrinter>

#include "core/files/output_file.h"
#include "ui/round/round_sheet.h"
#include "ui/shared/book.h"
#include "ui/shared/pdf_seal.h"
#include "ui/shared/prompts.h"

namespace midden::ui {

namespace {

const QMarginsF margins{15, 12, 15, 12};
constexpr auto sealKind = "round sheet";

/// Empty when Qt could not write it.
QByteArray pdfOf(const SheetPlan& plan) {
    QBuffer buffer;
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer{&buffer};
        writer.setPageSize(QPageSize{QPageSize::A4});
        writer.setPageMargins(margins, QPageLayout::Millimeter);
        writer.setTitle(plan.title);
        if (!paintSheet(writer, plan)) {
            return {};
        }
    }
    return sealed(buffer.data(), sealKind);
}

void write(const QByteArray& pdf, const QString& path) {
    if (pdf.isEmpty()) {
        throw FileTrouble{FileTrouble::Kind::failed, "the page could not be drawn"};
    }
    OutputFile file{path.toStdString(), [](std::string_view content) {
                        return isSealed(QByteArray::fromRawData(content.data(), std::ssize(content)), sealKind);
                    }};
    file.write({pdf.data(), static_cast<std::size_t>(pdf.size())});
    file.takeName();
}

void saveAs(const QString& path, Book& book) {
    try {
        write(pdfOf(planSheet(book.log())), path);
        emit book.told(Book::tr("Saved: %1").arg(QFileInfo{path}.fileName()));
    } catch (const std::exception& trouble) {
        emit book.troubled(Book::tr("The round sheet could not be saved: %1").arg(QString::fromUtf8(trouble.what())));
    }
}

}  // namespace

void printRoundSheet(Book& book, Prompts& prompts, QWidget* window) {
    QPrinter printer{QPrinter::HighResolution};
    printer.setPageMargins(margins, QPageLayout::Millimeter);
    if (!prompts.choosePrinter(window, printer)) {
        return;
    }
    if (!printer.outputFileName().isEmpty()) {  // "print to a file" is saving
        saveAs(printer.outputFileName(), book);
    } else if (paintSheet(printer, planSheet(book.log()))) {
        emit book.told(Book::tr("The round sheet went to the printer."));
    } else {
        emit book.troubled(Book::tr("The printer did not take the round sheet; save it as PDF instead."));
    }
}

void saveRoundSheet(Book& book, Prompts& prompts, QWidget* window) {
    const auto path = prompts.fileToSave(window, Book::tr("Save the round sheet"), QStringLiteral("round-sheet.pdf"),
                                         Book::tr("PDF (*.pdf)"));
    if (path) {
        saveAs(*path, book);
    }
}

}  // namespace midden::ui
