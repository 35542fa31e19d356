-- Where the bread of a run went, what of a batch went into a later one, how silos mix, and the drills in which a trace was
-- timed.

-- Bread of a run that left. A row that counters another one repeats what it takes back. Appended only.
CREATE TABLE dispatch (
    id          INTEGER PRIMARY KEY,
    product_id  INTEGER NOT NULL REFERENCES product (id),
    run_id      INTEGER NOT NULL REFERENCES run (id),
    customer    TEXT NOT NULL CHECK (customer <> ''),
    pieces      INTEGER CHECK (pieces BETWEEN 1 AND 10000000),
    mass_g      INTEGER CHECK (mass_g BETWEEN 1 AND 1000000000), -- of bread; null: only pieces were counted
    day         TEXT NOT NULL CHECK (length(day) = 10),
    note        TEXT NOT NULL,
    reason      TEXT NOT NULL, -- why it stands although it is more than the run gives by the plant's yield
    at          TEXT NOT NULL CHECK (length(at) = 20),
    who         TEXT NOT NULL,
    counters_id INTEGER UNIQUE REFERENCES dispatch (id) CHECK (counters_id < id),
    CHECK (pieces IS NOT NULL OR mass_g IS NOT NULL)
) STRICT;
CREATE INDEX dispatch_by_run ON dispatch (run_id, id);
CREATE INDEX dispatch_by_customer ON dispatch (customer, day, id);
CREATE INDEX dispatch_by_day ON dispatch (day, id);

-- What of a batch was put back into a later one. Only earlier batches have smaller numbers, so nothing goes round.
-- Appended only.
CREATE TABLE rework (
    id            INTEGER PRIMARY KEY,
    from_batch_id INTEGER NOT NULL REFERENCES batch (id),
    into_batch_id INTEGER NOT NULL REFERENCES batch (id),
    kind          TEXT NOT NULL CHECK (kind IN ('dough', 'flour')),
    mass_g        INTEGER NOT NULL CHECK (mass_g BETWEEN 1 AND 10000000),
    note          TEXT NOT NULL,
    at            TEXT NOT NULL CHECK (length(at) = 20),
    who           TEXT NOT NULL,
    counters_id   INTEGER UNIQUE REFERENCES rework (id) CHECK (counters_id < id),
    CHECK (from_batch_id < into_batch_id)
) STRICT;
CREATE INDEX rework_by_source ON rework (from_batch_id);
CREATE INDEX rework_by_batch ON rework (into_batch_id);

-- How a silo gives its flour; the newest row of a place holds. Appended only.
CREATE TABLE silo_zone (
    id       INTEGER PRIMARY KEY,
    place_id INTEGER NOT NULL REFERENCES place (id),
    zone_g   INTEGER CHECK (zone_g BETWEEN 0 AND 1000000000), -- null: all of it is one mixture
    at       TEXT NOT NULL CHECK (length(at) = 20),
    who      TEXT NOT NULL
) STRICT;
CREATE INDEX silo_zone_by_place ON silo_zone (place_id, id);

-- A drill: somebody asked for a trace, by the clock. What it found stands in the row of its end. Appended only.
CREATE TABLE trace_drill (
    id   INTEGER PRIMARY KEY,
    asks TEXT NOT NULL CHECK (asks IN ('lot', 'product', 'run', 'customer')),
    of   TEXT NOT NULL CHECK (of <> ''), -- as typed
    day  TEXT CHECK (length(day) = 10),
    at   TEXT NOT NULL CHECK (length(at) = 20),
    who  TEXT NOT NULL
) STRICT;
CREATE TABLE trace_drill_end (
    drill_id      INTEGER PRIMARY KEY REFERENCES trace_drill (id),
    at            TEXT NOT NULL CHECK (length(at) = 20),
    who           TEXT NOT NULL,
    seconds       INTEGER NOT NULL CHECK (seconds >= 0), -- from its beginning
    milliseconds  INTEGER NOT NULL CHECK (milliseconds >= 0), -- that the program took to make the trace
    note          TEXT NOT NULL
) STRICT;
-- Its report as it was then: cells parted by tabs, the heads in line 0.
CREATE TABLE trace_drill_line (
    drill_id INTEGER NOT NULL REFERENCES trace_drill_end (drill_id),
    list     TEXT NOT NULL CHECK (list <> ''),
    line     INTEGER NOT NULL CHECK (line >= 0),
    cells    TEXT NOT NULL,
    PRIMARY KEY (drill_id, list, line)
) STRICT, WITHOUT ROWID;

-- What came to a place, so that the lots of a silo are found without what left it.
CREATE INDEX movement_into ON movement (to_place_id, lot_id) WHERE to_place_id IS NOT NULL;

-- Only SQLite, as in the first form.
CREATE TRIGGER dispatch_is_of_the_run_s_product BEFORE INSERT ON dispatch
WHEN NOT EXISTS (SELECT 1 FROM run WHERE id = NEW.run_id AND product_id = NEW.product_id)
BEGIN SELECT RAISE(ABORT, 'a dispatch is of the product of its run'); END;
CREATE TRIGGER dispatch_counters_one_of_its_run BEFORE INSERT ON dispatch
WHEN NEW.counters_id IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM dispatch WHERE id = NEW.counters_id AND counters_id IS NULL AND run_id = NEW.run_id)
BEGIN SELECT RAISE(ABORT, 'a counter-entry names a dispatch of the same run'); END;
CREATE TRIGGER dispatch_is_never_edited BEFORE UPDATE ON dispatch
BEGIN SELECT RAISE(ABORT, 'a dispatch is countered, never edited'); END;
CREATE TRIGGER dispatch_is_never_deleted BEFORE DELETE ON dispatch
BEGIN SELECT RAISE(ABORT, 'a dispatch is countered, never deleted'); END;
CREATE TRIGGER rework_counters_one_of_its_batches BEFORE INSERT ON rework
WHEN NEW.counters_id IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM rework WHERE id = NEW.counters_id AND counters_id IS NULL AND from_batch_id = NEW.from_batch_id
    AND into_batch_id = NEW.into_batch_id)
BEGIN SELECT RAISE(ABORT, 'a counter-entry names a rework of the same batches'); END;
CREATE TRIGGER rework_is_never_edited BEFORE UPDATE ON rework
BEGIN SELECT RAISE(ABORT, 'rework is countered, never edited'); END;
CREATE TRIGGER rework_is_never_deleted BEFORE DELETE ON rework
BEGIN SELECT RAISE(ABORT, 'rework is countered, never deleted'); END;
CREATE TRIGGER silo_zone_is_of_a_silo BEFORE INSERT ON silo_zone
WHEN NOT EXISTS (SELECT 1 FROM place WHERE id = NEW.place_id AND kind = 'silo')
BEGIN SELECT RAISE(ABORT, 'only a silo has a mixing zone'); END;
CREATE TRIGGER silo_zone_is_never_edited BEFORE UPDATE ON silo_zone
BEGIN SELECT RAISE(ABORT, 'how a silo mixes is followed by a new row, never edited'); END;
CREATE TRIGGER silo_zone_is_never_deleted BEFORE DELETE ON silo_zone
BEGIN SELECT RAISE(ABORT, 'how a silo mixes is followed by a new row, never deleted'); END;
CREATE TRIGGER trace_drill_is_never_edited BEFORE UPDATE ON trace_drill
BEGIN SELECT RAISE(ABORT, 'a drill stays as it was'); END;
CREATE TRIGGER trace_drill_is_never_deleted BEFORE DELETE ON trace_drill
BEGIN SELECT RAISE(ABORT, 'a drill stays as it was'); END;
CREATE TRIGGER trace_drill_end_is_never_edited BEFORE UPDATE ON trace_drill_end
BEGIN SELECT RAISE(ABORT, 'a drill stays as it was'); END;
CREATE TRIGGER trace_drill_end_is_never_deleted BEFORE DELETE ON trace_drill_end
BEGIN SELECT RAISE(ABORT, 'a drill stays as it was'); END;
CREATE TRIGGER trace_drill_line_is_never_edited BEFORE UPDATE ON trace_drill_line
BEGIN SELECT RAISE(ABORT, 'a drill stays as it was'); END;
CREATE TRIGGER trace_drill_line_is_never_deleted BEFORE DELETE ON trace_drill_line
BEGIN SELECT RAISE(ABORT, 'a drill stays as it was'); END;
