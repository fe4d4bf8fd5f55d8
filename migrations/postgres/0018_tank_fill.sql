-- About how full the tank was at a catch, in percent as entered; it does not enter the computation.
ALTER TABLE calibration ADD COLUMN tank_fill_percent TEXT;
