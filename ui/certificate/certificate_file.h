// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QByteArray>
#include <QPageSize>

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

/// Writes an issued certificate. The file is complete on the disk before `store` puts the number into the book, and
/// takes its name only afterwards: no page without a number in the book, no half a page. Returns what went wrong, or
/// nothing; what `store` throws passes through.
QString saveIssued(const QString& path, const QByteArray& pdf, const std::function<void()>& store);

/// "letter" in the setting, or in a country that uses it, else A4.
QPageSize::PageSizeId paperFor(const QString& setting);

QSizeF millimetresOf(QPageSize::PageSizeId size);

}  // namespace midden::ui
