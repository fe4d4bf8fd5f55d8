-- How a person reads numbers: null units are those of the organization.
ALTER TABLE account ADD COLUMN units TEXT CHECK (units IN ('metric', 'us'));
ALTER TABLE account ADD COLUMN decimal_sign TEXT NOT NULL DEFAULT 'point' CHECK (decimal_sign IN ('point', 'comma'));

-- How well a factor is known, percent of it at 95 %, beside the factor: a number is shown with no more digits than that.
ALTER TABLE calibration ADD COLUMN expanded_uncertainty_percent REAL NOT NULL DEFAULT 0;
UPDATE calibration SET expanded_uncertainty_percent = json_extract(judgement, '$.expanded_uncertainty_percent');
