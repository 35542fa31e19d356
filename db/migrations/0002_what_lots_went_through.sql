-- What lots went through: the climate of their places as loggers measured it, the plant's own tests, and what it
-- learned from them.
-- What is measured is appended and taken back by a second row that names the first, never edited. A logger's instants
-- are whole seconds since 1970-01-01T00:00:00Z: a place has 8,760 hours a year, and they are read as numbers.

-- Of the air where no log says; null where nobody knows.
ALTER TABLE place ADD COLUMN humidity REAL CHECK (humidity BETWEEN 0 AND 1);

-- The certificate again, with the tests of aging among what a mill may report. Nothing refers to it.
CREATE TABLE lot_value_next (
    lot_id          INTEGER NOT NULL REFERENCES lot (id),
    property        TEXT NOT NULL,
    value           REAL NOT NULL,
    basis           TEXT NOT NULL, -- 'as is', 'dry matter', '14 % moisture'; empty where none is needed or stated
    method          TEXT NOT NULL,
    nitrogen_factor REAL NOT NULL CHECK (nitrogen_factor BETWEEN 5 AND 7),
    PRIMARY KEY (lot_id, property),
    CHECK (CASE property
        WHEN 'moisture'                THEN value BETWEEN 0 AND 30
        WHEN 'protein'                 THEN value BETWEEN 1 AND 40
        WHEN 'ash'                     THEN value BETWEEN 0.1 AND 5
        WHEN 'wet_gluten'              THEN value BETWEEN 1 AND 80
        WHEN 'gluten_index'            THEN value BETWEEN 0 AND 100
        WHEN 'falling_number'          THEN value BETWEEN 60 AND 1200
        WHEN 'absorption'              THEN value BETWEEN 40 AND 90
        WHEN 'development_time'        THEN value BETWEEN 0 AND 60
        WHEN 'stability'               THEN value BETWEEN 0 AND 90
        WHEN 'softening'               THEN value BETWEEN 0 AND 300
        WHEN 'starch_damage'           THEN value BETWEEN 0 AND 40
        WHEN 'sedimentation'           THEN value BETWEEN 0 AND 100
        WHEN 'extensograph_resistance' THEN value BETWEEN 1 AND 2000
        WHEN 'extensibility'           THEN value BETWEEN 1 AND 500
        WHEN 'extensograph_energy'     THEN value BETWEEN 1 AND 500
        WHEN 'alveograph_p'            THEN value BETWEEN 1 AND 300
        WHEN 'alveograph_l'            THEN value BETWEEN 1 AND 400
        WHEN 'alveograph_w'            THEN value BETWEEN 1 AND 1000
        WHEN 'glutathione'             THEN value BETWEEN 1 AND 1000
        WHEN 'free_sulfhydryl'         THEN value BETWEEN 0.01 AND 100
        WHEN 'fat_acidity'             THEN value BETWEEN 1 AND 500
        ELSE 1 = 0
    END)
) STRICT, WITHOUT ROWID;
INSERT INTO lot_value_next (lot_id, property, value, basis, method, nitrogen_factor)
    SELECT lot_id, property, value, basis, method, nitrogen_factor FROM lot_value;
DROP TABLE lot_value;
ALTER TABLE lot_value_next RENAME TO lot_value;

-- The plant's own tests of a lot. A row that withdraws another has no values. Appended only.
CREATE TABLE retest (
    id           INTEGER PRIMARY KEY,
    lot_id       INTEGER NOT NULL REFERENCES lot (id),
    taken_on     TEXT NOT NULL CHECK (length(taken_on) = 10),
    place_id     INTEGER REFERENCES place (id), -- where the sample was taken; null: the lot as a whole
    at           TEXT NOT NULL CHECK (length(at) = 20),
    who          TEXT NOT NULL,
    note         TEXT NOT NULL,
    withdraws_id INTEGER UNIQUE REFERENCES retest (id) CHECK (withdraws_id < id)
) STRICT;
CREATE INDEX retest_by_lot ON retest (lot_id, withdraws_id);

CREATE TABLE retest_value (
    retest_id       INTEGER NOT NULL REFERENCES retest (id),
    property        TEXT NOT NULL,
    value           REAL NOT NULL CHECK (value > 0),
    basis           TEXT NOT NULL,
    method          TEXT NOT NULL,
    nitrogen_factor REAL NOT NULL CHECK (nitrogen_factor BETWEEN 5 AND 7),
    PRIMARY KEY (retest_id, property),
    CHECK (CASE property
        WHEN 'moisture'                THEN value BETWEEN 0 AND 30
        WHEN 'protein'                 THEN value BETWEEN 1 AND 40
        WHEN 'ash'                     THEN value BETWEEN 0.1 AND 5
        WHEN 'wet_gluten'              THEN value BETWEEN 1 AND 80
        WHEN 'gluten_index'            THEN value BETWEEN 0 AND 100
        WHEN 'falling_number'          THEN value BETWEEN 60 AND 1200
        WHEN 'absorption'              THEN value BETWEEN 40 AND 90
        WHEN 'development_time'        THEN value BETWEEN 0 AND 60
        WHEN 'stability'               THEN value BETWEEN 0 AND 90
        WHEN 'softening'               THEN value BETWEEN 0 AND 300
        WHEN 'starch_damage'           THEN value BETWEEN 0 AND 40
        WHEN 'sedimentation'           THEN value BETWEEN 0 AND 100
        WHEN 'extensograph_resistance' THEN value BETWEEN 1 AND 2000
        WHEN 'extensibility'           THEN value BETWEEN 1 AND 500
        WHEN 'extensograph_energy'     THEN value BETWEEN 1 AND 500
        WHEN 'alveograph_p'            THEN value BETWEEN 1 AND 300
        WHEN 'alveograph_l'            THEN value BETWEEN 1 AND 400
        WHEN 'alveograph_w'            THEN value BETWEEN 1 AND 1000
        WHEN 'glutathione'             THEN value BETWEEN 1 AND 1000
        WHEN 'free_sulfhydryl'         THEN value BETWEEN 0.01 AND 100
        WHEN 'fat_acidity'             THEN value BETWEEN 1 AND 500
        ELSE 1 = 0
    END)
) STRICT, WITHOUT ROWID;

-- A logger's file, read for a place. A row that withdraws another has no readings. Appended only.
CREATE TABLE climate_log (
    id           INTEGER PRIMARY KEY,
    place_id     INTEGER NOT NULL REFERENCES place (id),
    file         TEXT NOT NULL,
    words        TEXT NOT NULL,
    at           TEXT NOT NULL CHECK (length(at) = 20),
    who          TEXT NOT NULL,
    withdraws_id INTEGER UNIQUE REFERENCES climate_log (id) CHECK (withdraws_id < id)
) STRICT;
CREATE INDEX climate_log_by_place ON climate_log (place_id, withdraws_id);

CREATE TABLE climate_reading (
    log_id        INTEGER NOT NULL REFERENCES climate_log (id),
    at            INTEGER NOT NULL,
    temperature_c REAL NOT NULL CHECK (temperature_c BETWEEN -40 AND 60),
    humidity      REAL CHECK (humidity BETWEEN 0 AND 1),
    PRIMARY KEY (log_id, at)
) STRICT, WITHOUT ROWID;

-- What the estimates go by; the newest row holds. Adopted from the plant's own lots, or restored: an earlier
-- adoption, or 0 for the published figures. Appended only.
CREATE TABLE learning (
    id          INTEGER PRIMARY KEY,
    at          TEXT NOT NULL CHECK (length(at) = 20),
    who         TEXT NOT NULL,
    words       TEXT NOT NULL,
    restores_id INTEGER CHECK (restores_id >= 0 AND restores_id < id)
) STRICT;

-- What one lot contributed to what was adopted.
CREATE TABLE learning_site (
    learning_id INTEGER NOT NULL REFERENCES learning (id),
    position    INTEGER NOT NULL CHECK (position >= 0),
    lot_id      INTEGER NOT NULL REFERENCES lot (id),
    document    TEXT NOT NULL CHECK (document <> ''), -- JSON
    PRIMARY KEY (learning_id, position)
) STRICT, WITHOUT ROWID;

-- Only SQLite, as in the first form.
CREATE TRIGGER retest_withdraws_a_retest_of_its_lot BEFORE INSERT ON retest
WHEN NEW.withdraws_id IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM retest WHERE id = NEW.withdraws_id AND withdraws_id IS NULL AND lot_id = NEW.lot_id)
BEGIN SELECT RAISE(ABORT, 'a withdrawal names a retest of the same lot'); END;
CREATE TRIGGER retest_withdrawal_has_no_values BEFORE INSERT ON retest_value
WHEN EXISTS (SELECT 1 FROM retest WHERE id = NEW.retest_id AND withdraws_id IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a withdrawal has no values'); END;
CREATE TRIGGER climate_log_withdraws_a_log_of_its_place BEFORE INSERT ON climate_log
WHEN NEW.withdraws_id IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM climate_log WHERE id = NEW.withdraws_id AND withdraws_id IS NULL AND place_id = NEW.place_id)
BEGIN SELECT RAISE(ABORT, 'a withdrawal names a log of the same place'); END;
CREATE TRIGGER climate_log_withdrawal_has_no_readings BEFORE INSERT ON climate_reading
WHEN EXISTS (SELECT 1 FROM climate_log WHERE id = NEW.log_id AND withdraws_id IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a withdrawal has no readings'); END;
CREATE TRIGGER retest_is_never_edited BEFORE UPDATE ON retest
BEGIN SELECT RAISE(ABORT, 'a retest is withdrawn by a second row, never edited'); END;
CREATE TRIGGER retest_is_never_deleted BEFORE DELETE ON retest
BEGIN SELECT RAISE(ABORT, 'a retest is withdrawn by a second row, never deleted'); END;
CREATE TRIGGER retest_value_is_never_edited BEFORE UPDATE ON retest_value
BEGIN SELECT RAISE(ABORT, 'a retest is withdrawn by a second row, never edited'); END;
CREATE TRIGGER retest_value_is_never_deleted BEFORE DELETE ON retest_value
BEGIN SELECT RAISE(ABORT, 'a retest is withdrawn by a second row, never deleted'); END;
CREATE TRIGGER climate_log_is_never_edited BEFORE UPDATE ON climate_log
BEGIN SELECT RAISE(ABORT, 'a climate log is withdrawn by a second row, never edited'); END;
CREATE TRIGGER climate_log_is_never_deleted BEFORE DELETE ON climate_log
BEGIN SELECT RAISE(ABORT, 'a climate log is withdrawn by a second row, never deleted'); END;
CREATE TRIGGER climate_reading_is_never_edited BEFORE UPDATE ON climate_reading
BEGIN SELECT RAISE(ABORT, 'a climate log is withdrawn by a second row, never edited'); END;
CREATE TRIGGER climate_reading_is_never_deleted BEFORE DELETE ON climate_reading
BEGIN SELECT RAISE(ABORT, 'a climate log is withdrawn by a second row, never deleted'); END;
CREATE TRIGGER learning_is_never_edited BEFORE UPDATE ON learning
BEGIN SELECT RAISE(ABORT, 'what was learned is followed by a new row, never edited'); END;
CREATE TRIGGER learning_is_never_deleted BEFORE DELETE ON learning
BEGIN SELECT RAISE(ABORT, 'what was learned is followed by a new row, never deleted'); END;
CREATE TRIGGER learning_site_is_never_edited BEFORE UPDATE ON learning_site
BEGIN SELECT RAISE(ABORT, 'what was learned is followed by a new row, never edited'); END;
CREATE TRIGGER learning_site_is_never_deleted BEFORE DELETE ON learning_site
BEGIN SELECT RAISE(ABORT, 'what was learned is followed by a new row, never deleted'); END;
