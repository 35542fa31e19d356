-- Deliveries as they came: what the note says, the lots and pallets that came with it, which order it answers; the order
-- numbers of flour to come; and deliveries that are half logged and wait for whoever goes on with them.

-- The number of the order, as the plant or the mill gave it.
CREATE TABLE expected_order (
    expected_id  INTEGER PRIMARY KEY REFERENCES expected_delivery (id),
    order_number TEXT NOT NULL CHECK (order_number <> '')
) STRICT;

CREATE TABLE delivery (
    id            INTEGER PRIMARY KEY,
    mill_id       INTEGER NOT NULL REFERENCES mill (id),
    delivery_note TEXT NOT NULL,
    order_number  TEXT NOT NULL,
    delivered_on  TEXT NOT NULL CHECK (length(delivered_on) = 10),
    expected_id   INTEGER REFERENCES expected_delivery (id),
    on_note_g     INTEGER CHECK (on_note_g > 0), -- null: the note says no weight
    weighed_g     INTEGER CHECK (weighed_g > 0), -- null: nobody weighed it
    weight_reason TEXT NOT NULL,                 -- why it was taken in although the weights differ
    remark        TEXT NOT NULL,
    at            TEXT NOT NULL CHECK (length(at) = 20),
    who           TEXT NOT NULL
) STRICT;
CREATE INDEX delivery_by_mill ON delivery (mill_id, delivered_on, id);
CREATE INDEX delivery_by_day ON delivery (delivered_on, id);
CREATE INDEX delivery_by_expected ON delivery (expected_id);

-- A lot came with one delivery. The row stays when the lot is withdrawn as taken in by mistake.
CREATE TABLE delivery_lot (
    lot_id       INTEGER PRIMARY KEY REFERENCES lot (id),
    delivery_id  INTEGER NOT NULL REFERENCES delivery (id),
    is_withdrawn INTEGER NOT NULL CHECK (is_withdrawn IN (0, 1))
) STRICT;
CREATE INDEX delivery_lot_by_delivery ON delivery_lot (delivery_id);

-- A pallet with its lot. One that is free again came by mistake, and may come once more.
CREATE TABLE delivery_pallet (
    id          INTEGER PRIMARY KEY,
    delivery_id INTEGER NOT NULL REFERENCES delivery (id),
    lot_id      INTEGER NOT NULL REFERENCES lot (id),
    sscc        TEXT NOT NULL CHECK (length(sscc) = 18),
    mass_g      INTEGER CHECK (mass_g > 0), -- null: its label says none
    is_free     INTEGER NOT NULL CHECK (is_free IN (0, 1))
) STRICT;
CREATE UNIQUE INDEX pallet_that_came ON delivery_pallet (sscc) WHERE is_free = 0;
CREATE INDEX delivery_pallet_by_delivery ON delivery_pallet (delivery_id);
CREATE INDEX delivery_pallet_by_lot ON delivery_pallet (lot_id);

-- A delivery half logged, with every text that was typed. It waits, or one window has it: the hold counts who had it, so
-- that nobody goes on with what another one took over. A row stays when it came in or was thrown away.
CREATE TABLE begun_delivery (
    id           INTEGER PRIMARY KEY,
    who          TEXT NOT NULL,
    station      TEXT NOT NULL,
    at           TEXT NOT NULL CHECK (length(at) = 20),
    how_far      TEXT NOT NULL CHECK (how_far <> ''),
    text_form    TEXT NOT NULL CHECK (text_form <> ''),
    state        TEXT NOT NULL CHECK (state IN ('waits', 'taken_over', 'came_in', 'thrown_away')),
    hold         INTEGER NOT NULL CHECK (hold >= 0),
    held_by      TEXT NOT NULL,
    held_station TEXT NOT NULL,
    held_since   TEXT CHECK (length(held_since) = 20),
    CHECK (state <> 'taken_over' OR held_since IS NOT NULL)
) STRICT;
CREATE INDEX begun_delivery_that_is_open ON begun_delivery (id) WHERE state IN ('waits', 'taken_over');
CREATE TABLE begun_delivery_text (
    begun_id INTEGER NOT NULL REFERENCES begun_delivery (id),
    path     TEXT NOT NULL CHECK (path <> ''),
    typed    TEXT NOT NULL,
    PRIMARY KEY (begun_id, path)
) STRICT, WITHOUT ROWID;

-- Only SQLite, as in the first form.
CREATE TRIGGER delivery_is_never_deleted BEFORE DELETE ON delivery
BEGIN SELECT RAISE(ABORT, 'a delivery that came stays in the book'); END;
CREATE TRIGGER delivery_lot_is_never_deleted BEFORE DELETE ON delivery_lot
BEGIN SELECT RAISE(ABORT, 'a lot came with its delivery, also where it was withdrawn'); END;
CREATE TRIGGER delivery_pallet_is_never_deleted BEFORE DELETE ON delivery_pallet
BEGIN SELECT RAISE(ABORT, 'a pallet is freed, never deleted'); END;
CREATE TRIGGER begun_delivery_is_never_deleted BEFORE DELETE ON begun_delivery
BEGIN SELECT RAISE(ABORT, 'a delivery that was begun comes in or is thrown away, its row stays'); END;
