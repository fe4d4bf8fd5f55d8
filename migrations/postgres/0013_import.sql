-- Lists taken in from files: each file while it is checked and stored, and what became of each of its entries.

CREATE TABLE import (
    organization_id UUID NOT NULL REFERENCES organization (id),
    id UUID NOT NULL,
    -- What its rows are.
    kind TEXT NOT NULL CHECK (kind IN ('seeders', 'lots', 'fields', 'jobs', 'calibrations')),
    -- As its sender calls it; may be empty.
    file_name TEXT NOT NULL,
    -- The whole file as text; empty once nothing is left to do with it.
    content TEXT NOT NULL,
    sent_at BIGINT NOT NULL,
    sent_by UUID NOT NULL REFERENCES account (id),
    stage TEXT NOT NULL CHECK (stage IN ('checking', 'checked', 'storing', 'stored', 'dropped')),
    -- How many entries it holds, and how many of them the stage has done.
    entries BIGINT NOT NULL,
    done BIGINT NOT NULL,
    -- When somebody was last at work on it: whoever finds that long ago goes on.
    worked_at BIGINT NOT NULL,
    PRIMARY KEY (organization_id, id)
);

CREATE TABLE import_entry (
    organization_id UUID NOT NULL,
    import_id UUID NOT NULL,
    -- The line of its first row in a spreadsheet.
    row_number BIGINT NOT NULL,
    outcome TEXT NOT NULL CHECK (outcome IN ('good', 'already', 'left_out', 'faulty', 'stored')),
    -- Its first cells, by which a person knows it.
    called TEXT NOT NULL,
    -- What is wrong, a JSON list of sentences in its sender's language.
    faults TEXT NOT NULL,
    PRIMARY KEY (organization_id, import_id, row_number),
    FOREIGN KEY (organization_id, import_id) REFERENCES import (organization_id, id)
);
