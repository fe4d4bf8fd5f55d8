-- The form in which the number is keyed in at the controller of a metering unit: in which mass, for how many revolutions of
-- the roller, for one run or all runs in use. All three or none; none: as each person reads it, per 100 revolutions and run.
ALTER TABLE metering_unit ADD COLUMN key_mass_unit TEXT CHECK (key_mass_unit IN ('g', 'kg', 'lb', 'oz'));
ALTER TABLE metering_unit ADD COLUMN key_per_revolutions INTEGER CHECK (key_per_revolutions IN (1, 100));
ALTER TABLE metering_unit ADD COLUMN key_for TEXT CHECK (key_for IN ('run', 'unit'));
