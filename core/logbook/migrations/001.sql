-- SPDX-License-Identifier: GPL-3.0-or-later
-- Format 1. Times are seconds since 1970-01-01T00:00:00Z, offsets are minutes ahead of UTC, "parts" are ninety-thousandths
-- of a degree Celsius. Nothing here may ever be edited once a book of this format is in somebody's hands: add 002.sql.

CREATE TABLE setting(
    name TEXT PRIMARY KEY CHECK (name <> ''),
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- Who holds the pen, while an edit is being made. The triggers below copy it into the amendments.
CREATE TABLE hand(
    one INTEGER PRIMARY KEY CHECK (one = 1),
    at INTEGER,
    who TEXT NOT NULL,
    why TEXT NOT NULL,
    key TEXT CHECK (length(key) = 32) -- of an amendment brought in from another copy, while it is carried out
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
    started INTEGER NOT NULL CHECK (started BETWEEN -62167219200 AND 253402300799),
    started_offset INTEGER NOT NULL CHECK (started_offset BETWEEN -1080 AND 1080),
    start_given INTEGER NOT NULL CHECK (start_given IN (0, 1)),
    finished INTEGER CHECK (finished BETWEEN -62167219200 AND 253402300799),
    finished_offset INTEGER CHECK (finished_offset BETWEEN -1080 AND 1080),
    note TEXT NOT NULL,
    CHECK (finished >= started),
    CHECK ((finished IS NULL) = (finished_offset IS NULL))
) STRICT;

-- From `since` on the batch stands in `bin`, until its next stay, its finish or another batch's stay there.
CREATE TABLE stay(
    batch INTEGER NOT NULL REFERENCES batch(id),
    since INTEGER NOT NULL CHECK (since BETWEEN -62167219200 AND 253402300799),
    bin INTEGER NOT NULL REFERENCES bin(id),
    PRIMARY KEY (batch, since)
) STRICT, WITHOUT ROWID;
CREATE UNIQUE INDEX stay_in_bin ON stay(bin, since);

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
    raw INTEGER NOT NULL CHECK (raw BETWEEN -600000 AND 1500000 OR (series % 2 = 1 AND raw BETWEEN -760000 AND
        3020000)),
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
-- no `became` = the entry was withdrawn. `kind` counts as EntryKind does in core/records/entries.h.
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

-- Each change of an entry writes its amendment. Only where the hand holds the key of one that is in the book already, as
-- when two copies are merged, is there nothing to add. No correction either: a batch finished, a batch moved on, and a start
-- that nobody gave coming earlier.
CREATE TRIGGER addition_corrected BEFORE UPDATE ON addition BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 1, OLD.id, OLD.batch, NULL, OLD.at,
        json_object('id', OLD.id, 'batch', OLD.batch, 'at', OLD.at, 'utc_offset', OLD.utc_offset, 'material',
            OLD.material, 'mass_kg', OLD.mass_kg, 'volume_litres', OLD.volume_litres, 'moisture_percent',
            OLD.moisture_percent, 'carbon_percent', OLD.carbon_percent, 'nitrogen_percent',
            OLD.nitrogen_percent, 'carbon_nitrogen', OLD.carbon_nitrogen, 'raw', OLD.raw, 'note', OLD.note,
            'source', OLD.source, 'who', OLD.who, 'entered', OLD.entered, 'batch_name', (SELECT name FROM
            batch WHERE id = OLD.batch)),
        json_object('id', NEW.id, 'batch', NEW.batch, 'at', NEW.at, 'utc_offset', NEW.utc_offset, 'material',
            NEW.material, 'mass_kg', NEW.mass_kg, 'volume_litres', NEW.volume_litres, 'moisture_percent',
            NEW.moisture_percent, 'carbon_percent', NEW.carbon_percent, 'nitrogen_percent',
            NEW.nitrogen_percent, 'carbon_nitrogen', NEW.carbon_nitrogen, 'raw', NEW.raw, 'note', NEW.note,
            'source', NEW.source, 'who', NEW.who, 'entered', NEW.entered, 'batch_name', (SELECT name FROM
            batch WHERE id = NEW.batch)),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER addition_withdrawn BEFORE DELETE ON addition BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 1, OLD.id, OLD.batch, NULL, OLD.at,
        json_object('id', OLD.id, 'batch', OLD.batch, 'at', OLD.at, 'utc_offset', OLD.utc_offset, 'material',
            OLD.material, 'mass_kg', OLD.mass_kg, 'volume_litres', OLD.volume_litres, 'moisture_percent',
            OLD.moisture_percent, 'carbon_percent', OLD.carbon_percent, 'nitrogen_percent',
            OLD.nitrogen_percent, 'carbon_nitrogen', OLD.carbon_nitrogen, 'raw', OLD.raw, 'note', OLD.note,
            'source', OLD.source, 'who', OLD.who, 'entered', OLD.entered, 'batch_name', (SELECT name FROM
            batch WHERE id = OLD.batch)),
        NULL,
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER addition_put_back AFTER INSERT ON addition
WHEN EXISTS (SELECT 1 FROM amendment WHERE entry = NEW.id) BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 1, NEW.id, NEW.batch, NULL, NEW.at,
        NULL,
        json_object('id', NEW.id, 'batch', NEW.batch, 'at', NEW.at, 'utc_offset', NEW.utc_offset, 'material',
            NEW.material, 'mass_kg', NEW.mass_kg, 'volume_litres', NEW.volume_litres, 'moisture_percent',
            NEW.moisture_percent, 'carbon_percent', NEW.carbon_percent, 'nitrogen_percent',
            NEW.nitrogen_percent, 'carbon_nitrogen', NEW.carbon_nitrogen, 'raw', NEW.raw, 'note', NEW.note,
            'source', NEW.source, 'who', NEW.who, 'entered', NEW.entered, 'batch_name', (SELECT name FROM
            batch WHERE id = NEW.batch)),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER aeration_corrected BEFORE UPDATE ON aeration BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 2, OLD.id, OLD.batch, NULL, OLD.at,
        json_object('id', OLD.id, 'batch', OLD.batch, 'at', OLD.at, 'utc_offset', OLD.utc_offset, 'kind',
            OLD.kind, 'note', OLD.note, 'source', OLD.source, 'who', OLD.who, 'entered', OLD.entered,
            'batch_name', (SELECT name FROM batch WHERE id = OLD.batch)),
        json_object('id', NEW.id, 'batch', NEW.batch, 'at', NEW.at, 'utc_offset', NEW.utc_offset, 'kind',
            NEW.kind, 'note', NEW.note, 'source', NEW.source, 'who', NEW.who, 'entered', NEW.entered,
            'batch_name', (SELECT name FROM batch WHERE id = NEW.batch)),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER aeration_withdrawn BEFORE DELETE ON aeration BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 2, OLD.id, OLD.batch, NULL, OLD.at,
        json_object('id', OLD.id, 'batch', OLD.batch, 'at', OLD.at, 'utc_offset', OLD.utc_offset, 'kind',
            OLD.kind, 'note', OLD.note, 'source', OLD.source, 'who', OLD.who, 'entered', OLD.entered,
            'batch_name', (SELECT name FROM batch WHERE id = OLD.batch)),
        NULL,
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER aeration_put_back AFTER INSERT ON aeration
WHEN EXISTS (SELECT 1 FROM amendment WHERE entry = NEW.id) BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 2, NEW.id, NEW.batch, NULL, NEW.at,
        NULL,
        json_object('id', NEW.id, 'batch', NEW.batch, 'at', NEW.at, 'utc_offset', NEW.utc_offset, 'kind',
            NEW.kind, 'note', NEW.note, 'source', NEW.source, 'who', NEW.who, 'entered', NEW.entered,
            'batch_name', (SELECT name FROM batch WHERE id = NEW.batch)),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER observation_corrected BEFORE UPDATE ON observation BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 3, OLD.id, OLD.batch, NULL, OLD.at,
        json_object('id', OLD.id, 'batch', OLD.batch, 'at', OLD.at, 'utc_offset', OLD.utc_offset, 'kind',
            OLD.kind, 'subject', OLD.subject, 'value', OLD.value, 'note', OLD.note, 'source', OLD.source,
            'who', OLD.who, 'entered', OLD.entered, 'batch_name', (SELECT name FROM batch WHERE id =
            OLD.batch)),
        json_object('id', NEW.id, 'batch', NEW.batch, 'at', NEW.at, 'utc_offset', NEW.utc_offset, 'kind',
            NEW.kind, 'subject', NEW.subject, 'value', NEW.value, 'note', NEW.note, 'source', NEW.source,
            'who', NEW.who, 'entered', NEW.entered, 'batch_name', (SELECT name FROM batch WHERE id =
            NEW.batch)),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER observation_withdrawn BEFORE DELETE ON observation BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 3, OLD.id, OLD.batch, NULL, OLD.at,
        json_object('id', OLD.id, 'batch', OLD.batch, 'at', OLD.at, 'utc_offset', OLD.utc_offset, 'kind',
            OLD.kind, 'subject', OLD.subject, 'value', OLD.value, 'note', OLD.note, 'source', OLD.source,
            'who', OLD.who, 'entered', OLD.entered, 'batch_name', (SELECT name FROM batch WHERE id =
            OLD.batch)),
        NULL,
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER observation_put_back AFTER INSERT ON observation
WHEN EXISTS (SELECT 1 FROM amendment WHERE entry = NEW.id) BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 3, NEW.id, NEW.batch, NULL, NEW.at,
        NULL,
        json_object('id', NEW.id, 'batch', NEW.batch, 'at', NEW.at, 'utc_offset', NEW.utc_offset, 'kind',
            NEW.kind, 'subject', NEW.subject, 'value', NEW.value, 'note', NEW.note, 'source', NEW.source,
            'who', NEW.who, 'entered', NEW.entered, 'batch_name', (SELECT name FROM batch WHERE id =
            NEW.batch)),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER thermometer_check_corrected BEFORE UPDATE ON thermometer_check BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 4, OLD.id, NULL, NULL, OLD.at,
        json_object('id', OLD.id, 'probe', OLD.probe, 'at', OLD.at, 'utc_offset', OLD.utc_offset, 'kind',
            OLD.kind, 'raw', OLD.raw, 'unit', OLD.unit, 'altitude_m', OLD.altitude_m, 'pressure_hpa',
            OLD.pressure_hpa, 'applies_from', OLD.applies_from, 'note', OLD.note, 'source', OLD.source, 'who',
            OLD.who, 'entered', OLD.entered, 'probe_name', (SELECT name FROM probe WHERE id = OLD.probe)),
        json_object('id', NEW.id, 'probe', NEW.probe, 'at', NEW.at, 'utc_offset', NEW.utc_offset, 'kind',
            NEW.kind, 'raw', NEW.raw, 'unit', NEW.unit, 'altitude_m', NEW.altitude_m, 'pressure_hpa',
            NEW.pressure_hpa, 'applies_from', NEW.applies_from, 'note', NEW.note, 'source', NEW.source, 'who',
            NEW.who, 'entered', NEW.entered, 'probe_name', (SELECT name FROM probe WHERE id = NEW.probe)),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER thermometer_check_withdrawn BEFORE DELETE ON thermometer_check BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 4, OLD.id, NULL, NULL, OLD.at,
        json_object('id', OLD.id, 'probe', OLD.probe, 'at', OLD.at, 'utc_offset', OLD.utc_offset, 'kind',
            OLD.kind, 'raw', OLD.raw, 'unit', OLD.unit, 'altitude_m', OLD.altitude_m, 'pressure_hpa',
            OLD.pressure_hpa, 'applies_from', OLD.applies_from, 'note', OLD.note, 'source', OLD.source, 'who',
            OLD.who, 'entered', OLD.entered, 'probe_name', (SELECT name FROM probe WHERE id = OLD.probe)),
        NULL,
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER thermometer_check_put_back AFTER INSERT ON thermometer_check
WHEN EXISTS (SELECT 1 FROM amendment WHERE entry = NEW.id) BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 4, NEW.id, NULL, NULL, NEW.at,
        NULL,
        json_object('id', NEW.id, 'probe', NEW.probe, 'at', NEW.at, 'utc_offset', NEW.utc_offset, 'kind',
            NEW.kind, 'raw', NEW.raw, 'unit', NEW.unit, 'altitude_m', NEW.altitude_m, 'pressure_hpa',
            NEW.pressure_hpa, 'applies_from', NEW.applies_from, 'note', NEW.note, 'source', NEW.source, 'who',
            NEW.who, 'entered', NEW.entered, 'probe_name', (SELECT name FROM probe WHERE id = NEW.probe)),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER batch_corrected BEFORE UPDATE ON batch
WHEN (OLD.key, OLD.name, OLD.start_given, OLD.note) IS NOT (NEW.key, NEW.name, NEW.start_given, NEW.note)
    OR (OLD.started <> NEW.started AND NOT (OLD.start_given = 0 AND NEW.started < OLD.started))
    OR (OLD.finished IS NOT NULL AND OLD.finished IS NOT NEW.finished) BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 5, OLD.key, OLD.id, NULL, OLD.started,
        json_object('id', OLD.id, 'key', OLD.key, 'name', OLD.name, 'started', OLD.started, 'started_offset',
            OLD.started_offset, 'start_given', OLD.start_given, 'finished', OLD.finished, 'finished_offset',
            OLD.finished_offset, 'note', OLD.note),
        json_object('id', NEW.id, 'key', NEW.key, 'name', NEW.name, 'started', NEW.started, 'started_offset',
            NEW.started_offset, 'start_given', NEW.start_given, 'finished', NEW.finished, 'finished_offset',
            NEW.finished_offset, 'note', NEW.note),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER batch_withdrawn BEFORE DELETE ON batch BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 5, OLD.key, OLD.id, NULL, OLD.started,
        json_object('id', OLD.id, 'key', OLD.key, 'name', OLD.name, 'started', OLD.started, 'started_offset',
            OLD.started_offset, 'start_given', OLD.start_given, 'finished', OLD.finished, 'finished_offset',
            OLD.finished_offset, 'note', OLD.note),
        NULL,
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER batch_put_back AFTER INSERT ON batch
WHEN EXISTS (SELECT 1 FROM amendment WHERE entry = NEW.key) BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 5, NEW.key, NEW.id, NULL, NEW.started,
        NULL,
        json_object('id', NEW.id, 'key', NEW.key, 'name', NEW.name, 'started', NEW.started, 'started_offset',
            NEW.started_offset, 'start_given', NEW.start_given, 'finished', NEW.finished, 'finished_offset',
            NEW.finished_offset, 'note', NEW.note),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER stay_corrected BEFORE UPDATE ON stay
WHEN NOT (OLD.batch = NEW.batch AND OLD.bin = NEW.bin AND NEW.since < OLD.since
    AND EXISTS (SELECT 1 FROM batch WHERE id = OLD.batch AND start_given = 0 AND started = NEW.since)) BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 5, (SELECT key FROM batch WHERE id =
        OLD.batch), OLD.batch, NULL, OLD.since,
        json_object('batch', OLD.batch, 'since', OLD.since, 'bin', OLD.bin, 'bin_name', (SELECT name FROM bin
            WHERE id = OLD.bin)),
        json_object('batch', NEW.batch, 'since', NEW.since, 'bin', NEW.bin, 'bin_name', (SELECT name FROM bin
            WHERE id = NEW.bin)),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER stay_withdrawn BEFORE DELETE ON stay BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 5, (SELECT key FROM batch WHERE id =
        OLD.batch), OLD.batch, NULL, OLD.since,
        json_object('batch', OLD.batch, 'since', OLD.since, 'bin', OLD.bin, 'bin_name', (SELECT name FROM bin
            WHERE id = OLD.bin)),
        NULL,
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER bin_corrected BEFORE UPDATE ON bin BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 6, OLD.key, NULL, NULL, ifnull((SELECT at
        FROM hand), unixepoch()),
        json_object('id', OLD.id, 'key', OLD.key, 'name', OLD.name, 'volume_litres', OLD.volume_litres,
            'insulation_mm', OLD.insulation_mm, 'conductivity', OLD.conductivity, 'note', OLD.note, 'retired',
            OLD.retired),
        json_object('id', NEW.id, 'key', NEW.key, 'name', NEW.name, 'volume_litres', NEW.volume_litres,
            'insulation_mm', NEW.insulation_mm, 'conductivity', NEW.conductivity, 'note', NEW.note, 'retired',
            NEW.retired),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER bin_withdrawn BEFORE DELETE ON bin BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 6, OLD.key, NULL, NULL, ifnull((SELECT at
        FROM hand), unixepoch()),
        json_object('id', OLD.id, 'key', OLD.key, 'name', OLD.name, 'volume_litres', OLD.volume_litres,
            'insulation_mm', OLD.insulation_mm, 'conductivity', OLD.conductivity, 'note', OLD.note, 'retired',
            OLD.retired),
        NULL,
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER bin_put_back AFTER INSERT ON bin
WHEN EXISTS (SELECT 1 FROM amendment WHERE entry = NEW.key) BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 6, NEW.key, NULL, NULL, ifnull((SELECT at
        FROM hand), unixepoch()),
        NULL,
        json_object('id', NEW.id, 'key', NEW.key, 'name', NEW.name, 'volume_litres', NEW.volume_litres,
            'insulation_mm', NEW.insulation_mm, 'conductivity', NEW.conductivity, 'note', NEW.note, 'retired',
            NEW.retired),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER probe_corrected BEFORE UPDATE ON probe BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 7, OLD.key, NULL, NULL, ifnull((SELECT at
        FROM hand), unixepoch()),
        json_object('id', OLD.id, 'key', OLD.key, 'name', OLD.name, 'accuracy_parts', OLD.accuracy_parts,
            'note', OLD.note),
        json_object('id', NEW.id, 'key', NEW.key, 'name', NEW.name, 'accuracy_parts', NEW.accuracy_parts,
            'note', NEW.note),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER probe_withdrawn BEFORE DELETE ON probe BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 7, OLD.key, NULL, NULL, ifnull((SELECT at
        FROM hand), unixepoch()),
        json_object('id', OLD.id, 'key', OLD.key, 'name', OLD.name, 'accuracy_parts', OLD.accuracy_parts,
            'note', OLD.note),
        NULL,
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER probe_put_back AFTER INSERT ON probe
WHEN EXISTS (SELECT 1 FROM amendment WHERE entry = NEW.key) BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 7, NEW.key, NULL, NULL, ifnull((SELECT at
        FROM hand), unixepoch()),
        NULL,
        json_object('id', NEW.id, 'key', NEW.key, 'name', NEW.name, 'accuracy_parts', NEW.accuracy_parts,
            'note', NEW.note),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER place_setting_corrected BEFORE UPDATE ON place_setting BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 8, (SELECT key FROM bin WHERE id =
        OLD.bin) || '/' || OLD.position, NULL, NULL, ifnull((SELECT at FROM hand), unixepoch()),
        json_object('bin', OLD.bin, 'position', OLD.position, 'spot_check', OLD.spot_check, 'bin_name',
            (SELECT name FROM bin WHERE id = OLD.bin)),
        json_object('bin', NEW.bin, 'position', NEW.position, 'spot_check', NEW.spot_check, 'bin_name',
            (SELECT name FROM bin WHERE id = NEW.bin)),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER place_setting_withdrawn BEFORE DELETE ON place_setting BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 8, (SELECT key FROM bin WHERE id =
        OLD.bin) || '/' || OLD.position, NULL, NULL, ifnull((SELECT at FROM hand), unixepoch()),
        json_object('bin', OLD.bin, 'position', OLD.position, 'spot_check', OLD.spot_check, 'bin_name',
            (SELECT name FROM bin WHERE id = OLD.bin)),
        NULL,
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER place_setting_put_back AFTER INSERT ON place_setting
WHEN EXISTS (SELECT 1 FROM amendment WHERE entry = (SELECT key FROM bin WHERE id = NEW.bin) || '/' || NEW.position)
    BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 8, (SELECT key FROM bin WHERE id =
        NEW.bin) || '/' || NEW.position, NULL, NULL, ifnull((SELECT at FROM hand), unixepoch()),
        NULL,
        json_object('bin', NEW.bin, 'position', NEW.position, 'spot_check', NEW.spot_check, 'bin_name',
            (SELECT name FROM bin WHERE id = NEW.bin)),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER reading_corrected BEFORE UPDATE ON reading BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 0, (SELECT ifnull(b.key, '') || '/' ||
        s.position || '/' || OLD.at FROM series s LEFT JOIN bin b ON b.id = s.bin WHERE s.id = OLD.series), NULL,
        (SELECT bin FROM series WHERE id = OLD.series), OLD.at,
        (SELECT json_object('bin', s.bin, 'bin_name', b.name, 'position', s.position, 'at', OLD.at,
            'utc_offset', s.utc_offset,
            'raw', OLD.raw, 'unit', s.unit, 'probe', s.probe, 'probe_name', p.name, 'source', s.source, 'who', s.who,
            'note', (SELECT note FROM reading_more WHERE series = OLD.series AND at = OLD.at), 'entered',
                (SELECT entered FROM reading_more WHERE series = OLD.series AND at = OLD.at))
        FROM series s LEFT JOIN bin b ON b.id = s.bin LEFT JOIN probe p ON p.id = s.probe WHERE s.id = OLD.series),
        (SELECT json_object('bin', s.bin, 'bin_name', b.name, 'position', s.position, 'at', NEW.at,
            'utc_offset', s.utc_offset,
            'raw', NEW.raw, 'unit', s.unit, 'probe', s.probe, 'probe_name', p.name, 'source', s.source, 'who', s.who,
            'note', (SELECT note FROM reading_more WHERE series = OLD.series AND at = OLD.at), 'entered',
                (SELECT entered FROM reading_more WHERE series = OLD.series AND at = OLD.at))
        FROM series s LEFT JOIN bin b ON b.id = s.bin LEFT JOIN probe p ON p.id = s.probe WHERE s.id = NEW.series),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER reading_withdrawn BEFORE DELETE ON reading BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 0, (SELECT ifnull(b.key, '') || '/' ||
        s.position || '/' || OLD.at FROM series s LEFT JOIN bin b ON b.id = s.bin WHERE s.id = OLD.series), NULL,
        (SELECT bin FROM series WHERE id = OLD.series), OLD.at,
        (SELECT json_object('bin', s.bin, 'bin_name', b.name, 'position', s.position, 'at', OLD.at,
            'utc_offset', s.utc_offset,
            'raw', OLD.raw, 'unit', s.unit, 'probe', s.probe, 'probe_name', p.name, 'source', s.source, 'who', s.who,
            'note', (SELECT note FROM reading_more WHERE series = OLD.series AND at = OLD.at), 'entered',
                (SELECT entered FROM reading_more WHERE series = OLD.series AND at = OLD.at))
        FROM series s LEFT JOIN bin b ON b.id = s.bin LEFT JOIN probe p ON p.id = s.probe WHERE s.id = OLD.series),
        NULL,
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER reading_note_corrected BEFORE UPDATE OF note, entered ON reading_more
WHEN OLD.note <> '' OR OLD.entered IS NOT NEW.entered BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 0, (SELECT ifnull(b.key, '') || '/' ||
        s.position || '/' || OLD.at FROM series s LEFT JOIN bin b ON b.id = s.bin WHERE s.id = OLD.series), NULL,
        (SELECT bin FROM series WHERE id = OLD.series), OLD.at,
        (SELECT json_object('bin', s.bin, 'bin_name', b.name, 'position', s.position, 'at', OLD.at,
            'utc_offset', s.utc_offset,
            'raw', (SELECT raw FROM reading WHERE series = OLD.series AND at = OLD.at), 'unit', s.unit,
                'probe', s.probe, 'probe_name', p.name, 'source', s.source, 'who', s.who,
            'note', OLD.note, 'entered', (SELECT entered FROM reading_more WHERE series = OLD.series AND at = OLD.at))
        FROM series s LEFT JOIN bin b ON b.id = s.bin LEFT JOIN probe p ON p.id = s.probe WHERE s.id = OLD.series),
        (SELECT json_object('bin', s.bin, 'bin_name', b.name, 'position', s.position, 'at', OLD.at,
            'utc_offset', s.utc_offset,
            'raw', (SELECT raw FROM reading WHERE series = OLD.series AND at = OLD.at), 'unit', s.unit,
                'probe', s.probe, 'probe_name', p.name, 'source', s.source, 'who', s.who,
            'note', NEW.note, 'entered', (SELECT entered FROM reading_more WHERE series = OLD.series AND at = OLD.at))
        FROM series s LEFT JOIN bin b ON b.id = s.bin LEFT JOIN probe p ON p.id = s.probe WHERE s.id = OLD.series),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
CREATE TRIGGER reading_note_withdrawn BEFORE DELETE ON reading_more
WHEN EXISTS (SELECT 1 FROM reading WHERE series = OLD.series AND at = OLD.at) BEGIN
    INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why)
    VALUES (ifnull((SELECT key FROM hand), lower(hex(randomblob(16)))), 0, (SELECT ifnull(b.key, '') || '/' ||
        s.position || '/' || OLD.at FROM series s LEFT JOIN bin b ON b.id = s.bin WHERE s.id = OLD.series), NULL,
        (SELECT bin FROM series WHERE id = OLD.series), OLD.at,
        (SELECT json_object('bin', s.bin, 'bin_name', b.name, 'position', s.position, 'at', OLD.at,
            'utc_offset', s.utc_offset,
            'raw', (SELECT raw FROM reading WHERE series = OLD.series AND at = OLD.at), 'unit', s.unit,
                'probe', s.probe, 'probe_name', p.name, 'source', s.source, 'who', s.who,
            'note', OLD.note, 'entered', (SELECT entered FROM reading_more WHERE series = OLD.series AND at = OLD.at))
        FROM series s LEFT JOIN bin b ON b.id = s.bin LEFT JOIN probe p ON p.id = s.probe WHERE s.id = OLD.series),
        (SELECT json_object('bin', s.bin, 'bin_name', b.name, 'position', s.position, 'at', OLD.at,
            'utc_offset', s.utc_offset,
            'raw', (SELECT raw FROM reading WHERE series = OLD.series AND at = OLD.at), 'unit', s.unit,
                'probe', s.probe, 'probe_name', p.name, 'source', s.source, 'who', s.who,
            'note', NULL, 'entered', (SELECT entered FROM reading_more WHERE series = OLD.series AND at = OLD.at))
        FROM series s LEFT JOIN bin b ON b.id = s.bin LEFT JOIN probe p ON p.id = s.probe WHERE s.id = OLD.series),
        ifnull((SELECT at FROM hand), unixepoch()), ifnull((SELECT who FROM hand), ''), ifnull((SELECT why
            FROM hand), ''))
    ON CONFLICT(key) DO NOTHING;
END;
