-- What was caught, how it was judged, what the office decided, and the tolerances it was judged by.

CREATE TABLE calibration (
    organization_id UUID NOT NULL,
    id UUID NOT NULL,
    metering_unit_id UUID NOT NULL,
    lot_id UUID NOT NULL,
    scale_id UUID,
    method TEXT NOT NULL CHECK (method IN ('stationary', 'driven', 'hand_turned')),
    roller_speed_rpm TEXT,
    planned_rate TEXT,
    planned_speed TEXT,
    note TEXT NOT NULL,
    -- As JSON: what was caught as entered; everything that the judgement depended on; the judgement. The last follows
    -- from the first two by computation alone.
    sheet TEXT NOT NULL,
    circumstances TEXT NOT NULL,
    judgement TEXT NOT NULL,
    verdict TEXT NOT NULL CHECK (verdict IN ('pass', 'pass_with_remarks', 'fail')),
    -- kg per roller revolution per run.
    factor DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, metering_unit_id) REFERENCES metering_unit (organization_id, id),
    FOREIGN KEY (organization_id, lot_id) REFERENCES lot (organization_id, id),
    FOREIGN KEY (organization_id, scale_id) REFERENCES scale (organization_id, id)
);

CREATE INDEX calibration_of_unit ON calibration (organization_id, metering_unit_id);
CREATE INDEX calibration_of_lot ON calibration (organization_id, lot_id);

CREATE TABLE decision (
    organization_id UUID NOT NULL,
    id UUID NOT NULL,
    calibration_id UUID NOT NULL,
    decision TEXT NOT NULL CHECK (decision IN ('accepted', 'rejected')),
    reason TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, calibration_id) REFERENCES calibration (organization_id, id)
);

CREATE INDEX decision_of_calibration ON decision (organization_id, calibration_id);

CREATE TABLE waiver (
    organization_id UUID NOT NULL,
    id UUID NOT NULL,
    metering_unit_id UUID NOT NULL,
    trigger_name TEXT NOT NULL,
    until_at BIGINT NOT NULL,
    reason TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id),
    FOREIGN KEY (organization_id, metering_unit_id) REFERENCES metering_unit (organization_id, id)
);

CREATE INDEX waiver_of_unit ON waiver (organization_id, metering_unit_id);

CREATE TABLE policy (
    organization_id UUID NOT NULL,
    id UUID NOT NULL,
    tolerances TEXT NOT NULL,
    PRIMARY KEY (organization_id, id),
    FOREIGN KEY (organization_id, id) REFERENCES entry (organization_id, id)
);
