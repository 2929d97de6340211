// SPDX-License-Identifier: GPL-3.0-or-later
// The certificate as PDF, against Qt writing the very same strokes and words without us.
#include <QBuffer>
#include <QPainter>
#include <QPdfWriter>
#include <QPicture>

#include "core/store/read/book_rules.h"
#include "tests/bench/faces/parts.h"
#include "tests/bench/row.h"
#include "ui/certificate/certificate_file.h"
#include "ui/certificate/printed_certificate.h"

namespace midden::bench {

namespace {

std::vector<QPicture> pagesOf(const ui::CertificateSheet& sheet) {
    std::vector<QPicture> pages(static_cast<std::size_t>(sheet.pageCount()));
    for (int page = 0; page < sheet.pageCount(); ++page) {
        QPainter painter{&pages[static_cast<std::size_t>(page)]};
        sheet.drawPage(painter, page);
    }
    return pages;
}

qsizetype writtenBare(const std::vector<QPicture>& pages) {
    QBuffer buffer;
    buffer.open(QIODevice::WriteOnly);
    QPdfWriter writer{&buffer};
    writer.setPdfVersion(QPagedPaintDevice::PdfVersion_A1b);
    writer.setResolution(1'200);
    ui::setUpPage(writer, QPageSize::A4);
    QPainter painter{&writer};
    const double unit = writer.logicalDpiX() / 25.4 / 100;
    painter.scale(unit, unit);
    for (std::size_t page = 0; page < pages.size(); ++page) {
        if (page > 0) {
            writer.newPage();
        }
        painter.drawPicture(0, 0, pages[page]);
    }
    painter.end();
    return buffer.size();
}

}  // namespace

void measureCertificate(const Books& books) {
    const Logbook book = Logbook::open(books.small.toStdString(), Logbook::Mode::readOnly);
    const auto draft = draftCertificate(book, book.batchNamed("Long")->id, {targetOf(book)});
    const auto certificate = numberedCertificate(book, draft, draft.record.batch.started.at);
    const auto sheet =
        ui::sheetOf(draft, ui::noteOf(certificate, TimeZone::utc()), TimeZone::utc(), ui::millimetresOf(QPageSize::A4));
    const auto pages = pagesOf(*sheet);
    std::vector<double> own;
    std::vector<double> bare;
    qsizetype written = 0;
    for (int i = 0; i < books.runs(15); ++i) {
        bare.push_back(medianCpu(1, [&] { written += writtenBare(pages); }));
        own.push_back(medianCpu(
            1, [&] { written += ui::certificatePdf(draft, certificate, TimeZone::utc(), QPageSize::A4).size(); }));
    }
    print({.name = "certificate PDF",
           .measured = median(own),
           .against = "QPdfWriter, the same page played back",
           .againstMeasured = median(bare),
           .goal = 2,
           .note = fmt::format("{} KiB in all", written / 1'024)});
}

}  // namespace midden::bench
