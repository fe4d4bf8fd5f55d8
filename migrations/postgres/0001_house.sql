-- Who is here, what was entered by whom, and the chain that shows nothing was rewritten.
-- Ids are UUIDs, instants are microseconds since 1970-01-01 UTC, every key begins with the organization.

CREATE TABLE organization (
    id UUID NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    time_zone TEXT NOT NULL,
    units TEXT NOT NULL CHECK (units IN ('metric', 'us')),
    -- The number of the last write. Taking the next one is the first statement of every write: it serializes the
    -- organization's writers and numbers its audit chain without gaps.
    seq BIGINT NOT NULL DEFAULT 0,
    created_at BIGINT NOT NULL
);

CREATE TABLE account (
    id UUID NOT NULL PRIMARY KEY,
    -- Folded to lower case in the program, never by the database.
    email TEXT NOT NULL UNIQUE,
    name TEXT NOT NULL,
    password_hash TEXT,
    failed_sign_ins BIGINT NOT NULL DEFAULT 0,
    sign_in_after BIGINT NOT NULL DEFAULT 0,
    created_at BIGINT NOT NULL
);

CREATE TABLE membership (
    organization_id UUID NOT NULL REFERENCES organization (id),
    account_id UUID NOT NULL REFERENCES account (id),
    role TEXT NOT NULL CHECK (role IN ('office', 'crew', 'agronomist')),
    active BOOLEAN NOT NULL,
    created_at BIGINT NOT NULL,
    PRIMARY KEY (organization_id, account_id)
);

CREATE INDEX membership_of_account ON membership (account_id);

CREATE TABLE session (
    token_hash BYTEA NOT NULL PRIMARY KEY,
    id UUID NOT NULL UNIQUE,
    account_id UUID NOT NULL REFERENCES account (id),
    organization_id UUID NOT NULL REFERENCES organization (id),
    device TEXT NOT NULL,
    created_at BIGINT NOT NULL,
    last_seen_at BIGINT NOT NULL,
    expires_at BIGINT NOT NULL
);

CREATE INDEX session_of_account ON session (account_id);

CREATE TABLE bearer_token (
    token_hash BYTEA NOT NULL PRIMARY KEY,
    id UUID NOT NULL UNIQUE,
    account_id UUID NOT NULL REFERENCES account (id),
    organization_id UUID NOT NULL REFERENCES organization (id),
    label TEXT NOT NULL,
    created_at BIGINT NOT NULL,
    last_used_at BIGINT,
    expires_at BIGINT NOT NULL
);

CREATE INDEX bearer_token_of_account ON bearer_token (organization_id, account_id);

-- A link that is good once: to set up the first office account, or to set a password.
CREATE TABLE one_time_link (
    code_hash BYTEA NOT NULL PRIMARY KEY,
    purpose TEXT NOT NULL CHECK (purpose IN ('set_up', 'set_password')),
    account_id UUID REFERENCES account (id),
    created_at BIGINT NOT NULL,
    expires_at BIGINT NOT NULL
);

-- Everything that was ever created has a line here: what it is, who entered it and when, and what was sent.
-- Records also have the moment when they happened, and may name the record that they correct.
CREATE TABLE entry (
    organization_id UUID NOT NULL REFERENCES organization (id),
    id UUID NOT NULL,
    kind TEXT NOT NULL,
    occurred_at BIGINT,
    occurred_offset BIGINT,
    recorded_at BIGINT NOT NULL,
    recorded_by UUID REFERENCES account (id),
    fingerprint BYTEA NOT NULL,
    corrects UUID,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, corrects) REFERENCES entry (organization_id, id)
);

CREATE INDEX entry_corrections ON entry (organization_id, corrects) WHERE corrects IS NOT NULL;

CREATE TABLE void (
    organization_id UUID NOT NULL,
    id UUID NOT NULL,
    record_id UUID NOT NULL,
    reason TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    UNIQUE (organization_id, record_id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, record_id) REFERENCES entry (organization_id, id)
);

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
    organization_id UUID NOT NULL,
    id UUID NOT NULL,
    entry_id UUID NOT NULL,
    kind TEXT NOT NULL,
    sent TEXT NOT NULL,
    sent_at BIGINT NOT NULL,
    sent_by UUID REFERENCES account (id),
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, entry_id) REFERENCES entry (organization_id, id)
);

CREATE TABLE audit (
    organization_id UUID NOT NULL REFERENCES organization (id),
    seq BIGINT NOT NULL,
    at BIGINT NOT NULL,
    -- Null: the command line of the host.
    account_id UUID REFERENCES account (id),
    action TEXT NOT NULL,
    subject_kind TEXT NOT NULL,
    subject_id UUID NOT NULL,
    change TEXT NOT NULL,
    previous_hash BYTEA NOT NULL,
    hash BYTEA NOT NULL,
    PRIMARY KEY (organization_id, seq)
);

CREATE INDEX audit_of_subject ON audit (organization_id, subject_id, seq);

CREATE FUNCTION refuse_audit_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION 'the audit trail is append-only';
END $$;
CREATE TRIGGER audit_is_append_only_update BEFORE UPDATE ON audit
FOR EACH ROW EXECUTE FUNCTION refuse_audit_change();
CREATE TRIGGER audit_is_append_only_delete BEFORE DELETE ON audit
FOR EACH ROW EXECUTE FUNCTION refuse_audit_change();
