// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/issue.h"
#include "core/quantities/sha256.h"
#include "core/review/review_json.h"
#include "core/review/review_text.h"
#include "core/store/read/book_rules.h"
#include "tests/fuzz/fuzz_input.h"

namespace midden::fuzz {

namespace {

void look(const Logbook& book, const Batch& batch) {
    const auto record = book.record(batch.id);
    ReviewQuestions questions;
    questions.criteria = {targetOf(book)};
    const auto review = reviewOf(record, questions);
    expect(!reviewText(review, TimeZone::utc()).empty(), "a review says something");
    expect(!reviewJson({&review, 1}).empty(), "a review can be read by scripts");
    book.recordSince(batch.id, batch.started.at);
    book.readings(batch.id, {batch.started.at, batch.started.at + days(60)}, true, 100);
    book.amendments(batch.id);
    const auto draft = draftCertificate(book, batch.id, {targetOf(book)});
    expect(draft.digest.size() == 64, "a draft has a digest");
    for (const auto& certificate : book.certificates(batch.id)) {
        verifyCertificate(book, certificate.number);
    }
}

void look(const Logbook& book) {
    std::size_t written = 0;
    for (const auto& bin : book.bins()) {
        book.places(bin.id);
        book.lastReadings(bin.id);
        book.occupant(bin.id, Instant{1'772'600'000});
    }
    for (const auto& probe : book.probes()) {
        book.checks(probe.id);
    }
    for (const auto& place : book.placesRead()) {
        book.visitReadings(place, [&](const Reading& reading) {
            written += writtenWithUnit(reading.written).size() + isoLocal(reading.when).size();
        });
    }
    book.lastOutside();
    for (const auto& batch : book.batches()) {
        look(book, batch);
    }
    expect(written % 2 < 2, "readings can be written out");
    book.check(sha256);
}

/// Whatever the file's own rules make of it, an entry is stored or refused.
void write(Logbook& book) {
    const auto bins = book.bins();
    if (bins.empty()) {
        return;
    }
    Reading reading;
    reading.place = {bins.front().id, "core"};
    reading.when = {Instant{1'772'700'123}, {}};
    reading.written = {585'000, TemperatureUnit::celsius};
    book.apply(Put<Reading>{reading});
    book.apply(Withdraw<Reading>{reading.id(), "a trial"});
}

template <class Work>
void attempt(Work work) {
    try {
        work();
    } catch (const LogbookError& refused) {
        expect(std::string_view{refused.what()}.size() > 10, "a refusal is a sentence");
    }
}

}  // namespace

void readEverything(const std::filesystem::path& file) {
    attempt([&] { look(Logbook::open(file, Logbook::Mode::readOnly)); });
    attempt([&] {
        auto book = Logbook::open(file, Logbook::Mode::readWrite);
        write(book);
        look(book);
    });
}

}  // namespace midden::fuzz
