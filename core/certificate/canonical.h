// SPDX-License-Identifier: GPL-3.0-or-later
// The record of a batch as text: what a certificate's digest is taken over.
//
// UTF-8, every line ended by a line feed. The first line names the format and its version.
//
//   middenbook.record/1
//   issued for                          ← what the certificate was issued for: group, rules. Kept with it for ever.
//   group     name=…
//   criterion of=…                      ← the published rules or the group; then the rule as JSON, as criteria are kept
//   harvest   at=… taken=… at least=…   ← of the record of a harvest: which one, and what was reckoned of it then
//   entries                             ← what the book holds of the batch. This part is compared by `verify`.
//   batch     name=… started=… …
//   stay      since=… bin=…             ← in time order; then bins, positions, probes by name (heights: of a fed batch)
//   check · addition · aeration · observation · harvest   in time order, then by their own text
//   series    bin=… position=… unit=… offset=… probe=… by=…
//   2026-03-04T08:10:00Z 63.4           ← its readings in time order, as typed, in the series' unit
//
// A line is a word and fields `name=value`, parted by tabs; a field without a value is left out. In values a
// backslash is written \\, a tab \t, a line feed \n, a carriage return \r. Instants are UTC to the second; an entry's
// own offset from UTC stands beside it. Numbers are exact decimals with a point. Series are in the order of their
// lines. Outside air is a series without a position. Not in it: notes of readings, additions, aerations, harvests
// and checks,
// and how and when an entry came into the book (but who typed a reading is).
#pragma once

#include <map>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "core/criteria/criterion.h"
#include "core/criteria/information.h"
#include "core/records/batch_record.h"

namespace midden {

/// The readings of a batch as they were typed, taken in page by page.
class WrittenReadings {
  public:
    WrittenReadings(std::span<const Bin> bins, std::span<const Probe> probes);
    /// Pages come in time order.
    void add(std::span<const Reading> page);

    std::string text() const;  ///< the series lines of the canonical record
    const std::set<std::string>& readers() const { return readers_; }
    bool someWithoutProbe() const { return someWithoutProbe_; }

  private:
    std::string seriesOf(const Reading& reading) const;

    std::map<BinId, std::string> bins_;
    std::map<ProbeId, std::string> probes_;
    std::map<std::string, std::string> linesBySeries_;
    std::set<std::string> readers_;
    bool someWithoutProbe_ = false;
};

/// What a certificate was issued for, apart from the entries.
struct IssuedFor {
    std::string group;
    std::vector<Criterion> criteria;
    std::vector<Information> information;  ///< told on the page, not judged
};

/// The first line and the part that is kept with the certificate.
std::string canonicalHead(const IssuedFor& issuedFor);
/// The part that must still be the same when the certificate is verified.
std::string canonicalEntries(const BatchRecord& record, std::span<const Bin> bins, const WrittenReadings& readings);

/// A canonical record in its two parts; an empty `entries` means that it is not one.
struct CanonicalParts {
    std::string_view head;
    std::string_view entries;
};
CanonicalParts partsOf(std::string_view canonical);

/// The harvest whose record this is; no value: it is that of a whole batch.
std::optional<Instant> harvestOf(std::string_view canonical);

/// One line of a canonical record, being written or read.
class CanonicalLine {
  public:
    using Field = std::pair<std::string, std::string>;
    explicit CanonicalLine(std::string word) : word_{std::move(word)} {}
    static CanonicalLine parse(std::string_view line);

    CanonicalLine& with(std::string name, std::string value);  ///< left out when empty
    CanonicalLine& with(std::string name, Moment when);        ///< and the offset it was written with
    /// The shortest decimal that reads back as the same number.
    CanonicalLine& with(std::string name, std::optional<double> number, std::string_view unit = {});

    const std::string& word() const { return word_; }
    const std::vector<Field>& fields() const { return fields_; }
    std::string field(std::string_view name) const;  ///< empty when absent
    std::string text() const;                        ///< with its line feed

  private:
    std::string word_;
    std::vector<Field> fields_;
};

/// "+01:00", "-03:30", "+00:00"
std::string offsetText(UtcOffset offset);
/// The shortest decimal, with a point, that reads back as the same number.
std::string decimal(double number);
/// With as many decimals as it needs, at most four.
std::string decimal(Kelvins difference);

}  // namespace midden
