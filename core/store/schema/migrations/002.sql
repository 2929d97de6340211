-- SPDX-License-Identifier: GPL-3.0-or-later
-- Format 2: bins that are fed on top and emptied at the base, heights inside a bin, openings for air. What a kind counts
-- as is checked by the program (unknownKinds in core/store/schema/schema.cpp), so that a new kind rebuilds no table.
-- New columns come last: a row written before simply ends earlier.

ALTER TABLE batch ADD COLUMN fed INTEGER NOT NULL DEFAULT 0 CHECK (fed IN (0, 1));

-- Inside: from the floor to the rim, and to the upper edge of the opening at the base. Then the free area of the smaller
-- of two openings for air, how far the upper lies above the lower, and how often the bin's air is changed.
ALTER TABLE bin ADD COLUMN height_cm REAL CHECK (height_cm > 0 AND height_cm < 1e5);
ALTER TABLE bin ADD COLUMN hatch_top_cm REAL CHECK (hatch_top_cm >= 0 AND hatch_top_cm < 1e5);
ALTER TABLE bin ADD COLUMN vent_cm2 REAL CHECK (vent_cm2 >= 0 AND vent_cm2 < 1e7);
ALTER TABLE bin ADD COLUMN vent_rise_cm REAL CHECK (vent_rise_cm >= 0 AND vent_rise_cm < 1e5);
ALTER TABLE bin ADD COLUMN air_changes_h REAL CHECK (air_changes_h >= 0 AND air_changes_h < 1e6);

-- Above the floor.
ALTER TABLE place_setting ADD COLUMN height_cm REAL CHECK (height_cm >= 0 AND height_cm < 1e5);

CREATE TEMP TABLE kept AS SELECT * FROM main.aeration;
DROP TABLE main.aeration;
-- `depth_cm`: how deep it went from the surface; nothing = through all of it.
CREATE TABLE aeration(
    id TEXT PRIMARY KEY CHECK (length(id) = 32),
    batch INTEGER NOT NULL REFERENCES batch(id),
    at INTEGER NOT NULL CHECK (at BETWEEN -62167219200 AND 253402300799),
    utc_offset INTEGER NOT NULL CHECK (utc_offset BETWEEN -1080 AND 1080),
    kind INTEGER NOT NULL CHECK (kind >= 0),
    note TEXT NOT NULL,
    source INTEGER NOT NULL CHECK (source IN (0, 1, 2)),
    who TEXT NOT NULL,
    entered INTEGER,
    depth_cm REAL CHECK (depth_cm > 0 AND depth_cm < 1e5)
) STRICT, WITHOUT ROWID;
INSERT INTO aeration SELECT *, NULL FROM temp.kept ORDER BY id;
DROP TABLE temp.kept;
CREATE INDEX aeration_of_batch ON aeration(batch, at);

CREATE TEMP TABLE kept AS SELECT * FROM main.observation;
DROP TABLE main.observation;
CREATE TABLE observation(
    id TEXT PRIMARY KEY CHECK (length(id) = 32),
    batch INTEGER NOT NULL REFERENCES batch(id),
    at INTEGER NOT NULL CHECK (at BETWEEN -62167219200 AND 253402300799),
    utc_offset INTEGER NOT NULL CHECK (utc_offset BETWEEN -1080 AND 1080),
    kind INTEGER NOT NULL CHECK (kind >= 0),
    subject TEXT NOT NULL,
    value TEXT NOT NULL,
    note TEXT NOT NULL,
    source INTEGER NOT NULL CHECK (source IN (0, 1, 2)),
    who TEXT NOT NULL,
    entered INTEGER
) STRICT, WITHOUT ROWID;
INSERT INTO observation SELECT * FROM temp.kept ORDER BY id;
DROP TABLE temp.kept;
CREATE INDEX observation_of_batch ON observation(batch, at);

-- Taken out at the base.
CREATE TABLE harvest(
    id TEXT PRIMARY KEY CHECK (length(id) = 32),
    batch INTEGER NOT NULL REFERENCES batch(id),
    at INTEGER NOT NULL CHECK (at BETWEEN -62167219200 AND 253402300799),
    utc_offset INTEGER NOT NULL CHECK (utc_offset BETWEEN -1080 AND 1080),
    volume_litres REAL NOT NULL CHECK (volume_litres > 0 AND volume_litres < 1e9),
    mass_kg REAL CHECK (mass_kg > 0 AND mass_kg < 1e9),
    note TEXT NOT NULL,
    source INTEGER NOT NULL CHECK (source IN (0, 1, 2)),
    who TEXT NOT NULL,
    entered INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX harvest_of_batch ON harvest(batch, at);

-- As in format 1, but for what `kind` may be.
CREATE TEMP TABLE kept AS SELECT * FROM main.amendment;
DROP TABLE main.amendment;
CREATE TABLE amendment(
    id INTEGER PRIMARY KEY,
    key TEXT NOT NULL UNIQUE DEFAULT (lower(hex(randomblob(16)))) CHECK (length(key) = 32),
    kind INTEGER NOT NULL CHECK (kind >= 0),
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
INSERT INTO amendment SELECT * FROM temp.kept ORDER BY id;
DROP TABLE temp.kept;
CREATE INDEX amendment_of_entry ON amendment(entry);
CREATE INDEX amendment_of_batch ON amendment(batch) WHERE batch IS NOT NULL;
CREATE INDEX amendment_of_bin ON amendment(bin, at) WHERE kind = 0;
CREATE TRIGGER amendment_stays BEFORE UPDATE ON amendment BEGIN
    SELECT RAISE(ABORT, 'an amendment cannot be changed');
END;
CREATE TRIGGER amendment_is_kept BEFORE DELETE ON amendment BEGIN
    SELECT RAISE(ABORT, 'an amendment cannot be erased');
END;
