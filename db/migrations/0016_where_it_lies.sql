-- Where flour lies now, kept with every movement; from which place a run draws a lot; how much a silo takes; and what was
-- done to places.

-- The movements added up: whatever writes one keeps this with it (a trigger below), and the book is held against it.
CREATE TABLE lying (
    lot_id   INTEGER NOT NULL REFERENCES lot (id),
    place_id INTEGER NOT NULL REFERENCES place (id),
    mass_g   INTEGER NOT NULL CHECK (mass_g >= 0),
    PRIMARY KEY (lot_id, place_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX lying_by_place ON lying (place_id, lot_id);
INSERT INTO lying (lot_id, place_id, mass_g)
    SELECT lot_id, place_id, SUM(mass_g)
    FROM (SELECT lot_id, to_place_id AS place_id, mass_g FROM movement WHERE to_place_id IS NOT NULL
          UNION ALL
          SELECT lot_id, from_place_id, -mass_g FROM movement WHERE from_place_id IS NOT NULL)
    GROUP BY lot_id, place_id HAVING SUM(mass_g) <> 0;

-- Of what lay where at an instant.
CREATE INDEX movement_by_time ON movement (at, lot_id, from_place_id, to_place_id, mass_g);

-- Scanned or chosen at the bowl; the newest row of a run and a lot holds. Appended only.
CREATE TABLE draw_place (
    id       INTEGER PRIMARY KEY,
    run_id   INTEGER NOT NULL REFERENCES run (id),
    lot_id   INTEGER NOT NULL REFERENCES lot (id),
    place_id INTEGER NOT NULL REFERENCES place (id),
    at       TEXT NOT NULL CHECK (length(at) = 20),
    who      TEXT NOT NULL
) STRICT;
CREATE INDEX draw_place_by_run ON draw_place (run_id, lot_id, id);

-- How much a silo takes; the newest row of a place holds. Appended only.
CREATE TABLE silo_capacity (
    id         INTEGER PRIMARY KEY,
    place_id   INTEGER NOT NULL REFERENCES place (id),
    capacity_g INTEGER CHECK (capacity_g BETWEEN 1 AND 1000000000), -- null: not known
    at         TEXT NOT NULL CHECK (length(at) = 20),
    who        TEXT NOT NULL
) STRICT;
CREATE INDEX silo_capacity_by_place ON silo_capacity (place_id, id);

-- Appended only.
CREATE TABLE place_care (
    id       INTEGER PRIMARY KEY,
    place_id INTEGER NOT NULL REFERENCES place (id),
    kind     TEXT NOT NULL CHECK (kind IN ('emptied', 'cleaned', 'sanitised')),
    day      TEXT NOT NULL CHECK (length(day) = 10),
    by_whom  TEXT NOT NULL CHECK (by_whom <> ''), -- who did it
    note     TEXT NOT NULL,
    at       TEXT NOT NULL CHECK (length(at) = 20),
    who      TEXT NOT NULL                        -- who wrote it down
) STRICT;
CREATE INDEX place_care_by_place ON place_care (place_id, kind, id);

-- Only SQLite, as in the first form.
CREATE TRIGGER movement_changes_what_lies AFTER INSERT ON movement
BEGIN
    INSERT INTO lying (lot_id, place_id, mass_g)
        SELECT NEW.lot_id, NEW.to_place_id, NEW.mass_g WHERE NEW.to_place_id IS NOT NULL
        ON CONFLICT (lot_id, place_id) DO UPDATE SET mass_g = mass_g + excluded.mass_g;
    SELECT RAISE(ABORT, 'nothing of the lot lies in the place it leaves')
        WHERE NEW.from_place_id IS NOT NULL AND NOT EXISTS (
            SELECT 1 FROM lying WHERE lot_id = NEW.lot_id AND place_id = NEW.from_place_id);
    UPDATE lying SET mass_g = mass_g - NEW.mass_g WHERE lot_id = NEW.lot_id AND place_id = NEW.from_place_id;
    DELETE FROM lying WHERE lot_id = NEW.lot_id AND place_id = NEW.from_place_id AND mass_g = 0;
END;
CREATE TRIGGER draw_place_is_never_edited BEFORE UPDATE ON draw_place
BEGIN SELECT RAISE(ABORT, 'from where a run draws is followed by a new row, never edited'); END;
CREATE TRIGGER draw_place_is_never_deleted BEFORE DELETE ON draw_place
BEGIN SELECT RAISE(ABORT, 'from where a run draws is followed by a new row, never deleted'); END;
CREATE TRIGGER silo_capacity_is_of_a_silo BEFORE INSERT ON silo_capacity
WHEN NOT EXISTS (SELECT 1 FROM place WHERE id = NEW.place_id AND kind = 'silo')
BEGIN SELECT RAISE(ABORT, 'only a silo has a capacity'); END;
CREATE TRIGGER silo_capacity_is_never_edited BEFORE UPDATE ON silo_capacity
BEGIN SELECT RAISE(ABORT, 'how much a silo takes is followed by a new row, never edited'); END;
CREATE TRIGGER silo_capacity_is_never_deleted BEFORE DELETE ON silo_capacity
BEGIN SELECT RAISE(ABORT, 'how much a silo takes is followed by a new row, never deleted'); END;
CREATE TRIGGER place_care_is_never_edited BEFORE UPDATE ON place_care
BEGIN SELECT RAISE(ABORT, 'what was done to a place is never edited'); END;
CREATE TRIGGER place_care_is_never_deleted BEFORE DELETE ON place_care
BEGIN SELECT RAISE(ABORT, 'what was done to a place is never deleted'); END;
