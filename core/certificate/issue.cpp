// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/issue.h"

#include <algorithm>
#include <limits>

#include "core/certificate/changes.h"
#include "core/certificate/harvest_issue.h"
#include "core/quantities/sha256.h"
#include "core/store/entries/certificate_number.h"
#include "core/store/read/book_rules.h"
#include "core/store/soundness.h"

namespace midden {

namespace {

constexpr std::size_t pageOfReadings = 50'000;
constexpr Interval always{{std::numeric_limits<std::int64_t>::min() / 2},
                          {std::numeric_limits<std::int64_t>::max() / 2}};

/// Page by page. A full page may end amid the readings of one second; those are left to the next. Tells `read` how many
/// readings each page brought; false when that said to stop.
bool readAll(const Logbook& logbook, BatchId batch, WrittenReadings& readings, Interval within,
             const std::function<bool(std::size_t)>& read) {
    auto size = pageOfReadings;
    while (true) {
        const auto page = logbook.readings(batch, within, true, size);
        if (page.size() < size) {
            readings.add(page);
            return true;
        }
        const auto last = page.back().when.at;
        const auto next = std::find_if(page.begin(), page.end(), [&](const Reading& r) { return r.when.at == last; });
        if (next == page.begin()) {
            size *= 2;  // one second fills the page
            continue;
        }
        readings.add({page.begin(), next});
        within.from = last;
        if (!read(static_cast<std::size_t>(next - page.begin()))) {
            return false;
        }
    }
}

/// Windows and chart are drawn for the temperature of the first criterion.
ReviewQuestions questionsFor(const Logbook& logbook, std::vector<Criterion> criteria) {
    auto questions = questionsOf(logbook);
    const bool hasStep = !criteria.empty() && !criteria.front().alternatives.empty() &&
                         !criteria.front().alternatives.front().steps.empty();
    if (hasStep) {
        questions.thresholds = {toCelsius(criteria.front().alternatives.front().steps.front().threshold)};
    }
    questions.criteria = std::move(criteria);
    return questions;
}

std::string entriesNow(const Logbook& logbook, const BatchRecord& record, Instant until) {
    const auto bins = logbook.bins();
    return canonicalEntries(record, bins, writtenReadings(logbook, record, bins, until));
}

std::string freeNumber(const Logbook& logbook, const Numbered& wanted, Instant issued) {
    for (const auto& number : certificateNumbers(wanted.started, wanted.digest, issued)) {
        if (!logbook.certificate(number)) {
            return number;
        }
    }
    throw LogbookError{LogbookError::Kind::refused, "No certificate number is left for this batch."};
}

}  // namespace

CertificateDraft draftCertificate(const Logbook& logbook, BatchId batch, std::vector<Criterion> criteria,
                                  std::vector<Information> information) {
    return *draftCertificate(logbook, batch, std::move(criteria), std::move(information), [](double) { return true; });
}

std::optional<CertificateDraft> draftCertificate(const Logbook& logbook, BatchId batch, std::vector<Criterion> criteria,
                                                 std::vector<Information> information,
                                                 const ProgressCallback& onProgress) {
    expectSoundReadings(logbook);
    constexpr double forRecord = 0.2;  // of the time it takes to read everything; writing it down is the rest
    auto found = logbook.record(batch, [&](double share) { return onProgress(share * forRecord); });
    if (!found) {
        return {};
    }
    auto& record = *found;
    auto bins = logbook.bins();
    WrittenReadings readings{bins, record.probes};
    const auto all = static_cast<double>(std::max<std::int64_t>(1, record.readings + std::ssize(record.outside)));
    double done = 0;
    const bool isRead = readAll(logbook, batch, readings, always, [&](std::size_t count) {
        done += static_cast<double>(count);
        return onProgress(forRecord + (1 - forRecord) * std::min(0.99, done / all));
    });
    if (!isRead || !onProgress(1)) {
        return {};
    }
    IssuedFor issuedFor{logbook.setting(setting::group), std::move(criteria), std::move(information)};
    auto canonical = canonicalHead(issuedFor) + canonicalEntries(record, bins, readings);
    auto review = reviewOf(record, questionsFor(logbook, std::move(issuedFor.criteria)));
    auto digest = sha256(canonical);
    return CertificateDraft{
        std::move(record),          std::move(review),    std::move(bins),   std::move(readings),
        std::move(issuedFor.group), std::move(canonical), std::move(digest), std::move(issuedFor.information)};
}

IssuedCertificate numbered(const Logbook& logbook, const Numbered& wanted, Instant issued) {
    auto earlier = logbook.certificates(wanted.batch);
    std::erase_if(earlier, [harvest = harvestOf(wanted.canonical)](const IssuedCertificate& one) {
        return harvestOf(one.canonical) != harvest;
    });
    for (const auto& certificate : earlier) {
        if (certificate.digest == wanted.digest && certificate.issued == issued) {
            return certificate;
        }
    }
    return {freeNumber(logbook, wanted, issued),         wanted.batch, issued, wanted.digest, wanted.canonical,
            earlier.empty() ? "" : earlier.back().number};
}

IssuedCertificate numberedCertificate(const Logbook& logbook, const CertificateDraft& draft, Instant issued) {
    const Batch& batch = draft.record.batch;
    return numbered(logbook, {batch.id, batch.started, draft.digest, draft.canonical}, issued);
}

WrittenReadings writtenReadings(const Logbook& logbook, const BatchRecord& record, const std::vector<Bin>& bins,
                                Instant until) {
    WrittenReadings readings{bins, record.probes};
    readAll(logbook, record.batch.id, readings, {always.from, until}, [](std::size_t) { return true; });
    return readings;
}

void storeOnce(Logbook& logbook, const IssuedCertificate& certificate) {
    if (!logbook.certificate(certificate.number)) {
        logbook.storeCertificate(certificate);
    }
}

Certificate certificateOf(const CertificateDraft& draft, const IssueNote& note, const TimeZone& zone) {
    return certificateOf({draft.record, draft.review, draft.bins, draft.readings, draft.group, zone, draft.information},
                         note);
}

std::optional<Verification> verifyCertificate(const Logbook& logbook, std::string_view number) {
    auto certificate = logbook.certificate(number);
    if (!certificate) {
        return {};
    }
    auto record = logbook.record(certificate->batch);
    const auto harvest = harvestOf(certificate->canonical);
    if (harvest) {
        record = recordUpTo(std::move(record), *harvest);
    }
    const auto stored = partsOf(certificate->canonical).entries;
    const auto now = entriesNow(logbook, record, harvest.value_or(always.to));
    Verification verification{{},
                              record.batch.name,
                              harvest,
                              sha256(certificate->canonical) == certificate->digest,
                              numberFits(*certificate)};
    verification.changes = changesBetween(stored, now);
    if (stored != now && verification.changes.empty()) {
        verification.changes.emplace_back("The order in which the entries are written has changed.");
    }
    for (const auto& other : logbook.certificates(certificate->batch)) {
        if (other.supersedes == certificate->number) {
            verification.supersededBy = other.number;
        }
    }
    verification.certificate = std::move(*certificate);
    return verification;
}

}  // namespace midden
