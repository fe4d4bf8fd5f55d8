"""The untrue hectares once more: from an exported organization alone, by the rules written anew, against the audit's.

Usage: recompute.py FOLDER, which holds NN.jsonl (an export) and NN.usage.json (what GET /usage says) of each organization.
Exits 1 when one job or one sum differs, when there are fewer than 200 timelines, or when nearly all jobs are alike: then
the check could not fail.
"""

import json
import sys
from collections import defaultdict
from pathlib import Path

import duckdb

from timeline import Farm, Unit, hectares

AGREEMENT = 1e-9
LEAST_TIMELINES = 200
SHARE = (0.15, 0.85)


def rows_of(file):
    """The rows of an export by table."""
    columns = "columns={'table': 'VARCHAR', 'row': 'VARCHAR'}"
    lines = duckdb.sql(f"select \"table\", row from read_json('{file}', format='newline_delimited', {columns}) where row is not null")
    rows = defaultdict(list)
    for table, row in lines.fetchall():
        rows[table].append(json.loads(row))
    return rows


def recomputed(file):
    """Each job that stands: its id, hectares, and the calibration whose factor was in force when it began."""
    farm = Farm(rows_of(file))
    for row in farm.rows["metering_unit"]:
        unit = Unit(farm, row)
        for job in unit.jobs:
            yield row["id"], job["id"], hectares(job["area"]), unit.in_force(farm.moment(job)[0])


def main(folder):
    faults, timelines = [], set()
    jobs = duckdb.connect()
    jobs.execute("create table job (farm text, hectares double, untrue boolean)")
    for file in sorted(Path(folder).glob("*.jsonl")):
        usage = json.loads(file.with_suffix(".usage.json").read_text())
        said = {job["id"]: job for job in usage["jobs"]}
        for unit, job, area, calibration in recomputed(file):
            timelines.add(unit)
            jobs.execute("insert into job values (?, ?, ?)", [file.stem, float(area), calibration is None])
            audited = said.pop(job, None)
            if audited is None:
                faults.append(f"{file.stem}: job {job} is not in the audit")
            elif audited["calibration_valid"] != (calibration is not None) or audited["calibration_id"] != calibration:
                due = [due["trigger"] for due in audited["due"]]
                faults.append(f"{file.stem}: job {job}: here {calibration}, in the audit {audited['calibration_id']}, due {due}")
        faults += [f"{file.stem}: job {job} is in the audit alone" for job in said]
        sums = jobs.execute(
            "select sum(hectares), coalesce(sum(hectares) filter (untrue), 0) from job where farm = ?", [file.stem]
        ).fetchone()
        for ours, name in zip(sums, ("sown", "without_valid_calibration")):
            theirs = float(usage["area"][name]["value"])
            if abs(ours - theirs) > AGREEMENT * max(1.0, abs(ours)):
                faults.append(f"{file.stem}: {name} is {ours} ha here, {theirs} ha in the audit")
    count, untrue, area = jobs.execute(
        "select count(*), count(*) filter (untrue), coalesce(sum(hectares) filter (untrue), 0) from job"
    ).fetchone()
    if len(timelines) < LEAST_TIMELINES:
        faults.append(f"{len(timelines)} timelines with jobs, fewer than {LEAST_TIMELINES}")
    if not count or not SHARE[0] <= untrue / count <= SHARE[1]:
        faults.append(f"{untrue} of {count} jobs are untrue: nearly all are alike, so this proves nothing")
    for fault in faults[:20]:
        print(fault, file=sys.stderr)
    print(f"{len(timelines)} timelines, {count} jobs, {untrue} of them untrue on {area:.2f} ha: {len(faults)} differences")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
