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
nav-main = Main
menu = Menu
page-next-act = Next act
send-now = Send now
sign-in = Sign in
sign-out = Sign out
theme = Page
theme-light = Light
theme-dark = Dark
theme-device = As this device

# Before what is wrong, for who listens to the page; and at the front of its title.
error-before = Error:
problem-back = Back to Readiness
problem-sign-in = Not signed in
problem-sign-in-detail = Sign in, or send a bearer token that is still good.
problem-role = Not for your role
problem-role-detail = Your role in this organization does not allow this. Ask the office.
problem-cross-site = Sent from another site
problem-cross-site-detail = This came from another web site, so nothing was done. Use Sowmark's own page.
problem-not-there = Not there
problem-method = Not done this way
problem-method-detail = This address does not take that method.
problem-conflict = Already taken
problem-unreadable = Cannot be read
problem-too-large = Too large
problem-too-large-detail = This takes at most { $most } KiB. Send less at a time.
problem-media-type = Another kind of content
problem-media-type-detail = This takes { $wanted }.
problem-faults = Understood, but something is wrong
problem-faults-detail = { $count } things are wrong; each is named below. Nothing was stored.
problem-too-many = Too many at once
problem-too-many-detail = Wait { $seconds } seconds, then try again.
problem-unavailable = The records cannot be reached
problem-unavailable-detail = The database does not answer. Nothing was stored; try again in a moment.
problem-broken = Something failed here
problem-broken-detail = Nothing was stored. The server's log says more.

# On the label for a machine's door; the address stands after the last.
door-label-serial-number = Serial number
door-label-opens = Open this machine's page
door-label-or-type = or type

## Forms and what is wrong in them

field-optional = (may be left empty)
field-unit = Unit of: { $label }
form-not-saved = Not saved yet
form-to-mend = All that you typed is still here. To mend:
form-failed = That did not work
choose = Choose
correction = Correction
correction-of-the-named = It replaces the record that was named when it was logged
correction-of-nothing = It replaces nothing

fault-missing = This is missing.
fault-wrong-kind = This is { $given ->
        [flag] true or false
        [list] a list
        [null] null
        [number] a number
        [text] text
       *[object] an object
    }; { $wanted ->
        [entries] a list of entries is wanted
        [flag] true or false is wanted
        [list] a list is wanted
        [number] a number is wanted, as text or as a number
        [number-or-flag] a number, true or false is wanted
        [ratio] a ratio like "5:2" is wanted
        [text] text is wanted
       *[object] an object is wanted
    }.
fault-no-quantity = This is { $given ->
        [flag] true or false
        [list] a list
        [null] null
        [number] a number
        [text] text
       *[object] an object
    }; a { $dimension } is wanted, like { $example }.
fault-field-unknown = Sowmark does not know this field. Known here: { $known }.
fault-word-unknown = “{ $given }” is not known here. Use one of: { $known }.
fault-list-too-long = This has { $count } entries. Send at most { $most }.
fault-batch-too-long = This has { $count } entries. Send at most { $most } at once; nothing was stored.
fault-id-of-nothing = This id stands for nothing. Make a UUIDv7.
fault-no-id = “{ $given }” is not a UUID.
fault-empty = This is empty.
fault-not-one-line = This holds a line break or a control character. Write it on one line.
fault-control-character = This holds a control character. Remove it.
fault-too-long = This has { $length } characters. Use at most { $most }.
fault-year = The year { $year } is out of reach. Use { $first } to { $last }.
fault-no-moment = “{ $given }” is no moment. Write date, time and offset like 2027-04-06T09:40:00+02:00.
fault-no-date = “{ $given }” is no date. Write it like 2027-04-06.
fault-not-whole = { $given } is not a whole number.
fault-out-of-range = { $given } is out of range. Use { $least } to { $most }.
fault-not-above-zero = { $given } is out of range. Use more than 0, at most { $most }.
fault-no-share = { $given } is no share of a whole. Use 0 to 100 percent.
fault-quantity-negative = { $given } is negative. A { $dimension } is not.
fault-quantity-nothing = { $given } is nothing. Give a { $dimension } above zero.
fault-quantity-too-large = { $given } is more than any { $dimension } here can be. Look at the decimal sign and the unit.
fault-no-zone = “{ $given }” is no time zone. Use an IANA name, like Europe/Paris or America/Chicago.
fault-no-email = “{ $given }” is no e-mail address. Write it like ana@example.org.
fault-broke-off = The request broke off.
fault-not-utf-8 = This is not UTF-8.
fault-not-utf-8-at = This is not UTF-8: the byte at { $at } starts no character.
fault-not-there = There is no such { $what ->
        [account] account
        [calibration] calibration
        [check] check
        [client] client
        [configuration] configuration
        [crew] crew
        [emptying] emptying
        [field] field
        [file] file
        [fill] fill
        [form-for-that-kind] form for that kind
        [job] job
        [lay-up] lay-up
        [link] link (it is used already, or too old; ask for a new one)
        [lot] lot
        [lot-test] lot test
        [member] member
        [metering-unit] metering unit
        [metering-unit-on-this-seeder] metering unit on this seeder
        [movement] movement
        [organization] organization
        [page] page
        [record] record
        [refused-entry] refused entry
        [roller] roller
        [scale] scale
        [scale-check] scale check
        [season] season
        [seed-lot] seed lot
        [seeder] seeder
        [service] service
        [session] session
        [setup] setup
        [token] token
        [void] void
        [waiver] waiver
       *[thing] thing
    } here.
fault-no-account = There is no such account as “{ $address }” here.
fault-nothing-to-correct = There is no standing record of this kind to correct here.

# The kind of an entry, in a sentence and alone.
kind-a = { $kind ->
        [organization] an organization
        [account] an account
        [membership] a membership
        [session] a session
        [token] a token
        [client] a client
        [crew] a crew
        [seeder] a seeder
        [metering_unit] a metering unit
        [roller] a roller
        [lot] a lot
        [season] a season
        [scale] a scale
        [field] a field
        [configuration] a configuration
        [setup] a setup
        [service] a service
        [lay_up] a lay up
        [fill] a fill
        [emptying] an emptying
        [job] a job
        [lot_test] a lot test
        [movement] a movement
        [scale_check] a scale check
        [calibration] a calibration
        [decision] a decision
        [waiver] a waiver
        [policy] a policy
        [void] a void
       *[entry] an entry
    }
kind-name = { $kind ->
        [organization] organization
        [account] account
        [membership] membership
        [session] session
        [token] token
        [client] client
        [crew] crew
        [seeder] seeder
        [metering_unit] metering unit
        [roller] roller
        [lot] lot
        [season] season
        [scale] scale
        [field] field
        [configuration] configuration
        [setup] setup
        [service] service
        [lay_up] lay up
        [fill] fill
        [emptying] emptying
        [job] job
        [lot_test] lot test
        [movement] movement
        [scale_check] scale check
        [calibration] calibration
        [decision] decision
        [waiver] waiver
        [policy] policy
        [void] void
       *[entry] entry
    }
conflict-id-stands = The id { $id } already stands for { kind-a } with other content. Nothing was changed; what was sent is kept.
    Send it under a new id if it is another event.
conflict-id-taken = The id { $id } is taken. Give the { kind-name } another id.

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

lots-title = Seed lots
lots-add = Add a seed lot
lots-none = No lot yet.
lots-none-what = A lot is what a factor is true for: its number, crop and variety, the label’s analysis and treatment, and
    what
    was measured of it since.
lots-none-keep = Add the first from its label.
lots-none-office = The office adds lots.
lots-lot = Lot
lots-treated = Treated
lots-not-treated = no
lots-rate-plan = Rate plan: from plants wanted to a rate
lot-called = { $named ->
    [variety] { $crop }, { $variety }, lot { $number }
   *[crop] { $crop }, lot { $number }
}
lot-called-treated = { $lot } (treated)
lot-choose = Choose the lot
lot-choose-none = No lot is kept yet. The office adds lots; then they can be chosen here.

lot-intro = Copy it from the label. What is not on it can be left empty.
lot-number = Lot number
lot-number-hint = As printed on the label or the tag.
lot-material = What it is
lot-material-seed = Seed
lot-material-fertilizer = Fertilizer
lot-material-other = Another dry product
lot-crop = Crop
lot-crop-hint = The species, such as winter wheat; for another dry product its name. Write it the same way each time.
lot-product = Product
lot-variety = Variety
lot-supplier = Supplier
lot-received-on = Received on
lot-received-mass = Mass received
lot-treated-with = Treated with
lot-treated-with-hint = The product named on the label. Leave it empty if the seed is not treated.
lot-caution = What the label warns of
lot-caution-hint = In the label’s own words. It is shown to whoever fills, catches or empties.
lot-tested-on = Date of the label’s test
lot-submit = Add the lot

lot-title = Lot { $number }
lot-of-client = of { $client }
lot-record-test = Record a test
lot-label = Label
lot-purity = Purity
lot-germination = Germination
lot-label-test = Label’s test
lot-treatment = Treatment
lot-treatment-none = none
lot-tests = Tests
lot-tests-none = Nothing was measured of this lot yet. Its seed weight and bulk density tell when a factor no longer holds
    for it.
lot-factors = Its factors

test-tested = Tested
test-thousand-seeds = Thousand seeds
test-bulk-density = Bulk density
test-germination = Germination, %
test-purity = Purity, %
test-moisture = Moisture, %
test-title = Test of { $lot }
test-intro = Give what was measured, at least one value; leave the rest empty.
test-when = When it was tested
test-thousand-seed-weight = Thousand-seed weight
test-thousand-seed-weight-hint = When it differs from the test at the last catch by more than the tolerance, the units with
    this
    lot are due again.
test-bulk-density-entered = Bulk density (test weight)
test-submit = Record the test
test-of-nothing = This test measured nothing. Give at least one of seed weight, bulk density, germination, purity, moisture.

stock-title = Stock
stock-record = Record a movement or a count
stock-received = Received
stock-filled = Filled into tanks
stock-returned = Returned, also from tanks
stock-sold = Sold
stock-discarded = Discarded
stock-expected = Should be in stock
stock-latest-count = Latest count
stock-counted = { $side ->
    [less] { $counted }, { $difference } less than expected then
   *[more] { $counted }, { $difference } more than expected then
}
stock-unweighed = { $fills ->
    [one] One fill or emptying was not weighed, so this balance does not know it.
   *[other] { $fills } fills or emptyings were not weighed, so this balance does not know them.
}
stock-movements = Movements

movement-title = Movement of { $lot }
movement-intro = What was put into a tank or taken out of one is logged at the seeder, not here. A count changes nothing; it
    tells
    how much is unaccounted for.
movement-kind = What happened
movement-received = Received
movement-returned = Returned to the store
movement-sold = Sold
movement-discarded = Discarded
movement-counted = Counted: found in the store
movement-what = What
movement-submit = Record the movement
movement-of-nothing = A movement of nothing is none. Give the mass that moved; only a count may find nothing.

went-title = Where it went
went-nowhere = It was filled into no tank yet. Fills, emptyings and jobs are logged from the seeder’s page.
went-nowhere-you-see = It was filled into no tank yet that you see. Fills, emptyings and jobs are logged from the seeder’s page.
went-filled = Filled: { $mass }
went-emptied = { $empty ->
    [yes] Emptied, to empty: { $mass }
   *[no] Emptied, not to empty: { $mass }
}
went-not-weighed = not weighed
went-sown = Sown on { $field }: { $seed } on { $area }, target { $rate }

tank-filled-title = { $seeder }, { $unit }: tank filled
tank-filled-intro = Another lot on top of what is left makes a mix: the later lot counts as in the tank. Empty it first, and
    log
    that, where you can.
tank-filled-submit = Log the fill
tank-emptied-title = { $seeder }, { $unit }: tank emptied
tank-emptied-intro = Weigh what comes out if you can: it goes back to the lot’s stock.
tank-emptied-submit = Log the emptying
tank-mass-hint = Leave it empty if nobody weighed.
tank-mass-nothing = The mass is zero. Give what was weighed, or leave it out if nobody weighed.
tank-empty-now = Is the tank empty now?
tank-empty-now-yes = Yes, nothing is left
tank-empty-now-no = No, some is left in it

log-when = When
log-mass = Mass
log-note = Note
log-by = By

## Clients, fields and jobs

clients-title = Clients
clients-none = No client yet.
clients-none-what = A client is somebody for whom you sow. Fields and seed lots can belong to one, and an agronomist’s
    account can be
    limited to some. Who sows only for themselves needs none.
client-add = Add a client
client-name = Name
client-name-hint = For whom you sow: fields and lots can then belong to them.
client-submit = Add the client
client-whose = Client
client-own = Our own
client-own-short = own

fields-title = Fields
fields-none = No field yet.
fields-none-what = A field that is named here can be chosen when a job is logged, so that its jobs stand together season after
    season.
fields-none-keep = Add one with its name and the area that is sown.
fields-none-office = The office adds fields; until then a job takes the field’s name as you type it.
fields-field = Field
fields-area = Area
fields-add = Add a field
fields-name = Name
fields-area-sown = Area that is sown
fields-submit = Add the field

job-title = { $seeder }, { $unit }: job finished
job-intro = What was sown, on how much land. Weighed seed is what shows a number that has drifted.
job-began = Began
job-ended = Ended
job-ended-too-early = The job ended before it began. Look at both times.
job-field = Field
job-field-hint = Its name as your people say it.
job-field-other = Another, named below
job-field-not-listed = Name of a field that is not in the list
job-field-missing = The field is missing. Choose one of the fields, or give its name as `field`.
job-field-twice = The field is given twice. Choose one of the fields or name one, not both.
job-area = Area sown
job-seed-used = Seed used
job-seed-used-hint = What went in, less what was left.
job-basis = How the seed used is known
job-basis-hint = The machine’s own total cannot show that its number is wrong.
job-basis-weighed = Weighed
job-basis-bags = Bags counted
job-basis-machine-total = What the machine shows
job-target-rate = Target rate
job-speed = Speed
job-submit = Log the job

## The readiness board and tolerances

state-ready = Ready
state-check = Check
state-calibrate = Calibrate
state-empty = Empty
state-laid-up = Laid up
outcome-pass = Pass
outcome-remark = Remark
outcome-fail = Fail
verdict-pass = Pass
verdict-pass-with-remarks = Pass with remarks
verdict-fail = Fail
status-accepted = Accepted
status-held = Held for the office
status-rejected = Rejected
status-void = Void

board-as-of = As of { $moment }, as known now.
board-show-now = Show now
board-see-refused = See what was sent, and why
board-all = All
board-crew = Crew
board-crews-all = All crews
board-crop = Crop in the tank
board-crops-all = All crops
board-at = As of
board-at-no-moment = This is no moment. Give date and time; what is shown is now.
board-show = Show
board-none = No unit is like that.
board-none-show = Show all units as they are now
board-tank-empty = Nothing in the tank
board-tank = { $named ->
    [variety] { $crop } { $variety }, { $lot }
    [crop] { $crop }, { $lot }
   *[lot] { $lot }
}
board-tank-mixed = { $tank }; mixed with { $others }
board-caught = Caught on { $day }.
board-recalled = Recalled: caught on { $day }, before a later catch with other settings or seed.
board-let-pass = Let it pass
board-passed = { $by ->
    [known] Let pass until { $until } by { $who }: { $reason }
   *[unknown] Let pass until { $until }: { $reason }
}
board-cause-calibration = The catch
board-cause-configuration = The configuration
board-cause-emptying = The emptying
board-cause-fill = The fill
board-cause-job = The job
board-cause-lots = The lots
board-cause-scales = The scales
board-cause-season = The season
board-cause-seeder = The seeder
board-cause-service = The service
board-cause-setup = The setup
board-log-catch = Log a catch
board-log-fill = Log a fill
board-log-setup = Log its setup
board-look-at-catch = Look at the catch
board-roller-speed = Roller speed

start-none = No metering unit yet.
start-none-what = Here each tank of each seeder gets a line: what is in it, the number to key in, and why it must be caught
    again. To
    begin:
start-none-yours = No metering unit to show.
start-none-yours-what = Here each tank of your seeders gets a line. Ask the office to assign a seeder to you.
start-done = { $step }: done
start-seeder = Add a seeder
start-seeder-why = With its tanks: each is a metering unit.
start-roller = Add a meter roller
start-roller-why = A unit's setup names the one fitted.
start-lot = Add a seed lot
start-lot-why = A number is true for one lot.
start-season = Add a season
start-season-why = A new one asks for new catches.
start-people = Add people
start-people-why = A crew logs from its phones.

waiver-title = Let a reason pass
waiver-intro = The reason stays on the board, marked as let pass, with your name and what you write here. When the time is
    over it
    counts again.
waiver-trigger = Reason on { $seeder }, { $unit }
waiver-from = From
waiver-until = Until the end of
waiver-reason = Why it may pass
waiver-reason-hint = Such as: “same lot, rebagged; caught last week”.
waiver-submit = Let it pass
waiver-never-calibrated = A unit that was never calibrated has no number to let pass. Log a catch instead of a waiver.
waiver-ends-too-early = The waiver would end before it begins. Give an end after its beginning.
waiver-over = This is over already. Give an end that lies ahead.

tolerances-title = Tolerances
tolerances-lead = A calibration is judged by the tolerances in force when it is recorded. A change applies from now on; what
    was
    judged before stays as it was.
tolerances-submit = Keep these tolerances
tolerances-range = From { $least } to { $most }.
tolerances-changes = Changes
tolerances-unchanged = Nothing was changed yet: the defaults are in force.
tolerances-changed = { $tolerance }: { $now }, was { $before }
tolerances-off = off
tolerances-yes = yes
tolerances-no = no
tolerances-unknown = Sowmark does not know this tolerance. { $address } lists them.

## The rate page and the next gate setting

rate-title = Roller speed: { $seeder }, { $unit }
rate-no-number = { $why ->
    [empty] No number is in force for { $seeder }, { $unit }: its tank is empty. Log what is filled.
    [stopped] No number is in force for { $seeder }, { $unit }. { $stop }
   *[nothing] No number is in force for { $seeder }, { $unit }. Log its setup and a catch.
}
rate-log-catch = Log a catch
rate-next-gate = Next gate setting
rate-with-number = With the number in force
rate-roller-speed = Roller speed for { $rate } at { $speed }
rate-beyond = The drive cannot hold this: it needs { $needed } rpm, the drive turns { $least } to { $most } rpm. { $advice ->
    [slower] Drive slower
    [faster] Drive faster
   *[ratio] Take another ratio
}, or change the roller or the gate and catch again.
rate-nothing-gives = No roller speed gives this rate. Look at rate and speed.
rate-number = Number to key in
rate-number-per-run = The same, per run
rate-turns-needed = Roller turns that the rate needs
rate-per-metre = per metre driven
rate-speeds = Driving speeds at this rate
rate-rates = Rates at this speed
rate-between = { $least } to { $most }
rate-and-driving-speed = Rate and driving speed
rate-and-driving-speed-table = Roller speed for rate and driving speed
rate-rate = Rate
rate-table-blank = Roller speed in rpm. Blank: the drive cannot hold it; it turns { $least } to { $most } rpm.
rate-table-whole = Roller speed in rpm. The drive, { $least } to { $most } rpm, holds all of them.
rate-table-unknown = Roller speed in rpm. What the drive can hold is not known, so nothing is left blank.

rate-ground = The ground drive
rate-ground-sows = The ratio of the setup, { $ratio }, sows
rate-ground-needs = The rate wanted needs the ratio
rate-roller-to-wheel = roller to wheel
rate-ground-turns = Roller turns at the ratio of the setup
rate-ground-way = Way per turn of the wheel
rate-ground-way-entered = { $way }, as entered with the catch
rate-ground-slip = Slip reckoned with
rate-ground-speed = Roller speed at the ratio of the setup
rate-ground-unknown = Give the way per turn of the drive wheel below; then the rate of the ratio, the ratio for the rate and
    the turns
    to crank are shown too.
rate-ratios = Rate for a ratio
rate-ratios-wheel = Roller to wheel
rate-ratios-rate = Rate, { $unit }
rate-ratios-turns = Roller turns per metre
rate-ratios-note = Another ratio is another setup: log it, and catch again before sowing.
rate-crank = Turns to crank
rate-crank-area = Area
rate-crank-wheel = Turns of the wheel
rate-crank-roller = Turns of the roller
rate-crank-seed = Seed of all runs
rate-crank-note = At the ratio of the setup. The seed is what the number in force expects of all runs together.

rate-and-speed = Rate and speed
rate-driving-speed = Driving speed
rate-way = Way per turn of the drive wheel
rate-way-hint = Under load, at working depth: drive a measured way and divide it by the turns of the wheel.
rate-slip = Slip, %
rate-slip-hint = Only where the way per turn was measured without load.
rate-area = Area to crank
rate-submit = Show the roller speed
rate-from-plants = From plants wanted to a rate

gate-title = Next gate setting: { $seeder }, { $unit }
gate-first-guess = A first guess
gate-begin-at = Setting to begin at
gate-how = { $setting } times { $wanted }, over { $measured }
gate-log-catch = Log a catch at it
gate-log-setup = Log the new setup
gate-old-and-wanted = Old and wanted
gate-lead = If flow followed the setting in a straight line, the new setting would be the old one times wanted over measured.
    It does
    so only nearly: this says where to begin, and a new catch says what it is.
gate-setting = Old setting
gate-setting-hint = As the scale of the gate, lever or gearbox shows it.
gate-measured = What it gave
gate-measured-hint = { $filled ->
    [yes] The number in force is filled in. Anything that was caught at the old setting will do.
   *[no] What was caught at the old setting: a factor or a rate.
}
gate-wanted = What is wanted
gate-wanted-hint = In the same unit.
gate-unit-unknown = “{ $given }” is no unit of this. Use one of: { $units }.
gate-submit = Show where to begin
