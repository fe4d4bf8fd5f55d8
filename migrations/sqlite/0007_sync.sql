-- What phones send late: entries that were not taken in, and what the phone's clock said when a record was sent.

-- Kept until somebody mends or drops it, and after that as it was. Sent and refused again it is the same row.
CREATE TABLE refused (
    organization_id BLOB NOT NULL REFERENCES organization (id),
    -- The id that its sender gave it; where that cannot be read, one made from what was sent.
    id BLOB NOT NULL,
    -- Who sent it last.
    sent_by BLOB NOT NULL REFERENCES account (id),
    -- As sent: it need not be a kind that there is.
    kind TEXT NOT NULL,
    -- Null: none that can be read.
    parent_id BLOB,
    -- The whole record as sent, and why it was refused (a problem document), as JSON.
    record TEXT NOT NULL,
    problem TEXT NOT NULL,
    first_refused_at INTEGER NOT NULL,
    last_refused_at INTEGER NOT NULL,
    -- Null while it waits.
    ended TEXT CHECK (ended IN ('mended', 'dropped')),
    ended_at INTEGER,
    ended_by BLOB REFERENCES account (id),
    ended_reason TEXT,
    PRIMARY KEY (organization_id, id)
) STRICT;

CREATE INDEX refused_waiting ON refused (organization_id, sent_by) WHERE ended IS NULL;

-- How a record that waited on a phone got here. Its sender may not have told the time.
CREATE TABLE sending (
    organization_id BLOB NOT NULL,
    -- The record's.
    id BLOB NOT NULL,
    -- The phone's clock when it was sent.
    sent_at INTEGER,
    sent_offset INTEGER,
    -- The server's clock when it came.
    received_at INTEGER NOT NULL,
    -- What the phone calls itself; may be empty.
    device TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id)
) STRICT;

CREATE TRIGGER sending_is_append_only_update BEFORE UPDATE ON sending
BEGIN SELECT RAISE(ABORT, 'how a record was sent is append-only'); END;
CREATE TRIGGER sending_is_append_only_delete BEFORE DELETE ON sending
BEGIN SELECT RAISE(ABORT, 'how a record was sent is append-only'); END;

-- The same view as before, with how the record was sent.
DROP VIEW recorded;
CREATE VIEW recorded AS
SELECT e.organization_id, e.id, e.kind, e.occurred_at, e.occurred_offset, e.recorded_at, e.recorded_by,
    a.name AS recorded_by_name, e.corrects,
    (SELECT c.id FROM entry c
     WHERE c.organization_id = e.organization_id AND c.corrects = e.id
       AND NOT EXISTS (SELECT 1 FROM void x WHERE x.organization_id = c.organization_id AND x.record_id = c.id)
     LIMIT 1) AS replaced_by,
    v.reason AS void_reason, w.recorded_at AS void_at, w.recorded_by AS void_by, b.name AS void_by_name,
    s.sent_at, s.received_at
FROM entry e
LEFT JOIN account a ON a.id = e.recorded_by
LEFT JOIN void v ON v.organization_id = e.organization_id AND v.record_id = e.id
LEFT JOIN entry w ON w.organization_id = v.organization_id AND w.id = v.id
LEFT JOIN account b ON b.id = w.recorded_by
LEFT JOIN sending s ON s.organization_id = e.organization_id AND s.id = e.id;
