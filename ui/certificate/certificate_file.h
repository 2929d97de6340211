// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QByteArray>
#include <QPageSize>

#include "core/files/output_file.h"
#include "ui/certificate/certificate_sheet.h"

class QPagedPaintDevice;

namespace midden::ui {

/// What a PDF says of itself besides its pages.
struct PdfLabels {
    QString title;
    Instant issued;
    QByteArray digest;  ///< hexadecimal; the file's identifiers are taken from it
};

/// Full page of that size, upright, margins left to the drawing.
void setUpPage(QPagedPaintDevice& device, QPageSize::PageSizeId size);

/// The certificate as PDF/A-1b: the same bytes for the same sheet and labels. Empty when Qt could not write it.
QByteArray pdfOf(const CertificateSheet& sheet, QPageSize::PageSizeId size, const PdfLabels& labels);

/// Where the PDF of a certificate is to stand: at a new name, or in the place of a PDF of a certificate as we left it.
/// Throws FileTrouble. Writes nothing yet.
OutputFile certificateFile(const std::filesystem::path& path);

/// How the number of a certificate gets into the book, and out again when its page could not be saved.
struct BookEntry {
    std::function<void()> store;
    std::function<void()> takeBack;
};

/// The page could not be saved, and its number could not be taken out of the book again. `what()` says both.
struct NumberStays : FileTrouble {
    using FileTrouble::FileTrouble;
};

/// Writes an issued certificate. The file is complete on the disk before the number is stored in the book, and takes
/// its name only afterwards: no page without a number in the book, no half a page. Throws FileTrouble when it cannot be
/// saved, and passes on what `store` throws; neither the page nor the number is kept then, unless it throws
/// NumberStays.
void saveIssued(OutputFile& file, const QByteArray& pdf, const BookEntry& entry);

/// "letter" in the setting, or in a country that uses it, else A4.
QPageSize::PageSizeId paperFor(const QString& setting);

QSizeF millimetresOf(QPageSize::PageSizeId size);

}  // namespace midden::ui
