"""Whether a factor was in force when a job began, by the rules of the domain alone, from the exported rows alone.

Written anew: nothing here was taken from core. Only what decides about a stop is looked at; what only says "check" lets a
factor stand.
"""

import json
from datetime import datetime, time
from fractions import Fraction
from zoneinfo import ZoneInfo

LENGTHS = {"mm": Fraction(1, 1000), "cm": Fraction(1, 100), "m": Fraction(1), "in": Fraction(254, 10000), "ft": Fraction(3048, 10000)}
AREAS = {"m2": Fraction(1, 10000), "ha": Fraction(1), "ac": Fraction("0.40468564224")}
DEFAULTS = {"recall_allowed": True, "seed_weight_tolerance_percent": 3.0}


def instant(text):
    return datetime.fromisoformat(text.replace("Z", "+00:00"))


def measured(text, units):
    value, unit = text.rsplit(" ", 1)
    return Fraction(value) * units[unit]


def hectares(text):
    return measured(text, AREAS)


def ratio(text):
    above, _, below = text.partition(":")
    return Fraction(above) / Fraction(below or "1")


def key(crop):
    return crop.strip().lower()


class Farm:
    """The rows of an export, what stands of them, and in which order."""

    def __init__(self, rows):
        self.rows = rows
        [organization] = rows["organization"]
        self.zone = ZoneInfo(organization["time_zone"])
        self.entries = {entry["id"]: entry for entry in rows["entry"]}
        void = {row["record_id"] for row in rows.get("void", [])}
        replaced = {entry["corrects"] for entry in rows["entry"] if entry["corrects"] and entry["id"] not in void}
        self.gone = void | replaced
        self.lots = {lot["id"]: lot for lot in rows["lot"]}
        self.tests = self.standing("lot_test")
        self.policies = self.standing("policy")
        decisions = {row["calibration_id"]: row["decision"] for row in self.standing("decision")}
        self.accepted = {}
        for row in rows.get("calibration", []):
            self.accepted[row["id"]] = decisions.get(row["id"], "rejected" if row["verdict"] == "fail" else "accepted") == "accepted"

    def moment(self, row):
        entry = first = self.entries[row["id"]]
        # Of two records of one moment the one that was recorded first comes first, also when it was corrected since.
        while first["corrects"]:
            first = self.entries[first["corrects"]]
        return instant(entry["occurred_at"] or entry["recorded_at"]), instant(first["recorded_at"]), row["id"]

    def standing(self, table):
        return sorted((row for row in self.rows.get(table, []) if row["id"] not in self.gone), key=self.moment)

    def tolerances(self, at):
        known = [row for row in self.policies if self.moment(row)[0] <= at]
        return {**DEFAULTS, **json.loads(known[-1]["tolerances"])} if known else DEFAULTS

    def weights(self, lot, at):
        """The latest known thousand-seed weight and bulk density, each on its own."""
        known = {}
        for test in self.tests:
            if test["lot_id"] == lot and self.moment(test)[0] <= at:
                known.update({name: test[name] for name in ("thousand_seed_weight", "bulk_density") if test[name]})
        return {name: Fraction(text.split(" ")[0]) for name, text in known.items()}

    def season_began(self, at, lot):
        """When the season in force for the crop of a lot began."""
        crop = key(self.lots[lot]["crop"])
        starts = []
        for season in self.rows.get("season", []):
            crops = [key(own) for own in json.loads(season["crops"] or "null") or []]
            start = datetime.combine(datetime.fromisoformat(season["starts_on"]).date(), time(), self.zone)
            if start <= at and (not crops or crop in crops):
                starts.append(start)
        return max(starts, default=None)


class Unit:
    """What was recorded of one metering unit."""

    def __init__(self, farm, unit):
        self.farm = farm
        of_unit = lambda table: [row for row in farm.standing(table) if row["metering_unit_id"] == unit["id"]]
        of_seeder = lambda table: [row for row in farm.standing(table) if row["seeder_id"] == unit["seeder_id"]]
        self.configurations, self.setups = of_seeder("configuration"), of_unit("setup")
        self.services = [row for row in of_seeder("service") if row["affects_metering"] and row["metering_unit_id"] in (None, unit["id"])]
        self.calibrations, self.jobs, self.waivers = of_unit("calibration"), of_unit("job"), of_unit("waiver")
        said = self.calibrations + self.jobs + of_unit("fill") + [row for row in of_unit("emptying") if row["to_empty"]]
        self.tank = sorted(said, key=farm.moment)

    def latest(self, rows, at):
        known = [row for row in rows if self.farm.moment(row)[0] <= at]
        return known[-1] if known else None

    def lot(self, at):
        last = self.latest(self.tank, at)
        return None if last is None or "to_empty" in last else last["lot_id"]

    def basis(self, at, lot):
        """What the unit is like at a moment: what a factor found then is true for."""
        return {
            "at": at,
            "lot": lot,
            "setup": self.latest(self.setups, at),
            "configuration": self.latest(self.configurations, at),
            "weights": self.farm.weights(lot, at),
        }

    def differences(self, then, now, tolerance):
        """The stop triggers that lie in machine, seed and season."""
        found = set()
        began = self.farm.season_began(now["at"], now["lot"])
        if began is not None and began > then["at"]:
            found.add("new_season")
        if then["lot"] != now["lot"]:
            crops = [key(self.farm.lots[basis["lot"]]["crop"]) for basis in (then, now)]
            found.add("lot_changed" if crops[0] == crops[1] else "crop_changed")
        else:
            for name, was in then["weights"].items():
                if name in now["weights"] and abs(float(now["weights"][name] / was) - 1) * 100 > tolerance + 1e-9:
                    found.add("seed_weight_changed")
        return found | self.machine(then, now)

    def machine(self, then, now):
        found = set()
        was, fitted = then["setup"], now["setup"]
        if was is None or fitted is None:
            found.add("roller_changed")
        else:
            gates = [(setup["gate"] or "").strip() for setup in (was, fitted)]
            if was["roller_id"] != fitted["roller_id"]:
                found.add("roller_changed")
            if ratio(was["drive_ratio"]) != ratio(fitted["drive_ratio"]):
                found.add("drive_ratio_changed")
            if gates[0] != gates[1]:
                found.add("gate_changed")
            if was["runs"] != fitted["runs"]:
                found.add("configuration_changed")
        for name in ("working_width", "row_spacing"):
            lengths = [measured(basis["configuration"][name], LENGTHS) for basis in (then, now) if basis["configuration"]]
            if len(set(lengths)) > 1:
                found.add("configuration_changed")
        return found

    def stops(self, calibration, now, tolerance):
        """Every stop trigger against a calibration."""
        moment = self.farm.moment(calibration)
        then = self.basis(moment[0], calibration["lot_id"])
        found = self.differences(then, now, tolerance)
        if any(moment < self.farm.moment(row) and self.farm.moment(row)[0] <= now["at"] for row in self.services):
            found.add("component_replaced")
        later = [row for row in self.calibrations if moment < self.farm.moment(row) and self.farm.moment(row)[0] <= now["at"]]
        same = [row for row in later if not self.differences(then, self.basis(self.farm.moment(row)[0], row["lot_id"]), tolerance)]
        if same and not self.farm.accepted[same[-1]["id"]]:
            found.add("calibration_in_doubt")
        return found

    def in_force(self, at):
        """The calibration whose factor was in force at a moment, or none."""
        policy, lot = self.farm.tolerances(at), self.lot(at)
        if lot is None or self.latest(self.setups, at) is None:
            return None
        now, tolerance = self.basis(at, lot), policy["seed_weight_tolerance_percent"]
        accepted = [row for row in self.calibrations if self.farm.moment(row)[0] <= at and self.farm.accepted[row["id"]]]
        if not accepted:
            return None
        newest_first = accepted[::-1] if policy["recall_allowed"] else accepted[-1:]
        for calibration in newest_first:
            if not self.stops(calibration, now, tolerance):
                return calibration["id"]
        waived = {row["trigger_name"] for row in self.waivers if self.farm.moment(row)[0] <= at < instant(row["until_at"])}
        return accepted[-1]["id"] if self.stops(accepted[-1], now, tolerance) <= waived else None
