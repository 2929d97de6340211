// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/certificate_file.h"

#include <QBuffer>
#include <QHashSeed>
#include <QLocale>
#include <QPageLayout>
#include <QPdfWriter>

#include "ui/certificate/pdf_stamp.h"
#include "ui/shared/pdf_seal.h"

namespace midden::ui {

namespace {

constexpr auto sealKind = "certificate";

/// Qt writes a PDF's fonts in the order of a hash table, which is another in every run. While one of these lives, new
/// tables are ordered by their content alone; those that are there keep the seed they were made with.
class SteadyHashes {
  public:
    SteadyHashes() { QHashSeed::setDeterministicGlobalSeed(); }
    SteadyHashes(const SteadyHashes&) = delete;
    SteadyHashes& operator=(const SteadyHashes&) = delete;
    ~SteadyHashes() { QHashSeed::resetRandomGlobalSeed(); }
};

/// Between two words. Empty where they are not there.
QByteArray between(const QByteArray& pdf, const char* before, const char* after) {
    const auto start = pdf.indexOf(before) + static_cast<qsizetype>(qstrlen(before));
    const auto end = pdf.indexOf(after, start);
    return pdf.contains(before) && end >= 0 ? pdf.mid(start, end - start) : QByteArray{};
}

/// They had no seal, but both dates and both identifiers were the same, which programs that change a PDF put asunder.
bool isOfEarlierVersion(const QByteArray& pdf) {
    const auto made = between(pdf, "xmp:CreateDate=\"", "\"");
    const auto identifiers = pdf.mid(pdf.lastIndexOf("/ID [ <"));
    const auto first = between(identifiers, "/ID [ <", "> <");
    return pdf.startsWith("%PDF-1.4\n") && pdf.contains("<rdf:li xml:lang=\"x-default\">Batch certificate ") &&
           pdf.contains("xmp:CreatorTool=\"Middenbook\"") && !made.isEmpty() &&
           made == between(pdf, "xmp:ModifyDate=\"", "\"") && first.size() == 32 &&
           first == between(identifiers, "> <", "> ]") && pdf.count("%%EOF") == 1 && pdf.trimmed().endsWith("%%EOF");
}

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
    return sealed(stamped(buffer.data(), labels.issued, labels.digest), sealKind);
}

OutputFile certificateFile(const std::filesystem::path& path) {
    return OutputFile{path, [](std::string_view content) {
                          const auto pdf = QByteArray::fromRawData(content.data(), std::ssize(content));
                          return isSealed(pdf, sealKind) || isOfEarlierVersion(pdf);
                      }};
}

void saveIssued(OutputFile& file, const QByteArray& pdf, const BookEntry& entry) {
    if (pdf.isEmpty()) {
        throw FileTrouble{FileTrouble::Kind::failed, "the page could not be drawn"};
    }
    file.write({pdf.data(), static_cast<std::size_t>(pdf.size())});
    entry.store();
    try {
        file.takeName();
    } catch (const std::exception& trouble) {
        const auto* known = dynamic_cast<const FileTrouble*>(&trouble);
        try {
            entry.takeBack();
        } catch (const std::exception&) {
            throw NumberStays{known != nullptr ? known->kind : FileTrouble::Kind::failed,
                              std::string{trouble.what()} + "; the certificate's number stays in the book"};
        }
        throw;
    }
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
