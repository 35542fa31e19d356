-- What doughs taught, kept so that a start takes in only what came after. It is derived: whatever is missing or gone is
-- made anew from the batches, so these rows are changed and deleted, and no journal line tells of them.

-- What water and mixing were believed to be after a batch, all before it taken in. The form names the models.
CREATE TABLE belief_mark (
    model_form    TEXT NOT NULL CHECK (model_form <> ''),
    last_batch_id INTEGER NOT NULL CHECK (last_batch_id >= 1),
    state         TEXT NOT NULL CHECK (state <> ''),
    PRIMARY KEY (model_form, last_batch_id)
) STRICT;
CREATE INDEX belief_mark_by_batch ON belief_mark (last_batch_id);

-- What was known of a lot by itself when it was let go, all batches up to that one taken in; points, and points squared.
CREATE TABLE belief_lot (
    model_form     TEXT NOT NULL CHECK (model_form <> ''),
    lot_id         INTEGER NOT NULL REFERENCES lot (id),
    after_batch_id INTEGER NOT NULL CHECK (after_batch_id >= 1),
    mean           REAL NOT NULL,
    variance       REAL NOT NULL CHECK (variance >= 0),
    PRIMARY KEY (model_form, lot_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX belief_lot_by_batch ON belief_lot (after_batch_id);

-- What the plant said of a product's dough: it holds for the batches after that one (0: for all), until a newer row.
CREATE TABLE expected_offset (
    id               INTEGER PRIMARY KEY,
    product_id       INTEGER NOT NULL REFERENCES product (id),
    after_batch_id   INTEGER NOT NULL CHECK (after_batch_id >= 0),
    offset_points    REAL NOT NULL,
    is_assumed       INTEGER NOT NULL CHECK (is_assumed IN (0, 1)),
    beside_flour_pct REAL NOT NULL CHECK (beside_flour_pct >= 0) -- ingredients beside flour and water, of the flour
) STRICT;
CREATE INDEX expected_offset_by_product ON expected_offset (product_id, id);
INSERT INTO expected_offset (id, product_id, after_batch_id, offset_points, is_assumed, beside_flour_pct)
    SELECT p.id, p.id, 0, p.water_offset_points, p.is_offset_assumed,
           COALESCE((SELECT SUM(i.pct_flour) FROM product_ingredient i WHERE i.product_id = p.id), 0.0)
    FROM product p;

-- The same of a line's ice.
CREATE TABLE expected_ice (
    id             INTEGER PRIMARY KEY,
    line_id        INTEGER NOT NULL REFERENCES line (id),
    after_batch_id INTEGER NOT NULL CHECK (after_batch_id >= 0),
    ice_c          REAL NOT NULL
) STRICT;
CREATE INDEX expected_ice_by_line ON expected_ice (line_id, id);
INSERT INTO expected_ice (id, line_id, after_batch_id, ice_c) SELECT id, id, 0, ice_c FROM line;

CREATE INDEX batch_flour_by_lot ON batch_flour (lot_id, batch_id);

-- Only SQLite, as in the first form. What the plant said is no belief.
CREATE TRIGGER expected_offset_is_never_edited BEFORE UPDATE ON expected_offset
BEGIN SELECT RAISE(ABORT, 'what was said of a product is followed by a new row, never edited'); END;
CREATE TRIGGER expected_offset_is_never_deleted BEFORE DELETE ON expected_offset
BEGIN SELECT RAISE(ABORT, 'what was said of a product is followed by a new row, never deleted'); END;
CREATE TRIGGER expected_ice_is_never_edited BEFORE UPDATE ON expected_ice
BEGIN SELECT RAISE(ABORT, 'what was said of a line is followed by a new row, never edited'); END;
CREATE TRIGGER expected_ice_is_never_deleted BEFORE DELETE ON expected_ice
BEGIN SELECT RAISE(ABORT, 'what was said of a line is followed by a new row, never deleted'); END;
