-- What a plan counts on beside what lies there: a second flour of a formula, deliveries to come, and flour that is
-- spoken for.

-- A batch takes one lot alone.
ALTER TABLE product ADD COLUMN one_lot_a_batch INTEGER NOT NULL DEFAULT 0 CHECK (one_lot_a_batch IN (0, 1));
-- The part of the flour that is of another kind than the rest; both null: there is none.
ALTER TABLE product ADD COLUMN second_flour_id INTEGER REFERENCES flour (id) CHECK (second_flour_id <> flour_id);
ALTER TABLE product ADD COLUMN second_flour_share REAL
    CHECK (second_flour_share > 0 AND second_flour_share < 1)
    CHECK ((second_flour_share IS NULL) = (second_flour_id IS NULL));

-- What the lots of the second flour must keep to.
CREATE TABLE second_flour_window (
    product_id INTEGER NOT NULL REFERENCES product (id),
    position   INTEGER NOT NULL CHECK (position >= 0),
    property   TEXT NOT NULL CHECK (property <> ''),
    low        REAL,
    high       REAL,
    method     TEXT NOT NULL,
    PRIMARY KEY (product_id, position),
    CHECK (low IS NOT NULL OR high IS NOT NULL),
    CHECK (low <= high)
) STRICT, WITHOUT ROWID;

-- Flour that was ordered. A row stays when it came or was called off.
CREATE TABLE expected_delivery (
    id       INTEGER PRIMARY KEY,
    code     TEXT NOT NULL UNIQUE CHECK (code <> ''),
    mill_id  INTEGER NOT NULL REFERENCES mill (id),
    flour_id INTEGER NOT NULL REFERENCES flour (id),
    mass_g   INTEGER NOT NULL CHECK (mass_g BETWEEN 1 AND 1000000000),
    arrives  TEXT NOT NULL CHECK (length(arrives) = 10),
    milled   TEXT NOT NULL CHECK (length(milled) = 10),
    has_come INTEGER NOT NULL CHECK (has_come IN (0, 1)),
    CHECK (milled <= arrives)
) STRICT;

-- Flour of a delivery to come that the plan has for a run; beside the assignments, which are of lots.
CREATE TABLE promise (
    run_id      INTEGER NOT NULL REFERENCES run (id),
    delivery_id INTEGER NOT NULL REFERENCES expected_delivery (id),
    mass_g      INTEGER NOT NULL CHECK (mass_g > 0),
    reason      TEXT NOT NULL,
    PRIMARY KEY (run_id, delivery_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX promise_by_delivery ON promise (delivery_id);

-- Flour that is spoken for: the whole lot for a product, or so much of it kept back. A row stays when it ended.
CREATE TABLE reservation (
    id          INTEGER PRIMARY KEY,
    lot_id      INTEGER NOT NULL REFERENCES lot (id),
    product_id  INTEGER REFERENCES product (id),
    kept_back_g INTEGER NOT NULL CHECK (kept_back_g BETWEEN 0 AND 1000000000),
    reason      TEXT NOT NULL,
    has_ended   INTEGER NOT NULL CHECK (has_ended IN (0, 1)),
    CHECK ((product_id IS NULL) = (kept_back_g > 0))
) STRICT;
CREATE INDEX reservation_by_lot ON reservation (lot_id);

-- Only SQLite, as in the first form.
CREATE TRIGGER expected_delivery_is_never_deleted BEFORE DELETE ON expected_delivery
BEGIN SELECT RAISE(ABORT, 'a delivery that was ordered stays in the book'); END;
CREATE TRIGGER reservation_is_never_deleted BEFORE DELETE ON reservation
BEGIN SELECT RAISE(ABORT, 'a reservation ends, it is never deleted'); END;
