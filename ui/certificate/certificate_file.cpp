// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/certificate_file.h"

#include <QBuffer>
#include <QHashSeed>
#include <QLocale>
#include <QPageLayout>
#include <QPdfWriter>
#include <QSaveFile>

#include "ui/certificate/pdf_stamp.h"

namespace midden::ui {

namespace {

/// Qt writes a PDF's fonts in the order of a hash table, which is another in every run. While one of these lives, new
/// tables are ordered by their content alone; those that are there keep the seed they were made with.
class SteadyHashes {
  public:
    SteadyHashes() { QHashSeed::setDeterministicGlobalSeed(); }
    SteadyHashes(const SteadyHashes&) = delete;
    SteadyHashes& operator=(const SteadyHashes&) = delete;
    ~SteadyHashes() { QHashSeed::resetRandomGlobalSeed(); }
};

}  // namespace

void setUpPage(QPagedPaintDevice& device, QPageSize::PageSizeId size) {
    device.setPageLayout(QPageLayout{QPageSize{size}, QPageLayout::Portrait, QMarginsF{}});
}

QByteArray pdfOf(const CertificateSheet& sheet, QPageSize::PageSizeId size, const PdfLabels& labels) {
    const SteadyHashes steady;
    QBuffer buffer;
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer{&buffer};
        writer.setPdfVersion(QPagedPaintDevice::PdfVersion_A1b);
        writer.setResolution(1200);
        writer.setTitle(labels.title);
        writer.setCreator(QStringLiteral("Middenbook"));
        setUpPage(writer, size);
        if (!sheet.print(writer)) {
            return {};
        }
    }
    return stamped(buffer.data(), labels.issued, labels.digest);
}

QString saveIssued(const QString& path, const QByteArray& pdf, const std::function<void()>& store) {
    QSaveFile file{path};
    if (pdf.isEmpty() || !file.open(QIODevice::WriteOnly) || file.write(pdf) != pdf.size() || !file.flush()) {
        return pdf.isEmpty() ? QStringLiteral("the page could not be drawn") : file.errorString();
    }
    store();
    return file.commit() ? QString{} : file.errorString();
}

QPageSize::PageSizeId paperFor(const QString& setting) {
    if (setting.compare(QLatin1String{"letter"}, Qt::CaseInsensitive) == 0) {
        return QPageSize::Letter;
    }
    if (setting.compare(QLatin1String{"a4"}, Qt::CaseInsensitive) == 0) {
        return QPageSize::A4;
    }
    return QLocale{}.measurementSystem() == QLocale::ImperialUSSystem ? QPageSize::Letter : QPageSize::A4;
}

QSizeF millimetresOf(QPageSize::PageSizeId size) {
    return QPageSize{size}.size(QPageSize::Millimeter);
}

}  // namespace midden::ui
