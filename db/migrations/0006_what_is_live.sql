-- Which records a line of the journal wrote, by kind and number, and of which it tells: so that a station learns from
-- the journal alone what another one changed. And the ways by which the live part of the book is found without
-- reading what has been.

-- is_subject: the line tells of this record; 0: the same change wrote it too.
CREATE TABLE journal_record (
    line_id    INTEGER NOT NULL REFERENCES journal (id),
    kind       TEXT NOT NULL CHECK (kind <> ''),
    number     INTEGER NOT NULL CHECK (number > 0),
    is_subject INTEGER NOT NULL CHECK (is_subject IN (0, 1)),
    PRIMARY KEY (line_id, kind, number)
) STRICT, WITHOUT ROWID;

CREATE INDEX lot_by_state ON lot (state, state_at);
CREATE INDEX lot_by_state_at ON lot (state_at);
CREATE INDEX lot_by_origin ON lot (mill_id, flour_id, delivered_on, id);
CREATE INDEX lot_by_code ON lot (lower(code));
CREATE INDEX run_by_product ON run (product_id, day);
CREATE INDEX batch_flour_by_lot ON batch_flour (lot_id, batch_id);
CREATE INDEX reservation_that_holds ON reservation (id) WHERE has_ended = 0;
CREATE INDEX delivery_to_come ON expected_delivery (id) WHERE has_come = 0;

-- Of the lines before this form their words tell the record. Two mills may have used one lot number: then the line
-- stands with both lots, as it was shown with both.
INSERT INTO journal_record (line_id, kind, number, is_subject)
    SELECT j.id, 'lot', l.id, 1 FROM journal j JOIN lot l ON lower(l.code) = lower(substr(j.subject, 5))
    WHERE substr(j.subject, 1, 4) = 'lot ';
INSERT INTO journal_record (line_id, kind, number, is_subject)
    SELECT j.id, 'run', r.id, 1 FROM journal j JOIN run r ON r.code = substr(j.subject, 5)
    WHERE substr(j.subject, 1, 4) = 'run ';
INSERT INTO journal_record (line_id, kind, number, is_subject)
    SELECT j.id, 'place', p.id, 1 FROM journal j JOIN place p ON p.name = substr(j.subject, 7)
    WHERE substr(j.subject, 1, 6) = 'place ';
INSERT INTO journal_record (line_id, kind, number, is_subject)
    SELECT j.id, 'product', p.id, 1 FROM journal j JOIN product p ON p.name = substr(j.subject, 9)
    WHERE substr(j.subject, 1, 8) = 'product ';
INSERT INTO journal_record (line_id, kind, number, is_subject)
    SELECT j.id, 'delivery', e.id, 1 FROM journal j JOIN expected_delivery e ON e.code = substr(j.subject, 10)
    WHERE substr(j.subject, 1, 9) = 'delivery ';
CREATE INDEX journal_record_by_record ON journal_record (kind, number, line_id);
DROP INDEX journal_by_subject;

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

-- What a day of a place came to by its readings and what is assumed of it, so that old readings need not be read:
-- derived, made anew where a row is missing or of another form, deleted with what makes it untrue.
CREATE TABLE climate_day (
    place_id INTEGER NOT NULL REFERENCES place (id),
    day      TEXT NOT NULL CHECK (length(day) = 10),
    form     TEXT NOT NULL CHECK (form <> ''),
    numbers  TEXT NOT NULL,
    PRIMARY KEY (place_id, day)
) STRICT, WITHOUT ROWID;

-- Only SQLite, as in the first form.
CREATE TRIGGER journal_record_is_never_edited BEFORE UPDATE ON journal_record
BEGIN SELECT RAISE(ABORT, 'the journal is never edited'); END;
CREATE TRIGGER journal_record_is_never_deleted BEFORE DELETE ON journal_record
BEGIN SELECT RAISE(ABORT, 'the journal is never edited'); END;
CREATE TRIGGER use_is_of_a_released_lot BEFORE INSERT ON movement
WHEN NEW.kind = 'use' AND NEW.from_place_id IS NOT NULL AND EXISTS (
    SELECT 1 FROM lot WHERE id = NEW.lot_id AND state IN ('awaiting_judgement', 'held', 'rejected'))
BEGIN SELECT RAISE(ABORT, 'flour of a lot that is not released goes into no dough'); END;
CREATE TRIGGER expected_offset_is_never_edited BEFORE UPDATE ON expected_offset
BEGIN SELECT RAISE(ABORT, 'what was said of a product is followed by a new row, never edited'); END;
CREATE TRIGGER expected_offset_is_never_deleted BEFORE DELETE ON expected_offset
BEGIN SELECT RAISE(ABORT, 'what was said of a product is followed by a new row, never deleted'); END;
CREATE TRIGGER expected_ice_is_never_edited BEFORE UPDATE ON expected_ice
BEGIN SELECT RAISE(ABORT, 'what was said of a line is followed by a new row, never edited'); END;
CREATE TRIGGER expected_ice_is_never_deleted BEFORE DELETE ON expected_ice
BEGIN SELECT RAISE(ABORT, 'what was said of a line is followed by a new row, never deleted'); END;
