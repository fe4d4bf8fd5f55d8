-- E-mail digests of what came due: who asked for them, and what became of each.

-- Who gets one. Nobody has a row who did not ask for it.
CREATE TABLE digest_choice (
    organization_id UUID NOT NULL,
    account_id UUID NOT NULL,
    every TEXT NOT NULL CHECK (every IN ('daily', 'weekly')),
    -- The hour of the organization's day, 0 to 23.
    hour BIGINT NOT NULL,
    -- The language in which it was asked for: spoken while the person has chosen none.
    language TEXT NOT NULL,
    -- Nothing is sent for an hour before it.
    chosen_at BIGINT NOT NULL,
    PRIMARY KEY (organization_id, account_id),
    FOREIGN KEY (organization_id, account_id) REFERENCES membership (organization_id, account_id)
);

-- One line per person and period: whoever puts it in sends that period's digest, and nobody else.
CREATE TABLE digest (
    organization_id UUID NOT NULL,
    account_id UUID NOT NULL,
    -- The day of the organization's calendar on which it was due.
    period TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('waiting', 'sent', 'nothing', 'failed')),
    -- While it waits: whoever works at it has it until then, and after that anybody may try again.
    held_until BIGINT NOT NULL,
    attempts BIGINT NOT NULL,
    -- Why the last attempt failed.
    problem TEXT,
    ended_at BIGINT,
    -- The ids of all that was due then, as JSON: the next one tells what is not among them.
    told TEXT,
    PRIMARY KEY (organization_id, account_id, period),
    FOREIGN KEY (organization_id, account_id) REFERENCES membership (organization_id, account_id)
);

-- The secrets in the links to stop, one for each attempt to send: which of the letters arrived is not always known.
CREATE TABLE digest_stop (
    stop_hash BYTEA NOT NULL PRIMARY KEY,
    organization_id UUID NOT NULL,
    account_id UUID NOT NULL,
    period TEXT NOT NULL,
    FOREIGN KEY (organization_id, account_id) REFERENCES membership (organization_id, account_id)
);
