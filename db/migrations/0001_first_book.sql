-- The first form of the book.
-- Days are YYYY-MM-DD, instants YYYY-MM-DDTHH:MM:SSZ, masses whole grams, money whole minor units. A percentage of
-- flour without a basis in its name stands beside its basis. The checks repeat core's limits, so that a mistake of
-- the program cannot leave a figure in the book that no flour has. STRICT, WITHOUT ROWID and the triggers at the
-- end are SQLite's own; all else is common to the engines.

CREATE TABLE mill (
    id   INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE CHECK (name <> '')
) STRICT;

CREATE TABLE flour (
    id          INTEGER PRIMARY KEY,
    name        TEXT NOT NULL UNIQUE CHECK (name <> ''),
    flour_class TEXT NOT NULL CHECK (flour_class IN ('white', 'high_extraction', 'wholemeal'))
) STRICT;

-- What a delivery is judged by; at 14 % moisture where the property has a basis.
CREATE TABLE flour_window (
    flour_id INTEGER NOT NULL REFERENCES flour (id),
    position INTEGER NOT NULL CHECK (position >= 0),
    property TEXT NOT NULL CHECK (property <> ''),
    low      REAL,
    high     REAL,
    method   TEXT NOT NULL,
    PRIMARY KEY (flour_id, position),
    CHECK (low IS NOT NULL OR high IS NOT NULL),
    CHECK (low <= high)
) STRICT, WITHOUT ROWID;

CREATE TABLE place (
    id            INTEGER PRIMARY KEY,
    name          TEXT NOT NULL UNIQUE CHECK (name <> ''),
    kind          TEXT NOT NULL CHECK (kind IN ('bay', 'rack', 'tote', 'silo')),
    air           TEXT NOT NULL CHECK (air IN ('breathable_bag', 'moved_silo', 'sealed_liner', 'inert')),
    temperature_c REAL NOT NULL CHECK (temperature_c BETWEEN -40 AND 60)
) STRICT;

-- The temperature from a day on, until the next row's day.
CREATE TABLE place_climate (
    place_id      INTEGER NOT NULL REFERENCES place (id),
    from_day      TEXT NOT NULL CHECK (length(from_day) = 10),
    temperature_c REAL NOT NULL CHECK (temperature_c BETWEEN -40 AND 60),
    PRIMARY KEY (place_id, from_day)
) STRICT, WITHOUT ROWID;

CREATE TABLE market (
    market_key TEXT PRIMARY KEY CHECK (market_key <> ''),
    name       TEXT NOT NULL CHECK (name <> ''),
    lies_in    TEXT REFERENCES market (market_key) CHECK (lies_in <> market_key)
) STRICT, WITHOUT ROWID;

CREATE TABLE limit_row (
    id           INTEGER PRIMARY KEY,
    market_key   TEXT NOT NULL CHECK (market_key <> ''),
    substance    TEXT NOT NULL CHECK (substance <> ''),
    food         TEXT NOT NULL CHECK (food IN ('white_flour', 'whole_wheat_flour', 'bread', 'whole_wheat_bread')),
    status       TEXT NOT NULL CHECK (status IN ('permitted', 'permitted_gmp', 'not_permitted', 'unclear')),
    limit_ppm    REAL CHECK (limit_ppm >= 0),
    sum_group    TEXT NOT NULL,
    valid_from   TEXT CHECK (length(valid_from) = 10),
    valid_to     TEXT CHECK (length(valid_to) = 10),
    rule_words   TEXT NOT NULL,
    source       TEXT NOT NULL,
    source_date  TEXT NOT NULL,
    is_confirmed INTEGER NOT NULL CHECK (is_confirmed IN (0, 1)),
    confirmed_by TEXT NOT NULL,
    CHECK (valid_from <= valid_to),
    CHECK (confirmed_by = '' OR is_confirmed = 1)
) STRICT;

CREATE TABLE product (
    id                   INTEGER PRIMARY KEY,
    name                 TEXT NOT NULL UNIQUE CHECK (name <> ''),
    flour_id             INTEGER NOT NULL REFERENCES flour (id),
    market_key           TEXT NOT NULL,
    food                 TEXT NOT NULL CHECK (food IN ('white_flour', 'whole_wheat_flour', 'bread', 'whole_wheat_bread')),
    maturity_target      REAL NOT NULL CHECK (maturity_target BETWEEN 0 AND 1),
    most_lots            INTEGER NOT NULL CHECK (most_lots >= 1),
    least_share          REAL NOT NULL CHECK (least_share BETWEEN 0 AND 1),
    oxidant              TEXT CHECK (oxidant <> ''),
    house_maximum_ppm    REAL NOT NULL CHECK (house_maximum_ppm >= 0),
    water_offset_points  REAL NOT NULL CHECK (water_offset_points BETWEEN -50 AND 50),
    is_offset_assumed    INTEGER NOT NULL CHECK (is_offset_assumed IN (0, 1)),
    dough_temperature_c  REAL NOT NULL CHECK (dough_temperature_c BETWEEN 0 AND 45),
    fermentation_minutes INTEGER NOT NULL CHECK (fermentation_minutes >= 0),
    mixing_minutes       REAL NOT NULL CHECK (mixing_minutes >= 0),
    batch_flour_kg       REAL NOT NULL CHECK (batch_flour_kg > 0),
    propionate_pct_flour REAL NOT NULL CHECK (propionate_pct_flour BETWEEN 0 AND 5),
    bread_yield          REAL NOT NULL CHECK (bread_yield > 0)
) STRICT;

-- What the blend that goes into the product must keep to; at 14 % moisture where the property has a basis.
CREATE TABLE product_window (
    product_id INTEGER NOT NULL REFERENCES product (id),
    position   INTEGER NOT NULL CHECK (position >= 0),
    property   TEXT NOT NULL CHECK (property <> ''),
    low        REAL,
    high       REAL,
    method     TEXT NOT NULL,
    PRIMARY KEY (product_id, position),
    CHECK (low IS NOT NULL OR high IS NOT NULL),
    CHECK (low <= high)
) STRICT, WITHOUT ROWID;

CREATE TABLE product_ingredient (
    product_id INTEGER NOT NULL REFERENCES product (id),
    position   INTEGER NOT NULL CHECK (position >= 0),
    name       TEXT NOT NULL CHECK (name <> ''),
    pct_flour  REAL NOT NULL CHECK (pct_flour >= 0),
    PRIMARY KEY (product_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE line (
    id                       INTEGER PRIMARY KEY,
    name                     TEXT NOT NULL UNIQUE CHECK (name <> ''),
    friction_factor_k        REAL NOT NULL CHECK (friction_factor_k BETWEEN -100 AND 200),
    mixing_energy_kj_per_kg  REAL CHECK (mixing_energy_kj_per_kg BETWEEN 0 AND 500),
    room_c                   REAL NOT NULL CHECK (room_c BETWEEN -40 AND 60),
    tap_water_c              REAL NOT NULL CHECK (tap_water_c BETWEEN 0 AND 100),
    coldest_water_c          REAL NOT NULL CHECK (coldest_water_c BETWEEN 0 AND 100),
    most_ice_share           REAL NOT NULL CHECK (most_ice_share BETWEEN 0 AND 1),
    oxidant_scale_step_g     REAL NOT NULL CHECK (oxidant_scale_step_g >= 0),
    oxidant_scale_error_g    REAL NOT NULL CHECK (oxidant_scale_error_g >= 0),
    stock_solution_g_per_l   REAL NOT NULL CHECK (stock_solution_g_per_l >= 0),
    water_step_kg            REAL NOT NULL CHECK (water_step_kg >= 0)
) STRICT;

CREATE TABLE lot (
    id                    INTEGER PRIMARY KEY,
    code                  TEXT NOT NULL CHECK (code <> ''),
    mill_id               INTEGER NOT NULL REFERENCES mill (id),
    flour_id              INTEGER NOT NULL REFERENCES flour (id),
    milled_on             TEXT CHECK (length(milled_on) = 10),
    delivered_on          TEXT NOT NULL CHECK (length(delivered_on) = 10),
    best_before           TEXT CHECK (length(best_before) = 10),
    delivery_note         TEXT NOT NULL,
    received_g            INTEGER NOT NULL CHECK (received_g BETWEEN 1 AND 1000000000),
    bag_g                 INTEGER NOT NULL CHECK (bag_g >= 0),
    price_per_tonne_minor INTEGER NOT NULL CHECK (price_per_tonne_minor >= 0),
    state                 TEXT NOT NULL CHECK (state IN ('awaiting_judgement', 'held', 'released', 'rejected', 'used_up')),
    state_reason          TEXT NOT NULL,
    state_by              TEXT NOT NULL,
    state_at              TEXT NOT NULL CHECK (length(state_at) = 20),
    received_into_id      INTEGER NOT NULL REFERENCES place (id),
    UNIQUE (mill_id, code),
    CHECK (milled_on <= delivered_on),
    CHECK (milled_on < best_before)
) STRICT;

-- The certificate: one row a property, as it was reported.
CREATE TABLE lot_value (
    lot_id          INTEGER NOT NULL REFERENCES lot (id),
    property        TEXT NOT NULL,
    value           REAL NOT NULL,
    basis           TEXT NOT NULL, -- 'as is', 'dry matter', '14 % moisture'; empty where none is needed or stated
    method          TEXT NOT NULL,
    nitrogen_factor REAL NOT NULL CHECK (nitrogen_factor BETWEEN 5 AND 7),
    PRIMARY KEY (lot_id, property),
    CHECK (CASE property
        WHEN 'moisture'                THEN value BETWEEN 0 AND 30
        WHEN 'protein'                 THEN value BETWEEN 1 AND 40
        WHEN 'ash'                     THEN value BETWEEN 0.1 AND 5
        WHEN 'wet_gluten'              THEN value BETWEEN 1 AND 80
        WHEN 'gluten_index'            THEN value BETWEEN 0 AND 100
        WHEN 'falling_number'          THEN value BETWEEN 60 AND 1200
        WHEN 'absorption'              THEN value BETWEEN 40 AND 90
        WHEN 'development_time'        THEN value BETWEEN 0 AND 60
        WHEN 'stability'               THEN value BETWEEN 0 AND 90
        WHEN 'softening'               THEN value BETWEEN 0 AND 300
        WHEN 'starch_damage'           THEN value BETWEEN 0 AND 40
        WHEN 'sedimentation'           THEN value BETWEEN 0 AND 100
        WHEN 'extensograph_resistance' THEN value BETWEEN 1 AND 2000
        WHEN 'extensibility'           THEN value BETWEEN 1 AND 500
        WHEN 'extensograph_energy'     THEN value BETWEEN 1 AND 500
        WHEN 'alveograph_p'            THEN value BETWEEN 1 AND 300
        WHEN 'alveograph_l'            THEN value BETWEEN 1 AND 400
        WHEN 'alveograph_w'            THEN value BETWEEN 1 AND 1000
        ELSE 1 = 0
    END)
) STRICT, WITHOUT ROWID;

CREATE TABLE lot_mill_addition (
    lot_id    INTEGER NOT NULL REFERENCES lot (id),
    position  INTEGER NOT NULL CHECK (position >= 0),
    substance TEXT NOT NULL CHECK (substance <> ''),
    dose_ppm  REAL NOT NULL CHECK (dose_ppm > 0 AND dose_ppm <= 1000),
    PRIMARY KEY (lot_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE run (
    id         INTEGER PRIMARY KEY,
    code       TEXT NOT NULL UNIQUE CHECK (code <> ''),
    product_id INTEGER NOT NULL REFERENCES product (id),
    line_id    INTEGER NOT NULL REFERENCES line (id),
    day        TEXT NOT NULL CHECK (length(day) = 10),
    sequence   INTEGER NOT NULL CHECK (sequence >= 0),
    batches    INTEGER NOT NULL CHECK (batches >= 1),
    flour_g    INTEGER NOT NULL CHECK (flour_g > 0)
) STRICT;
CREATE INDEX run_by_day ON run (day);

CREATE TABLE assignment (
    run_id    INTEGER NOT NULL REFERENCES run (id),
    lot_id    INTEGER NOT NULL REFERENCES lot (id),
    mass_g    INTEGER NOT NULL CHECK (mass_g > 0),
    is_locked INTEGER NOT NULL CHECK (is_locked IN (0, 1)),
    reason    TEXT NOT NULL,
    PRIMARY KEY (run_id, lot_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX assignment_by_lot ON assignment (lot_id);

-- Grams that left one place and came to another. Appended only.
CREATE TABLE movement (
    id            INTEGER PRIMARY KEY,
    lot_id        INTEGER NOT NULL REFERENCES lot (id),
    kind          TEXT NOT NULL CHECK (kind IN ('receipt', 'move', 'use', 'count', 'waste', 'return')),
    from_place_id INTEGER REFERENCES place (id),
    to_place_id   INTEGER REFERENCES place (id),
    mass_g        INTEGER NOT NULL CHECK (mass_g > 0),
    at            TEXT NOT NULL CHECK (length(at) = 20),
    who           TEXT NOT NULL,
    run_id        INTEGER REFERENCES run (id),
    counters_id   INTEGER UNIQUE REFERENCES movement (id),
    note          TEXT NOT NULL,
    CHECK (CASE kind
        WHEN 'move' THEN from_place_id IS NOT NULL AND to_place_id IS NOT NULL AND from_place_id <> to_place_id
        ELSE (from_place_id IS NULL) <> (to_place_id IS NULL)
    END)
) STRICT;
CREATE INDEX movement_by_lot ON movement (lot_id);
CREATE INDEX movement_by_run ON movement (run_id);

-- What this plant has chosen, each choice with its day; the newest row of a key holds. Appended only.
CREATE TABLE setting (
    id          INTEGER PRIMARY KEY,
    setting_key TEXT NOT NULL CHECK (setting_key <> ''),
    value       TEXT NOT NULL,
    unit        TEXT NOT NULL,
    who         TEXT NOT NULL,
    since       TEXT NOT NULL CHECK (length(since) = 20)
) STRICT;
CREATE INDEX setting_by_key ON setting (setting_key, id);

-- One line with every change. Appended only.
CREATE TABLE journal (
    id      INTEGER PRIMARY KEY,
    at      TEXT NOT NULL CHECK (length(at) = 20),
    who     TEXT NOT NULL,
    intent  TEXT NOT NULL CHECK (intent <> ''),
    subject TEXT NOT NULL,
    words   TEXT NOT NULL CHECK (words <> ''),
    detail  TEXT NOT NULL
) STRICT;
CREATE INDEX journal_by_subject ON journal (subject, id);

-- Only SQLite: nothing that is appended can be edited away. REPLACE is held by them too, as the connection
-- switches recursive_triggers on.
CREATE TRIGGER movement_is_never_edited BEFORE UPDATE ON movement
BEGIN SELECT RAISE(ABORT, 'a movement is countered, never edited'); END;
CREATE TRIGGER movement_is_never_deleted BEFORE DELETE ON movement
BEGIN SELECT RAISE(ABORT, 'a movement is countered, never deleted'); END;
CREATE TRIGGER setting_is_never_edited BEFORE UPDATE ON setting
BEGIN SELECT RAISE(ABORT, 'a setting is followed by a new one, never edited'); END;
CREATE TRIGGER setting_is_never_deleted BEFORE DELETE ON setting
BEGIN SELECT RAISE(ABORT, 'a setting is followed by a new one, never deleted'); END;
CREATE TRIGGER journal_is_never_edited BEFORE UPDATE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is never edited'); END;
CREATE TRIGGER journal_is_never_deleted BEFORE DELETE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is never edited'); END;
CREATE TRIGGER lot_is_never_deleted BEFORE DELETE ON lot
BEGIN SELECT RAISE(ABORT, 'a lot that came stays in the book'); END;
