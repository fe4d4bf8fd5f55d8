-- What the label and the certificates of a lot state beside its analysis and treatment, as far as it is known: shares in
-- percent and the declared weight as entered, months as "2027-03".
ALTER TABLE lot ADD COLUMN origin TEXT;
ALTER TABLE lot ADD COLUMN category TEXT;
ALTER TABLE lot ADD COLUMN certifying_authority TEXT;
ALTER TABLE lot ADD COLUMN serial_number TEXT;
ALTER TABLE lot ADD COLUMN sealed_in TEXT;
ALTER TABLE lot ADD COLUMN declared_weight TEXT;
ALTER TABLE lot ADD COLUMN containers INTEGER;
ALTER TABLE lot ADD COLUMN hermetic INTEGER;
ALTER TABLE lot ADD COLUMN hard_seed_percent TEXT;
ALTER TABLE lot ADD COLUMN other_crop_percent TEXT;
ALTER TABLE lot ADD COLUMN weed_seed_percent TEXT;
ALTER TABLE lot ADD COLUMN inert_matter_percent TEXT;
ALTER TABLE lot ADD COLUMN noxious_weeds TEXT;
ALTER TABLE lot ADD COLUMN components TEXT;
ALTER TABLE lot ADD COLUMN additives TEXT;
ALTER TABLE lot ADD COLUMN inoculant_expires TEXT;
ALTER TABLE lot ADD COLUMN test_report TEXT;

-- What surrounded a catch, as entered ("12.5 °C"); none of it enters the computation.
ALTER TABLE calibration ADD COLUMN air_temperature TEXT;
ALTER TABLE calibration ADD COLUMN relative_humidity_percent TEXT;
ALTER TABLE calibration ADD COLUMN place TEXT;
ALTER TABLE calibration ADD COLUMN checked_by TEXT;

-- By what the known mass of a scale's check is traced to a standard: what is marked on it, and its certificate.
ALTER TABLE scale_check ADD COLUMN reference_identity TEXT;
ALTER TABLE scale_check ADD COLUMN certificate TEXT;
