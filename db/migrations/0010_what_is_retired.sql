-- Mills, flours, places, lines and products that nothing new may name: they stay for what was.
CREATE TABLE retired (
    record_kind TEXT NOT NULL CHECK (record_kind IN ('mill', 'flour', 'place', 'line', 'product')),
    record_id   INTEGER NOT NULL,
    PRIMARY KEY (record_kind, record_id)
) STRICT, WITHOUT ROWID;

-- A product or line that no run ever named may be taken off again, and what was expected of it goes with it. Only
-- SQLite, as in the first form.
DROP TRIGGER expected_offset_is_never_deleted;
CREATE TRIGGER expected_offset_is_never_deleted BEFORE DELETE ON expected_offset
WHEN EXISTS (SELECT 1 FROM run WHERE product_id = OLD.product_id)
BEGIN SELECT RAISE(ABORT, 'what was said of a product is followed by a new row, never deleted'); END;
DROP TRIGGER expected_ice_is_never_deleted;
CREATE TRIGGER expected_ice_is_never_deleted BEFORE DELETE ON expected_ice
WHEN EXISTS (SELECT 1 FROM run WHERE line_id = OLD.line_id)
BEGIN SELECT RAISE(ABORT, 'what was said of a line is followed by a new row, never deleted'); END;
