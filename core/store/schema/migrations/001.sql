-- SPDX-License-Identifier: GPL-3.0-or-later
-- Format 1. Times are seconds since 1970-01-01T00:00:00Z, offsets are minutes ahead of UTC, "parts" are
-- ninety-thousandths of a degree Celsius. Nothing here may ever be edited once a book of this format is in somebody's
-- hands: add 002.sql.

CREATE TABLE setting(
    name TEXT PRIMARY KEY CHECK (name <> ''),
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- Who holds the pen while an edit is being made; the rules copy it into the amendments. `key` names an amendment that
-- is in the book already, as when two copies are merged: while it is carried out the rules have nothing to add.
CREATE TABLE hand(
    one INTEGER PRIMARY KEY CHECK (one = 1),
    at INTEGER,
    who TEXT NOT NULL,
    why TEXT NOT NULL,
    key TEXT CHECK (length(key) = 32)
) STRICT;
INSERT INTO hand VALUES (1, NULL, '', '', NULL);

-- A key is the same in every copy of a book; the number is this file's own.
CREATE TABLE bin(
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    key TEXT NOT NULL UNIQUE DEFAULT (lower(hex(randomblob(16)))) CHECK (length(key) = 32),
    name TEXT NOT NULL UNIQUE CHECK (name <> ''),
    volume_litres REAL CHECK (volume_litres > 0 AND volume_litres < 1e9),
    insulation_mm REAL CHECK (insulation_mm >= 0 AND insulation_mm < 1e5),
    conductivity REAL CHECK (conductivity > 0 AND conductivity < 1e3),
    note TEXT NOT NULL,
    retired INTEGER NOT NULL CHECK (retired IN (0, 1))
) STRICT;

CREATE TABLE probe(
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    key TEXT NOT NULL UNIQUE DEFAULT (lower(hex(randomblob(16)))) CHECK (length(key) = 32),
    name TEXT NOT NULL UNIQUE CHECK (name <> ''),
    accuracy_parts INTEGER CHECK (accuracy_parts BETWEEN 0 AND 9000000),
    note TEXT NOT NULL
) STRICT;

CREATE TABLE place_setting(
    bin INTEGER NOT NULL REFERENCES bin(id),
    position TEXT NOT NULL CHECK (position <> ''),
    spot_check INTEGER NOT NULL CHECK (spot_check IN (0, 1)),
    PRIMARY KEY (bin, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE batch(
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    key TEXT NOT NULL UNIQUE DEFAULT (lower(hex(randomblob(16)))) CHECK (length(key) = 32),
    name TEXT NOT NULL UNIQUE CHECK (name <> ''),
    bin INTEGER NOT NULL REFERENCES bin(id),
    started INTEGER NOT NULL CHECK (started BETWEEN -62167219200 AND 253402300799),
    started_offset INTEGER NOT NULL CHECK (started_offset BETWEEN -1080 AND 1080),
    start_given INTEGER NOT NULL CHECK (start_given IN (0, 1)),
    finished INTEGER CHECK (finished BETWEEN -62167219200 AND 253402300799),
    finished_offset INTEGER CHECK (finished_offset BETWEEN -1080 AND 1080),
    note TEXT NOT NULL,
    CHECK (finished >= started),
    CHECK ((finished IS NULL) = (finished_offset IS NULL))
) STRICT;

CREATE INDEX batch_in_bin ON batch(bin, started);

-- At `since` the batch was moved to `bin`. A move that the batch's start and finish leave out, as may be where copies
-- of a book are merged, is kept and counts for nothing until they let it in again.
CREATE TABLE move(
    batch INTEGER NOT NULL REFERENCES batch(id) ON DELETE CASCADE,
    since INTEGER NOT NULL CHECK (since BETWEEN -62167219200 AND 253402300799),
    bin INTEGER NOT NULL REFERENCES bin(id),
    PRIMARY KEY (batch, since)
) STRICT, WITHOUT ROWID;
CREATE INDEX move_to_bin ON move(bin, since);

-- From `since` on the batch stands in `bin`, until its next stay, its finish or another batch's stay there.
CREATE VIEW stay(batch, since, bin) AS
    SELECT id, started, bin FROM batch
    UNION ALL
    SELECT m.batch, m.since, m.bin FROM move m JOIN batch b ON b.id = m.batch
    WHERE m.since > b.started AND m.since <= ifnull(b.finished, m.since);

-- What a run of readings shares. A place is (bin, position); no bin = the whole site, no position = outside air.
-- The number is odd for °F, so that the reading table can check its range without looking here. The first two, 0 and 1,
-- take no room in a reading at all.
CREATE TABLE series(
    id INTEGER PRIMARY KEY,
    bin INTEGER REFERENCES bin(id),
    position TEXT NOT NULL,
    probe INTEGER REFERENCES probe(id),
    unit INTEGER NOT NULL CHECK (unit IN (0, 1)),
    utc_offset INTEGER NOT NULL CHECK (utc_offset BETWEEN -1080 AND 1080),
    source INTEGER NOT NULL CHECK (source IN (0, 1, 2)),
    who TEXT NOT NULL,
    CHECK (id >= 0 AND id % 2 = unit),
    CHECK (bin IS NOT NULL OR position = '')
) STRICT;
CREATE UNIQUE INDEX series_once ON series(ifnull(bin, 0), position, ifnull(probe, 0), unit, utc_offset, source, who);

-- `raw` is the number as written, in ten-thousandths of a degree of the series' unit: −60 to 150 °C.
CREATE TABLE reading(
    series INTEGER NOT NULL REFERENCES series(id),
    at INTEGER NOT NULL CHECK (at BETWEEN -62167219200 AND 253402300799),
    raw INTEGER NOT NULL
        CHECK (raw BETWEEN -600000 AND 1500000 OR (series % 2 = 1 AND raw BETWEEN -760000 AND 3020000)),
    PRIMARY KEY (series, at)
) STRICT, WITHOUT ROWID;

-- What only some readings have.
CREATE TABLE reading_more(
    series INTEGER NOT NULL,
    at INTEGER NOT NULL,
    entered INTEGER,
    note TEXT NOT NULL,
    PRIMARY KEY (series, at),
    FOREIGN KEY (series, at) REFERENCES reading(series, at) ON UPDATE CASCADE ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

CREATE TABLE addition(
    id TEXT PRIMARY KEY CHECK (length(id) = 32),
    batch INTEGER NOT NULL REFERENCES batch(id),
    at INTEGER NOT NULL CHECK (at BETWEEN -62167219200 AND 253402300799),
    utc_offset INTEGER NOT NULL CHECK (utc_offset BETWEEN -1080 AND 1080),
    material TEXT NOT NULL CHECK (material <> ''),
    mass_kg REAL NOT NULL CHECK (mass_kg > 0 AND mass_kg < 1e9),
    volume_litres REAL CHECK (volume_litres > 0 AND volume_litres < 1e9),
    moisture_percent REAL CHECK (moisture_percent BETWEEN 0 AND 100),
    carbon_percent REAL CHECK (carbon_percent BETWEEN 0 AND 100),
    nitrogen_percent REAL CHECK (nitrogen_percent BETWEEN 0 AND 100),
    carbon_nitrogen REAL CHECK (carbon_nitrogen > 0 AND carbon_nitrogen < 1e6),
    raw INTEGER CHECK (raw IN (0, 1)),
    note TEXT NOT NULL,
    source INTEGER NOT NULL CHECK (source IN (0, 1, 2)),
    who TEXT NOT NULL,
    entered INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX addition_of_batch ON addition(batch, at);

CREATE TABLE aeration(
    id TEXT PRIMARY KEY CHECK (length(id) = 32),
    batch INTEGER NOT NULL REFERENCES batch(id),
    at INTEGER NOT NULL CHECK (at BETWEEN -62167219200 AND 253402300799),
    utc_offset INTEGER NOT NULL CHECK (utc_offset BETWEEN -1080 AND 1080),
    kind INTEGER NOT NULL CHECK (kind BETWEEN 0 AND 5),
    note TEXT NOT NULL,
    source INTEGER NOT NULL CHECK (source IN (0, 1, 2)),
    who TEXT NOT NULL,
    entered INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX aeration_of_batch ON aeration(batch, at);

CREATE TABLE observation(
    id TEXT PRIMARY KEY CHECK (length(id) = 32),
    batch INTEGER NOT NULL REFERENCES batch(id),
    at INTEGER NOT NULL CHECK (at BETWEEN -62167219200 AND 253402300799),
    utc_offset INTEGER NOT NULL CHECK (utc_offset BETWEEN -1080 AND 1080),
    kind INTEGER NOT NULL CHECK (kind BETWEEN 0 AND 9),
    subject TEXT NOT NULL,
    value TEXT NOT NULL,
    note TEXT NOT NULL,
    source INTEGER NOT NULL CHECK (source IN (0, 1, 2)),
    who TEXT NOT NULL,
    entered INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX observation_of_batch ON observation(batch, at);

-- A thermometer held in melting ice (0) or boiling water (1).
CREATE TABLE thermometer_check(
    id TEXT PRIMARY KEY CHECK (length(id) = 32),
    probe INTEGER NOT NULL REFERENCES probe(id),
    at INTEGER NOT NULL CHECK (at BETWEEN -62167219200 AND 253402300799),
    utc_offset INTEGER NOT NULL CHECK (utc_offset BETWEEN -1080 AND 1080),
    kind INTEGER NOT NULL CHECK (kind IN (0, 1)),
    raw INTEGER NOT NULL CHECK (raw BETWEEN -600000 AND 1500000 OR (unit = 1 AND raw BETWEEN -760000 AND 3020000)),
    unit INTEGER NOT NULL CHECK (unit IN (0, 1)),
    altitude_m REAL CHECK (altitude_m BETWEEN -500 AND 9000),
    pressure_hpa REAL CHECK (pressure_hpa BETWEEN 300 AND 1100),
    applies_from INTEGER CHECK (applies_from <= at),
    note TEXT NOT NULL,
    source INTEGER NOT NULL CHECK (source IN (0, 1, 2)),
    who TEXT NOT NULL,
    entered INTEGER,
    CHECK (kind = 0 OR (altitude_m IS NULL) <> (pressure_hpa IS NULL))
) STRICT, WITHOUT ROWID;
CREATE INDEX thermometer_check_of_probe ON thermometer_check(probe, at);

CREATE TABLE certificate(
    id INTEGER PRIMARY KEY,
    number TEXT NOT NULL UNIQUE CHECK (number <> ''),
    batch INTEGER NOT NULL REFERENCES batch(id),
    issued INTEGER NOT NULL CHECK (issued BETWEEN -62167219200 AND 253402300799),
    digest TEXT NOT NULL CHECK (length(digest) = 64),
    supersedes TEXT NOT NULL,
    canonical TEXT NOT NULL
) STRICT;
CREATE INDEX certificate_of_batch ON certificate(batch, issued);

-- Struck through, never erased. `was` and `became` are JSON; no `was` = an entry withdrawn before was put back,
-- no `became` = the entry was withdrawn. `kind` counts as EntryKind does in core/records/entries.h. Written by the
-- rules of core/logbook/amendment_rules.cpp. `rank`: where copies differ the highest stands. It is the clock's, but
-- always above what this copy knew of the entry, for clocks may be wrong; no rank = made by a merge, which knows
-- nothing new.
CREATE TABLE amendment(
    id INTEGER PRIMARY KEY,
    key TEXT NOT NULL UNIQUE DEFAULT (lower(hex(randomblob(16)))) CHECK (length(key) = 32),
    kind INTEGER NOT NULL CHECK (kind BETWEEN 0 AND 8),
    entry TEXT NOT NULL,
    batch INTEGER,
    bin INTEGER,
    at INTEGER NOT NULL,
    was TEXT,
    became TEXT,
    amended INTEGER NOT NULL,
    who TEXT NOT NULL,
    why TEXT NOT NULL,
    rank INTEGER,
    CHECK (was IS NOT NULL OR became IS NOT NULL)
) STRICT;
CREATE INDEX amendment_of_entry ON amendment(entry);
CREATE INDEX amendment_of_batch ON amendment(batch) WHERE batch IS NOT NULL;
CREATE INDEX amendment_of_bin ON amendment(bin, at) WHERE kind = 0;

CREATE TRIGGER amendment_stays BEFORE UPDATE ON amendment BEGIN
    SELECT RAISE(ABORT, 'an amendment cannot be changed');
END;
CREATE TRIGGER amendment_is_kept BEFORE DELETE ON amendment BEGIN
    SELECT RAISE(ABORT, 'an amendment cannot be erased');
END;
CREATE TRIGGER certificate_stays BEFORE UPDATE ON certificate BEGIN
    SELECT RAISE(ABORT, 'an issued certificate cannot be changed');
END;
CREATE TRIGGER certificate_is_kept BEFORE DELETE ON certificate BEGIN
    SELECT RAISE(ABORT, 'an issued certificate cannot be erased');
END;
CREATE TRIGGER series_stays BEFORE UPDATE ON series BEGIN
    SELECT RAISE(ABORT, 'what readings share cannot be changed under them');
END;
