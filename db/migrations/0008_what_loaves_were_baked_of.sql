-- How far a lot had matured when a loaf was baked of it, as it was estimated on the day it was logged: 10, 50 and 90 %.
-- A loaf of an older book has none. Appended only.
CREATE TABLE bake_maturity (
    bake_id INTEGER PRIMARY KEY REFERENCES bake (id),
    low     REAL NOT NULL CHECK (low BETWEEN 0 AND likely),
    likely  REAL NOT NULL CHECK (likely BETWEEN low AND high),
    high    REAL NOT NULL CHECK (high BETWEEN likely AND 1)
) STRICT;

-- Only SQLite, as in the first form.
CREATE TRIGGER bake_maturity_is_never_edited BEFORE UPDATE ON bake_maturity
BEGIN SELECT RAISE(ABORT, 'a bake is withdrawn by a second row, never edited'); END;
CREATE TRIGGER bake_maturity_is_never_deleted BEFORE DELETE ON bake_maturity
BEGIN SELECT RAISE(ABORT, 'a bake is withdrawn by a second row, never deleted'); END;
