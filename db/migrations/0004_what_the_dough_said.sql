-- What went into the doughs, what came of them, what the plant baked to try its lots, and how its bread kept.
-- All of it is appended; a mistake is countered by a second row.

ALTER TABLE product ADD COLUMN preservative TEXT NOT NULL DEFAULT 'calcium_propionate'
    CHECK (preservative IN ('calcium_propionate', 'sodium_propionate', 'cultured_wheat'));
ALTER TABLE product ADD COLUMN cultured_acid_pct REAL NOT NULL DEFAULT 0 CHECK (cultured_acid_pct BETWEEN 0 AND 100);
ALTER TABLE product ADD COLUMN enzyme TEXT NOT NULL DEFAULT '';
ALTER TABLE product ADD COLUMN bread_erh_pct REAL CHECK (bread_erh_pct BETWEEN 0 AND 100);
ALTER TABLE product ADD COLUMN process TEXT NOT NULL DEFAULT 'straight'
    CHECK (process IN ('straight', 'sponge', 'no_time'));
ALTER TABLE product ADD COLUMN most_fermentation_minutes INTEGER NOT NULL DEFAULT 0
    CHECK (most_fermentation_minutes BETWEEN 0 AND 2880);
-- Maturity that an hour more of fermentation stands for; null: not calibrated.
ALTER TABLE product ADD COLUMN maturity_per_hour REAL CHECK (maturity_per_hour BETWEEN 0 AND 1);
ALTER TABLE line ADD COLUMN ice_c REAL NOT NULL DEFAULT 0 CHECK (ice_c BETWEEN -40 AND 0);

-- An oxidant dissolved for a day's doughs. A row stays when the solution was poured away.
CREATE TABLE stock_solution (
    id          INTEGER PRIMARY KEY,
    substance   TEXT NOT NULL CHECK (substance <> ''),
    g_per_l     REAL NOT NULL CHECK (g_per_l > 0 AND g_per_l <= 1000),
    made_at     TEXT NOT NULL CHECK (length(made_at) = 20),
    keeps_until TEXT NOT NULL CHECK (length(keeps_until) = 20),
    who         TEXT NOT NULL,
    has_ended   INTEGER NOT NULL CHECK (has_ended IN (0, 1)),
    CHECK (made_at < keeps_until)
) STRICT;

-- A batch as it was mixed. A row that counters another one has no flour and stands for nothing else.
CREATE TABLE batch (
    id                  INTEGER PRIMARY KEY,
    run_id              INTEGER NOT NULL REFERENCES run (id),
    number              INTEGER NOT NULL CHECK (number >= 1),
    at                  TEXT NOT NULL CHECK (length(at) = 20),
    who                 TEXT NOT NULL,
    checked_by          TEXT NOT NULL,
    water_kg            REAL NOT NULL CHECK (water_kg >= 0),
    ice_kg              REAL NOT NULL CHECK (ice_kg >= 0),
    water_c             REAL CHECK (water_c BETWEEN -5 AND 100),
    oxidant             TEXT CHECK (oxidant <> ''),
    dose_ppm            REAL NOT NULL CHECK (dose_ppm BETWEEN 0 AND 5000),
    poured_ml           REAL NOT NULL CHECK (poured_ml >= 0),
    solution_id         INTEGER REFERENCES stock_solution (id),
    farinograph_pct     REAL CHECK (farinograph_pct BETWEEN 20 AND 120),
    absorption_pct      REAL CHECK (absorption_pct BETWEEN 0 AND 200),
    flour_c             REAL CHECK (flour_c BETWEEN -40 AND 60),
    room_c              REAL CHECK (room_c BETWEEN -40 AND 60),
    note                TEXT NOT NULL,
    counters_id         INTEGER UNIQUE REFERENCES batch (id) CHECK (counters_id < id),
    CHECK (oxidant IS NOT NULL OR dose_ppm = 0)
) STRICT;
CREATE INDEX batch_by_run ON batch (run_id);

CREATE TABLE batch_flour (
    batch_id INTEGER NOT NULL REFERENCES batch (id),
    position INTEGER NOT NULL CHECK (position >= 0),
    lot_id   INTEGER NOT NULL REFERENCES lot (id),
    mass_g   INTEGER NOT NULL CHECK (mass_g > 0),
    PRIMARY KEY (batch_id, position)
) STRICT, WITHOUT ROWID;

-- The movements by which its flour left the stock.
CREATE TABLE batch_use (
    batch_id    INTEGER NOT NULL REFERENCES batch (id),
    movement_id INTEGER NOT NULL UNIQUE REFERENCES movement (id),
    PRIMARY KEY (batch_id, movement_id)
) STRICT, WITHOUT ROWID;

-- What came of a batch; the newest row of a batch holds.
CREATE TABLE batch_result (
    id                   INTEGER PRIMARY KEY,
    batch_id             INTEGER NOT NULL REFERENCES batch (id),
    dough_c              REAL CHECK (dough_c BETWEEN -5 AND 60),
    ph                   REAL CHECK (ph BETWEEN 2 AND 9),
    feel                 TEXT CHECK (feel IN ('stiff', 'right', 'slack')),
    mixing_minutes       REAL CHECK (mixing_minutes BETWEEN 0 AND 120),
    fermentation_minutes INTEGER CHECK (fermentation_minutes BETWEEN 0 AND 2880),
    note                 TEXT NOT NULL,
    at                   TEXT NOT NULL CHECK (length(at) = 20),
    who                  TEXT NOT NULL
) STRICT;
CREATE INDEX batch_result_by_batch ON batch_result (batch_id, id);

-- A loaf of a lot's bake ladder. A row that withdraws another one repeats it.
CREATE TABLE bake (
    id           INTEGER PRIMARY KEY,
    lot_id       INTEGER NOT NULL REFERENCES lot (id),
    substance    TEXT NOT NULL CHECK (substance <> ''),
    dose_ppm     REAL NOT NULL CHECK (dose_ppm BETWEEN 0 AND 1000),
    measure      TEXT NOT NULL CHECK (measure IN ('volume', 'height')),
    size         REAL NOT NULL CHECK (size > 0),
    baked_on     TEXT NOT NULL CHECK (length(baked_on) = 10),
    note         TEXT NOT NULL,
    at           TEXT NOT NULL CHECK (length(at) = 20),
    who          TEXT NOT NULL,
    withdraws_id INTEGER UNIQUE REFERENCES bake (id) CHECK (withdraws_id < id)
) STRICT;
CREATE INDEX bake_by_lot ON bake (lot_id);

-- What bread of a product did while it was kept. A row that withdraws another one repeats it.
CREATE TABLE keeping_record (
    id           INTEGER PRIMARY KEY,
    product_id   INTEGER NOT NULL REFERENCES product (id),
    run_id       INTEGER REFERENCES run (id),
    kind         TEXT NOT NULL CHECK (kind IN ('mould', 'firmness')),
    baked_on     TEXT NOT NULL CHECK (length(baked_on) = 10),
    days         INTEGER NOT NULL CHECK (days BETWEEN 0 AND 400),
    mould_seen   INTEGER NOT NULL CHECK (mould_seen IN (0, 1)),
    firmness_g   REAL NOT NULL CHECK (firmness_g >= 0),
    ph           REAL CHECK (ph BETWEEN 2 AND 9),
    note         TEXT NOT NULL,
    at           TEXT NOT NULL CHECK (length(at) = 20),
    who          TEXT NOT NULL,
    withdraws_id INTEGER UNIQUE REFERENCES keeping_record (id) CHECK (withdraws_id < id),
    CHECK ((kind = 'firmness') = (firmness_g > 0)),
    CHECK (kind = 'mould' OR mould_seen = 0)
) STRICT;
CREATE INDEX keeping_record_by_product ON keeping_record (product_id);

-- Only SQLite, as in the first form.
CREATE TRIGGER stock_solution_is_never_deleted BEFORE DELETE ON stock_solution
BEGIN SELECT RAISE(ABORT, 'a stock solution ends, it is never deleted'); END;
CREATE TRIGGER batch_is_never_edited BEFORE UPDATE ON batch
BEGIN SELECT RAISE(ABORT, 'a batch is countered, never edited'); END;
CREATE TRIGGER batch_is_never_deleted BEFORE DELETE ON batch
BEGIN SELECT RAISE(ABORT, 'a batch is countered, never deleted'); END;
CREATE TRIGGER batch_flour_is_never_edited BEFORE UPDATE ON batch_flour
BEGIN SELECT RAISE(ABORT, 'a batch is countered, never edited'); END;
CREATE TRIGGER batch_flour_is_never_deleted BEFORE DELETE ON batch_flour
BEGIN SELECT RAISE(ABORT, 'a batch is countered, never deleted'); END;
CREATE TRIGGER batch_use_is_never_edited BEFORE UPDATE ON batch_use
BEGIN SELECT RAISE(ABORT, 'a batch is countered, never edited'); END;
CREATE TRIGGER batch_use_is_never_deleted BEFORE DELETE ON batch_use
BEGIN SELECT RAISE(ABORT, 'a batch is countered, never deleted'); END;
CREATE TRIGGER batch_result_is_never_edited BEFORE UPDATE ON batch_result
BEGIN SELECT RAISE(ABORT, 'what came of a batch is followed by a new row, never edited'); END;
CREATE TRIGGER batch_result_is_never_deleted BEFORE DELETE ON batch_result
BEGIN SELECT RAISE(ABORT, 'what came of a batch is followed by a new row, never deleted'); END;
CREATE TRIGGER bake_is_never_edited BEFORE UPDATE ON bake
BEGIN SELECT RAISE(ABORT, 'a bake is withdrawn by a second row, never edited'); END;
CREATE TRIGGER bake_is_never_deleted BEFORE DELETE ON bake
BEGIN SELECT RAISE(ABORT, 'a bake is withdrawn by a second row, never deleted'); END;
CREATE TRIGGER keeping_record_is_never_edited BEFORE UPDATE ON keeping_record
BEGIN SELECT RAISE(ABORT, 'a record is withdrawn by a second row, never edited'); END;
CREATE TRIGGER keeping_record_is_never_deleted BEFORE DELETE ON keeping_record
BEGIN SELECT RAISE(ABORT, 'a record is withdrawn by a second row, never deleted'); END;
