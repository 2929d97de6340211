// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <map>

#include "core/store/entries/certificate_number.h"
#include "core/store/entries/readings.h"
#include "core/store/read/book_rules.h"
#include "core/store/schema/amendment_json.h"
#include "core/store/schema/read_twice.h"
#include "core/store/schema/schema.h"
#include "core/store/soundness.h"
#include "core/store/sqlite/damage_words.h"
#include "core/store/state.h"

namespace midden {

namespace {

/// More of one kind than this say nothing new.
constexpr std::size_t mostOfAKind = 20;

class Checker {
  public:
    Checker(DatabaseFile& file, const Digester& digester) : file_{file}, digester_{digester} {}

    CheckReport made() {
        for (const auto look :
             {&Checker::checkPages, &Checker::checkKinds, &Checker::checkReferences, &Checker::checkReadings,
              &Checker::checkCertificates, &Checker::checkAmendments, &Checker::checkSettings}) {
            attempt(look);
        }
        report_.batches = file_.number("SELECT count(*) FROM batch");
        report_.readings = file_.number("SELECT count(*) FROM reading");
        report_.certificates = file_.number("SELECT count(*) FROM certificate");
        return std::move(report_);
    }

  private:
    /// A value that cannot be there ends one look and not the others.
    void attempt(void (Checker::*look)()) {
        try {
            (this->*look)();
        } catch (const LogbookError& error) {
            if (error.kind != LogbookError::Kind::damaged) {
                throw;
            }
            add(std::string{error.what()} + ".");
        }
    }

    void add(const std::string& fault) { report_.faults.push_back(fault); }
    void addOnce(const std::string& fault) {
        if (std::find(report_.faults.begin(), report_.faults.end(), fault) == report_.faults.end()) {
            add(fault);
        }
    }

    void checkPages() {
        Query query{file_, "PRAGMA integrity_check(20)"};
        while (query.next()) {
            if (query.text(0) != "ok") {
                addOnce("The file is damaged: " + damageWords(query.text(0)) + ".");
            }
        }
    }

    void checkKinds() {
        for (const auto& table : tablesOfUnknownKinds(file_)) {
            addOnce("The file is damaged: " + foreignValueAmong(table) + ".");
        }
    }

    void checkReferences() {
        Query query{file_, "SELECT \"table\", count(*) FROM pragma_foreign_key_check GROUP BY 1"};
        while (query.next()) {
            const auto count = query.number(1);
            add("Among the " + kindWords(query.text(0)) + (count == 1 ? " is " : " are ") + std::to_string(count) +
                (count == 1 ? " that belongs" : " that belong") + " to something that is not in the book.");
        }
    }

    /// One reading per place and instant, over all series of the place.
    void checkReadings() {
        std::map<Place, std::vector<std::int64_t>> places;
        Query query{file_, "SELECT bin, position, id FROM series ORDER BY id"};
        while (query.next()) {
            Place place;
            if (const auto bin = query.maybeNumber(0)) {
                place.bin = BinId{*bin};
            }
            place.position = query.text(1);
            places[place].push_back(query.number(2));
        }
        for (const auto& [place, series] : places) {
            for (const Instant at : readTwice(file_, series, mostOfAKind)) {
                add("Two readings stand at " + placeWords(file_, place) + ", " + isoUtc(at) + ".");
            }
        }
    }

    void checkCertificates() {
        Query query{file_, "SELECT number, digest, canonical, issued FROM certificate ORDER BY id"};
        while (digester_ && query.next()) {
            const IssuedCertificate certificate{query.text(0), {}, query.instant(3), query.text(1), query.text(2), {}};
            if (digester_(certificate.canonical) != certificate.digest) {
                add("Certificate " + certificate.number + " no longer matches the digest it was issued with.");
            } else if (!numberFits(certificate)) {
                add("Certificate " + certificate.number + " no longer has the number and date it was issued with.");
            }
        }
        Query replaced{file_,
                       "SELECT number, supersedes FROM certificate c WHERE supersedes <> '' "
                       "AND NOT EXISTS (SELECT 1 FROM certificate WHERE number = c.supersedes)"};
        while (replaced.next()) {
            add("Certificate " + replaced.text(0) + " replaces " + replaced.text(1) + ", which is not in the book.");
        }
    }

    void checkAmendments() {
        auto unreadable = unreadableAmendments(file_);
        unreadable.resize(std::min(unreadable.size(), mostOfAKind));
        report_.faults.insert(report_.faults.end(), unreadable.begin(), unreadable.end());
    }

    void checkSettings() {
        Query query{file_, "SELECT value FROM setting WHERE name = ?"};
        query.with(setting::criteria.name);
        if (query.next() && !isJsonSequence(query.text(0))) {
            add("The group's own criteria in the settings cannot be read.");
        }
    }

    DatabaseFile& file_;
    const Digester& digester_;
    CheckReport report_;
};

/// A reading of a series that is not in the book would be missed by whoever asks for those of a bin.
constexpr const char* strayReadings =
    "WITH RECURSIVE found(series) AS (SELECT min(series) FROM reading UNION ALL "
    "  SELECT (SELECT min(series) FROM reading WHERE series > found.series) FROM found WHERE series IS NOT NULL) "
    "SELECT count(*) FROM found WHERE series IS NOT NULL AND series NOT IN (SELECT id FROM series)";

[[noreturn]] void throwDamaged(const DatabaseFile& file, const std::string& how) {
    throw LogbookError{LogbookError::Kind::damaged, file.name() + " is damaged: " + how};
}

}  // namespace

void expectSoundReadings(const Logbook& book) {
    DatabaseFile& file = Logbook::State::of(book).file;
    ReadTransaction moment{file};
    for (const char* look : {"PRAGMA quick_check(reading)", "PRAGMA quick_check(reading_more)"}) {
        if (const auto found = file.text(look); found != "ok") {
            throwDamaged(file, damageWords(found));
        }
    }
    if (file.number(strayReadings) > 0) {
        throwDamaged(file, "some readings belong to nothing in the book");
    }
}

CheckReport Logbook::check(const Digester& digester) const {
    ReadTransaction moment{state_->file};
    return Checker{state_->file, digester}.made();
}

}  // namespace midden
