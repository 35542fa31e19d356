-- What the words on a mill's certificates mean, as persons of the plant confirmed it; the certificates as they came; and
-- with which one a lot came.

-- A word of a mill's papers: the label of a figure or fact, its name for a mill, flour or place, or its way to write
-- days and decimals (then the word is empty). A change is a new row, and the one before holds no more.
CREATE TABLE mill_word (
    id              INTEGER PRIMARY KEY,
    mill_id         INTEGER NOT NULL REFERENCES mill (id),
    kind            TEXT NOT NULL CHECK (kind IN ('label', 'mill', 'flour', 'place', 'dates', 'decimals')),
    word            TEXT NOT NULL, -- as words are compared
    shown           TEXT NOT NULL, -- as it stood on the paper
    means           TEXT NOT NULL CHECK (means <> ''),
    unit            TEXT NOT NULL, -- what the papers leave unsaid: empty, where they say it or nothing is to be said
    basis           TEXT NOT NULL,
    method          TEXT NOT NULL,
    nitrogen_factor TEXT NOT NULL,
    at              TEXT NOT NULL CHECK (length(at) = 20),
    who             TEXT NOT NULL,
    holds           INTEGER NOT NULL CHECK (holds IN (0, 1)),
    CHECK ((word = '') = (kind IN ('dates', 'decimals')))
) STRICT;
CREATE UNIQUE INDEX mill_word_that_holds ON mill_word (mill_id, kind, word) WHERE holds = 1;

-- A certificate's file to the last byte, or what was pasted, in base64. Kept once. Appended only.
CREATE TABLE certificate_source (
    id          INTEGER PRIMARY KEY,
    name        TEXT NOT NULL CHECK (name <> ''),
    is_pasted   INTEGER NOT NULL CHECK (is_pasted IN (0, 1)),
    size        INTEGER NOT NULL CHECK (size > 0), -- bytes
    fingerprint TEXT NOT NULL CHECK (length(fingerprint) = 16), -- of the bytes, FNV-1a of 64 bits
    content     TEXT NOT NULL,
    at          TEXT NOT NULL CHECK (length(at) = 20),
    who         TEXT NOT NULL
) STRICT;
CREATE INDEX certificate_source_by_fingerprint ON certificate_source (fingerprint);

-- With which certificate a lot came, and where it stood in it. Appended only.
CREATE TABLE lot_source (
    lot_id    INTEGER PRIMARY KEY REFERENCES lot (id),
    source_id INTEGER NOT NULL REFERENCES certificate_source (id),
    place     TEXT NOT NULL -- "line 7", "B4"; empty where all of it is the lot's
) STRICT;

-- Only SQLite, as in the first form.
CREATE TRIGGER mill_word_is_never_deleted BEFORE DELETE ON mill_word
BEGIN SELECT RAISE(ABORT, 'what a mill''s word meant is followed by a new row, never deleted'); END;
CREATE TRIGGER mill_word_is_never_edited BEFORE UPDATE OF id, mill_id, kind, word, shown, means, unit, basis, method,
    nitrogen_factor, at, who ON mill_word
BEGIN SELECT RAISE(ABORT, 'what a mill''s word meant is followed by a new row, never edited'); END;
CREATE TRIGGER mill_word_never_holds_again BEFORE UPDATE OF holds ON mill_word WHEN NEW.holds <> 0
BEGIN SELECT RAISE(ABORT, 'what a mill''s word meant is followed by a new row, never edited'); END;
CREATE TRIGGER certificate_source_is_never_edited BEFORE UPDATE ON certificate_source
BEGIN SELECT RAISE(ABORT, 'a certificate stays as it came'); END;
CREATE TRIGGER certificate_source_is_never_deleted BEFORE DELETE ON certificate_source
BEGIN SELECT RAISE(ABORT, 'a certificate stays as it came'); END;
CREATE TRIGGER lot_source_is_never_edited BEFORE UPDATE ON lot_source
BEGIN SELECT RAISE(ABORT, 'a lot came with one certificate'); END;
CREATE TRIGGER lot_source_is_never_deleted BEFORE DELETE ON lot_source
BEGIN SELECT RAISE(ABORT, 'a lot came with one certificate'); END;
