-- Bags held against a card, answers to what stands against a batch, checks at the door, the law on propionates as the
-- plant holds it, and what ingredients bring of water.

-- Why a batch was mixed although something stood against it; none: nothing did. Appended only.
CREATE TABLE batch_answer (
    batch_id INTEGER PRIMARY KEY REFERENCES batch (id),
    answer   TEXT NOT NULL CHECK (answer <> '')
) STRICT;

-- A bag's lot held against the card of a run's batch. Without a lot it was a wrong one. Appended only.
CREATE TABLE bag_scan (
    id      INTEGER PRIMARY KEY,
    run_id  INTEGER NOT NULL REFERENCES run (id),
    batch   INTEGER NOT NULL CHECK (batch >= 1),
    code    TEXT NOT NULL CHECK (code <> ''),
    lot_id  INTEGER REFERENCES lot (id),
    at      TEXT NOT NULL CHECK (length(at) = 20),
    who     TEXT NOT NULL
) STRICT;
CREATE INDEX bag_scan_by_run ON bag_scan (run_id);

-- Quality let a wrong bag be. Appended only.
CREATE TABLE bag_scan_cleared (
    scan_id INTEGER PRIMARY KEY REFERENCES bag_scan (id),
    by_whom TEXT NOT NULL CHECK (by_whom <> ''),
    reason  TEXT NOT NULL CHECK (reason <> ''),
    at      TEXT NOT NULL CHECK (length(at) = 20),
    who     TEXT NOT NULL
) STRICT;

-- What was answered to the checks at the door.
CREATE TABLE lot_door_check (
    lot_id   INTEGER NOT NULL REFERENCES lot (id),
    position INTEGER NOT NULL CHECK (position >= 0),
    question TEXT NOT NULL CHECK (question <> ''),
    answer   TEXT NOT NULL CHECK (answer IN ('not_looked_at', 'yes', 'no')),
    note     TEXT NOT NULL,
    bags     INTEGER NOT NULL CHECK (bags >= 0),
    PRIMARY KEY (lot_id, position)
) STRICT, WITHOUT ROWID;
-- What else was seen of a lot there: the certificate's own date, the temperature of the flour.
CREATE TABLE lot_at_door (
    lot_id       INTEGER PRIMARY KEY REFERENCES lot (id),
    certified_on TEXT CHECK (length(certified_on) = 10),
    delivered_c  REAL CHECK (delivered_c BETWEEN -40 AND 60),
    CHECK (certified_on IS NOT NULL OR delivered_c IS NOT NULL)
) STRICT;
-- Quality's word that the lot may be used beyond the day its supplier printed.
CREATE TABLE lot_extension (
    lot_id  INTEGER PRIMARY KEY REFERENCES lot (id),
    until   TEXT NOT NULL CHECK (length(until) = 10),
    reason  TEXT NOT NULL CHECK (reason <> ''),
    by_whom TEXT NOT NULL
) STRICT;

CREATE TABLE propionate_row (
    id           INTEGER PRIMARY KEY,
    market_key   TEXT NOT NULL CHECK (market_key <> ''),
    bread        TEXT NOT NULL CHECK (bread <> ''),
    sold_as      TEXT CHECK (sold_as <> ''),
    status       TEXT NOT NULL CHECK (status IN ('permitted', 'permitted_gmp', 'not_permitted', 'unclear')),
    mg_per_kg    REAL CHECK (mg_per_kg >= 0),
    counted_as   TEXT NOT NULL CHECK (counted_as IN ('acid', 'salt', 'not_stated')),
    rule_words   TEXT NOT NULL,
    source       TEXT NOT NULL,
    source_date  TEXT NOT NULL,
    is_confirmed INTEGER NOT NULL CHECK (is_confirmed IN (0, 1)),
    confirmed_by TEXT NOT NULL,
    CHECK (confirmed_by = '' OR is_confirmed = 1)
) STRICT;
-- How the bread is put on sale; null: nobody said.
ALTER TABLE product ADD COLUMN sold_as TEXT CHECK (sold_as <> '');

-- Of the ingredient's own mass; the temperature it goes in with, null: the room's.
ALTER TABLE product_ingredient ADD COLUMN water_pct REAL NOT NULL DEFAULT 0 CHECK (water_pct BETWEEN 0 AND 100);
ALTER TABLE product_ingredient ADD COLUMN temperature_c REAL CHECK (temperature_c BETWEEN -40 AND 100);
-- What is said of a product's dough, by its ingredients: of the flour, the water in them; of that what has a temperature
-- of its own, the water in that, and the temperature by what it carries of heat.
ALTER TABLE expected_offset ADD COLUMN beside_water_pct REAL NOT NULL DEFAULT 0 CHECK (beside_water_pct >= 0);
ALTER TABLE expected_offset ADD COLUMN tempered_pct REAL NOT NULL DEFAULT 0 CHECK (tempered_pct >= 0);
ALTER TABLE expected_offset ADD COLUMN tempered_water_pct REAL NOT NULL DEFAULT 0 CHECK (tempered_water_pct >= 0);
ALTER TABLE expected_offset ADD COLUMN tempered_c REAL NOT NULL DEFAULT 0;

-- Only SQLite, as in the first form.
CREATE TRIGGER batch_answer_is_never_edited BEFORE UPDATE ON batch_answer
BEGIN SELECT RAISE(ABORT, 'a batch is countered, never edited'); END;
CREATE TRIGGER batch_answer_is_never_deleted BEFORE DELETE ON batch_answer
BEGIN SELECT RAISE(ABORT, 'a batch is countered, never deleted'); END;
CREATE TRIGGER bag_scan_is_never_edited BEFORE UPDATE ON bag_scan
BEGIN SELECT RAISE(ABORT, 'a scan stays as it was read'); END;
CREATE TRIGGER bag_scan_is_never_deleted BEFORE DELETE ON bag_scan
BEGIN SELECT RAISE(ABORT, 'a scan stays as it was read'); END;
CREATE TRIGGER bag_scan_cleared_is_never_edited BEFORE UPDATE ON bag_scan_cleared
BEGIN SELECT RAISE(ABORT, 'a word on a wrong bag stays as it was given'); END;
CREATE TRIGGER bag_scan_cleared_is_never_deleted BEFORE DELETE ON bag_scan_cleared
BEGIN SELECT RAISE(ABORT, 'a word on a wrong bag stays as it was given'); END;
CREATE TRIGGER lot_door_check_is_never_edited BEFORE UPDATE ON lot_door_check
BEGIN SELECT RAISE(ABORT, 'a check at the door stays as it was answered'); END;
CREATE TRIGGER lot_door_check_is_never_deleted BEFORE DELETE ON lot_door_check
BEGIN SELECT RAISE(ABORT, 'a check at the door stays as it was answered'); END;
