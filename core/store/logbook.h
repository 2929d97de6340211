// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "core/records/batch_record.h"
#include "core/records/edit.h"
#include "core/records/settings.h"
#include "core/store/sqlite/logbook_error.h"
#include "core/thermal/interval.h"

namespace midden {

/// What all readings of one bulk column share.
struct ReadingColumn {
    Place place;
    std::optional<ProbeId> probe;
    TemperatureUnit unit = TemperatureUnit::celsius;
    UtcOffset offset;
    Source source = Source::imported;
    std::string who;
};

/// Another value already stands at this place and instant.
struct ReadingConflict {
    Instant at;
    WrittenTemperature stands;
};

struct BulkOutcome {
    std::int64_t added = 0;
    std::int64_t alreadyThere = 0;
    std::optional<ReadingConflict> conflict;  ///< the first one; nothing of this call was stored
};

/// A certificate as it was issued.
struct IssuedCertificate {
    std::string number;
    BatchId batch{};
    Instant issued;
    std::string digest;      ///< SHA-256 of `canonical`, 64 hexadecimal digits
    std::string canonical;   ///< the record it was issued on, as text
    std::string supersedes;  ///< number of the one it replaces; empty = first
};

/// What a check of the whole book found.
struct CheckReport {
    std::vector<std::string> faults;  ///< in sentences; none = the book is sound
    std::int64_t batches = 0;
    std::int64_t readings = 0;
    std::int64_t certificates = 0;
};
/// One entry of which each of two copies holds its own value, neither knowing the other's.
struct MergeConflict {
    struct Side {
        std::string value;  ///< in words; empty = withdrawn
        std::string who;
        std::optional<Instant> when;
    };
    std::string key;  ///< the same whenever these two values meet
    EntryKind kind{};
    Instant at;           ///< of the entry
    std::string subject;  ///< "core, North"
    std::string before;   ///< what both had before, in words; empty where they never agreed
    Side ours;
    Side theirs;
    bool theirsStands = false;  ///< the other value stays as an amendment
    bool isChoice = true;       ///< false where it follows from another decision
};
/// Which side of a conflict stands. Left to the rule, it is the later change.
enum class Stands { byTheRule, ours, theirs };
using MergeDecision = std::function<Stands(const MergeConflict&)>;

/// What came of bringing another copy of a book into this one.
struct MergeOutcome {
    std::int64_t added = 0;    ///< entries that were new to this copy
    std::int64_t changed = 0;  ///< entries corrected or withdrawn as the other copy has them
    std::int64_t certificates = 0;
    std::map<EntryKind, std::int64_t> addedOfKind;
    std::vector<MergeConflict> conflicts;
};
/// Gives the SHA-256 of a text as 64 hexadecimal digits.
using Digester = std::function<std::string(std::string_view)>;

/// Hears how far a long reading of the file has come, from 0 to 1; its answer says whether to go on.
using ProgressCallback = std::function<bool(double share)>;

/// The newest reading of a place, and the one before it.
struct LastReadings {
    Place place;
    Reading last;
    std::optional<Reading> before;
};

/// One logbook file. Every change is one transaction and is on the disk when the call returns.
/// Not for use by two threads at once; open the file twice instead.
class Logbook {
  public:
    enum class Mode {
        readOnly,
        readWrite,      ///< must exist
        createIfAbsent  ///< an absent or 0-byte file becomes an empty book
    };
    /// Throws LogbookError. An older format is migrated, after a copy beside it; one that is only read is migrated in
    /// memory, and its file stays as it is.
    static Logbook open(const std::filesystem::path& file, Mode mode);
    /// A book in memory, for trials and dry runs.
    static Logbook inMemory();

    Logbook(const Logbook&) = delete;
    Logbook& operator=(const Logbook&) = delete;
    Logbook(Logbook&&) noexcept;
    Logbook& operator=(Logbook&&) noexcept;
    ~Logbook();

    const std::filesystem::path& file() const;  ///< empty for a book in memory
    bool isReadOnly() const;

    // What the book holds.
    std::vector<Bin> bins() const;                      ///< by name
    std::vector<Probe> probes() const;                  ///< by name
    std::vector<Batch> batches() const;                 ///< by start, then name
    std::vector<PlaceSetting> places(BinId bin) const;  ///< inside positions of a bin, alphabetically
    std::optional<Bin> binNamed(std::string_view name) const;
    std::optional<Probe> probeNamed(std::string_view name) const;
    std::optional<Batch> batch(BatchId id) const;
    std::optional<Batch> batchNamed(std::string_view name) const;
    /// The batch in `bin` at that instant: the latest to have come there, unless finished or moved on by then.
    std::optional<BatchId> occupant(BinId bin, Instant at) const;

    /// Everything a review of the batch needs, temperatures corrected by the calibration in force.
    BatchRecord record(BatchId batch) const;
    /// The same, with somebody looking on. No value when they stopped it.
    std::optional<BatchRecord> record(BatchId batch, const ProgressCallback& onProgress) const;
    /// The same without touching more than the readings since `from` (for a glance at a long batch).
    BatchRecord recordSince(BatchId batch, Instant from) const;

    /// Has the batch more readings than this, outside air included? Takes no longer than counting so many.
    bool isLongerThan(BatchId batch, std::int64_t readings) const;

    /// Readings of the batch between two instants, both included, in time order then position; outside air of its
    /// bins comes along when asked for. At most `limit`.
    std::vector<Reading> readings(BatchId batch, Interval within, bool withOutside, std::size_t limit) const;
    /// Readings of the whole site's air while the batch stood, between two instants, both included, in time order.
    /// At most `limit`.
    std::vector<Reading> siteAir(BatchId batch, Interval within, std::size_t limit) const;
    std::vector<LastReadings> lastReadings(BinId bin) const;
    std::optional<Reading> lastOutside() const;
    std::optional<Reading> reading(const ReadingId& id) const;
    /// What `addReadings` would come to at that place.
    BulkOutcome previewReadings(const Place& place, TemperatureUnit unit, std::span<const RawReading> readings) const;
    /// Where readings were ever taken: outside air of the site, then by bin and position.
    std::vector<Place> placesRead() const;
    /// Every reading of a place in time order, whichever batch it belongs to.
    void visitReadings(const Place& place, const std::function<void(const Reading&)>& visit) const;
    std::vector<Addition> additions(BatchId batch) const;    ///< in time order
    std::vector<Amendment> amendments(BatchId batch) const;  ///< outside air included, oldest first
    std::vector<ThermometerCheck> checks(ProbeId probe) const;

    /// What the book says, else what holds otherwise.
    std::string setting(const Setting& setting) const;
    std::optional<std::string> storedSetting(const Setting& setting) const;
    void setSetting(const Setting& setting, std::string_view value);

    std::vector<IssuedCertificate> certificates(BatchId batch) const;  ///< oldest first
    std::optional<IssuedCertificate> certificate(std::string_view number) const;
    void storeCertificate(const IssuedCertificate& certificate);

    // How it changes.
    /// Throws LogbookError{refused} with a sentence when the edit contradicts the book; nothing is changed then.
    Applied apply(const Edit& edit);
    /// Runs `work` in one transaction: all of it or, when it throws, nothing. May not be nested.
    void inOneTransaction(const std::function<void()>& work);
    /// Adds readings of one column, in time order without repeated instants.
    BulkOutcome addReadings(const ReadingColumn& column, std::span<const RawReading> readings);

    /// A whole copy in a new file, as the book stands now, even while others write to it.
    void copyTo(const std::filesystem::path& file) const;

    // How it is cared for.
    /// Looks at every page and row: SQLite's own checks, one reading per place and instant, whole batches, and the
    /// digests of issued certificates where `digester` is given. Changes nothing.
    CheckReport check(const Digester& digester) const;
    /// Brings in what another copy of the book, or a book of the same bins and batches, holds. Bins, probes and batches
    /// are the same by their lasting key, else by name. Where both changed an entry `decide` says which value stands,
    /// else the later does; the other value stays as an amendment. Merging twice or the other way round gives the same
    /// book. Refuses the book of another group.
    MergeOutcome merge(const Logbook& other, const MergeDecision& decide = {});
    /// A copy as of now in a new file, whatever other programs are writing meanwhile. Refuses a name that is taken.
    void backUpTo(const std::filesystem::path& copy) const;

    /// What became of the file's name since the book was opened.
    enum class FileState { inPlace, gone, replaced };
    FileState fileState() const;
    /// Changes when another program or connection has written to the file.
    std::int64_t dataVersion() const;
    /// Who is typing, and the clock, for entries made from now on. Core has no clock of its own.
    void setHand(std::string who, std::function<Instant()> now);

    struct State;  ///< the open file; known only inside core/store

  private:
    explicit Logbook(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

}  // namespace midden
