-- Releases with a concession, flour that went back to the mill, and how far two laboratories' results may lie apart by
-- what the plant has read.

-- What quality lets pass of a lot that it releases, who does, until when. Appended only: the newest row of a lot holds;
-- one in which nothing is conceded says that no concession holds from there on.
CREATE TABLE lot_concession (
    id        INTEGER PRIMARY KEY,
    lot_id    INTEGER NOT NULL REFERENCES lot (id),
    deviation TEXT NOT NULL, -- empty: nothing is conceded any more
    until     TEXT CHECK (length(until) = 10),
    by_whom   TEXT NOT NULL,
    at        TEXT NOT NULL CHECK (length(at) = 20),
    who       TEXT NOT NULL,
    CHECK ((deviation = '') = (until IS NULL)),
    CHECK ((deviation = '') = (by_whom = ''))
) STRICT;
CREATE INDEX lot_concession_by_lot ON lot_concession (lot_id, id);
-- The only products that it goes into; none: all.
CREATE TABLE lot_concession_product (
    concession_id INTEGER NOT NULL REFERENCES lot_concession (id),
    product_id    INTEGER NOT NULL REFERENCES product (id),
    PRIMARY KEY (concession_id, product_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX lot_concession_product_by_product ON lot_concession_product (product_id);

-- A movement of the kind 'waste' that is none: the flour went back to the mill, on what paper. It stands as long as the
-- movement is not countered. Appended only.
CREATE TABLE mill_return (
    id          INTEGER PRIMARY KEY,
    lot_id      INTEGER NOT NULL REFERENCES lot (id),
    movement_id INTEGER NOT NULL UNIQUE REFERENCES movement (id),
    reason      TEXT NOT NULL CHECK (reason <> ''),
    document    TEXT NOT NULL,
    at          TEXT NOT NULL CHECK (length(at) = 20),
    who         TEXT NOT NULL
) STRICT;
CREATE INDEX mill_return_by_lot ON mill_return (lot_id);

-- The plant's own limits, beside the published ones: of two results of one laboratory, and of two laboratories. In the
-- property's unit at 14 % moisture, or in % of the mean.
CREATE TABLE test_precision_row (
    id               INTEGER PRIMARY KEY,
    property         TEXT NOT NULL CHECK (property <> ''),
    methods          TEXT NOT NULL, -- names of one method, parted by '|'; empty: whatever the method
    repeatability    REAL CHECK (repeatability > 0),
    reproducibility  REAL NOT NULL CHECK (reproducibility > 0),
    is_relative      INTEGER NOT NULL CHECK (is_relative IN (0, 1)),
    low              REAL,
    high             REAL,
    mill_replicates  INTEGER NOT NULL CHECK (mill_replicates >= 1),
    own_replicates   INTEGER NOT NULL CHECK (own_replicates >= 1),
    source           TEXT NOT NULL CHECK (source <> ''),
    at               TEXT NOT NULL CHECK (length(at) = 20),
    who              TEXT NOT NULL,
    CHECK (repeatability IS NULL OR repeatability <= reproducibility),
    CHECK (low IS NULL OR high IS NULL OR low <= high)
) STRICT;

-- Only SQLite, as in the first form.
CREATE TRIGGER lot_concession_is_never_edited BEFORE UPDATE ON lot_concession
BEGIN SELECT RAISE(ABORT, 'a concession is followed by a new row, never edited'); END;
CREATE TRIGGER lot_concession_is_never_deleted BEFORE DELETE ON lot_concession
BEGIN SELECT RAISE(ABORT, 'a concession is followed by a new row, never deleted'); END;
CREATE TRIGGER lot_concession_product_is_never_edited BEFORE UPDATE ON lot_concession_product
BEGIN SELECT RAISE(ABORT, 'a concession is followed by a new row, never edited'); END;
CREATE TRIGGER lot_concession_product_is_never_deleted BEFORE DELETE ON lot_concession_product
BEGIN SELECT RAISE(ABORT, 'a concession is followed by a new row, never deleted'); END;
CREATE TRIGGER mill_return_is_of_flour_that_left BEFORE INSERT ON mill_return
WHEN NOT EXISTS (
    SELECT 1 FROM movement WHERE id = NEW.movement_id AND lot_id = NEW.lot_id AND kind = 'waste'
    AND from_place_id IS NOT NULL AND counters_id IS NULL)
BEGIN SELECT RAISE(ABORT, 'a return to the mill is of flour of the lot that left a place'); END;
CREATE TRIGGER mill_return_is_never_edited BEFORE UPDATE ON mill_return
BEGIN SELECT RAISE(ABORT, 'a return to the mill is countered by its movement, never edited'); END;
CREATE TRIGGER mill_return_is_never_deleted BEFORE DELETE ON mill_return
BEGIN SELECT RAISE(ABORT, 'a return to the mill is countered by its movement, never deleted'); END;
-- Flour of a lot under a concession goes into dough of the products conceded and until the day, whatever the one who
-- draws it knows. The day is the run's; without a run it is the instant's, a day later at most in any time zone.
CREATE TRIGGER use_keeps_to_the_concession BEFORE INSERT ON movement
WHEN NEW.kind = 'use' AND NEW.from_place_id IS NOT NULL AND EXISTS (
    SELECT 1 FROM lot_concession c WHERE c.id = (SELECT MAX(id) FROM lot_concession WHERE lot_id = NEW.lot_id)
    AND c.deviation <> ''
    AND (c.until < COALESCE((SELECT day FROM run WHERE id = NEW.run_id), date(substr(NEW.at, 1, 10), '-1 day'))
         OR c.until < date(substr(NEW.at, 1, 10), '-1 day')
         OR (EXISTS (SELECT 1 FROM lot_concession_product WHERE concession_id = c.id)
             AND NOT EXISTS (SELECT 1 FROM lot_concession_product p JOIN run r ON r.product_id = p.product_id
                             WHERE p.concession_id = c.id AND r.id = NEW.run_id))))
BEGIN SELECT RAISE(ABORT, 'flour goes into dough only as its concession says'); END;
