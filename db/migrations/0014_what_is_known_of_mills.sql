-- What a plant held against its mills and how they answered; and the way by which a mill's lots of some days are found.

-- A complaint. A row that withdraws another one repeats whose it is and says why. What was written is never edited:
-- only whether something is still to come of it changes.
CREATE TABLE complaint (
    id           INTEGER PRIMARY KEY,
    mill_id      INTEGER NOT NULL REFERENCES mill (id),
    lot_id       INTEGER REFERENCES lot (id),        -- null: of no lot alone
    property     TEXT CHECK (property <> ''),        -- null: of none that a laboratory reports
    subject      TEXT NOT NULL,
    words        TEXT NOT NULL CHECK (words <> ''),
    mass_g       INTEGER NOT NULL CHECK (mass_g BETWEEN 0 AND 1000000000), -- 0: not said
    noticed_on   TEXT NOT NULL CHECK (length(noticed_on) = 10),
    at           TEXT NOT NULL CHECK (length(at) = 20),
    who          TEXT NOT NULL,
    withdraws_id INTEGER UNIQUE REFERENCES complaint (id) CHECK (withdraws_id < id),
    is_open      INTEGER NOT NULL CHECK (is_open IN (0, 1)), -- neither answered nor withdrawn, nor a withdrawal
    CHECK (property IS NOT NULL OR subject <> ''),
    CHECK (withdraws_id IS NULL OR is_open = 0)
) STRICT;
CREATE INDEX complaint_by_mill ON complaint (mill_id, noticed_on, id);
CREATE INDEX complaint_that_is_open ON complaint (mill_id, id) WHERE is_open = 1;

-- How the mill answered; the newest row of a complaint holds. One without a day took the answer before it back.
CREATE TABLE complaint_answer (
    id           INTEGER PRIMARY KEY,
    complaint_id INTEGER NOT NULL REFERENCES complaint (id),
    answered_on  TEXT CHECK (length(answered_on) = 10),
    words        TEXT NOT NULL CHECK (words <> ''),
    at           TEXT NOT NULL CHECK (length(at) = 20),
    who          TEXT NOT NULL
) STRICT;
CREATE INDEX complaint_answer_by_complaint ON complaint_answer (complaint_id, id);

CREATE INDEX lot_by_mill ON lot (mill_id, delivered_on, id);

-- Only SQLite, as in the first form.
CREATE TRIGGER complaint_withdraws_a_complaint_of_its_mill BEFORE INSERT ON complaint
WHEN NEW.withdraws_id IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM complaint WHERE id = NEW.withdraws_id AND withdraws_id IS NULL AND mill_id = NEW.mill_id)
BEGIN SELECT RAISE(ABORT, 'a withdrawal names a complaint of the same mill'); END;
CREATE TRIGGER complaint_is_of_a_lot_of_its_mill BEFORE INSERT ON complaint
WHEN NEW.lot_id IS NOT NULL AND NOT EXISTS (SELECT 1 FROM lot WHERE id = NEW.lot_id AND mill_id = NEW.mill_id)
BEGIN SELECT RAISE(ABORT, 'a complaint names a lot of its mill'); END;
CREATE TRIGGER complaint_is_never_edited BEFORE UPDATE OF id, mill_id, lot_id, property, subject, words, mass_g,
    noticed_on, at, who, withdraws_id ON complaint
BEGIN SELECT RAISE(ABORT, 'a complaint is withdrawn by a second row, never edited'); END;
CREATE TRIGGER complaint_is_never_deleted BEFORE DELETE ON complaint
BEGIN SELECT RAISE(ABORT, 'a complaint is withdrawn by a second row, never deleted'); END;
CREATE TRIGGER complaint_answer_is_never_edited BEFORE UPDATE ON complaint_answer
BEGIN SELECT RAISE(ABORT, 'an answer is taken back by a second row, never edited'); END;
CREATE TRIGGER complaint_answer_is_never_deleted BEFORE DELETE ON complaint_answer
BEGIN SELECT RAISE(ABORT, 'an answer is taken back by a second row, never deleted'); END;
