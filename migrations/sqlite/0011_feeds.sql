-- The secret address at which a person's calendar and news of what is due are read. One per membership: a new one ends
-- the one before. Of the secret only the hash is kept.
CREATE TABLE feed_address (
    organization_id BLOB NOT NULL,
    account_id BLOB NOT NULL,
    id BLOB NOT NULL UNIQUE,
    secret_hash BLOB NOT NULL UNIQUE,
    -- The language in which it was asked for: spoken while the person has chosen none.
    language TEXT NOT NULL,
    created_at INTEGER NOT NULL,
    last_read_at INTEGER,
    -- What was last told, and since when: readers are spared what they have.
    told_hash BLOB,
    told_at INTEGER,
    PRIMARY KEY (organization_id, account_id),
    FOREIGN KEY (organization_id, account_id) REFERENCES membership (organization_id, account_id)
) STRICT;
