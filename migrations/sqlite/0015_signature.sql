-- What an agronomist put their name under: what usage said of a question at a moment.
CREATE TABLE signature (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    -- The question, as it was asked (JSON); its end is never open.
    asked TEXT NOT NULL,
    -- What it was asked of, by names as they were (JSON).
    asked_of TEXT NOT NULL,
    -- The answer (JSON): each job and each lot with what is signed of it.
    contents TEXT NOT NULL,
    -- The audit trail's last line before it, and that line's hash.
    chain_seq INTEGER NOT NULL,
    chain_head BLOB NOT NULL,
    remark TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id)
) STRICT;

CREATE TRIGGER signature_is_append_only_update BEFORE UPDATE ON signature
BEGIN SELECT RAISE(ABORT, 'a signature is append-only'); END;
CREATE TRIGGER signature_is_append_only_delete BEFORE DELETE ON signature
BEGIN SELECT RAISE(ABORT, 'a signature is append-only'); END;
