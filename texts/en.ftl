# What the server says to people, in English; core's part is core/texts/en.ftl, where the syntax is told. Every other
# language has one file for both.

## Dates in sentences

date-day = { $day } { $month ->
        [1] January
        [2] February
        [3] March
        [4] April
        [5] May
        [6] June
        [7] July
        [8] August
        [9] September
        [10] October
        [11] November
       *[12] December
    }
date-day-of-year = { date-day } { $year }

## Why a metering unit must be caught again

trigger-name-never_calibrated = Never calibrated
trigger-name-new_season = New season
trigger-name-crop_changed = Crop changed
trigger-name-lot_changed = Lot changed
trigger-name-seed_weight_changed = Seed weight changed
trigger-name-roller_changed = Roller changed
trigger-name-drive_ratio_changed = Drive ratio changed
trigger-name-gate_changed = Gate opening changed
trigger-name-configuration_changed = Configuration changed
trigger-name-component_replaced = Part replaced
trigger-name-calibration_in_doubt = Number in doubt
trigger-name-roller_speed_off = Roller speed off
trigger-name-drift = Seed use drifts
trigger-name-interval = Interval over
trigger-name-scale_unchecked = Scale not checked

# Who entered the record, for the texts below; they also say what to do.
trigger-by = { $did ->
    [caught] , caught by { $who }
    [checked] , checked by { $who }
    [emptied] , emptied by { $who }
    [filled] , filled by { $who }
    [fitted] , fitted by { $who }
    [logged] , logged by { $who }
    [set] , set by { $who }
    [sown] , sown by { $who }
    [tested] , tested by { $who }
   *[unknown] {""}
}
trigger-again = Catch again before sowing.

trigger-never-calibrated = No catch of this unit was accepted yet; the seeder was commissioned on { $day }. Catch before
    sowing.
trigger-new-season = { $caught ->
    [known] A new season began on { $day }: { $season }; the number was caught before it, on { $caught_on }. { trigger-again }
   *[unknown] A new season began on { $day }: { $season }; the number was caught before it. { trigger-again }
}
trigger-crop-changed = Crop changed on { $day }: { $crop } ({ $lot }){ trigger-by }; the number was caught with
    { $crop_before } ({ $lot_before }). { trigger-again }
trigger-lot-changed = Lot changed on { $day }: { $lot }{ trigger-by }; the number was caught with { $lot_before }.
    { trigger-again }
trigger-lot = lot { $number }
trigger-lot-unknown = another lot
trigger-seed-weight-changed = Seed weight of { $lot } changed on { $day }{ trigger-by }: { $weights }; the tolerances allow
    { $limit } %. { trigger-again }
trigger-bulk-density = bulk density { $now }, { $before } at the catch
trigger-thousand-seed-weight = thousand-seed weight { $now } g, { $before } g at the catch
trigger-configuration-changed = Configuration changed on { $day }{ trigger-by }: { $what }. { trigger-again }
trigger-working-width = working width { $now }, { $before } at the catch
trigger-row-spacing = row spacing { $now }, { $before } at the catch
trigger-runs-in-use = runs in use { $now }, { $before } at the catch
trigger-roller-changed = Roller changed on { $day }: { $roller }{ trigger-by }; the number was caught with { $before }.
    { trigger-again }
trigger-roller-unknown = a roller that is not known
trigger-drive-ratio-changed = Drive ratio changed on { $day }: { $ratio }{ trigger-by }; the number was caught with
    { $before }. { trigger-again }
trigger-gate-changed = Gate opening changed on { $day }: { $gate }{ trigger-by }; the number was caught with { $before }.
    { trigger-again }
trigger-gate = gate { $opening }
trigger-gate-none = no gate
trigger-part-replaced = { $part ->
        [hydraulic_motor] Hydraulic motor
        [electric_motor] Electric motor
        [control_valve] Control valve
        [speed_sensor] Speed sensor
        [meter_housing] Meter housing
        [seal] Seal
        [drive_train] Drive train
        [fan] Fan
        [controller] Controller
       *[other] A part
    } replaced or repaired on { $day }{ trigger-by }, after the number was caught.
trigger-more-services = { $count ->
    [1] One more service followed.
    [one] { $count } more service followed.
   *[other] { $count } more services followed.
}
trigger-doubt-rejected = A later catch on the same basis, of { $day }{ trigger-by }, was rejected. { trigger-again }
trigger-doubt-held = A later catch on the same basis, of { $day }{ trigger-by }, failed and is held for the office. Decide on
    it or catch again before sowing.
trigger-roller-speed-off = Roller speed off since the job of { $day }: the latest job needed { $needed } rpm, the number was
    caught at { $caught } rpm, and the tolerances allow { $limit } %. Check with a catch at the speed you sow at.
trigger-drift = { $jobs ->
    [one] Seed use has drifted since { $day }: over one job it runs { $off } % { $side ->
            [below] below
           *[above] above
        } target, beyond the limit of { $limit } %. Check with a catch.
   *[other] Seed use has drifted since { $day }: over { $jobs } jobs it runs { $off } % { $side ->
            [below] below
           *[above] above
        } target, beyond the limit of { $limit } %. Check with a catch.
}
trigger-interval = Since { $day } the number is due for a check: { $what }. Check with a catch.
trigger-interval-area = { $sown } sown, the tolerances allow { $limit }
trigger-interval-days = { $days ->
    [one] { $days } day old, the tolerances allow { $limit }
   *[other] { $days } days old, the tolerances allow { $limit }
}
trigger-scale-not-named = { $caught ->
    [known] No scale was named for the catch on { $caught_on }. Name a checked one with the next catch.
   *[unknown] No scale was named for the catch. Name a checked one with the next catch.
}
trigger-scale-without-check = { $caught ->
    [known] The scale { $scale } passed no check in the { $days } days before the catch on { $caught_on }. Check it with a
        known mass, then catch again.
   *[unknown] The scale { $scale } passed no check in the { $days } days before the catch. Check it with a known mass, then
        catch again.
}
trigger-scale-failed = The scale { $scale } failed its check on { $day }{ trigger-by }: it showed { $reading } for
    { $reference }. Mend it or take another, then catch again.

## The frame of every page

nav-readiness = Readiness
nav-seeders = Seeders
nav-lots = Lots
nav-outbox = Outbox
nav-keeping = Keeping
nav-people = People
nav-audit = Audit trail
page-skip = Skip to the page



## Forms and what is wrong in them



## Signing in, people and accounts



## The phone: outbox, pages kept, entries refused



## The audit trail



## The fleet: seeders, units, rollers, scales, seasons, labels



## The timeline of a seeder, and voiding a record

record-moment = { date-day-of-year }, { $time }
record-by-host = the host's command line
record-void = Void since { $at }, by { $by }: { $reason }
record-replaced = Replaced by a correction.
record-doubt-clock = The phone’s clock was { $span } { $side ->
        [ahead] ahead
       *[behind] behind
    } when this was sent; times on this record may be off by as much.
record-doubt-dated-later = This is dated { $span } after the server received it; the time on it may be wrong.
record-span-minutes = { $minutes } minutes
record-span-hours = { $hours } hours
record-span-days = { $days } days


## The catch sheet and the calibration record



## Charts



## The rate plan



## Seed lots, tests, stock and tanks



## Clients, fields and jobs



## The readiness board and tolerances



## The rate page and the next gate setting
