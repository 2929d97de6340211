// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/records/dated_entries.h"
#include "core/store/care/salvage/found_rows.h"

namespace midden::salvage {

namespace {

/// Every bin, thermometer, batch and series that any row found speaks of.
constexpr auto spokenOf = R"(
CREATE TEMP TABLE spoken_bin AS
    SELECT id FROM found_bin UNION SELECT id FROM found_sqlite_autoindex_bin_1
    UNION SELECT id FROM found_sqlite_autoindex_bin_2 UNION SELECT bin FROM found_batch
    UNION SELECT bin FROM found_batch_in_bin UNION SELECT bin FROM found_move
    UNION SELECT bin FROM found_move_to_bin UNION SELECT bin FROM found_place_setting
    UNION SELECT bin FROM found_series WHERE bin IS NOT NULL UNION SELECT bin FROM found_series_once WHERE bin <> 0;
CREATE TEMP TABLE spoken_probe AS
    SELECT id FROM found_probe UNION SELECT id FROM found_sqlite_autoindex_probe_1
    UNION SELECT id FROM found_sqlite_autoindex_probe_2 UNION SELECT probe FROM found_thermometer_check
    UNION SELECT probe FROM found_series WHERE probe IS NOT NULL
    UNION SELECT probe FROM found_series_once WHERE probe <> 0;
CREATE TEMP TABLE spoken_batch AS
    SELECT id FROM found_batch UNION SELECT id FROM found_sqlite_autoindex_batch_1
    UNION SELECT id FROM found_sqlite_autoindex_batch_2 UNION SELECT id FROM found_batch_in_bin
    UNION SELECT batch FROM found_move UNION SELECT batch FROM found_move_to_bin UNION SELECT batch FROM found_dated
    UNION SELECT batch FROM found_certificate;
)";

/// A row as it was; else its key and name from the indexes; else, also where another row has these, a name that says it
/// is lost.
constexpr auto binsAndProbes = R"(
INSERT OR IGNORE INTO setting SELECT * FROM found_setting;
INSERT OR IGNORE INTO bin SELECT * FROM found_bin;
INSERT OR IGNORE INTO bin(id, key, name, note, retired)
    SELECT s.id, ifnull(k.key, lower(hex(randomblob(16)))), ifnull(n.name, 'Salvaged bin ' || s.id), '', 0
    FROM spoken_bin s LEFT JOIN found_sqlite_autoindex_bin_1 k ON k.id = s.id
    LEFT JOIN found_sqlite_autoindex_bin_2 n ON n.id = s.id;
INSERT OR IGNORE INTO bin(id, name, note, retired)
    SELECT id, 'Salvaged bin ' || id, '', 0 FROM spoken_bin WHERE id NOT IN (SELECT id FROM bin);
INSERT OR IGNORE INTO probe SELECT * FROM found_probe;
INSERT OR IGNORE INTO probe(id, key, name, note)
    SELECT s.id, ifnull(k.key, lower(hex(randomblob(16)))), ifnull(n.name, 'Salvaged thermometer ' || s.id), ''
    FROM spoken_probe s LEFT JOIN found_sqlite_autoindex_probe_1 k ON k.id = s.id
    LEFT JOIN found_sqlite_autoindex_probe_2 n ON n.id = s.id;
INSERT OR IGNORE INTO probe(id, name, note)
    SELECT id, 'Salvaged thermometer ' || id, '' FROM spoken_probe WHERE id NOT IN (SELECT id FROM probe);
INSERT OR IGNORE INTO place_setting SELECT * FROM found_place_setting;
)";

/// Where the row of a batch and the index of its bin are both lost it stands in a bin of its own, from its earliest
/// entry on.
constexpr auto batchesAndMoves = R"(
CREATE TEMP TABLE unhoused AS
    SELECT id, ifnull((SELECT min(at) FROM (SELECT at FROM found_dated WHERE batch = s.id
            UNION ALL SELECT since - 1 FROM found_move WHERE batch = s.id
            UNION ALL SELECT since - 1 FROM found_move_to_bin WHERE batch = s.id)), 0) AS started
    FROM spoken_batch s WHERE id NOT IN (SELECT id FROM found_batch UNION SELECT id FROM found_batch_in_bin);
INSERT OR IGNORE INTO bin(name, note, retired)
    SELECT 'Salvaged bin of batch ' || id, '', 0 FROM unhoused;
INSERT OR IGNORE INTO batch SELECT * FROM found_batch;
INSERT OR IGNORE INTO batch(id, key, name, bin, started, started_offset, start_given, note)
    SELECT s.id, ifnull(k.key, lower(hex(randomblob(16)))), ifnull(n.name, 'Salvaged batch ' || s.id),
        ifnull(h.bin, (SELECT id FROM bin WHERE name = 'Salvaged bin of batch ' || s.id)),
        ifnull(h.started, u.started), 0, 0, ''
    FROM spoken_batch s LEFT JOIN found_batch_in_bin h ON h.id = s.id LEFT JOIN unhoused u ON u.id = s.id
    LEFT JOIN found_sqlite_autoindex_batch_1 k ON k.id = s.id
    LEFT JOIN found_sqlite_autoindex_batch_2 n ON n.id = s.id;
CREATE TEMP TABLE crowded_out AS
    SELECT s.id, coalesce(h.bin, b.bin) AS bin, coalesce(h.started, b.started, u.started, 0) AS started
    FROM spoken_batch s LEFT JOIN found_batch_in_bin h ON h.id = s.id LEFT JOIN found_batch b ON b.id = s.id
    LEFT JOIN unhoused u ON u.id = s.id WHERE s.id NOT IN (SELECT id FROM batch);
INSERT OR IGNORE INTO bin(name, note, retired)
    SELECT 'Salvaged bin of batch ' || id, '', 0 FROM crowded_out WHERE bin IS NULL;
INSERT OR IGNORE INTO batch(id, name, bin, started, started_offset, start_given, note)
    SELECT id, 'Salvaged batch ' || id,
        ifnull(bin, (SELECT id FROM bin b WHERE b.name = 'Salvaged bin of batch ' || crowded_out.id)),
        max(-62167219200, min(253402300799, started)), 0, 0, '' FROM crowded_out;
INSERT OR IGNORE INTO move SELECT * FROM found_move WHERE batch IN (SELECT id FROM batch);
INSERT OR IGNORE INTO move(batch, since, bin)
    SELECT batch, since, bin FROM found_move_to_bin WHERE batch IN (SELECT id FROM batch);
)";

/// Readings whose bin, position and thermometer are lost stand in a bin of their own.
constexpr auto series = R"(
INSERT OR IGNORE INTO series SELECT * FROM found_series;
INSERT OR IGNORE INTO series(id, bin, position, probe, unit, utc_offset, source, who)
    SELECT id, nullif(bin, 0), position, nullif(probe, 0), unit, utc_offset, source, who FROM found_series_once;
CREATE TEMP TABLE lost_series AS
    SELECT series AS id FROM found_reading UNION SELECT series FROM found_reading_more EXCEPT SELECT id FROM series;
INSERT INTO bin(name, note, retired)
    SELECT 'Salvaged readings', '', 0 WHERE EXISTS (SELECT 1 FROM lost_series);
INSERT OR IGNORE INTO series(id, bin, position, probe, unit, utc_offset, source, who)
    SELECT id, (SELECT id FROM bin WHERE name = 'Salvaged readings'), 'place ' || id, NULL, id % 2, 0, 0, ''
    FROM lost_series;
)";

/// Of two readings of one place and instant the one of the older series stays.
constexpr auto oncePerPlace = R"(
CREATE INDEX temp.by_instant ON found_reading(series, at);
DELETE FROM found_reading WHERE rowid IN (
    SELECT later.rowid FROM series a JOIN series b ON b.bin IS a.bin AND b.position = a.position AND b.id > a.id
    JOIN found_reading earlier ON earlier.series = a.id
    JOIN found_reading later ON later.series = b.id AND later.at = earlier.at);
)";

constexpr auto entries = R"(
INSERT OR IGNORE INTO reading SELECT * FROM found_reading WHERE series IN (SELECT id FROM series) ORDER BY series, at;
INSERT OR IGNORE INTO reading_more SELECT f.* FROM found_reading_more f
    JOIN reading r ON r.series = f.series AND r.at = f.at;
INSERT OR IGNORE INTO thermometer_check SELECT * FROM found_thermometer_check WHERE probe IN (SELECT id FROM probe);
INSERT OR IGNORE INTO certificate
    SELECT id, number, batch, issued, digest,
        CASE WHEN supersedes IN (SELECT number FROM found_certificate) THEN supersedes ELSE '' END, canonical
    FROM found_certificate WHERE batch IN (SELECT id FROM batch);
)";

/// Numbers once given out are not given out again.
constexpr auto theRest = R"(
INSERT OR IGNORE INTO amendment SELECT * FROM found_amendment;
INSERT INTO sqlite_sequence(name, seq) SELECT name, 0 FROM found_sqlite_sequence
    WHERE name IN ('bin', 'probe', 'batch') AND name NOT IN (SELECT name FROM sqlite_sequence);
UPDATE sqlite_sequence SET seq = max(seq,
    ifnull((SELECT max(f.seq) FROM found_sqlite_sequence f WHERE f.name = sqlite_sequence.name), 0));
)";

/// Those of the entries of batches that the book's format has.
std::vector<std::string> batchTables(DatabaseFile& book) {
    std::vector<std::string> tables;
    for (const auto table : BatchEntries::tables) {
        Query query{book, "SELECT 1 FROM main.sqlite_schema WHERE type = 'table' AND name = ?"};
        if (query.with(table).next()) {
            tables.emplace_back(table);
        }
    }
    return tables;
}

/// When each entry of each batch was.
void gatherDated(DatabaseFile& book, const std::vector<std::string>& tables) {
    std::string all;
    for (const auto& table : tables) {
        all += (all.empty() ? "" : " UNION ALL ") + ("SELECT batch, at FROM found_" + table);
    }
    book.run("CREATE TEMP TABLE found_dated AS " + all);
}

}  // namespace

void compose(DatabaseFile& book) {
    // OR IGNORE means here what it says: of two rows with one key the first is kept.
    const RulesPaused meanwhile{book, RulesPaused::Which::triggers};
    const auto tables = batchTables(book);
    gatherDated(book, tables);
    book.run(spokenOf);
    book.run(binsAndProbes);
    book.run(batchesAndMoves);
    book.run(series);
    book.run(oncePerPlace);
    book.run(entries);
    for (const auto& table : tables) {
        book.run("INSERT OR IGNORE INTO " + table + " SELECT * FROM found_" + table +
                 " WHERE batch IN (SELECT id FROM batch)");
    }
    book.run(theRest);
}

}  // namespace midden::salvage
