-- Who is here, what was entered by whom, and the chain that shows nothing was rewritten.
-- Ids are UUIDs, instants are microseconds since 1970-01-01 UTC, every key begins with the organization.

CREATE TABLE organization (
    id BLOB NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    time_zone TEXT NOT NULL,
    units TEXT NOT NULL CHECK (units IN ('metric', 'us')),
    -- The number of the last write. Taking the next one is the first statement of every write: it serializes the
    -- organization's writers and numbers its audit chain without gaps.
    seq INTEGER NOT NULL DEFAULT 0,
    created_at INTEGER NOT NULL
) STRICT;

CREATE TABLE account (
    id BLOB NOT NULL PRIMARY KEY,
    -- Folded to lower case in the program, never by the database.
    email TEXT NOT NULL UNIQUE,
    name TEXT NOT NULL,
    password_hash TEXT,
    failed_sign_ins INTEGER NOT NULL DEFAULT 0,
    sign_in_after INTEGER NOT NULL DEFAULT 0,
    created_at INTEGER NOT NULL
) STRICT;

CREATE TABLE membership (
    organization_id BLOB NOT NULL REFERENCES organization (id),
    account_id BLOB NOT NULL REFERENCES account (id),
    role TEXT NOT NULL CHECK (role IN ('office', 'crew', 'agronomist')),
    active INTEGER NOT NULL CHECK (active IN (0, 1)),
    created_at INTEGER NOT NULL,
    PRIMARY KEY (organization_id, account_id)
) STRICT;

CREATE INDEX membership_of_account ON membership (account_id);

CREATE TABLE session (
    token_hash BLOB NOT NULL PRIMARY KEY,
    id BLOB NOT NULL UNIQUE,
    account_id BLOB NOT NULL REFERENCES account (id),
    organization_id BLOB NOT NULL REFERENCES organization (id),
    device TEXT NOT NULL,
    created_at INTEGER NOT NULL,
    last_seen_at INTEGER NOT NULL,
    expires_at INTEGER NOT NULL
) STRICT;

CREATE INDEX session_of_account ON session (account_id);

CREATE TABLE bearer_token (
    token_hash BLOB NOT NULL PRIMARY KEY,
    id BLOB NOT NULL UNIQUE,
    account_id BLOB NOT NULL REFERENCES account (id),
    organization_id BLOB NOT NULL REFERENCES organization (id),
    label TEXT NOT NULL,
    created_at INTEGER NOT NULL,
    last_used_at INTEGER,
    expires_at INTEGER NOT NULL
) STRICT;

CREATE INDEX bearer_token_of_account ON bearer_token (organization_id, account_id);

-- A link that is good once: to set up the first office account, or to set a password.
CREATE TABLE one_time_link (
    code_hash BLOB NOT NULL PRIMARY KEY,
    purpose TEXT NOT NULL CHECK (purpose IN ('set_up', 'set_password')),
    account_id BLOB REFERENCES account (id),
    created_at INTEGER NOT NULL,
    expires_at INTEGER NOT NULL
) STRICT;

-- Everything that was ever created has a line here: what it is, who entered it and when, and what was sent.
-- Records also have the moment when they happened, and may name the record that they correct.
CREATE TABLE entry (
    organization_id BLOB NOT NULL REFERENCES organization (id),
    id BLOB NOT NULL,
    kind TEXT NOT NULL,
    occurred_at INTEGER,
    occurred_offset INTEGER,
    recorded_at INTEGER NOT NULL,
    recorded_by BLOB REFERENCES account (id),
    fingerprint BLOB NOT NULL,
    corrects BLOB,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, corrects) REFERENCES entry (organization_id, id)
) STRICT;

CREATE INDEX entry_corrections ON entry (organization_id, corrects) WHERE corrects IS NOT NULL;

CREATE TABLE void (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    record_id BLOB NOT NULL,
    reason TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    UNIQUE (organization_id, record_id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, record_id) REFERENCES entry (organization_id, id)
) STRICT;

-- What stands: entered, not void, and not replaced by a correction that itself is not void.
CREATE VIEW standing AS
SELECT e.organization_id, e.id, e.kind, e.occurred_at, e.occurred_offset, e.recorded_at, e.recorded_by, e.corrects
FROM entry e
WHERE NOT EXISTS (SELECT 1 FROM void v WHERE v.organization_id = e.organization_id AND v.record_id = e.id)
  AND NOT EXISTS (
    SELECT 1 FROM entry c
    WHERE c.organization_id = e.organization_id AND c.corrects = e.id
      AND NOT EXISTS (SELECT 1 FROM void v WHERE v.organization_id = c.organization_id AND v.record_id = c.id));

-- What was sent under an id that already stood for something else: refused, and kept.
CREATE TABLE conflict (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    entry_id BLOB NOT NULL,
    kind TEXT NOT NULL,
    sent TEXT NOT NULL,
    sent_at INTEGER NOT NULL,
    sent_by BLOB REFERENCES account (id),
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, entry_id) REFERENCES entry (organization_id, id)
) STRICT;

CREATE TABLE audit (
    organization_id BLOB NOT NULL REFERENCES organization (id),
    seq INTEGER NOT NULL,
    at INTEGER NOT NULL,
    -- Null: the command line of the host.
    account_id BLOB REFERENCES account (id),
    action TEXT NOT NULL,
    subject_kind TEXT NOT NULL,
    subject_id BLOB NOT NULL,
    change TEXT NOT NULL,
    previous_hash BLOB NOT NULL,
    hash BLOB NOT NULL,
    PRIMARY KEY (organization_id, seq)
) STRICT;

CREATE INDEX audit_of_subject ON audit (organization_id, subject_id, seq);

CREATE TRIGGER audit_is_append_only_update BEFORE UPDATE ON audit
BEGIN SELECT RAISE(ABORT, 'the audit trail is append-only'); END;
CREATE TRIGGER audit_is_append_only_delete BEFORE DELETE ON audit
BEGIN SELECT RAISE(ABORT, 'the audit trail is append-only'); END;
