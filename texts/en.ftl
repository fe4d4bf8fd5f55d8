# What the server says to people, in English; core's part is core/texts/en.ftl, where the syntax is told. Every other
# language has one file for both.

## Dates in sentences

date-month = { $month ->
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
date-day = { $day } { date-month }
date-day-of-year = { date-day } { $year }
date-month-of-year = { date-month } { $year }

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
trigger-crop-changed = Crop changed on { $day }: { $crop } ({ $lot }){ trigger-by }; the number was caught with { $before ->
        [known] { $crop_before } ({ $lot_before })
       *[unknown] another crop
    }. { trigger-again }
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
trigger-doubt-held = A later catch on the same basis, of { $day }{ trigger-by }, failed and is held until the office
    decides on it. Without its decision, catch again before sowing.
trigger-roller-speed-off = Roller speed off since the job of { $day }: the latest job needed { $needed } rpm, the number was
    caught at { $caught } rpm, and the tolerances allow { $limit } %. Check with a catch at the speed you sow at.
trigger-drift = { $jobs ->
    [one] Seed use has drifted since { $day }: smoothed over one job it runs { $off } % { $side ->
            [below] below
           *[above] above
        } target, beyond the limit of { $limit } %. Check with a catch.
   *[other] Seed use has drifted since { $day }: smoothed over { $jobs } jobs it runs { $off } % { $side ->
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

field-optional = optional
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
        [ratio] a ratio like “5:2” is wanted
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
    }; the { $dimension } is wanted, like { $example }.
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
fault-ahead = This lies more than a day ahead. Log what has happened: look at the day, the month and the year.
fault-year = The year { $year } is out of reach. Use { $first } to { $last }.
fault-no-moment = “{ $given }” is no moment. Write date, time and offset like 2027-04-06T09:40:00+02:00.
fault-no-date = “{ $given }” is no date. Write it like 2027-04-06.
fault-no-month = “{ $given }” is no month. Write year and month, like 2027-03.
fault-not-whole = { $given } is not a whole number.
fault-out-of-range = { $given } is out of range. Use { $least } to { $most }.
fault-not-above-zero = { $given } is out of range. Use more than 0, at most { $most }.
fault-no-share = { $given } is no share of a whole. Use 0 to 100 percent.
fault-quantity-negative = { $given } is negative, which no { $dimension } can be.
fault-quantity-nothing = { $given } is nothing. The { $dimension } must be above zero.
fault-quantity-too-small = { $given } is less than any { $dimension } here can be. Look at the decimal sign and the unit.
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
        [feed-address] secret address
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
        [signature] signature
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
        [feed_address] a secret address
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
        [signature] a signature
        [waiver] a waiver
        [policy] a policy
        [task_file] a file of task data
        [void] a void
       *[entry] an entry
    }
kind-name = { $kind ->
        [organization] organization
        [account] account
        [membership] membership
        [session] session
        [token] token
        [feed_address] secret address
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
        [signature] signature
        [waiver] waiver
        [policy] policy
        [task_file] file of task data
        [void] void
       *[entry] entry
    }
conflict-id-stands = The id { $id } already stands for { kind-a } with other content. Nothing was changed; what was sent is kept.
    Send it under a new id if it is another event.
conflict-id-taken = The id { $id } is taken. Give the { kind-name } another id.

## Signing in, people and accounts

email-address = E-mail address
password = Password
password-new = New password
password-in-use = Password in use
password-hint = At least { $least } characters. A few words of your own are easy to remember and hard to guess.
password-is-set = The password is set. Sign in with it.
password-set = Set the password
password-set-title = Set your password
password-set-intro = The link works once. Then sign in with your e-mail address and this password.
password-change = Change the password
password-change-title = Change your password
password-change-intro = You stay signed in here; everywhere else you will have to sign in again.
password-too-short = It has { $length } characters. Use at least { $least }; a few words are easier to remember.
password-too-long = It has { $length } characters. Use at most { $most }.
password-guessed = It is one of the first that anybody would guess. Use a few words of your own.
password-repeats-itself = It is one character over and over. Use a few words of your own.
password-does-not-fit = This is not the password in use. Look for a typing slip.
password-of-others-too = This person is a member of another organization too, so this office may not set the password. They
    change it themselves while signed in, or whoever runs the server makes a link: { $command }.
sign-in-does-not-fit = This address and password do not fit. Look for a typing slip, or ask the office for a new link.

set-up-title = Set up Sowmark
set-up-intro = Nobody has an account here yet. This makes your organization and your own office account, and signs you in.
    The link works once.
set-up-submit = Set up and sign in
set-up-organization = Organization
set-up-organization-hint = The farm or contractor whose records these are.
set-up-zone = Time zone
set-up-zone-none = Choose one
set-up-zone-hint = Its days and seasons begin at midnight there.
set-up-units = Units that your people read
set-up-units-metric = metric (g, kg, m, ha)
set-up-units-us = US (oz, lb, ft, ac)
set-up-name = Your name
set-up-email = Your e-mail address
set-up-email-hint = You sign in with it. Nothing is sent to it unless you ask for it.

reading = How you read
reading-units = Units
reading-units-organization = As { $organization } does ({ $units })
reading-units-metric = metric: kg, ha, km/h
reading-units-us = US: lb, ac, mph
reading-decimal = Decimal sign
reading-decimal-point = A point: 12.5
reading-decimal-comma = A comma: 12,5
reading-decimal-hint = How numbers are shown to you. When you type, both are taken.
reading-language = Language
reading-language-browser = As your browser asks
reading-submit = Show it so

organizations = Organizations
organization-here = You are here now.
organization-go = Go to { $name }
sessions = Where you are signed in
sessions-none = Nowhere.
sessions-end-others = Sign out everywhere else
tokens = Tokens for programs
tokens-note = A program that reads or logs in your name sends a token with each request.
tokens-none = No token yet.
token-label = What it is for
token-label-hint = To know it by when it must be ended.
token-make = Make a token
token-end = End the token
token-new-title = Your new token
token-of-title = A token for { $name }
token-once = This is the token for “{ $label }”. It is shown this once: copy it now. Whoever has it can do what its owner may
    do here, for a year or until it is ended.
link-title = A link for { $name }
link-once = Give this link to that person alone: whoever opens it first sets the password. It works once, within a week, and
    is shown this once.
once-done = Done: I have it
opened-this-one = this one
opened-since = Since { $since }. Last seen: { $used }.
opened-never = never
device = { $browser } on { $system }
device-system = A browser on { $system }
device-unknown = Unknown device

role = Role
role-name = { $role ->
    [agronomist] agronomist
    [office] office
   *[crew] crew
}
role-does = { $role ->
    [agronomist] agronomist: reads, tests lots, signs audits
    [office] office: keeps everything
   *[crew] crew: sees and logs for the seeders of its crews
}
keep-the-change = Keep the change
back-without-a-change = Back without a change
members = Members
member-name = Name
member-email-hint = They sign in with it. Nothing is sent to it unless they ask for it.
member-add = Add a member
member-add-submit = Add the member
member-add-intro = You get a link to hand over, with which they set their own password. Who has an account already keeps it,
    with its name and password.
member-in-no-crew = in no crew, so sees no seeder
member-ended = no longer a member
member-ended-note = No longer a member. To let them in again, add a member with the same e-mail address.
member-role-note = With another role they have to sign in again.
member-sessions = Signed in on
member-sessions-note = A lost phone is cut off at once when it is signed out here.
member-sessions-none = Nowhere at the moment.
member-sign-out = Sign it out
member-tokens-none = No token.
member-password-note = Who has lost it gets a new link. The old password works until the link is used.
member-new-link = Make a new link
member-end = End the membership
member-end-note = It ends their sessions, tokens and places in crews at once. What they recorded stays, with their name.
clients-only = Only these clients
clients-hint = For an agronomist only: tick clients to let them see nothing but what concerns these. Of the machines they see
    the facts, never the office’s notes and reasons. None ticked means no limit.
clients-meanwhile = Meanwhile another changed for which clients. Below is what you ticked; save again to put it in place of theirs.
clients-of-an-agronomist = Only an agronomist can be limited to clients. Leave them out, or make the role agronomist.
office-needs-one = This is the only office member. Make somebody else office first.

crews = Crews
crews-none = No crew yet. A crew says which people see and log for which seeders; who is in none sees no seeder.
crew-add = Add a crew
crew-add-submit = Add the crew
crew-intro = Members of a crew see the seeders that are ticked here, log for them, and see no others.
crew-name = Name
crew-name-hint = What your people call it, such as “yard crew”.
crew-of-nobody = Nobody
crew-without-seeder = no seeder yet
crew-members-none = Nobody to tick yet: add a member first.
crew-seeders-none = No seeder yet: add one under Seeders, then come back.
crew-member-twice = This member is named twice. Name each once.
crew-seeder-twice = This seeder is named twice. Name each once.

## What is due, brought to people: feeds and notices

notices-title = What is due, brought to you
notices-intro = Everything on your machines that waits to be caught again or checked, and what the calendar brings next. Have
    it where you look anyway: in your calendar, or in a news reader.
notices-due = Due now
notices-due-none = Nothing is due.
notices-coming = Comes due
matter-unit = { $seeder }, { $unit }: { $reason }
matter-coming = Due on { $day }: { $says }
matter-coming-interval = { $days ->
    [one] Due on { $day }: { $days } day since the catch. Check with a catch then, or before.
   *[other] Due on { $day }: { $days } days since the catch. Check with a catch then, or before.
}
matter-coming-season = Due on { $day }: the season { $season } begins. Catch again before sowing in it.
matter-coming-passed = Due again on { $day }, when it is no longer let pass. { $says }
matter-scale = { $scale }: check with a known mass
matter-scale-why = { $how ->
    [never] Nobody has checked the scale “{ $scale }” with a known mass, and catches were weighed on it. Read a known mass on it
        and log the check.
    [failed] The scale “{ $scale }” failed its check of { $checked }. Have it put right, then read a known mass on it and log
        the check.
    [over] The scale “{ $scale }” was last checked on { $checked }, longer ago than your tolerances allow. Read a known mass on
        it and log the check.
   *[other] Due on { $day }: { $days } days since the scale “{ $scale }” was checked on { $checked }. Read a known mass on it
        and log the check, before the next catch after that day.
}
feed = Calendar and news
feed-name = Due at { $organization }
feed-note = Your calendar and your news reader can fetch what is due from an address of your own. It is secret: whoever has it
    reads what you may see, without signing in, until you end it. It ends with your membership too.
feed-since = You have had an address since { $since }. Last read: { $read }.
feed-of-member = Since { $since } this person's calendar or news reader can fetch what is due at a secret address. Last read:
    { $read }.
feed-make = Make my address
feed-renew = Make a new address
feed-renew-note = The one before ends at once, wherever it is in use.
feed-end = End the address
feed-once-title = Your secret address
feed-once = It is shown this once: copy what you need now. Give it to nobody; whoever has it reads what you may see.
feed-once-calendar = For a calendar
feed-once-calendar-note = In your calendar, add a calendar by its address and paste this one.
feed-once-news = For a news reader
feed-once-news-note = In your news reader, add a feed and paste this address.
feed-once-clients = For one client alone
feed-once-clients-note = Add one of these to the end of either address, and it tells only what concerns that client's seed and fields.

digest = By e-mail
digest-note = A letter with what came due since the last one, and none when nothing did. Nobody gets one who has not chosen it
    here, and each letter can be stopped from by one click.
digest-off = This server sends no e-mail. Whoever runs it can switch that on.
digest-every = A letter
digest-every-none = Never
digest-every-daily = Every day
digest-every-weekly = Every Monday
digest-hour = At
digest-hour-hint = By the clock of your organization.
digest-submit = Keep this choice
digest-next = Your next letter goes out on { $when }. As things stand, it says:
digest-next-none = Your next letter goes out on { $when }, if anything comes due until then.
digest-recipients = Who gets letters
digest-gets = { $every ->
    [daily] Every day at { $hour }.
   *[weekly] Every Monday at { $hour }.
}
digest-last = { $state ->
    [sent] The last letter went out on { $when }.
    [nothing] On { $when } there was nothing new to tell, so no letter went out.
    [waiting] A letter is on its way.
    [failed] The last letter was given up on { $when }: { $problem }. The next one tells what it would have told.
   *[none] No letter has been due yet.
}
digest-retried = { $attempts ->
    [one] The letter could not be sent: { $problem }. It is tried again on { $again }.
   *[other] The letter could not be sent after { $attempts } attempts: { $problem }. It is tried again on { $again }.
}
digest-subject = { $count ->
    [one] One thing came due at { $organization }
   *[other] { $count } things came due at { $organization }
}
digest-letter-intro = { $count ->
    [one] This came due at { $organization } since your last letter:
   *[other] These { $count } things came due at { $organization } since your last letter:
}
digest-letter-rest = { $count ->
    [one] One thing that you were told of before is still due.
   *[other] { $count } things that you were told of before are still due.
}
digest-letter-board = See everything that is due
digest-letter-why = You get this letter because you chose it in Sowmark.
digest-letter-stop = Stop these letters
digest-stop-title = Stop these letters?
digest-stop-intro = You will get no more letters about what is due. You can choose them again in Sowmark at any time.
digest-stop = Stop the letters
digest-stopped-title = The letters are stopped
digest-stopped = You get no more letters about what is due. You can choose them again in Sowmark at any time.

## The phone: outbox, pages kept, entries refused

refused-title = Not taken in
refused-none = Nothing waits here.
refused-none-hint = What was sent from a phone and could not be taken in would stand here, with the reason, until somebody
    mends or drops it.
refused-intro = These came from phones and could not be taken in as they were sent. Nothing of them is lost, and
    nothing is computed from them until they are mended.
refused-sent = Sent by { $who } on { $last }.
refused-sent-again = Sent by { $who } on { $last }, for the first time on { $first }.
refused-mended = Mended on { $when } by { $who }.
refused-dropped = Dropped on { $when } by { $who }.
refused-why = Why it was not taken in
refused-what = What was sent
refused-mend = Mend it
refused-drop = Drop it
refused-drop-reason = Why it is not wanted
refused-more = More
refused-waiting-only = Only those that wait
refused-ended-too = Also those that were mended or dropped
refused-already-mended = This was mended, so there is nothing to drop.
refused-mending-note = { $who } sent this on { $when } and it was not taken in. Look through it, mend what is marked, and save
    it.
refused-machine-title = Where does it belong?
refused-machine-none = You see nothing that it could belong to.
refused-machine-none-hint = Ask the office to mend it.
refused-machine-intro = What it was sent for is not there, or not yours to see. Choose what it was meant for; the form opens
    with what was sent.

sent-what = { $kind ->
    [calibration] Catch
    [emptying] Tank emptied
    [fill] Tank filled
    [job] Job finished
    [lot_test] Lot tested
    [scale_check] Scale checked
    [service] Part replaced
    [setup] Roller, ratio or gate changed
   *[unreadable] Something unreadable
}
sent-what-unknown = Something of an unknown kind, “{ $kind }”
sent-as-it-is = Sent
sent-replaces = It replaces another record.
sent-yes = yes
sent-no = no
sent-one-of = { $list ->
    [catches] Catch { $number }
    [repeats] Repeat { $number }
   *[others] { $name } { $number }
}
# A field of what was sent, and a word that a person chose in it.
sent-field = { $field ->
    [affects_metering] Affects metering
    [area] Area
    [bulk_density] Bulk density
    [catches] Catches
    [certificate] Certificate
    [circumference] Circumference
    [component] Component
    [corrects] Corrects
    [distance] Distance
    [drive_ratio] Drive ratio
    [ended_at] Ended at
    [field] Field
    [field_id] Field
    [gate] Gate
    [germination_percent] Germination
    [gross] Gross
    [id] Id
    [kind] Kind
    [label] Label
    [laid_up] Laid up
    [lot_id] Lot
    [mass] Mass
    [method] Method
    [metering_unit_id] Metering unit
    [moisture_percent] Moisture
    [note] Note
    [occurred_at] When
    [parent_id] Machine
    [planned] Planned
    [pulses] Pulses
    [pulses_per_rev] Pulses per rev
    [purity_percent] Purity
    [rate] Rate
    [reading] Reading
    [record] Record
    [reference] Reference
    [reference_identity] Mark on the known mass
    [repeats] Repeats
    [revolutions] Revolutions
    [roller_id] Roller
    [roller_speed_rpm] Roller speed, rpm
    [row_spacing] Row spacing
    [runs] Runs
    [scale_id] Scale
    [seed_used] Seed used
    [seed_used_basis] Seed used basis
    [set_aside] Set aside
    [slip_percent] Slip
    [speed] Speed
    [tare] Tare
    [target_rate] Target rate
    [thousand_seed_weight] Thousand seed weight
    [to_empty] Tank empty after it
    [turns] Turns
    [working_width] Working width
   *[others] { $name }
}
sent-word = { $word ->
    [bags] bags
    [control_valve] control valve
    [controller] controller
    [drive_train] drive train
    [driven] driven
    [electric_motor] electric motor
    [fan] fan
    [hand_turned] hand turned
    [hydraulic_motor] hydraulic motor
    [machine_total] machine total
    [meter_housing] meter housing
    [other_part] other
    [seal] seal
    [speed_sensor] speed sensor
    [stationary] stationary
    [weighed] weighed
   *[others] { $name }
}

outbox-nothing-kept-title = No signal here
outbox-not-kept = The page that you asked for is not kept on this phone. What is kept stands below; everything you log is kept
    too, and sent when there is signal.
outbox-intro = Everything you log is kept on this phone first and sent as soon as there is signal. Nothing leaves this list
    before the server has it.
outbox-no-script = Without JavaScript nothing is kept on this phone: what you log is sent at once, or not at all.
outbox-waiting = Waiting
outbox-none = Nothing waits.
outbox-copy = Save a copy
outbox-take-in = Take in a copy
outbox-refused = What the server kept back, from this phone and others, until somebody mends or drops it
outbox-mend = Open and mend
outbox-drop = Drop
outbox-sent = Sent from here
outbox-without-signal = Without signal
outbox-refresh = Fetch them again now
outbox-home-screen = Put Sowmark on the home screen from the browser’s menu: then it opens like a program, and the phone is
    less likely to clear what it keeps. Work in one of the two, browser or home screen: some phones keep their entries apart.

# Said by the scripts: one and many are chosen there.
phone-waiting-one = { $count } entry waits on this phone.
phone-waiting-other = { $count } entries wait on this phone.
phone-refused-one = { $count } entry was not taken in: see the Outbox.
phone-refused-other = { $count } entries were not taken in: see the Outbox.
phone-ended-offline = No signal. It is sent as soon as there is.
phone-ended-sign-in = Sign in to send.
phone-ended-other = Somebody else is signed in here. Entries are sent when their author signs in.
phone-ended-later = The server is busy. This is tried again by itself.
phone-waits-long = Something has waited for more than a day: go where there is signal, or save a copy from the Outbox.
phone-storage-nearly-full = The storage of this phone is nearly full: make room, or entries may not be kept.
phone-sign-out-waiting-one = { $count } entry waits on this phone. It stays here and is sent when you sign in again.
phone-sign-out-waiting-other = { $count } entries wait on this phone. They stay here and are sent when you sign in again.
phone-sign-out-all-the-same = Sign out all the same
phone-negative = { $given } is negative, which this cannot be.
phone-no-number = This is no number. Write it like 2.11 or 2,11.
phone-missing-revolutions = the revolutions of repeat { $repeat }
phone-missing-revolutions-unread = revolutions of repeat { $repeat } that can be read
phone-missing-per = how much makes a revolution, in figures
phone-missing-runs = the number of runs of { $run }, repeat { $repeat }
phone-missing-tare-unread = a tare of { $run }, repeat { $repeat }, that can be read
phone-missing-gross-unread = a gross weight of { $run }, repeat { $repeat }, that can be read
phone-missing-seed = a gross weight of { $run }, repeat { $repeat }, above its tare
phone-missing-within = a gross weight of { $run }, repeat { $repeat }, that the scale can weigh
phone-missing-tare = the tare of { $run }, repeat { $repeat }
phone-missing-gross = the gross weight of { $run }, repeat { $repeat }
phone-missing-lot = the lot in the tank
phone-missing-repeat = another repeat, to see whether they agree
phone-missing-nothing = nothing
phone-made = Made { $when }
phone-sent = Sent { $when }
phone-state-waiting = Waits to be sent
phone-drop-for-good = Drop it for good
phone-others-one = { $count } entry of another person waits on this phone. It is sent when that person signs in here.
phone-others-other = { $count } entries of other people wait on this phone. They are sent when these people sign in here.
phone-pages-kept-one = { $count } page is kept for when there is no signal.
phone-pages-kept-other = { $count } pages are kept for when there is no signal: machines, lots, scales and every short form.
phone-no-pages-kept = No page is kept on this phone yet. That takes a connection by HTTPS and a minute of signal.
phone-taken-in-one = { $count } entry was taken in from the copy.
phone-taken-in-other = { $count } entries were taken in from the copy.
phone-not-taken-in = This file is no copy of an outbox. Nothing was taken in.
phone-as-of = No signal: this is the page of { $when }. What has changed since is not on it.
phone-draft-back = What you had typed at { $when } is back.
phone-draft-afresh = Start afresh
phone-not-kept = Not kept
phone-not-kept-hint = This phone could not keep the entry. All that you typed is still on this page: leave it open, write the
    figures down, and try again.
phone-storage-full = Not kept: the storage of this phone is full
phone-storage-full-hint = All that you typed is still on this page: leave it open, make room on the phone, and save again.
phone-no-verdict = No signal
phone-no-verdict-hint = The sums on this sheet are worked out here; the verdict comes from the server. Log the catch: it is
    kept on this phone, and judged as soon as it is sent.
phone-kept = Kept on this phone
phone-kept-entry = { $title }: the entry is kept here and sent as soon as there is signal.
phone-kept-factor = By plain sums the factor so far is { $factor } per run. Whether it can be trusted, and whether the machine
    is ready, the server says when it has the entry.
phone-kept-back = Back to the machine
# On the readiness page.
refused-waiting = { $count ->
    [one] One entry from a phone was not taken in.
   *[other] { $count } entries from phones were not taken in.
}

## The audit trail

audit-intro = Everything that anybody did, in the order in which the server took it. Each line carries a hash of itself and of
    the line before it: whoever notes the newest hash can tell later that nothing above it was changed. It cannot show that a
    line was true.
audit-withheld = About what is not yours to see. Its hash stands for it.
audit-line = { $who }: { $did ->
        [changed] changed
        [created] created
        [dropped] dropped
        [feed_address_made] secret address made
        [feed_address_ended] secret address ended
        [imported] imported
        [matched] matched
        [member_ended] member ended
        [member_set] member set
        [password_link_made] password link made
        [refused] refused
        [refused_conflict] refused conflict
        [session_ended] session ended
        [token_added] token added
        [token_ended] token ended
        [voided] voided
       *[other] { $action }
    }, { $named ->
        [yes] { kind-name } ({ $name })
       *[no] { kind-name } …{ $id }
    }
audit-change = What changed
audit-hash = Hash
audit-older = Older
audit-kind = About
audit-who = By
audit-all = all
audit-show = Show
audit-none = No line is like that.

## The whole organization as a file

whole-title = Take everything along
whole-link = Take all records along as a file
whole-intro = One file with every record of the organization, void ones, decisions, waivers, tolerances, refused entries and the audit trail among them. Another Sowmark server can take it in, and other programs can compute with it: each line is JSON.
whole-left-out = Passwords, sessions, tokens and one-time links are not in it. Names and e-mail addresses of the people are: keep the file accordingly.
whole-import = Whoever runs the other server takes it in with this command. It is checked first, the audit trail and every calibration's computation too, and is taken in whole or not at all.
whole-people = Each person is then given a one-time link to set a password there.
whole-download = Download the file

## The fleet: seeders, units, rollers, scales, seasons, labels

keeping-rollers = What turns under a tank. A unit's setup names the one that is fitted.
keeping-scales = What you weigh with, and what each read of a known mass.
keeping-seasons = From the first day of a season on, every unit is caught again.
keeping-tolerances = Tolerances
keeping-tolerances-what = Every limit that a catch is judged by, with where its default comes from.
keeping-fields = Fields
keeping-fields-what = Where is sown, and how large it is.
keeping-clients = Clients
keeping-clients-what = Whose fields and seed they are, where you sow for others.
keeping-people = People and crews
keeping-people-what = Who may do what, and which seeders a crew sees.

seeders-add = Add a seeder
seeders-none = No seeder yet.
seeders-none-keep = A seeder is one machine with its metering units. Add the first; then log what is fitted to it.
seeders-none-yours = None is assigned to you. The office assigns seeders to crews under People.
seeders-labels = Labels for the machines, with QR codes
seeders-seeder = Seeder
seeders-units = Metering units
seeders-laid-up = (laid up)
seeders-serial-number-none = not noted
seeder-name = Name
seeder-name-hint = What your people call the machine.
seeder-kind = Kind
seeder-kind-box-drill = box drill
seeder-kind-air-drill = air drill
seeder-kind-air-cart = air cart
seeder-serial-number = Serial number
seeder-commissioned-on = Commissioned on
seeder-commissioned-on-hint = From this day on its working width and row spacing hold.
seeder-working-width = Working width
seeder-row-spacing = Row spacing
seeder-not-known = not known
seeder-new-intro = A metering unit is one roller line under one tank. Name each as your people do; leave the rows that you do not
    need empty.
seeder-new-submit = Add the seeder
seeder-unit-label = Metering unit { $number }: label
seeder-unit-runs = Metering unit { $number }: runs
seeder-unit-drive = Metering unit { $number }: drive
seeder-unit-speed-least = Metering unit { $number }: lowest roller speed, rpm
seeder-unit-speed-most = Metering unit { $number }: highest roller speed, rpm
seeder-about = { $kind }{ $numbered ->
        [yes] , serial number { $serial }
       *[no] {""}
    }, commissioned on { $day }{ $laid_up ->
        [yes] . Laid up.
       *[no] {""}
    }
seeder-numbers-now = Numbers now
seeder-units-none-yours = None of its units holds seed of your clients now, so no number is shown here.
seeder-factors = { $unit }: factor and drift
seeder-machine = The machine
seeder-part-replaced = Part replaced
seeder-width-changed = Width or spacing changed
seeder-change-link = Name, serial number, controllers
seeder-lay-up = Lay it up
seeder-take-back = Take it back into use
seeder-label = QR code for the machine's door
seeder-change-title = Change { $seeder }
seeder-change-intro = What was recorded of the machine stays with it. The change is in the audit trail. Below, say for each metering
    unit what its controller wants keyed in: every page then shows the number in that form.
seeder-change-submit = Save the change
seeder-units-none = A seeder has at least one metering unit. Name each roller line.
seeder-unit-label-taken = Another unit is already called { $label }. Give each its own label.
seeder-unit-id-taken = Another unit here has the same id. Make one for each.
seeder-unit-not-its-own = This is none of the seeder's metering units, or was named before. Name each of them once.
seeder-speed-most-too-low = { $most } rpm is not above the lowest speed, { $least } rpm. Give the highest speed that the drive holds.

unit-add = Add a metering unit
unit-title = { $seeder }: add a metering unit
unit-intro = A metering unit is one roller line under one tank. It has no number until its setup is logged and a catch accepted.
unit-submit = Add the metering unit
unit-label = Label
unit-label-hint = What your people call it; another than those of the machine's other units.
unit-runs = Runs
unit-runs-hint = How many seed lines it feeds.
unit-drive = Drive
unit-speed-least = Lowest roller speed, rpm
unit-speed-most = Highest roller speed, rpm
unit-speed-hint = The roller speeds that the drive can hold, where known.
unit-log-catch = Log a catch
unit-log-setup = Roller or ratio changed
unit-log-fill = Tank filled
unit-log-emptying = Tank emptied
unit-log-job = Job finished
unit-all-catches = All its catches
unit-roller-speed = Roller speed for a rate
unit-rate-plan = Rate plan
unit-next-gate = Next gate setting
drive-ground = ground wheel
drive-electric = electric motor
drive-hydraulic = hydraulic motor
drive-speeds = { $drive }, { $least } to { $most } rpm

key-in-wanted = The controller wants
key-in-change = Change it
key-in-not-said = nobody has said; shown as { $form }
key-in-mass = { $unit }: the controller wants
key-in-mass-not-said = Nobody has said: shown as { $form }
key-in-g = grams
key-in-kg = kilograms
key-in-lb = pounds
key-in-oz = ounces
key-in-per = { $unit }: for how many revolutions
key-in-per-one = one revolution
key-in-per-hundred = 100 revolutions
key-in-per-unknown = { $count } is not known here. Use 1 or 100.
key-in-for = { $unit }: for one run or all
key-in-for-run = one run
key-in-for-unit = the whole unit, all runs in use

setup-title = { $seeder }, { $unit }: roller, ratio or gate
setup-intro = Say what is fitted from this moment on, also what stayed. Stop the engine and wait until nothing turns before you
    reach in; the maker’s instructions come first.
setup-submit = Log the change
setup-fitted = Fitted
setup-none = Nothing logged yet. Log the roller and the drive ratio; without them no catch can be judged.
setup-roller = Roller
setup-roller-since = { $roller }, since { $since }
setup-roller-choose = Choose the roller
setup-roller-none = No roller is kept yet. The office adds rollers under Keeping; then they can be chosen here.
setup-ratio = Drive ratio
setup-ratio-hint = Roller revolutions to drive revolutions, like 5:2 or 2.5.
setup-gate = Gate
setup-gate-none = none
setup-gate-opening = Gate opening
setup-gate-opening-hint = As it reads on the machine.
setup-runs = Runs in use
setup-runs-of = { $used } of { $runs }
setup-runs-hint = The unit has { $runs }.
setup-runs-too-many = { $used } runs in use, but { $unit } has { $runs }. Use 1 to { $runs }.

configuration-title = { $seeder }: width or spacing
configuration-intro = From this moment on. Every unit of the seeder must then be caught again.
configuration-too-wide = { $width } is wider than any seeder. Look at the decimal sign and the unit.
configuration-spacing-too-wide = { $spacing } between rows is more than the working width, { $width }. Look at the units.

service-title = { $seeder }: part replaced or repaired
service-intro = If it can have changed what a revolution delivers, the units it concerns must be caught again.
service-submit = Log the part
service-unit = Which metering unit
service-unit-all = The whole seeder
service-part = Part
service-affects = Can it have changed what a revolution delivers?
service-affects-yes = Yes, or not sure: catch again
service-affects-no = No
component-hydraulic-motor = hydraulic motor
component-electric-motor = electric motor
component-control-valve = control valve
component-speed-sensor = speed sensor
component-meter-housing = meter housing
component-seal = seal
component-drive-train = drive train
component-fan = fan
component-controller = controller
component-other = another part

lay-up-title = { $seeder }: in use or laid up
lay-up-intro = A seeder that is laid up asks for nothing on the board.
lay-up-what = What happens
lay-up-laid-up = It is laid up
lay-up-in-use = It is in use again
lay-up-submit = Log it

rollers-title = Meter rollers
rollers-add = Add a meter roller
rollers-none = No roller yet.
rollers-none-why = A roller, or a type of it, is what turns under a tank; a unit's setup names the one that is fitted.
roller-submit = Add the roller
roller-label = Label
roller-label-hint = What your people call it, such as “fine fluted”.
roller-kind = Kind
roller-kind-fluted = fluted
roller-kind-studded = studded
roller-kind-cell = cell
roller-kind-belt = belt
roller-kind-other = other
roller-displacement = Displacement per revolution and run
roller-displacement-hint = Where the maker states it. It lets Sowmark tell a catch that cannot be right.
roller-displacement-unknown = not known

scales-title = Scales
scales-add = Add a scale
scales-none = No scale yet.
scales-none-why = A catch is only as good as the scale that weighed it.
scales-none-keep = Add the one you weigh with, and check it against a known mass.
scales-none-office = The office adds scales.
scale-submit = Add the scale
scale-name = Name
scale-name-hint = What your people call it, such as “hanging scale, yellow hook”.
scale-step = Smallest step
scale-step-hint = The step by which the display changes. It decides how much must be caught.
scale-step-zero = A scale's smallest step is above zero. Read it from the display or the plate.
scale-capacity = Capacity
scale-capacity-hint = The most that it weighs.
scale-capacity-too-small = { $capacity } is no more than its smallest step, { $step }. Look at the units.
scale-never-checked = Never checked. Until a check passes, its error counts twice and every catch is passed with a remark.
scale-read = It read { $reading } of { $reference }.
scale-allowed = The tolerances allowed one step of the scale and { $percent } % of the mass.
scale-check-log = Log a check
scale-check-title = Check of { $scale }
scale-check-intro = Hang or lay a mass that you know on the scale, near what you weigh with it, and type what it shows.
scale-check-submit = Log the check
scale-check-reference = Known mass
scale-check-beyond = { $mass } is more than this scale weighs, { $capacity }. Look at the decimal sign, the unit and the scale.
scale-check-reference-zero = A check needs a known mass above zero on the scale.
scale-check-reading = What the scale showed

seasons-title = Seasons
seasons-add = Add a season
seasons-none = No season yet.
seasons-none-why = A number from last year is not true this year. A season tells Sowmark from which day on every unit must be caught
    again.
seasons-season = Season
seasons-for = For
seasons-all-crops = all crops
season-intro = From its first day on, every unit must be caught again, or only those with the crops that you name.
season-submit = Add the season
season-name = Name
season-name-hint = Such as “Spring 2027”.
season-first-day = First day
season-crops = Only for these crops
season-crops-hint = With commas between them; empty for all crops.

labels-title = Labels for the machines
labels-show = Show these labels
labels-none = Add the first, then print its label here.
labels-why = A label on the machine's door opens its page on a phone: who scans it signs in once, and comes back there.
labels-machines = Machines
labels-paper = Paper
labels-paper-a4 = A4, eight labels of 99.1 × 67.7 mm
labels-paper-letter = Letter, ten labels of 4 × 2 in
labels-cutting-lines = Cutting lines, for plain paper
labels-tick-one = Tick at least one machine.
labels-print = Print this page with your browser at 100 %. Only the labels are printed, and none is cut at the end of a page.
labels-sheet = Sheet { $number }
label-title = Label of { $seeder }
label-print = Print this page and fix it to the machine's door under clear film. Whoever scans the code comes to this machine's
    page, by way of the sign-in where they are not signed in yet.
label-all = Small labels of all machines, on one sheet
label-code = QR code that opens the page of { $seeder }
label-unreachable = The code would open { $address }, which a phone cannot reach. Open Sowmark under the address that the phones
    use, or start the server with that address as { $option }; then print.

## Changing what is kept

change-link = Change
change-title = Change { $what }
change-intro = Pages, lists and reports then say it as it stands here, those of earlier records too. What stood before, and who
    changed it, is in the audit trail.
change-submit = Save the change
meanwhile = Meanwhile this was changed to “{ $now }”. Save again to put yours in its place.
meanwhile-by = Meanwhile { $who } changed this to “{ $now }”. Save again to put yours in its place.
meanwhile-emptied = Meanwhile this was emptied. Save again to put yours in its place.
meanwhile-emptied-by = Meanwhile { $who } emptied this. Save again to put yours in its place.
meanwhile-at-once = Something else was saved at the same moment, so nothing was stored. What you typed stands here: save again.
change-id-stays = An id stays: records go by it. Leave it out.
change-client = An agronomist who is limited to clients sees what is theirs as it stands: given to another client, it is seen by
    who is limited to that one.
field-change-area = Jobs keep the area that was logged with them.
roller-change-displacement = Catches keep what they were compared with; the next one is compared with this.
scale-change-step = Catches keep the step that they were judged with. Whether the scale’s checks passed goes by the step as it
    stands, and so does what is due because of them.
scale-change-capacity = Catches keep the capacity that they were judged with.
season-change-start = What is due goes by the day as it stands, for past moments too: units can be due again, or due no longer.
season-change-crops = What is due goes by them as they stand.
lot-change-intro = Mend what was copied wrongly from the label. What the lot is of and the mass received stay: a movement or a
    count sets the stock right. What stood before, and who changed it, is in the audit trail.
lot-change-crop = What is due goes by the crop as it stands, for past moments too: units can be due again, or due no longer.
lot-material-stays = What a lot is of stays. Add another lot for what is not of this one.
lot-received-mass-stays = The mass received stays. Record a movement or a count to set the stock right.

## The timeline of a seeder, and voiding a record

record-when = When
record-from-when = From when on
record-note = Note
record-was-wrong = This was wrong
record-kind = { $kind ->
    [calibration] calibration
    [configuration] configuration
    [decision] decision
    [emptying] emptying
    [fill] fill
    [job] job
    [lay_up] lay up
    [lot_test] lot test
    [movement] movement
    [scale_check] scale check
    [service] service
    [setup] setup
    [waiver] waiver
   *[other] record
}

timeline-title = What happened
timeline-none = Nothing yet.
timeline-older = Older
timeline-no-such-page = No page ended here. Use the cursor that the page before gave.
timeline-of-unit = { $unit }: { $says }
timeline-configuration = Working width { $width }, rows { $spacing } apart.
timeline-setup = Set up: roller { $roller }, drive ratio { $ratio }{ $gated ->
        [yes] , gate { $gate }
       *[no] {""}
    }, { $runs ->
        [one] { $runs } run
       *[other] { $runs } runs
    } in use.
timeline-service = Replaced or repaired: { $part }. { $affects ->
    [yes] It affects metering.
   *[no] It does not affect metering.
}
timeline-laid-up = Laid up.
timeline-in-use-again = Taken back into use.
timeline-filled = Tank filled with lot { $lot } ({ $crop }){ $weighed ->
        [yes] , { $mass }
       *[no] {""}
    }.
timeline-emptied = Tank emptied of lot { $lot } ({ $crop }){ $weighed ->
        [yes] , { $mass }
       *[no] {""}
    }.
timeline-taken-out = Taken out of the tank: lot { $lot } ({ $crop }){ $weighed ->
        [yes] , { $mass }
       *[no] {""}
    }.
timeline-job = Job finished: { $named ->
        [yes] { $field }
       *[no] a field without a name
    }, { $area } sown with { $seed }.
timeline-caught = Catch logged with lot { $lot } ({ $crop }): { $verdict ->
        [pass] pass
        [pass_with_remarks] pass with remarks
       *[fail] fail
    }.
timeline-decided = Held calibration { $decision ->
        [accepted] accepted
       *[rejected] rejected
    }.
timeline-waived = Trigger let pass: { $trigger }.

void-title = Void this { record-kind }
# What to do about a record that was wrong: two ways, the first where it has a form of its own.
wrong-title = Correct or void this { record-kind }
wrong-intro = The { record-kind } of { $when }, recorded by { $by }. Nothing is deleted: it stays readable, struck through, and
    nothing is computed from it any more.
wrong-again = It happened, but not like this
wrong-again-how = The form opens with what was recorded. What you save takes its place.
wrong-again-act = Correct it
wrong-void = It did not happen
wrong-void-how = { $replaces ->
    [yes] It is void then, and the record that it had replaced stands again.
   *[no] It is void then, and nothing takes its place.
}
wrong-of = Belongs to
correction-submit = Save the correction
correction-note = What stands here was recorded for { $when }, by { $by }. Change what was wrong: saved, this takes its place, and what
    was recorded stays readable, struck through.
correction-note-catch = It is judged anew then, by the tolerances of today; what the office decided about it is not carried over.
void-reason = What was wrong
void-reason-hint = Others read this beside the record.
void-submit = Void it
void-already = This { record-kind } is void already. Nothing was changed.

record-moment = { date-day-of-year }, { $time }
# What stands after “until”: a whole day, or a moment.
record-end = { $end ->
    [day] the end of { $when }
   *[moment] { $when }
}
# Who entered a record that replaces another.
record-by-correction = { $name }, as a correction
record-by-host = the host's command line
record-void = Void since { $at }, by { $by }: { $reason }
record-void-withheld = Void since { $at }, by { $by }. The reason is the office’s own.
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

catch-title = Catch: { $seeder }, { $unit }
catch-fitted = { $runs ->
    [one] { $roller }, ratio { $ratio }, { $runs } run in use
   *[other] { $roller }, ratio { $ratio }, { $runs } runs in use
}
catch-fitted-gate = { $runs ->
    [one] { $roller }, ratio { $ratio }, gate { $gate }, { $runs } run in use
   *[other] { $roller }, ratio { $ratio }, gate { $gate }, { $runs } runs in use
}
catch-nothing-fitted = Nothing is recorded as fitted: record the roller, ratio and runs first.
catch-lot-named = { $crop }, lot { $number }
catch-lot-named-variety = { $crop } { $variety }, lot { $number }

catch-worked-out = Worked out, not saved yet
catch-fails = A check fails. Catch again, or save it for the office to decide.
catch-would-be = It would be { $number }; { $also }.
catch-before-the-next = Before the next repeat

catch-caught-at = Caught at
catch-lot = Lot in the tank
catch-lot-none = Choose the lot
catch-scale = Scale
catch-scale-none = No scale named
catch-method = How the roller was turned
catch-method-stationary = Standing, by its drive
catch-method-driven = Driven over a distance
catch-method-hand-turned = Turned by hand
catch-roller-speed = Roller speed, revolutions per minute
catch-planned-rate = Planned rate
catch-planned-speed = Planned driving speed
catch-counted = What is counted in each repeat
catch-counted-revolutions = Roller revolutions
catch-counted-turns = Turns of a crank or wheel
catch-counted-pulses = Pulses of a sensor
catch-counted-distance = Distance driven
catch-per = Pulses per revolution, or rolling circumference
catch-per-hint = Only for pulses and for a distance. A distance and a circumference are in { $unit }.
catch-slip = Wheel slip, %
catch-slip-hint = Only for a distance, and only when the circumference was measured without load: one measured at work has
    the slip in it.
# { $unit } may stand for itself: the sheet's script fills it in anew.
catch-mass-unit = Weights are in { $unit }; one may also be typed with its own unit, like 5 lb 8 oz.
catch-weigh-in = Weigh in { $unit }

# The number of the repeat is the first number in this: the sheet's script counts it on.
catch-repeat = Repeat { $number }
catch-repeat-count = { $counted ->
        [turns] Turns of a crank or wheel
        [pulses] Pulses of a sensor
        [distance] Distance driven
       *[revolutions] Roller revolutions
    }, repeat { $number }
catch-repeat-aside = Set repeat { $number } aside, because
catch-repeat-aside-hint = Spilled, plugged: it stays in the record and out of the sums.
catch-run = Run
catch-runs = Runs in it
catch-tare = Tare
catch-gross = Gross
catch-net = Net
# What a run is called until somebody calls it otherwise.
catch-run-named = run { $number }
catch-field-of = { $label }, { $run }, repeat { $repeat }
catch-note = Note
catch-add-run = Add a run
catch-add-repeat = Add a repeat
catch-work-out = Work it out
catch-save = Log the catch
catch-factor-so-far = Factor so far, per run
catch-spread-so-far = Spread
catch-caught-so-far = Caught
catch-missing = Still missing

catch-counts-nothing = This says nothing about revolutions. Give roller revolutions as a number, or pulses with
    pulses_per_rev, or turns, or distance with circumference.
catch-without-setup = No setup of this unit is known for { $when }, so nobody can say which roller, ratio and runs this was.
    Record what was fitted from then on, then send the catch again.

# What became of a catch that was sent from a phone; what follows says what to do.
catch-told = { $verdict ->
    [pass] The catch of { $seeder }, { $unit } is judged: pass.
    [pass_with_remarks] The catch of { $seeder }, { $unit } is judged: pass with remarks.
   *[fail] The catch of { $seeder }, { $unit } is judged: a check fails.
}
catch-told-number = Number to key in: { $number }.
catch-told-held = It is held for the office: key in no number from it until the office accepts it.
catch-told-record = See the record
catch-told-dismiss = Dismiss

check-name-repeats = Repeats
check-name-repeat-agreement = Repeats agree
check-name-run-uniformity = Runs agree
check-name-catches-apart = Runs weighed apart
check-name-catch-mass = Catch mass
check-name-uncertainty = Uncertainty
check-name-roller-speed = Roller speed
check-name-scale = Scale
check-name-plausibility = Plausible
checks-check = Check
checks-outcome = Outcome
checks-value = Value
checks-limit = Limit
checks-says = What it says
checks-title = What the checks look at
checks-one-title = Check: { $name }
checks-source = Source: { $source }
checks-tolerance-off = off
checks-change-tolerances = Change the tolerances
checks-office-keeps = The office keeps the tolerances.
checks-all = All checks

suspicions-title = What may have gone wrong
suspicions-order = Most likely first. These are hints, not corrections: look, then catch again.
suspicions-would-give = It would give { $factor } per run.
suspicion-name-tare-left-in = The bags were weighed in
suspicion-name-tare-missing = One tare is missing
suspicion-name-pounds-as-kilograms = Pounds entered as kilograms
suspicion-name-kilograms-as-pounds = Kilograms entered as pounds
suspicion-name-ounces-as-tenths = Ounces entered as tenths of a pound
suspicion-name-decimal-sign = Decimal sign one place off
suspicion-name-half-of-each-run = Half of each run caught
suspicion-name-runs-miscounted = Runs miscounted
suspicion-name-revolutions-doubled = Revolutions doubled
suspicion-name-revolutions-halved = Revolutions halved
suspicion-name-other-drive-ratio = Another drive ratio
suspicion-name-one-run-low = One run low
suspicion-name-not-primed = Meter not primed
suspicion-name-other-roller = Another roller

key-in = Number to key in
key-in-heading = Number to key in:
key-in-none = No number to key in
key-in-none-short = No number

caution-before-you-start = Before you start
caution-before-you-handle = Before you handle it
caution-show = show
caution-hide = hide
caution-secure = Secure the machine against moving: chocked and in neutral, unless the method needs driving.
caution-guards = Leave guards fitted. Keep hands, sleeves and hair clear of rollers, chains and shafts.
caution-one-at-control = One person at the control, in sight of the other.
caution-pressure = Relieve hydraulic pressure and stop the engine before reaching in.
caution-lift = Lift with help.
caution-maker-first = The maker’s instructions, the seed label and local rules come first. Sowmark replaces none of them.
caution-treated = Treated seed: { $product }.
caution-protection = Gloves, mask and eye protection as the label says. Never feed it or mill it. Dispose of what was caught
    safely.
caution-dust = Avoid its dust when opening bags; clear up spills; wash before eating. It is a pesticide with a label of its own.

calibration-title = Calibration of { $when }
calibration-all-of-unit = { $unit }: all calibrations
calibration-caught = { $seeder }, { $unit }, caught { $when } by { $who }
calibration-result = Result
calibration-worked-out = Worked out: { $number }; { $also }.
calibration-also = { $runs ->
    [one] ± { $within } % (k = { $factor }, { $freedom } degrees of freedom); { $other }, { $runs } run
   *[other] ± { $within } % (k = { $factor }, { $freedom } degrees of freedom); { $other }, { $runs } runs
}
calibration-fitted-corrected = What was fitted at this catch has been corrected since it was judged. The figures here are as they were judged; the number to key in now stands on the board and the seeder’s page.
calibration-in-force = In force now.
calibration-not-in-force = Not the number in force now.
calibration-unit-now = { $unit } as it is now
calibration-waits = A check failed. It waits for the office to accept or reject it.
calibration-was-rejected = The office rejected this calibration.
calibration-does-not-stand = This record does not stand.
calibration-lot = Lot
calibration-roller = Roller
calibration-gate = Gate
calibration-row-spacing = Row spacing
calibration-season = Season
calibration-bulk-density = Bulk density
calibration-scale = Scale
calibration-drive-ratio = Drive ratio
calibration-runs-in-use = Runs in use
calibration-working-width = Working width
calibration-roller-speed = Roller speed
calibration-roller-speed-was = { $speed } revolutions per minute
calibration-planned = Planned
calibration-planned-was = { $rate } at { $speed }
calibration-thousand-seeds = Thousand seeds
calibration-scale-then = Scale was
calibration-scale-not-named = not named
calibration-scale-was = step { $step }, { $check ->
        [never] never checked with a known mass
        [in-force] its last check in force
        [long-ago] its last check passed, too long ago
       *[failed] its last check failed
    }
calibration-method = Roller turned
calibration-method-was = { $method ->
    [driven] driven over a distance
    [hand_turned] turned by hand
   *[stationary] standing, by its drive
}
calibration-expected = Expected
calibration-expected-by-last = about { $factor } per run, from the last calibration with this roller and crop
calibration-expected-by-last-and-density = about { $factor } per run, from the last calibration with this roller and crop,
    times { $ratio } for the bulk density now and then
calibration-expected-by-displacement = about { $factor } per run, from the roller's displacement and the bulk density
calibration-note = Note
calibration-other-units = The number in other units
calibration-for = For
calibration-measured = Measured
calibration-measured-values = Measured values
calibration-repeat = Repeat
calibration-run = Run
calibration-runs = Runs
calibration-tare = Tare
calibration-gross = Gross
calibration-net = Net
calibration-repeat-total = { $revolutions } revolutions; { $factor } per run; runs vary by { $cv }
calibration-set-aside = Set aside: { $reason }
calibration-by-pulses = { $made } ({ $pulses } pulses, { $per } a revolution)
calibration-by-turns = { $made } ({ $turns } turns, ratio { $ratio })
calibration-by-distance = { $made } ({ $distance }, circumference { $circumference }, ratio { $ratio })
calibration-by-distance-and-slip = { $made } ({ $distance }, circumference { $circumference }, slip { $slip } %, ratio { $ratio })
calibration-runs-in-line = Each run against the mean: { $runs }.
calibration-minimum-catch = For this scale’s step a catch should weigh at least { $mass }.
calibration-checks = Checks
calibration-uncertainty = Uncertainty
calibration-budget = Uncertainty budget
calibration-budget-source = Source
calibration-budget-from = From
calibration-budget-percent = Relative, %
calibration-budget-freedom = Degrees of freedom
calibration-budget-repeats = Repeats
calibration-budget-reading = Reading the scale
calibration-budget-scale = Scale
calibration-budget-revolutions = Revolutions
calibration-budget-together = Together
calibration-budget-expanded = ± { $within } % with k = { $factor }
calibration-decisions = Decisions
calibration-decisions-none-yet = None yet: a failed check waits for the office.
calibration-decisions-none-needed = None needed: what passes is accepted at once.
calibration-decided-by = by { $who }: { $reason }
calibration-signed-caught = Caught by
calibration-signed-office = Office
calibration-record = Record { $id }, recorded { $when }
calibration-decide = Decide
calibration-decision = Decision
calibration-decision-accept = Accept: the number may be keyed in
calibration-decision-reject = Reject: it must be caught again
calibration-decision-reason = Reason
calibration-decision-reason-hint = Why, in a sentence. It stays in the record with your name.
calibration-decision-submit = Decide with this reason
calibration-decision-without-reason = A decision needs its reason. Write why, in a sentence.
calibration-not-held = { $status ->
    [accepted] This calibration is accepted. Only one that is held waits for a decision.
    [rejected] This calibration is rejected. Only one that is held waits for a decision.
    [held] This calibration is held. Only one that is held waits for a decision.
   *[void] This calibration is void. Only one that is held waits for a decision.
}

calibrations-title = Calibrations: { $seeder }, { $unit }
calibrations-none = No calibration yet. A catch over some roller revolutions, weighed run by run, gives this unit its number
    to key in.
calibrations-table = Calibrations
calibrations-caught = Caught
calibrations-lot = Lot
calibrations-factor = Factor per run
calibrations-uncertainty = Uncertainty
calibrations-verdict = Verdict
calibrations-became = What became of it
calibrations-by = By
calibrations-more = More
calibrations-log = Log a catch


## What surrounds a catch

around-more = Air, tank, place and who checked it
around-air-temperature = Air temperature
around-humidity = Relative humidity
around-humidity-percent = Relative humidity, %
around-tank-fill = Tank full to about
around-tank-fill-percent = How full the tank was, %
around-tank-fill-hint = About, by eye: how high the seed stands acts on what a turn delivers.
around-place = Place
around-place-hint = The yard, a field, a shed.
around-checked-by = Checked by
around-checked-by-hint = Who looked over the catch besides the one who logs it.
around-known-mass = Known mass of the scale’s check
around-certificate = Its certificate
scale-check-identity = What is marked on the known mass
scale-check-identity-hint = Its number or name, by which it is told from others.
scale-check-certificate = Certificate of the known mass
scale-check-certificate-hint = Who issued it, and its number: by it the scale is traced to a standard.
scale-check-known-mass = Known mass: { $identity }.
scale-check-certified = Certificate: { $certificate }.
fault-no-air = { $given } is no air in which seed is caught. Use −60 °C to 60 °C; look at the sign and the unit.

## Charts

chart-named = Chart: { $title }
chart-table-named = Table: { $title }
chart-as-table = The same as a table
chart-month = { $month ->
    [1] Jan
    [2] Feb
    [3] Mar
    [4] Apr
    [5] May
    [6] Jun
    [7] Jul
    [8] Aug
    [9] Sep
    [10] Oct
    [11] Nov
   *[12] Dec
}
chart-day-of-month = { $day } { chart-month }
chart-month-of-year = { chart-month } { $year }

chart-over-time = Factor over time, { $unit } per run
chart-over-speed = Factor against roller speed, { $unit } per run: { $of }
chart-of-lot = Factors of this lot across the fleet, { $unit } per run
chart-roller-speed = roller speed, rpm
chart-one-catch = One catch, on { $day }.
chart-catches = { $count ->
    [one] { $count } catch from { $first } to { $last }, between { $least } and { $most }.
   *[other] { $count } catches from { $first } to { $last }, between { $least } and { $most }.
}
chart-latest = The latest: { $factor } { $within }, { $series }, on { $day }.
chart-never-elsewhere = Never a number to key in elsewhere: a factor is true for the unit that was caught, and for no other.
chart-held = { $count ->
    [one] One waits for the office and is drawn hollow.
   *[other] { $count } wait for the office and are drawn hollow.
}
chart-rejected = { $count ->
    [one] One that was rejected is left out.
   *[other] { $count } that were rejected are left out.
}
chart-void = { $count ->
    [one] One that no longer stands is left out.
   *[other] { $count } that no longer stand are left out.
}
chart-older = Older ones are in the list of all catches.
chart-speeds = { $speeds ->
    [2] { $count } catches at two speeds, with the line through them and its uncertainty (95 %).
    [one] { $count } catches at { $speeds } speed, with the line through them and its uncertainty (95 %).
   *[other] { $count } catches at { $speeds } speeds, with the line through them and its uncertainty (95 %).
}
chart-one-scale = All were weighed on one scale, whose error is the same at every speed and left out of bars and band.
chart-several-scales = They were not all weighed on one named scale, so its error is in the band.
chart-runs = Each run against the mean of the runs, %
chart-runs-caught = Runs caught on { $day }: off their mean, %
chart-runs-of = { $repeats ->
    [1] One repeat of { $runs } runs.
    [one] { $repeats } repeat of { $runs } runs.
   *[other] { $repeats } repeats of { $runs } runs.
}
chart-runs-extremes = Lowest on average is { $low } ({ $low_off }), highest { $high } ({ $high_off }).
chart-runs-limits = The dashed lines are 5 % below and above the mean.
chart-repeat = Repeat { $number }

chart-column-caught = Caught
chart-column-lot = Lot
chart-column-roller = Roller
chart-column-unit = Unit
chart-column-factor = Factor, { $unit }
chart-column-uncertainty = Uncertainty
chart-column-roller-speed = Roller speed, rpm
chart-column-standing = Standing
chart-column-run = Run
chart-column-average = On average
chart-column-always = In every repeat
chart-is-held = held
chart-is-accepted = accepted
chart-always-low = low
chart-always-high = high

# What may have changed the factor, beside a tick: short.
chart-event-roller = Roller: { $roller }
chart-event-ratio = Ratio { $ratio }
chart-event-gate = Gate { $gate }
chart-event-no-gate = No gate
chart-event-runs = { $runs ->
    [one] { $runs } run
   *[other] { $runs } runs
}
chart-event-replaced = Replaced: { $part ->
        [hydraulic_motor] hydraulic motor
        [electric_motor] electric motor
        [control_valve] control valve
        [speed_sensor] speed sensor
        [meter_housing] meter housing
        [seal] seal
        [drive_train] drive train
        [fan] fan
        [controller] controller
       *[other] another part
    }
chart-event-lot = Lot { $number }


## The rate plan

plan-title = Rate plan
plan-live-title = Rate plan by pure live seed
plan-to-sow = To sow
plan-rate = Rate
plan-roller-at = roller speed at { $speed } on { $seeder }, { $unit }
plan-beyond-drive = The drive cannot hold this: it turns { $least } to { $most } rpm.
plan-other-rates = Other rates and speeds
plan-catch = Catch for this plan
plan-noted = Rate plan. { $how }
plan-working = The working
plan-what = What
plan-outcome = Result
plan-how = How
plan-lot-and-unit = Lot and unit
plan-lot = Lot
plan-no-lot = No lot
plan-unit = Unit
plan-no-unit = No unit
plan-fill-in = Fill in what is known
plan-plants = Plants
plan-live = Pure live seed
plan-how-well-known = How well the figures are known
plan-by-plants = By plants wanted
plan-by-live = By pure live seed wanted
plan-submit = Show the rate
plan-give-speed = Give a driving speed to see the roller speed.
plan-another-lot = The number in force on { $seeder }, { $unit } is for the lot in its tank, not for { $lot }. Fill that lot, log
    it, and catch.
plan-from-seeder = As the seeder is set up.
plan-from-test = From the lot’s test of { $when }.
plan-from-label = From the lot’s label.

plan-plants-wanted = Plants wanted
plan-per-m2 = per m²
plan-per-ft2 = per ft²
plan-germination = Germination, %
plan-without-hard-seed = Without hard seed.
plan-share = What comes up, %
plan-share-hint = As an establishment it is of all seeds, and the germination is in it. As an emergence it is of the seeds that
    germinate. A field loss is taken off the germination, point by point.
plan-share-establishment = establishment
plan-share-emergence = emergence
plan-share-loss = field loss
plan-purity = Purity, %
plan-live-wanted = Pure live seed wanted
plan-hard-seed = Hard or dormant seed, %
plan-hard-seed-hint = Labels state it apart from the germination.
plan-hard-seed-counted = Hard or dormant seed
plan-hard-seed-left-out = is left out
plan-hard-seed-is-live = counts as live
plan-seed-weight = Seed weight
plan-grams = g per thousand
plan-seeds-per-kg = seeds per kg
plan-seeds-per-lb = seeds per lb
plan-speed = Driving speed
plan-speed-hint = For the roller speed, with the number in force on the unit.
plan-row-spacing = Row spacing
plan-bulk-density = Bulk density
plan-for-bushels = For bushels.
plan-seed-weight-doubt = Seed weight, ± %
plan-seeds-tested = Seeds in the germination test
plan-seeds-tested-hint = Counting so many seeds leaves the germination open by some points; that is reckoned from it.
plan-seed-doubt = Or: germination or establishment, ± points
plan-field-doubt = Emergence or field loss, ± points

plan-says-establishment = Establishment { $percent }: { $how }.
plan-says-live = Pure live seed { $percent }: { $hard ->
        [counted] purity times germination, hard or dormant seed counted as live
        [left-out] purity times germination, hard or dormant seed left out
       *[not-stated] purity times germination
    }.

plan-step-plants = Plants wanted
plan-step-come-up = Come up
plan-step-establishment-given = establishment as given
plan-step-times-emergence = germination { $germination } % times emergence { $emergence } %
plan-step-less-loss = germination { $germination } % less field loss { $loss } points
plan-step-seeds = Seeds
plan-step-seeds-how = plants over what comes up
plan-step-seeds-of-rate = rate over seed weight
plan-step-live-seeds = Live seeds
plan-step-live-seeds-how = pure live seed over seed weight
plan-step-weight = Seed weight
plan-step-weight-how = { $per_kg } seeds per kg, { $per_lb } per lb
plan-step-weight-result = { $weight } g per thousand
plan-step-rate = Rate
plan-step-rate-how = seeds times seed weight
plan-step-bag = From the bag
plan-step-bag-how = rate over purity, { $purity } %
plan-step-along = Seeds along a row
plan-step-along-how = seeds times row spacing, { $spacing }
plan-step-along-result = { $per_m } per m ({ $per_ft } per ft)
plan-step-bushels = Bushels
plan-step-bushels-how = rate over bulk density, { $density }
plan-step-range = Rate, as far as the figures are known
plan-step-range-how = half widths added in quadrature
plan-step-range-result = { $least } to { $most } { $unit }
plan-step-live-wanted = Pure live seed wanted
plan-step-alive = Alive
plan-step-alive-how = { $hard_seed ->
    [counted] germination { $germination } % and { $hard } % hard or dormant
    [left-out] germination { $germination } %; { $hard } % hard or dormant left out
   *[not-stated] germination { $germination } %
}
plan-step-live-in-bag = Pure live seed in the bag
plan-step-live-in-bag-how = alive times purity, { $purity } %
plan-step-bag-rate = Rate from the bag
plan-step-bag-rate-how = wanted over what is pure and alive
plan-step-roller = Roller speed
plan-step-roller-how = rate times width { $width } times { $speed }, over { $runs } runs of { $factor }
plan-step-per-area = { $per_m2 } per m² ({ $per_ft2 } per ft²)

plan-missing-plants = This is missing. (For pure live seed, pls_rate is wanted instead.)
plan-missing-share = This is missing: how much of the seed comes up.
plan-one-of = Give one of { $name } and this, not both.
plan-plants-twice = Give plants_per_m2 or this, not both.
plan-two-ways = Give plants wanted or pure live seed wanted, not both.
plan-hard-seed-of-plants = Hard seed belongs to pure live seed: give pls_rate instead of plants.
plan-establishment-twice = Give the establishment, or germination with this, not both.
plan-emergence-and-loss = Give emergence_percent or this, not both: they reckon differently.
plan-doubt-twice = Give seed_plus_minus_points or this, not both.
plan-tested-without-germination = This belongs to a germination that is reckoned with. Beside an establishment, give its points
    instead.
plan-of-plants = This belongs to plants wanted, not to pure live seed.


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
lot-received-ahead = That day lies ahead. Look at the year.
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
germination-age = Germination of { $of ->
        [label] the label’s test
       *[test] the test
    } of { date-month } { $year }, { $months ->
        [0] this month
        [one] { $months } month ago
       *[other] { $months } months ago
    }.
germination-to-come = Germination of { $of ->
        [label] the label’s test
       *[test] the test
    } of { date-month } { $year }: that is yet to come, so look at the date.
germination-rules = { $hermetic ->
    [yes] Some rules for seed that is sold in hermetic containers name { $months } calendar months after the month of the test.
   *[no] Some rules for seed that is sold in containers that are not hermetic name { $months } calendar months after the month of
        the test.
} The rules where you are bind.

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
stock-count = { $mass } on { $day }
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

## What the label of a lot says besides

label-more = What else the label says
label-month-hint = Year and month, such as 2027-03.
label-origin = Grown in
label-origin-hint = Country, or state, of production.
label-category = Category or class
label-category-hint = As on the label. Choose one or write your own.
label-category-pre-basic = pre-basic seed
label-category-basic = basic seed
label-category-certified-1 = certified seed, first generation
label-category-certified-2 = certified seed, second generation
label-category-commercial = commercial seed
label-category-foundation = foundation seed
label-category-registered = registered seed
label-category-not-final = not finally certified
label-category-none = not certified
label-certifying-authority = Certified by
label-serial-number = Serial number of the label
label-sealed-in = Sealed or sampled in
label-declared-weight = Declared weight
label-containers = Bags or other containers
label-hermetic = Sealed against moisture
label-hermetic-hint = Hermetic containers, in which a test of the germination holds for longer.
label-hermetic-is = { $is ->
    [yes] yes, hermetic containers
   *[no] no
}
label-other-crop = Seed of other crops
label-other-crop-percent = Seed of other crops, %
label-weed-seed = Weed seed
label-weed-seed-percent = Weed seed, %
label-inert-matter = Inert matter
label-inert-matter-percent = Inert matter, %
label-noxious-weeds = Noxious weeds
label-noxious-weeds-hint = Each kind, and how many in which mass.
label-hard-seed = Hard or dormant seed
label-hard-seed-percent = Hard or dormant seed, %
label-hard-seed-hint = Of the pure seeds, apart from the germination. A rate plan of pure live seed takes it from here.
label-components = Components of a mixture
label-components-hint = Each kind and variety with its share.
label-additives = Pellet, coat or additive
label-additives-hint = What it consists of, and its part of the weight.
label-inoculant-expires = Inoculant good until
label-test-report = Laboratory’s report
label-test-report-hint = The laboratory and the number of its report or certificate.
label-beyond-whole = Purity, other crops, weed seed and inert matter come to { $sum } % together, which is more than the
    whole. Compare each with the label.
label-hard-beyond = A germination of { $germination } % and hard seed of { $hard } % are more than all seeds. Compare both with
    the label: hard seed stands apart from the germination there.

## The lot card

lot-card-title = Lot card
lot-card-about = One sheet for each lot: its label, tests and treatment, its balance, where it was sown and by which machines, and
    the calibrations made with it.
lot-card-submit = Show the card
lot-card-choose = Choose a lot to see its card.
lot-card-print = Print this page for whoever asks where the seed came from and where it went.
lot-card-open = The lot’s page
lot-card-of-this = Lot card for printing
lot-card-label-first = The label of the seed and the rules where you are go before this page.
lot-card-no-tests = Nothing was measured of this lot.
lot-card-moisture = Moisture
lot-card-balance = Balance
lot-card-doubt = What stands behind ± is what the weighings leave open, at about 95 %.
lot-card-no-jobs = No job with this lot that you see is recorded.
lot-card-calibrations = Calibrations made with it
lot-card-no-calibrations = No calibration with this lot that you see is recorded.
lot-card-no-number = These factors say what was measured then. The number to key in stands on the cab card and the seeder’s page.

## Records as files

nav-exchange = Exchange
exchange-title = Exchange
exchange-lists = Lists for spreadsheets
exchange-lists-what = Each list is a CSV file with every row that you may see.
exchange-lists-own = Each list is a CSV file with the jobs that you logged.
exchange-lists-note = Headings are the same in every language and carry the unit in square brackets; the decimal sign is a point unless you choose the comma. Beside each measured value stands what was entered. Text that a spreadsheet would compute begins with an apostrophe.
exchange-from = From
exchange-to = To, that day included
exchange-form = Cells and numbers
exchange-form-comma = Comma between cells, decimal point
exchange-form-semicolon = Semicolon between cells, decimal comma
exchange-client = One client alone
exchange-mark = Mark of UTF-8
export-no-such-part = This list cannot be cut to that; the list of usage can.
exchange-mark-with = With: for spreadsheets
exchange-mark-without = Without: for programs
exchange-apply = Use for the files
exchange-list-file = { $list }, CSV
exchange-list = { $list ->
    [seeders] Seeders
    [metering-units] Metering units
    [rollers] Rollers
    [scales] Scales
    [scale-checks] Scale checks
    [seasons] Seasons
    [crews] Crews
    [configurations] Working widths
    [setups] Setups
    [services] Services
    [lay-ups] Lay-ups
    [clients] Clients
    [fields] Fields
    [lots] Seed lots
    [lot-tests] Lot tests
    [movements] Movements
    [fills] Fills
    [emptyings] Emptyings
    [jobs] Jobs
    [calibrations] Calibrations
    [catches] Catches
    [decisions] Decisions
    [waivers] Waivers
    [readiness] Readiness
    [usage] Usage per job
    [signatures] Signed audits
   *[audit] Audit trail
}
exchange-list-what = { $list ->
    [seeders] Each machine: working width, row spacing, laid up or not.
    [metering-units] Each metering unit, with what is told of its seeder beside it.
    [rollers] The meter rollers.
    [scales] The scales: smallest step and capacity.
    [scale-checks] What each scale read of a known mass.
    [seasons] When each season starts, and for which crops.
    [crews] Who is in each crew, and which seeders it works with.
    [configurations] Every working width and row spacing of each seeder, from when on.
    [setups] Every roller, drive ratio and gate that was set up, from when on.
    [services] Parts replaced or repaired.
    [lay-ups] When a seeder was laid up or taken into use again.
    [clients] For whom the organization sows.
    [fields] The fields with their areas.
    [lots] What the label says of each lot, its supplier and what came in.
    [lot-tests] What was measured of the lots.
    [movements] Seed received, returned, sold, discarded, counted.
    [fills] Seed put into tanks.
    [emptyings] Seed taken out of tanks.
    [jobs] Field jobs: area, seed used, target rate.
    [calibrations] Factor, uncertainty and state of each calibration.
    [catches] What was caught for each calibration, a row for each catch.
    [decisions] What the office decided of catches that were held, and why.
    [waivers] Which reason to catch again was let pass, until when, and why.
    [readiness] Each metering unit now: its number and what is due.
    [usage] What each job came to, and under which number.
    [signatures] Who put their name under which audit of usage, and when.
   *[audit] Who did what and when, with the chain of hashes.
}
exchange-csv = CSV

# A list taken in from a file.
import-kind = { $kind ->
    [seeders] Seeders with their metering units
    [lots] Seed lots
    [fields] Fields
    [jobs] Jobs
   *[calibrations] Past calibrations
}
import-title = { $kind ->
    [seeders] Take in seeders
    [lots] Take in seed lots
    [fields] Take in fields
    [jobs] Take in jobs
   *[calibrations] Take in past calibrations
}
import-lists = Lists of other programs
import-lists-what = A CSV file is checked row by row and shown with its faults before anything is stored. Files of this page’s lists can be taken in again.
import-recent = Files sent last
import-intro = The file is checked first, as if each row were typed in; then you see what is wrong in which row and choose whether the good rows are stored. The same rows sent again are stored once.
import-file = CSV file
import-file-hint = UTF-8, comma, semicolon or tab between cells, at most { $most } KiB. In a spreadsheet: save as CSV UTF-8.
import-check = Check the file
import-cannot-read = The file was not taken
import-columns = Columns
import-columns-note = In any order. Another unit may stand in the brackets of a heading. A seeder has a row for each metering unit, a calibration a row for each catch.
import-template = File to begin with, CSV
import-heading = Heading
import-needed = Needed
import-example = Example
import-yes = yes
import-no = no
import-no-file = Choose a CSV file.
import-utf-16 = The file is UTF-16. Save it as CSV UTF-8 and send it again.
import-nul = The file holds NUL characters: it is no CSV file. A spreadsheet’s own file must be saved as CSV UTF-8 first.
import-not-utf-8 = The file is no UTF-8 from line { $line } on, most likely Windows-1252. Save it as CSV UTF-8 and send it again.
import-empty = The file is empty: its first row must be the headings.
import-columns-many = The first row has { $count } columns; at most { $most } are taken. Perhaps the file is no CSV, or its rows have no ends.
import-row-unreadable = Row { $row } cannot be read as CSV.
import-row-length = Row { $row } has { $given } cells and the headings are { $wanted }: a cell that holds what parts cells must stand between quotation marks.
import-cell-long = A cell of row { $row } is longer than { $most } characters. Perhaps a quotation mark is missing before it.
import-rows-many = The file has more than { $most } rows. Part it and send the parts one by one.
import-no-rows = The file has headings and no rows.
import-heading-unknown = No column is headed “{ $given }”. The headings are: { $known }.
import-heading-twice = Two columns are headed “{ $given }”; one must go.
import-heading-missing = These columns are missing: { $missing }.
import-heading-unit = The heading “{ $given }” needs one of these units in square brackets: { $known }.
import-differs = Rows of one entry must agree here: row { $row } says otherwise.
import-decimal-sign = “{ $given }”: the decimal sign of this file is “{ $sign }”. Either “{ $other }” is meant as one, then write “{ $sign }”, or it
    stands between thousands, then leave it out.
import-two-values = The column of what was entered says “{ $entered }”, which is another value. Empty the one that is not true.
import-no-such = { $what ->
    [client] No client is called “{ $name }”; add it first, or mend the name.
    [scale] No scale is called “{ $name }”; add it first, or mend the name.
    [field] No field is called “{ $name }”; add it first, or mend the name.
    [lot] No seed lot has the number “{ $name }”; add it first, or mend the number.
   *[unit] No seeder has such a metering unit: “{ $name }”; add it first, or mend the names.
}
import-several = { $what ->
    [client] Several clients are called “{ $name }”: it must be clear which is meant.
    [scale] Several scales are called “{ $name }”: it must be clear which is meant.
    [field] Several fields are called “{ $name }”: it must be clear which is meant.
    [lot] Several seed lots have the number “{ $name }”: name the crop in its column too, or give the lots numbers of their own.
   *[unit] Several seeders have such a metering unit: “{ $name }”: it must be clear which is meant.
}
import-name-taken = Another one is called this already, here or further up in the file: nobody could tell the two apart. Leave the row out, or name it apart.
import-not-checked = This file is not waiting for a choice: look at its page.
import-fault-row = Row { $row }: { $says }
import-fault-column = Row { $row }, column “{ $column }”, empty: { $says }
import-fault-cell = Row { $row }, column “{ $column }”, “{ $given }”: { $says }
import-progress = { $stage ->
    [checking] Checking: { $done } of { $all } entries.
   *[storing] Storing: { $done } of { $all } entries.
}
import-progress-bar = How far the file is
import-leave = You may leave this page; what is done is kept, and the page goes on from there.
import-checked = The file was checked. Nothing is stored yet.
import-stored = The file was taken in.
import-dropped = Nothing of this file was stored.
import-store = Store what is good ({ $count })
import-drop = Store nothing
import-count = { $outcome ->
    [good] { $count ->
        [one] { $count } entry is good.
       *[other] { $count } entries are good.
    }
    [stored] { $count ->
        [one] { $count } entry was stored.
       *[other] { $count } entries were stored.
    }
    [already] { $count ->
        [one] { $count } entry is stored already.
       *[other] { $count } entries are stored already.
    }
    [left_out] { $count ->
        [one] { $count } entry no longer stood where the file comes from, and is left out.
       *[other] { $count } entries no longer stood where the file comes from, and are left out.
    }
   *[faulty] { $count ->
        [one] { $count } entry has faults and is not stored.
       *[other] { $count } entries have faults and are not stored.
    }
}
import-outcome = { $outcome ->
    [good] good
    [stored] stored
    [already] stored already
    [left_out] left out
   *[faulty] faulty
}
import-stage = { $stage ->
    [checking] (being checked)
    [checked] (waits for your choice)
    [storing] (being stored)
    [stored] (taken in)
   *[dropped] (not stored)
}
import-faulty = What to mend
import-faulty-what = Mend these in your file and send it again: what is stored already is not stored twice.
import-rows = Rows
import-row = Row
import-holds = Begins with
import-becomes = Becomes
import-more = Next rows

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
job-too-much = { $seed } on { $area } is more than any seeder sows. Look at the decimal signs and the units.
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

## Files of task data

exchange-task-data = What a terminal counted, in the form of ISO 11783-10: its tasks become jobs, each once.
exchange-task-data-send = Send a task data file
task-file-title = Task data from machines
task-file-what = Jobs out of the files that a machine's terminal writes (ISO 11783-10).
task-file-intro = A terminal that follows ISO 11783-10 writes what it did into TASKDATA.XML. Send that file, or a zip of its folder; you
    then see what each task would become, and decide.
task-file-file = File
task-file-file-hint = TASKDATA.XML, or a zip that holds it, of at most { $most } MB. Versions 3 and 4 are read.
task-file-not-chosen = No file was chosen. Choose TASKDATA.XML, or a zip that holds it.
task-file-send = Read the file
task-file-earlier = Files that were sent
task-file-sent = Sent
task-file-sent-by = By
task-file-open = Nothing is stored yet. Say what the file's names mean here; it is remembered for the next file. Untick what should
    become no job.
task-file-none-open = No task of this file is waiting to become a job.
task-file-later = { $count ->
    [one] { $count } more task is asked about once these are stored.
   *[other] { $count } more tasks are asked about once these are stored.
}
task-file-submit = Store the jobs
task-file-line = { $task }: { $product }
task-file-store = Make a job of it
task-file-unit = Metering unit
task-file-unit-called = { $seeder }, { $unit }
task-file-lot = Lot
task-file-choose = Choose
task-file-product-unknown = product not named
task-file-field = Field
task-file-field-by-name = “{ $name }”, by name only
task-file-field-new = Add “{ $name }” to the fields
task-file-client = Whose a new field is
task-file-client-hint = Asked only where a field is added.
task-file-client-new = Add “{ $name }” to the clients
task-file-rate = Target rate
task-file-rate-by-count = The file asks for { $seeds } seeds per m²: enter what that was by mass.
task-file-rate-unknown = The file names no single rate by mass.
task-file-seed-used = Seed used
task-file-machine-mass = { $mass }, as the machine counted
task-file-balance-mass = { $mass }, filled less emptied and left, as weighed
task-file-customer = Customer
task-file-machine = Machine
task-file-by-machine = Machine's total
task-file-by-balance = Weighed balance
task-file-revolutions = Revolutions of the meter
task-file-mass-and-rate = { $mass }, { $rate }
task-file-nothing = nothing
task-file-change = { $what }: { $was } then, { $is } now
task-file-stored = It is a job already.
task-file-changed = It is a job already, made of other numbers, and was not overwritten. Correct that job, or void it and store the
    task anew.
task-file-to-seeder = To the seeder
task-file-twice = The same machine began another task of this file at the same moment: log one of the two by hand.
task-file-no-time = The file says no time at which it was sown: log it by hand.
task-file-faulty = It cannot become a job:
task-file-not-new = This line cannot become a job, or is one by now. Untick it.
task-file-others = Tasks without anything sown
task-file-planned = only planned
task-file-note = From task data “{ $file }”: { $task }, { $machine }

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
board-passed-withheld = { $by ->
    [known] Let pass until { $until } by { $who }. The reason is the office’s own.
   *[unknown] Let pass until { $until }. The reason is the office’s own.
}
board-cause-calibration = The catch
board-cause-check = The check
board-cause-configuration = The configuration
board-cause-emptying = The emptying
board-cause-fill = The fill
board-cause-job = The job
board-cause-season = The season
board-cause-seeder = The seeder
board-cause-service = The service
board-cause-setup = The setup
board-cause-test = The lot’s test
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
waiver-then = While “{ $reason }” is let pass, { $number } counts as the number to key in, as it was caught on { $day }. Nothing has shown
    that it holds with what is there now.
waiver-then-nothing = To let “{ $reason }” pass gives no number yet: something else stands against it too.
waiver-displaced = By their displacements { $roller } gives about { $share } % of what { $before } did.
waiver-trigger = Reason on { $seeder }, { $unit }
waiver-from = From
waiver-until = Until the end of
waiver-reason = Why it may pass
waiver-reason-hint = Such as: “same lot, rebagged; caught last week”. Who sees some clients only is not told it.
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
rate-far-from-catch = More than { $percent } % from the roller speed of the catch: check with a catch at that speed before sowing so.

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
rate-way-left = Left empty, as in the calibration in force: { $way } without load, and { $slip } % slip. A way that you type is taken as one under load.
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


## Where the seed went

nav-usage = Usage
usage-title = Where the seed went
usage-intro = What was sown of each lot, under which number, and what should be left. Hectares are each unit’s own: a pass that sows seed and fertilizer counts for both.
usage-intro-own = The jobs that you logged, and under which number they were sown.
usage-of-client = A job counts here with the client’s seed, or on the client’s field.
usage-from = From
usage-to = To, that day included
usage-seeder = Seeder
usage-lot = Seed lot
usage-field = Field
usage-client = Client
usage-crew = Crew’s seeders
usage-month = Month
usage-crop = Crop
usage-person = Logged by
usage-all = all
usage-together-by = Put together by
usage-show = Show
usage-no-day = “{ $given }” is no day; write it like 2027-04-06.
usage-ends-before = The period ends before it begins.
usage-sown = Sown
usage-untrue = Sown under a number that was not true
usage-seed-weighed = Seed, weighed
usage-seed-bags = Seed, by bags counted
usage-seed-machine = Seed, as the machines report it
usage-machine-note = What a machine reports is its revolutions times the factor it was given: it cannot reveal a wrong factor.
usage-untrue-let-pass = { $area } were sown while a reason to catch again was let pass; the rows of those jobs say so.
usage-untrue-none = Every job of this period began under a number that was true.
usage-untrue-job = { $machine }, on { $field }: { $area }.
usage-no-number = The unit had no number: no setup was known.
usage-together = Put together
usage-jobs = Jobs
usage-jobs-none = No job of this period is known. Jobs are logged from the seeder’s page.
usage-job = Job
usage-when = When
usage-machine = Unit
usage-area = Area
usage-area-untrue = Of it under an untrue number
usage-seed = Seed
usage-from-machine = Of it by the machine alone
usage-actual = Actual rate
usage-target = Target
usage-deviation = Off target
usage-number = Number
usage-number-true = true
usage-number-check = true, check was due
usage-number-check-let-pass = true, check was due, a reason was let pass
usage-number-let-pass = true, a reason was let pass
usage-number-untrue = not true
usage-basis-weighed = weighing
usage-basis-bags = bags
usage-basis-machine = the machine’s total
usage-seeds = Seeds/m²
usage-plants = Plants/m², at most
usage-lots = Lots
usage-lots-note = Opening + received − filled + returned − sold − discarded is what should be on hand. What is unaccounted for is the count less what should have been there; ± is what the weighings leave open (95 %).
usage-lots-some = What was sown is by the jobs asked about alone; all else is of the whole lot.
usage-lot-off = { $off ->
    [missing] { $mass } is missing, more than the weighings leave open.
    [over] { $mass } too much was counted, more than the weighings leave open.
   *[short] { $mass } more went out than came in: a delivery is not recorded.
}
usage-opening = At the beginning
usage-received = Received
usage-filled = Filled
usage-returned = Returned
usage-sold = Sold
usage-discarded = Discarded
usage-expected = Should be on hand
usage-counted = Counted
usage-unaccounted = Unaccounted for
usage-tanks = Tanks
usage-tanks-of = The tank of { $unit }
usage-tanks-note = Each line is a tank from one time that it was empty to the next: filled − emptied − sown should be nothing.
usage-tank-span = { $from } to { $to }
usage-tank-since = since { $from }
usage-tank-lots = Lots in it
usage-emptied = Emptied
usage-tank-unaccounted = Left or unaccounted for
usage-tank-left = { $mass } should be in it
usage-tank-short = { $mass } more sown than filled: a fill is not recorded
usage-not-all-weighed = not all was weighed
signature-sign-this = Sign this audit
signatures-title = Signed audits
signatures-none = No audit has been signed. An agronomist signs one from the Usage page.
signature-line = Signed by { $by }
signature-new-title = Sign an audit
signature-intro = You put your name under what stands here, as it is known at this moment. Nothing is locked: later records may change it, and the signed audit then says what is different.
signature-limited = As far as concerns
signature-until = Until
signature-remark = Remark
signature-remark-hint = Such as: “Long Acre seen on 4 May, stand even; the first two hectares are doubtful.”
signature-sign = Sign
signature-title = Signed audit
signature-when = Signed
signature-by = By
signature-remarked = { $by } remarks:
signature-standing = What has become of it
signature-as-signed = Nothing of it has changed since it was signed.
signature-is-changed = { $count ->
    [one] It is no longer what was signed: one thing is different.
   *[other] It is no longer what was signed: { $count } things are different.
}
signature-totals = All jobs together
signature-as-was = As signed
signature-as-is = Now
signature-ask-now = See it as it is now
signature-unknown = Whether it has changed cannot be told: who signed it does not see these records any more.
signature-jobs = Jobs as they were signed
signature-added = Not in what was signed: it was recorded later.
signature-gone = It was signed and stands no more: voided, corrected by another record, or moved out of the question.
signature-changed = { $fact }: { $was } was signed, now { $is }.
signature-nothing = nothing
signature-fact = { $fact ->
    [area] Area
    [seed] Seed used
    [basis] Seed known by
    [target] Target rate
    [seeds] Seeds per m²
    [number] Number at the start
    [reasons] Reasons to catch again
    [opening] At the beginning
    [received] Received
    [filled] Filled
    [returned] Returned
    [sown] Sown
    [sold] Sold
    [discarded] Discarded
    [expected] Should be on hand
    [counted] Counted
   *[other] { $fact }
}
signature-number = { $number ->
    [true] true
   *[untrue] not true
}
signature-basis = { $basis ->
    [weighed] weighing
    [bags] bags
   *[machine_total] the machine’s total
}
signature-chain = Signed after line { $number } of the audit trail, whose hash is { $hash }.
usage-drift = Drift
usage-drift-note = Jobs whose seed was weighed or counted in bags, against their target, since the calibration in force. Outside the dashed limits the unit wants a catch.
usage-drift-none = No unit has a weighed job since its calibration.
usage-drift-not-told = Tanks and drift belong to a machine, whoever’s seed it sows: they are not told for one client or field alone.
usage-drift-title = { $machine }: off target, %
usage-drift-says = { $jobs ->
    [one] One job; smoothed it is { $off } off target, the limit is ± { $limit } %: { $state ->
            [out] outside the limits.
           *[within] within the limits.
        }
   *[other] { $jobs } jobs; smoothed they are { $off } off target, the limit is ± { $limit } %: { $state ->
            [out] outside the limits.
           *[within] within the limits.
        }
}
usage-drift-hint = With each job weighed by how well it is known it is { $off }; that would be a factor of { $factor } per run. It is a hint and no calibration: catch again and key in what the catch gives.
usage-drift-job-off = Each job
usage-drift-smoothed = Smoothed
usage-drift-limit = Limit
usage-drift-weighted = Weighted
usage-drift-weighted-limit = Its limit


## Reports

nav-reports = Reports
reports-title = Reports
reports-intro = Pages made for paper. Each names the moment it was made at, the tolerances in force and the newest entry of the
    audit trail, so that a print-out can be checked later.
reports-usage = Usage audit
reports-usage-about = What was sown of each lot and under which number, what should be left, and how the machines drift. Choose the
    period on its page, then print it.
reports-usage-open = Open the usage audit
reports-record = Calibration record
reports-record-about = Everything that one catch measured and how it was judged, on one page. Find it on its seeder’s page.
reports-record-open = Choose a seeder
stamp-organization = Organization
stamp-as-of = As of
stamp-moment = { $moment } ({ $zone })
stamp-period = Period
stamp-period-moment = as of { $moment }
stamp-period-both = { $from } to { $to }
stamp-period-from = from { $from } until then
stamp-period-to = from the beginning to { $to }
stamp-period-all = from the beginning until then
stamp-tolerances = Tolerances
stamp-tolerances-changed = version { $number }, in force since { $since }
stamp-tolerances-delivered = as Sowmark comes, never changed
stamp-head = Audit trail
stamp-entry = entry { $entry },
stamp-check = Check this print-out at
cab-card-title = Cab card
cab-card-about = One page for each cab: the number to key in for each unit and lot, roller speeds, and what would end a number.
cab-card-seeder = Seeder
cab-card-every-seeder = every seeder, a page each
cab-card-rate-hint = The tables are drawn around this rate and speed; around those of the latest job unless you say.
cab-card-submit = Show the card
cab-card-no-seeder = No seeder that you see is entered yet.
cab-card-no-units = No unit of this seeder holds seed of your clients now.
cab-card-print = Print this page; every seeder begins a new sheet. A new catch makes a new card: destroy the old one.
cab-card-opens = The code opens what is true now; or type
cab-card-in-tank = In the tank: { $lot }
cab-card-lot-unknown = a lot that is not yours to see
cab-card-caught = Caught on { $when }.
cab-card-speeds = The roller turned { $caught } revolutions per minute then; the tolerances allow { $percent } % around that: { $least } to { $most }.
cab-card-speeds-unknown = At which roller speed is not on record.
cab-card-mixed = Mixed: what was left of { $others } is in it too.
cab-card-mixed-short = tank mixed
cab-card-passed-short = a reason was let pass
cab-card-ground = The ground turns this roller: its rate follows from the drive ratio, not from the driving speed.
cab-card-no-table = No rate and driving speed are known yet: give both above for a table of roller speeds.
cab-card-table = Roller speed, revolutions per minute
cab-card-table-of = Roller speeds of { $unit }
cab-card-others = With another lot, once the tank was emptied and filled with it alone
cab-card-others-of = Numbers of { $unit } with other lots
cab-card-lot = Lot
cab-card-number = Number to key in
cab-card-caught-on = Caught
cab-card-ends = Catch again before sowing when
cab-card-ends-lot = a lot goes into the tank that has no number on this card
cab-card-ends-fitting = roller, drive ratio, gate, runs in use, working width or row spacing is changed
cab-card-ends-part = a part is replaced that affects metering
cab-card-ends-weight = a test finds the lot’s seed weight or bulk density more than { $percent } % off
cab-card-ends-season = a new season begins
cab-card-ends-doubt = a later catch of the same fails
cab-card-looks = Have it looked at when
cab-card-looks-speed = the work wants a roller speed more than { $percent } % from that of the catch
cab-card-looks-drift = weighed jobs drift away from their target
cab-card-looks-scale = the scale was not checked within { $days } days before the catch
cab-card-looks-days = { $days } days have passed since the catch
cab-card-looks-area = { $area } were sown since the catch
check-print-title = Check a print-out
check-print-about = Every report names the newest entry of the audit trail. Type its digits here, and be told whether this trail has
    it and is unchanged up to it.
check-print-head = Digits of the audit trail on the print-out
check-print-hint = All 64, or at least the first { $least }. Gaps do not matter.
check-print-submit = Check it
check-print-no-head = This is no head of an audit trail: it has { $least } to 64 digits, 0 to 9 and a to f. Type what stands on the
    print-out.
check-print-answer = What the trail says
check-print-good = This trail contains it
check-print-bad = The print-out cannot be confirmed
check-print-found = It is entry { $entry }, written on { $when }.
check-print-whole = { $later ->
    [0] Every entry up to it is as it was written; it is still the newest one.
    [one] Every entry up to it is as it was written, and so is the one since.
   *[other] Every entry up to it is as it was written, and so are the { $later } since.
}
check-print-broken-later = Every entry up to it is as it was written, but entry { $entry }, made later, is not: have the office look
    into it.
check-print-broken = Entry { $entry } is no longer as it was written: the records behind this print-out may have been changed. Have the
    office look into it.
check-print-unknown = The trail of { $organization } has no such entry. Look for a mistyped digit; otherwise the paper comes from another
    organization or another server, or the end of the trail was cut off.
check-print-compare = You typed only its beginning. Compare the rest with the paper:
season-report-title = Season report
season-report-about = What each unit was caught with, what had to be caught again and how soon it was, the ground and the seed, and
    what was not as it should be. A reason stands from when it began until the unit was caught again, an earlier number was true
    again, the office let it pass, or it no longer held; all as known at the moment named below.
season-report-own = Of the jobs those that you logged.
season-report-submit = Show the report
season-report-units = Metering units
season-report-accepted = Catches accepted
season-report-held = Catches held
season-report-rejected = Catches rejected
season-report-caught = Reasons to catch again, caught
season-report-caught-short = Reasons caught
season-report-otherwise = Reasons to catch again, ended otherwise
season-report-open = Reasons to catch again, still open
season-report-open-short = Reasons open
season-report-longest = Longest until caught again
season-report-sums = All units
season-report-fleet = The fleet
season-report-seed = Seed by lot
report-season = Season
report-season-usual = this one
report-as-of = As of { $moment }: { $period }
report-of-client = For { $client } alone: their seed and their fields.
report-fitted-last = Fitted at the end
report-state-last = State at the end
report-fitted = { $gated ->
    [yes] { $roller }, drive ratio { $ratio }, gate { $gate }, { $runs ->
        [one] 1 run
       *[other] { $runs } runs
    }
   *[no] { $roller }, drive ratio { $ratio }, { $runs ->
        [one] 1 run
       *[other] { $runs } runs
    }
}
report-catches = Catches
report-catches-of = Catches of { $unit }
report-no-catches = No catch to tell of in this period.
report-factor = Factor per run
report-uncertainty = Known to
report-verdict = Checks
report-became = What became of it
report-triggers = Reasons to catch again or to check
report-triggers-of = Reasons to catch { $unit } again or to check it
report-jobs-of = Jobs of { $unit }
report-trigger-state = State
report-trigger = Reason
report-since = Stood since
report-answer = How it was answered
report-after = Stood for
report-answer-open = Not yet answered
report-answer-laid-up = Not yet answered; the machine is laid up
report-answer-caught = Caught again on { $when }
report-answer-recalled = An earlier number was true again on { $when }
report-answer-waived = The office let it pass on { $when }, until { $until }: { $reason }
report-answer-waived-withheld = The office let it pass on { $when }, until { $until }, for a reason of its own
report-answer-gone = No longer so on { $when }
report-exceptions = Exceptions
report-exception-untrue = { $area } on { $field } sown under a number that was not true. { $why }
report-exception-accepted = A catch with lot { $lot } failed a check, and the office accepted it.
report-exception-waived = The office let pass until { $until }: { $trigger }. { $reason }
report-unfinished = This report is still being made. If this line stays, it is incomplete: load the page again.
report-end = End of the report.
report-incomplete = This report is incomplete
report-incomplete-why = Something went wrong while it was being made, and what should follow is missing. Do not use it. Load the page
    again; if that does not help, tell whoever looks after the server.
book-title = Seeder book
book-of = { $seeder }: seeder book
book-about = Everything about one machine: what it is, what each unit was caught with, what stood against its numbers and how it was
    answered, its jobs, the scales that its catches were weighed on, and everything that was logged.
book-submit = Show the book
book-choose = Choose a seeder and a period
book-seeder = The seeder’s page
book-as-of = What is fitted and what stands as of { $when }:
book-no-number = none
book-called = called { $names } by terminals
book-scales = Checks of the scales
book-scale = Scale
book-reference = Known mass
book-reading = Reading
book-no-log = Nothing was logged in this period.
