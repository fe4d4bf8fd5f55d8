-- Task data of machines (ISO 11783-10): files that were sent, what their names mean here, and which tasks became jobs.

-- A file that was sent, as it was read. The same bytes again are the same file.
CREATE TABLE task_file (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    -- What it was called.
    name TEXT NOT NULL,
    -- The tasks in it, as JSON: what was sown from each tank, and what is wrong.
    content TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id)
) STRICT;

-- What a name of the files means here. It is chosen once and offered from then on; another choice replaces it.
CREATE TABLE task_match (
    organization_id BLOB NOT NULL,
    -- Follows from kind and name.
    id BLOB NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('unit', 'lot', 'field', 'client')),
    -- For a unit the machine with its tank; else the name of product, field or customer.
    name TEXT NOT NULL,
    target_id BLOB NOT NULL,
    PRIMARY KEY (organization_id, id),
    UNIQUE (organization_id, kind, name),
    FOREIGN KEY (organization_id, target_id) REFERENCES entry (organization_id, id)
) STRICT;

-- A tank's part of a task that became a job. Machine, tank and beginning make the task, whatever file it stands in.
CREATE TABLE task_import (
    organization_id BLOB NOT NULL,
    -- SHA-256 of machine, tank and beginning.
    task BLOB NOT NULL,
    -- 0; one more each time when it is stored anew after its job was voided.
    turn INTEGER NOT NULL,
    job_id BLOB NOT NULL,
    file_id BLOB NOT NULL,
    -- What the file said of it, as JSON: another file that says something else shows what has changed.
    content TEXT NOT NULL,
    PRIMARY KEY (organization_id, task, turn),
    FOREIGN KEY (organization_id, job_id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, file_id) REFERENCES task_file (organization_id, id)
) STRICT;
