// SPDX-License-Identifier: GPL-3.0-or-later
// From the logbook to a numbered certificate, and back to the question whether its record still stands.
#pragma once

#include "core/certificate/certificate.h"
#include "core/store/logbook.h"

namespace midden {

/// Everything a certificate rests on, read from the logbook once.
struct CertificateDraft {
    BatchRecord record;
    BatchReview review;
    std::vector<Bin> bins;
    WrittenReadings readings;
    std::string group;
    std::string canonical;
    std::string digest;
    std::vector<Information> information;
};

/// Judges the batch by the criteria, in their order, and tells the information without judging. Throws LogbookError.
CertificateDraft draftCertificate(const Logbook& logbook, BatchId batch, std::vector<Criterion> criteria,
                                  std::vector<Information> information = {});
/// The same, with somebody looking on. No value when they stopped it.
std::optional<CertificateDraft> draftCertificate(const Logbook& logbook, BatchId batch, std::vector<Criterion> criteria,
                                                 std::vector<Information> information,
                                                 const ProgressCallback& onProgress);

/// The certificate of this draft as issued at that instant: the one in the book if this very record was issued then,
/// else a new one that takes the place of the batch's latest. Nothing is stored.
///
/// Its number is the day the batch started and eight digits of a digest over the record's digest and the instant of
/// issue, "20260301-7F3A-9C21": the same record and instant give the same number, in every copy of the book. Should
/// those digits be taken by another certificate of the book, the next eight are used.
IssuedCertificate numberedCertificate(const Logbook& logbook, const CertificateDraft& draft, Instant issued);

/// What a certificate of a batch, or the record of a harvest, is numbered by.
struct Numbered {
    BatchId batch{};
    Moment started;  ///< of the batch
    std::string digest;
    std::string canonical;
};
/// The same of either. It takes the place of the latest one of its batch that speaks of the same: the whole batch, or
/// the same harvest.
IssuedCertificate numbered(const Logbook& logbook, const Numbered& wanted, Instant issued);

/// The batch's readings as they were typed, up to that instant.
WrittenReadings writtenReadings(const Logbook& logbook, const BatchRecord& record, const std::vector<Bin>& bins,
                                Instant until);

/// Stores it, unless it is in the book already.
void storeOnce(Logbook& logbook, const IssuedCertificate& certificate);

Certificate certificateOf(const CertificateDraft& draft, const IssueNote& note, const TimeZone& zone);

/// Is the record still the one a certificate was issued on?
struct Verification {
    IssuedCertificate certificate;
    std::string batch;
    std::optional<Instant> harvest;    ///< it is the record of the harvest taken then
    bool storedTextIntact = true;      ///< the text kept in the book still has the digest that was printed
    bool numberFits = true;            ///< number and date of issue are those the record was given
    std::vector<std::string> changes;  ///< entries that differ, in words
    std::string supersededBy;          ///< number of a later certificate of the batch, or empty

    bool stands() const { return storedTextIntact && numberFits && changes.empty(); }
};
/// No value: the book holds no certificate of that number. Throws LogbookError.
/// The entries are compared. What the certificate was issued for (group, rules) is part of it and kept as it was.
std::optional<Verification> verifyCertificate(const Logbook& logbook, std::string_view number);

}  // namespace midden
