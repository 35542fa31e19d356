-- Minutes the dough of a run ferments beyond its product's, for strength its flour lacks. A run without a row: none.
CREATE TABLE run_fermentation (
    run_id         INTEGER PRIMARY KEY REFERENCES run (id),
    longer_minutes INTEGER NOT NULL CHECK (longer_minutes BETWEEN 1 AND 2880)
) STRICT, WITHOUT ROWID;
