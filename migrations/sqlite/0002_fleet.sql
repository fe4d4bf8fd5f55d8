-- The fleet: machines, what is fitted to them, and who works with them.

CREATE TABLE seeder (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    name TEXT NOT NULL,
    serial_number TEXT,
    kind TEXT NOT NULL CHECK (kind IN ('box_drill', 'air_drill', 'air_cart')),
    commissioned_on TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id)
) STRICT;

CREATE TABLE metering_unit (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    seeder_id BLOB NOT NULL,
    position INTEGER NOT NULL,
    label TEXT NOT NULL,
    runs INTEGER NOT NULL,
    drive TEXT NOT NULL CHECK (drive IN ('ground', 'electric', 'hydraulic')),
    -- The roller speeds that the drive can hold, in revolutions per minute, as entered.
    roller_speed_min TEXT,
    roller_speed_max TEXT,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, seeder_id) REFERENCES seeder (organization_id, id)
) STRICT;

CREATE INDEX metering_unit_of_seeder ON metering_unit (organization_id, seeder_id, position);

CREATE TABLE roller (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    label TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('fluted', 'studded', 'cell', 'belt', 'other')),
    displacement TEXT,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id)
) STRICT;

CREATE TABLE configuration (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    seeder_id BLOB NOT NULL,
    working_width TEXT NOT NULL,
    row_spacing TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, seeder_id) REFERENCES seeder (organization_id, id)
) STRICT;

CREATE INDEX configuration_of_seeder ON configuration (organization_id, seeder_id);

CREATE TABLE setup (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    metering_unit_id BLOB NOT NULL,
    roller_id BLOB NOT NULL,
    drive_ratio TEXT NOT NULL,
    gate TEXT,
    runs INTEGER NOT NULL,
    note TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, metering_unit_id) REFERENCES metering_unit (organization_id, id),
    FOREIGN KEY (organization_id, roller_id) REFERENCES roller (organization_id, id)
) STRICT;

CREATE INDEX setup_of_unit ON setup (organization_id, metering_unit_id);

CREATE TABLE service (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    seeder_id BLOB NOT NULL,
    -- Null: the whole seeder.
    metering_unit_id BLOB,
    component TEXT NOT NULL,
    affects_metering INTEGER NOT NULL CHECK (affects_metering IN (0, 1)),
    note TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, seeder_id) REFERENCES seeder (organization_id, id),
    FOREIGN KEY (organization_id, metering_unit_id) REFERENCES metering_unit (organization_id, id)
) STRICT;

CREATE INDEX service_of_seeder ON service (organization_id, seeder_id);

-- A seeder is laid up, or taken back into use, from a moment on.
CREATE TABLE lay_up (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    seeder_id BLOB NOT NULL,
    laid_up INTEGER NOT NULL CHECK (laid_up IN (0, 1)),
    note TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, seeder_id) REFERENCES seeder (organization_id, id)
) STRICT;

CREATE INDEX lay_up_of_seeder ON lay_up (organization_id, seeder_id);

CREATE TABLE scale (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    name TEXT NOT NULL,
    readability TEXT NOT NULL,
    capacity TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id)
) STRICT;

CREATE TABLE scale_check (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    scale_id BLOB NOT NULL,
    reference TEXT NOT NULL,
    reading TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, scale_id) REFERENCES scale (organization_id, id)
) STRICT;

CREATE INDEX scale_check_of_scale ON scale_check (organization_id, scale_id);

CREATE TABLE season (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    name TEXT NOT NULL,
    starts_on TEXT NOT NULL,
    -- A JSON list of crops, or null for all crops.
    crops TEXT,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id)
) STRICT;

CREATE TABLE crew (
    organization_id BLOB NOT NULL,
    id BLOB NOT NULL,
    name TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id)
) STRICT;

CREATE TABLE crew_member (
    organization_id BLOB NOT NULL,
    crew_id BLOB NOT NULL,
    account_id BLOB NOT NULL,
    PRIMARY KEY (organization_id, crew_id, account_id),
    FOREIGN KEY (organization_id, crew_id) REFERENCES crew (organization_id, id),
    FOREIGN KEY (organization_id, account_id) REFERENCES membership (organization_id, account_id)
) STRICT;

CREATE TABLE crew_seeder (
    organization_id BLOB NOT NULL,
    crew_id BLOB NOT NULL,
    seeder_id BLOB NOT NULL,
    PRIMARY KEY (organization_id, crew_id, seeder_id),
    FOREIGN KEY (organization_id, crew_id) REFERENCES crew (organization_id, id),
    FOREIGN KEY (organization_id, seeder_id) REFERENCES seeder (organization_id, id)
) STRICT;
