-- The seed and where it goes. A measured value stands as entered ("12.40 lb"), its SI value beside it where sums need it.

CREATE TABLE client (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    name TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id)
) STRICT;

-- The clients that an agronomist's membership is limited to; no row, no limit.
CREATE TABLE membership_client (
    organization_id BLOB NOT NULL,
    account_id BLOB NOT NULL,
    client_id BLOB NOT NULL,
    PRIMARY KEY (organization_id, account_id, client_id),
    FOREIGN KEY (organization_id, account_id) REFERENCES membership (organization_id, account_id),
    FOREIGN KEY (organization_id, client_id) REFERENCES client (organization_id, id)
) STRICT;

CREATE TABLE field (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    name TEXT NOT NULL,
    area TEXT NOT NULL,
    client_id BLOB,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, client_id) REFERENCES client (organization_id, id)
) STRICT;

CREATE TABLE lot (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    lot_number TEXT NOT NULL,
    material TEXT NOT NULL CHECK (material IN ('seed', 'fertilizer', 'other')),
    crop TEXT NOT NULL,
    variety TEXT,
    supplier TEXT,
    received_on TEXT,
    received_mass TEXT,
    received_mass_kg REAL,
    treatment_product TEXT,
    treatment_caution TEXT,
    purity_percent TEXT,
    germination_percent TEXT,
    tested_on TEXT,
    client_id BLOB,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, client_id) REFERENCES client (organization_id, id)
) STRICT;

CREATE TABLE lot_test (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    lot_id BLOB NOT NULL,
    thousand_seed_weight TEXT,
    bulk_density TEXT,
    germination_percent TEXT,
    purity_percent TEXT,
    moisture_percent TEXT,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, lot_id) REFERENCES lot (organization_id, id)
) STRICT;

CREATE INDEX lot_test_of_lot ON lot_test (organization_id, lot_id);

CREATE TABLE movement (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    lot_id BLOB NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('received', 'returned', 'sold', 'discarded', 'counted')),
    mass TEXT NOT NULL,
    mass_kg REAL NOT NULL,
    note TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, lot_id) REFERENCES lot (organization_id, id)
) STRICT;

CREATE INDEX movement_of_lot ON movement (organization_id, lot_id);

CREATE TABLE fill (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    metering_unit_id BLOB NOT NULL,
    lot_id BLOB NOT NULL,
    mass TEXT,
    mass_kg REAL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, metering_unit_id) REFERENCES metering_unit (organization_id, id),
    FOREIGN KEY (organization_id, lot_id) REFERENCES lot (organization_id, id)
) STRICT;

CREATE INDEX fill_of_unit ON fill (organization_id, metering_unit_id);
CREATE INDEX fill_of_lot ON fill (organization_id, lot_id);

CREATE TABLE emptying (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    metering_unit_id BLOB NOT NULL,
    lot_id BLOB NOT NULL,
    mass TEXT,
    mass_kg REAL,
    to_empty INTEGER NOT NULL CHECK (to_empty IN (0, 1)),
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, metering_unit_id) REFERENCES metering_unit (organization_id, id),
    FOREIGN KEY (organization_id, lot_id) REFERENCES lot (organization_id, id)
) STRICT;

CREATE INDEX emptying_of_unit ON emptying (organization_id, metering_unit_id);

CREATE TABLE job (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    metering_unit_id BLOB NOT NULL,
    ended_at INTEGER,
    field_id BLOB,
    field_name TEXT,
    lot_id BLOB NOT NULL,
    area TEXT NOT NULL,
    area_m2 REAL NOT NULL,
    seed_used TEXT NOT NULL,
    seed_used_kg REAL NOT NULL,
    seed_used_basis TEXT NOT NULL CHECK (seed_used_basis IN ('weighed', 'bags', 'machine_total')),
    target_rate TEXT NOT NULL,
    speed TEXT,
    note TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, metering_unit_id) REFERENCES metering_unit (organization_id, id),
    FOREIGN KEY (organization_id, field_id) REFERENCES field (organization_id, id),
    FOREIGN KEY (organization_id, lot_id) REFERENCES lot (organization_id, id)
) STRICT;

CREATE INDEX job_of_unit ON job (organization_id, metering_unit_id);
CREATE INDEX job_of_lot ON job (organization_id, lot_id);
