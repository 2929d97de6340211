// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QByteArray>
#include <QPageSize>
#include <memory>

#include "core/certificate/harvest_issue.h"
#include "core/certificate/issue.h"
#include "ui/certificate/certificate_sheet.h"
#include "ui/certificate/paper_chart.h"

namespace midden::ui {

/// The draft on paper of that size in millimetres; as a preview while `note` has no number. Keeps a reference to the
/// draft, for its chart, and makes its overviews unless they are given.
std::unique_ptr<CertificateSheet> sheetOf(const CertificateDraft& draft, const IssueNote& note, const TimeZone& zone,
                                          QSizeF paper, PaperPyramids pyramids = {});

/// What is printed of an issued certificate besides the draft.
IssueNote noteOf(const IssuedCertificate& certificate, const TimeZone& zone);

/// The issued certificate as PDF.
QByteArray certificatePdf(const CertificateDraft& draft, const IssuedCertificate& certificate, const TimeZone& zone,
                          QPageSize::PageSizeId size);

/// The record of a harvest on paper of that size in millimetres; as a preview while `note` has no number.
std::unique_ptr<CertificateSheet> sheetOf(const HarvestDraft& draft, const IssueNote& note, const TimeZone& zone,
                                          QSizeF paper);

/// The record of a harvest as PDF.
QByteArray harvestPdf(const HarvestDraft& draft, const IssuedCertificate& certificate, const TimeZone& zone,
                      QPageSize::PageSizeId size);

}  // namespace midden::ui
