// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/printed_certificate.h"

#include "ui/certificate/certificate_file.h"
#include "ui/certificate/paper_layers.h"

namespace midden::ui {

std::unique_ptr<CertificateSheet> sheetOf(const CertificateDraft& draft, const IssueNote& note, const TimeZone& zone,
                                          QSizeF paper, PaperPyramids pyramids) {
    if (!pyramids) {
        pyramids = pyramidsOf(draft.record);
    }
    const auto drawChart = [&draft, zone, pyramids](QPainter& painter, const QRectF& target) {
        drawPaperChart(painter, target, {draft.record, draft.review, zone, pyramids});
    };
    return std::make_unique<CertificateSheet>(certificateOf(draft, note, zone), drawChart, paper);
}

IssueNote noteOf(const IssuedCertificate& certificate, const TimeZone& zone) {
    return {certificate.number, zone.momentAt(certificate.issued), certificate.supersedes, certificate.digest};
}

QByteArray certificatePdf(const CertificateDraft& draft, const IssuedCertificate& certificate, const TimeZone& zone,
                          QPageSize::PageSizeId size) {
    const auto sheet = sheetOf(draft, noteOf(certificate, zone), zone, millimetresOf(size));
    const auto title = QString::fromStdString("Batch certificate " + certificate.number);
    return pdfOf(*sheet, size, {title, certificate.issued, QByteArray::fromStdString(certificate.digest)});
}

std::unique_ptr<CertificateSheet> sheetOf(const HarvestDraft& draft, const IssueNote& note, const TimeZone& zone,
                                          QSizeF paper) {
    std::vector<QString> names;
    for (const Track& track : draft.record.tracks) {
        names.push_back(QString::fromStdString(track.position));
    }
    FedRecord fed = fedRecordOf(draft.record, draft.target, draft.materials);
    fed.asOf = draft.harvest.at;
    const auto drawLayers = [source = layersSource(fed, names), zone](QPainter& painter, const QRectF& target) {
        drawPaperLayers(painter, target, *source, zone);
    };
    return std::make_unique<CertificateSheet>(harvestPageOf(draft, note, zone), drawLayers, paper);
}

QByteArray harvestPdf(const HarvestDraft& draft, const IssuedCertificate& certificate, const TimeZone& zone,
                      QPageSize::PageSizeId size) {
    const auto sheet = sheetOf(draft, noteOf(certificate, zone), zone, millimetresOf(size));
    const auto title = QString::fromStdString("Harvest record " + certificate.number);
    return pdfOf(*sheet, size, {title, certificate.issued, QByteArray::fromStdString(certificate.digest)});
}

}  // namespace midden::ui
