-- A refused entry is tried again once something else was stored: it may have come before what it needs.

-- The organization's number when it was tried last: what was stored since may let it in.
ALTER TABLE refused ADD COLUMN tried_seq BIGINT NOT NULL DEFAULT 0;
-- How it got here, as in `sending`, for the day when it is stored. Null: before this was kept, or none that was told.
ALTER TABLE refused ADD COLUMN sent_at BIGINT;
ALTER TABLE refused ADD COLUMN sent_offset BIGINT;
ALTER TABLE refused ADD COLUMN received_at BIGINT;
ALTER TABLE refused ADD COLUMN device TEXT;
