-- What a laboratory may report stands once, in the program's own list of properties. The program keeps that list in a
-- table here, brought up to date whenever it opens the book, and the results are checked against it: a property more
-- or a wider range needs no further form of the book. A form that takes a property away deletes its row, as the
-- program refuses a book that knows a property more than itself.

CREATE TABLE property (
    property_key TEXT PRIMARY KEY CHECK (property_key <> ''),
    low          REAL NOT NULL,
    high         REAL NOT NULL,
    has_basis    INTEGER NOT NULL CHECK (has_basis IN (0, 1)), -- means nothing without a moisture basis
    CHECK (low <= high)
) STRICT, WITHOUT ROWID;

-- Both tables of results again, without the ranges. Nothing refers to them. What they hold is taken over as it is,
-- as history is, even a result that would no longer be taken.
CREATE TABLE lot_value_next (
    lot_id          INTEGER NOT NULL REFERENCES lot (id),
    property        TEXT NOT NULL,
    value           REAL NOT NULL,
    basis           TEXT NOT NULL, -- 'as is', 'dry matter', '14 % moisture'; empty where none is needed
    method          TEXT NOT NULL,
    nitrogen_factor REAL NOT NULL CHECK (nitrogen_factor BETWEEN 5 AND 7),
    PRIMARY KEY (lot_id, property)
) STRICT, WITHOUT ROWID;
INSERT INTO lot_value_next (lot_id, property, value, basis, method, nitrogen_factor)
    SELECT lot_id, property, value, basis, method, nitrogen_factor FROM lot_value;
DROP TABLE lot_value;
ALTER TABLE lot_value_next RENAME TO lot_value;

CREATE TABLE retest_value_next (
    retest_id       INTEGER NOT NULL REFERENCES retest (id),
    property        TEXT NOT NULL,
    value           REAL NOT NULL CHECK (value > 0),
    basis           TEXT NOT NULL,
    method          TEXT NOT NULL,
    nitrogen_factor REAL NOT NULL CHECK (nitrogen_factor BETWEEN 5 AND 7),
    PRIMARY KEY (retest_id, property)
) STRICT, WITHOUT ROWID;
INSERT INTO retest_value_next (retest_id, property, value, basis, method, nitrogen_factor)
    SELECT retest_id, property, value, basis, method, nitrogen_factor FROM retest_value;
DROP TABLE retest_value;
ALTER TABLE retest_value_next RENAME TO retest_value;

-- Only SQLite, as in the first form. The last three went with the table they were of.
CREATE TRIGGER lot_value_is_one_a_flour_can_have BEFORE INSERT ON lot_value
WHEN NOT EXISTS (
    SELECT 1 FROM property WHERE property_key = NEW.property AND NEW.value BETWEEN low AND high
    AND (NEW.basis <> '') = (has_basis = 1))
BEGIN SELECT RAISE(ABORT, 'a result is of a known property, within its range, with a basis just where it needs one'); END;
CREATE TRIGGER lot_value_stays_one_a_flour_can_have BEFORE UPDATE ON lot_value
WHEN NOT EXISTS (
    SELECT 1 FROM property WHERE property_key = NEW.property AND NEW.value BETWEEN low AND high
    AND (NEW.basis <> '') = (has_basis = 1))
BEGIN SELECT RAISE(ABORT, 'a result is of a known property, within its range, with a basis just where it needs one'); END;
CREATE TRIGGER retest_value_is_one_a_flour_can_have BEFORE INSERT ON retest_value
WHEN NOT EXISTS (
    SELECT 1 FROM property WHERE property_key = NEW.property AND NEW.value BETWEEN low AND high
    AND (NEW.basis <> '') = (has_basis = 1))
BEGIN SELECT RAISE(ABORT, 'a result is of a known property, within its range, with a basis just where it needs one'); END;
CREATE TRIGGER retest_withdrawal_has_no_values BEFORE INSERT ON retest_value
WHEN EXISTS (SELECT 1 FROM retest WHERE id = NEW.retest_id AND withdraws_id IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a withdrawal has no values'); END;
CREATE TRIGGER retest_value_is_never_edited BEFORE UPDATE ON retest_value
BEGIN SELECT RAISE(ABORT, 'a retest is withdrawn by a second row, never edited'); END;
CREATE TRIGGER retest_value_is_never_deleted BEFORE DELETE ON retest_value
BEGIN SELECT RAISE(ABORT, 'a retest is withdrawn by a second row, never deleted'); END;
