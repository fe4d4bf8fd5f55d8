# What core says to people, in English. Syntax: projectfluent.org. How texts are kept: DEVELOPERS.md, "A new sentence".
#
# A key names a whole sentence; several may follow each other. Numbers ($spread, $limit …) arrive with the reader's
# decimal sign, most of them with their unit. What is counted ($kept, $count, $repeats …) arrives as a number and chooses
# between [one] and [other]. A sentence may be broken over lines; it is said on one.

language-name = English
catch-without-label = catch { $number }

## Checks of a calibration (verdict)

check-repeats-too-few = { $kept ->
    [one] { $kept } repeat kept, at least { $least } are asked for: catch again.
   *[other] { $kept } repeats kept, at least { $least } are asked for: catch again.
}
check-repeats-least = { $kept ->
    [one] { $kept } repeat kept, the least that is allowed; one more would show which to trust.
   *[other] { $kept } repeats kept, the least that is allowed; one more would show which to trust.
}
check-repeats-enough = { $kept ->
    [one] { $kept } repeat kept, at least { $least } are asked for.
   *[other] { $kept } repeats kept, at least { $least } are asked for.
}
check-repeat-agreement = The repeats differ by { $spread }; the limit is { $limit } %.
check-repeat-agreement-rounding = That is no more than the scale's rounding explains: catch more seed, the meter need not
    be at fault.
check-repeat-agreement-scatter = That is more than the scale's rounding explains.
check-run-uniformity = The runs vary by { $cv } (coefficient of variation of up to { $catches } catches); the limit is
    { $limit } %.
check-run-uniformity-farthest = { $side ->
    [below] Farthest off is { $run }, { $off } below the mean.
   *[above] Farthest off is { $run }, { $off } above the mean.
}
check-run-uniformity-interval = From so few runs, the true figure may lie anywhere from { $low } to { $high }.
check-catches-apart = The runs were weighed apart.
check-catches-apart-in-groups = Groups of runs were weighed apart; a run within a group cannot be told.
check-catches-apart-together = The runs were poured together, so they could not be compared.
check-catches-apart-single = A single run was caught, so the runs could not be compared.
check-catch-mass-rounding = The scale's rounding is { $rounding } of a catch, the limit is { $limit } %: a catch needs
    { $needed } for that.
check-catch-mass-enough = The smallest holds { $smallest }.
check-catch-mass-too-light = The smallest holds { $smallest }: catch more seed or use a finer scale.
check-catch-mass-thumb = The smallest holds { $smallest }, less than the { $rule } of the rule of thumb.
check-catch-mass-thumb-small-seed = The smallest holds { $smallest }, less than the { $rule } of the rule of thumb for
    small seed.
check-uncertainty = The factor is known within { $within } (95 %); the limit is { $limit } %.
check-uncertainty-most = The largest part: { $part }.
check-roller-speed-beyond-drive = Caught at { $caught }; the drive holds { $least } to { $most }.
check-roller-speed-needed = Caught at { $caught }; { $rate } at { $speed } needs { $needed }, which is { $off } away; up to
    { $tolerance } % is near enough.
check-roller-speed-within-drive = Caught at { $caught }, within the { $least } to { $most } that the drive holds.
check-scale-passed = The scale passed a check within the last { $days } days.
check-scale-failed = The scale failed its last check: weigh with another, or mend and check it.
check-scale-long-ago = The scale's last check is more than { $days } days ago: check it with a known mass.
check-scale-never = The scale was never checked: check it with a known mass.
check-scale-not-named = No scale was named, so nothing is known of its checks.
check-plausibility = The factor is { $off } { $side ->
        [below] below
       *[above] above
    } what { $source ->
        [calibration] the last calibration
        [calibration-and-density] the last calibration and the seed's bulk density then and now
       *[displacement] the roller's displacement and the seed's bulk density
    } let expect; beyond { $remark } % it is worth a look, beyond { $fail } times it fails.

## The parts of an uncertainty (budget): what each one is, after a heading or a colon

budget-repeats-pooled = { $repeats ->
    [one] { $repeats } repeat, pooled with the policy's scatter of earlier catches
   *[other] { $repeats } repeats, pooled with the policy's scatter of earlier catches
}
budget-repeats-alone = { $repeats ->
    [one] { $repeats } repeat, taken alone as the policy asks
   *[other] { $repeats } repeats, taken alone as the policy asks
}
budget-one-repeat = one repeat; its scatter is the policy's, from earlier catches
budget-one-repeat-unknown = one repeat and no earlier catches: the policy's scatter, hardly known
budget-readings = { $readings ->
    [one] { $readings } reading of the scale, rounded to its step
   *[other] { $readings } readings of the scale, each rounded to its step
}
budget-scale-checked = the scale may be off by { $error } %, as its last check allows; common to all catches
budget-scale-unchecked = the scale may be off by { $error } %, twice the limit, for want of a passing check in force
budget-revolutions = revolutions are known in steps, at the start and at the end

## Units that are words

unit-catches = catches
unit-days = days
unit-degrees-of-freedom = degrees of freedom
unit-g-per-thousand-seeds = g per thousand seeds
unit-repeats = repeats
unit-standard-deviations = standard deviations
unit-times = times
unit-per-revolution = { $mass }/rev
unit-per-100-revolutions = { $mass }/100rev

## What was entered and cannot be understood as a number

number-empty = “{ $given }” is empty; enter a number, like { $example }
number-too-long = “{ $given }” is too long; enter at most 18 digits
number-two-signs = “{ $given }” has more than one decimal sign; write it without thousands separators, like { $example }
number-none = “{ $given }” is not a number; write digits with one decimal sign, like { $example }
number-not-json = “{ $given }” is not a JSON number; its decimal sign is a point
number-exponent = “{ $given }” has an exponent out of bounds; write the number out, with at most 18 digits
number-too-many-decimals = “{ $given }” has too many decimals; enter at most 18
number-too-many-digits = “{ $given }” has too many digits; enter at most 18
number-none-at-front = “{ $given }” does not begin with a number; write a number and a unit
number-pounds-signed = “{ $given }” has a sign; pounds and ounces together are not below zero
number-pounds-fraction = “{ $given }” has a fraction of a pound and ounces; give whole pounds and ounces, or pounds alone
number-sixteen-ounces = “{ $given }” has 16 ounces or more; ounces beside pounds are below 16
number-too-many-digits-in-all = “{ $given }” has too many digits; enter at most 12 in all
unit-missing = no unit is not a unit of { $dimension }; allowed are { $allowed }
unit-unknown = “{ $given }” is not a unit of { $dimension }; allowed are { $allowed }
ratio-none = “{ $given }” is not a drive ratio; write roller to drive revolutions, like 5:2 or { $example }
ratio-of-nothing = “{ $given }” is not a drive ratio; both numbers must be above zero
ratio-out-of-bounds = “{ $given }” is out of bounds; a drive ratio lies between { $least } and { $most }

dimension-mass = mass
dimension-length = length
dimension-area = area
dimension-speed = speed
dimension-seed-weight = seed weight (per thousand seeds)
dimension-bulk-density = bulk density
dimension-rate = rate
dimension-meter-factor = meter factor
dimension-volume = volume
dimension-temperature = temperature

## What is impossible on a sheet; said after the field's name, so without a capital and a full stop

sheet-not-above-zero = the { $what ->
        [pulses] pulses
        [pulses_per_rev] pulses per revolution
        [turns] turns
        [distance] distance
        [circumference] rolling circumference
       *[revolutions] revolutions
    } must be above zero
sheet-slip = the slip must be from -50 to 90 %
sheet-too-many-revolutions = more than { $most } roller revolutions; no catch takes that many, count again
sheet-no-repeat = nothing was typed yet: a calibration needs at least one repeat, with its revolutions and what was caught
sheet-all-set-aside = every repeat is set aside; at least one must be kept to compute a factor
sheet-too-many-repeats = { $count } repeats; at most { $most } are taken
sheet-no-catch = there is no catch; weigh at least one
sheet-too-many-catches = { $count } catches; at most { $most } are taken
sheet-too-many-runs = { $in_use ->
    [one] the catches hold { $runs } runs together; the unit has { $in_use } run in use
   *[other] the catches hold { $runs } runs together; the unit has { $in_use } runs in use
}
sheet-set-aside-without-reason = a repeat is set aside with a reason, such as spilled or plugged
sheet-catch-of-no-run = a catch holds the seed of at least one run
sheet-tare-below-zero = a tare of { $tare } is below zero
sheet-tare-too-heavy = a tare of { $tare } is heavier than any machine; the most taken is { $most } kg
sheet-gross-too-heavy = a gross of { $gross } is heavier than any machine; the most taken is { $most } kg
sheet-no-seed = a gross of { $gross } leaves no seed above the tare of { $tare }; weigh again or swap the two
sheet-beyond-capacity = a gross of { $gross } is above the scale's capacity of { $capacity }
sheet-no-factor = these numbers give no factor; check revolutions and masses
circumstances-not-above-zero = the { $what ->
        [runs] number of runs in use
        [width] working width
        [roller-speed] roller speed
        [seed-weight] thousand-seed weight
        [expected] expected factor
        [rate] planned rate
        [speed] planned speed
        [readability] scale's readability
       *[capacity] scale's capacity
    } must be a number above zero
circumstances-drive-range = a drive range from { $least } to { $most } rpm; the least must not be above the most

## Tolerances: what is wrong with one, what they are called, what each is for

policy-unknown-field = { $name } is not a field of the policy
policy-not-true-or-false = { $name } is true or false
policy-no-value = { $name } must be { $kind ->
        [whole] a whole number
       *[number] a number
    } from { $least } to { $most }{ $empty ->
        [allowed] , or empty to turn it off
       *[no] {""}
    }
policy-out-of-bounds = { $name } of { $given } is out of bounds; it must be { $kind ->
        [whole] a whole number
       *[number] a number
    } from { $least } to { $most }{ $empty ->
        [allowed] , or empty to turn it off
       *[no] {""}
    }
policy-remark-above-limit = run_cv_remark_percent of { $remark } is above run_cv_limit_percent of { $limit }; a remark
    comes before a failure

policy-label-minimum_repeats = Minimum repeats
policy-label-repeat_spread_limit_percent = Repeat spread limit
policy-label-run_cv_limit_percent = Run CV limit
policy-label-run_cv_remark_percent = Run CV remark
policy-label-catch_resolution_limit_percent = Catch resolution limit
policy-label-rule_of_thumb_catch_kg = Rule of thumb catch
policy-label-small_seed_catch_kg = Small seed catch
policy-label-small_seed_limit_g = Small seed limit
policy-label-uncertainty_limit_percent = Uncertainty limit
policy-label-roller_speed_tolerance_percent = Roller speed tolerance
policy-label-scale_error_limit_percent = Scale error limit
policy-label-scale_check_interval_days = Scale check interval
policy-label-plausibility_fail_factor = Plausibility fail factor
policy-label-plausibility_remark_percent = Plausibility remark
policy-label-pooled_repeatability_percent = Pooled repeatability
policy-label-pooled_repeatability_degrees_of_freedom = Pooled repeatability degrees of freedom
policy-label-seed_weight_tolerance_percent = Seed weight tolerance
policy-label-recall_allowed = Recall allowed
policy-label-interval_days = Interval
policy-label-interval_area_ha = Interval area
policy-label-drift_lambda = Drift lambda
policy-label-drift_limit_width = Drift limit width
policy-label-drift_sigma_percent = Drift sigma
policy-label-weighed_balance_uncertainty_kg = Weighed balance uncertainty
policy-label-bag_mass_kg = Bag mass
policy-label-area_uncertainty_percent = Area uncertainty

policy-because-minimum_repeats = Fewer kept repeats than this fail. Default: two are the least that can show a slip;
    published advice on measurements is three or more.
policy-because-repeat_spread_limit_percent = Repeats that differ by more than this fail; above half of it is a remark.
    Default: the textbook rule of plus or minus 5 % for a drill's catches.
policy-because-run_cv_limit_percent = Runs that vary by more than this fail. Default: the upper limit of prairie
    evaluation reports for grain and fertilizer (from memory).
policy-because-run_cv_remark_percent = Runs that vary by more than this get a remark. Default: 10 % or less was called
    very good for air seeders by a provincial test centre.
policy-because-catch_resolution_limit_percent = The scale's rounding may be this share of the smallest catch, no more.
    Default: a judgement, well below the limit on the spread.
policy-because-rule_of_thumb_catch_kg = A lighter catch gets a remark. Default: common practice, no source.
policy-because-small_seed_catch_kg = The same for small seed, of which a kilogram takes too long to catch. Default:
    common practice, no source.
policy-because-small_seed_limit_g = Seed lighter than this counts as small seed. Default: rape and grass lie below,
    cereals above; common practice, no source.
policy-because-uncertainty_limit_percent = A factor known no better than this fails; above half of it is a remark.
    Default: as wide as the textbook tolerance on the rate itself.
policy-because-roller_speed_tolerance_percent = A catch at a roller speed further than this from the one needed gets a
    remark. Default: a judgement; published tests show that delivery depends on speed, without one number.
policy-because-scale_error_limit_percent = The scale may be off by this share of the load. Default: about one step in
    two hundred, what a class III scale in service may show on a small catch.
policy-because-scale_check_interval_days = A scale wants a check with a known mass this often. Default: a judgement,
    once or twice a sowing season.
policy-because-plausibility_fail_factor = A factor that differs from the expected one by more than this many times
    fails. Default: a judgement; lots of one crop differ by far less, slips by more.
policy-because-plausibility_remark_percent = A factor that differs from the expected one by more than this gets a
    remark. Default: a judgement; moving and standing catches differ by 4 to 15 % in published tests.
policy-because-pooled_repeatability_percent = How much one repeat varies, known from earlier catches. Default: a
    judgement; published meters repeat within 0.5 to 1.3 %.
policy-because-pooled_repeatability_degrees_of_freedom = How well that is known, as the number of earlier repeats less
    one per event; 0 leaves the catch to speak for itself. Default: a judgement.
policy-because-seed_weight_tolerance_percent = A lot whose seed weight or bulk density changed by more than this must be
    caught again. Default: a judgement; the published trigger is 1 g per thousand of rape seed.
policy-because-recall_allowed = An earlier factor on the same basis may be used again after a change and back. Default:
    yes; turn it off to catch after every change.
policy-because-interval_days = A factor older than this wants a new catch. Default: off; the triggers speak for
    themselves.
policy-because-interval_area_ha = A factor that sowed more than this wants a new catch. Default: off.
policy-because-drift_lambda = How much the newest job weighs in the drift chart. Default: the worked example of the NIST
    handbook of statistical methods.
policy-because-drift_limit_width = How far the drift chart may go before it asks for a catch. Default: three standard
    deviations, the custom of control charts.
policy-because-drift_sigma_percent = How much the seed used by single jobs scatters. Default: a judgement.
policy-because-weighed_balance_uncertainty_kg = How well seed filled less seed left is known when it was weighed.
    Default: one step of a weighbridge or tank scale.
policy-because-bag_mass_kg = What one bag holds, for jobs known by counting bags. Default: the common bag.
policy-because-area_uncertainty_percent = How well a job's area is known. Default: a judgement, for areas from
    positioning.

## What each check is for, in two sentences; where it comes from

explained-repeats = A single catch can be wrong for a reason that nobody saw: a bag that slipped, a start too late. Two
    catches that agree are no accident, and a third one tells which of two to trust.
explained-repeats-source = The National Physical Laboratory (UK) advises at least three tries, to catch gross mistakes
    (Introducing measurement uncertainty, “Oops”).
explained-repeat_agreement = Every repeat is the same work done again, so each should give nearly the same factor; what
    stands here is how far the highest is from the lowest, as a share of their mean. When they lie far apart, something
    changed in between, or the catch is too small for the scale.
explained-repeat_agreement-source = The textbook rule of plus or minus 5 % for a drill's catches (Introduction to
    Agricultural Engineering Technology); whether rounding alone explains it is a chi-squared test against the scale's
    step.
explained-run_uniformity = Neighbouring runs should get the same seed; the coefficient of variation says how far they
    typically lie from their mean, as a share of it. From two or three bags that figure is rough, so the range in which
    the true one may lie is told with it.
explained-run_uniformity-source = Published bands for air seeders (10 % or less called very good by a provincial test
    centre; 15 % as upper limit is from memory); the coefficient is the standard deviation with n − 1 over the mean, and
    the range is the modified McKay interval.
explained-catches_apart = When the bags of several runs are poured together, the sum can be right while one run gives
    too little and another too much. Weighed apart, each run can be seen.
explained-catches_apart-source = Extension leaflets weigh and record the seed of each opener separately (for example an
    Indian lecture on seed drill calibration).
explained-catch_mass = A scale shows steps, and the empty bag and the full one are each rounded to one; on a small catch
    that rounding is a large share of the seed. The mass needed makes it small enough, and more revolutions make more
    mass.
explained-catch_mass-source = A step d is an uncertainty of d / √12 (JCGM 100:2008, F.2.2.1), so a net mass of two
    readings has d / √6; the rule of thumb beside it is common practice, no source.
explained-uncertainty = No measurement is exact; this is how far the true factor may lie to either side of the one
    found, 19 times out of 20. It adds up what the repeats, the scale's steps, the scale itself and the counting of
    revolutions each leave open.
explained-uncertainty-source = Guide to the expression of uncertainty in measurement (JCGM 100:2008): combined in
    quadrature, expanded with Student's t at the effective degrees of freedom (G.4.1).
explained-roller_speed = A meter does not always give twice the seed when it turns twice as fast, so a factor is best
    caught at the speed at which it will be used. Outside the speeds that the drive can hold, nothing said here would
    happen in the field.
explained-roller_speed-source = Delivery changes with speed in published tests of fluted meters (a grain drill with
    cowpea, 1985; Pantnagar Journal of Research 20, 2022); the size of the tolerance is a judgement.
explained-scale = A scale that is off makes every catch off by the same share, and no repeat will show it. A known mass
    put on it does.
explained-scale-source = Maximum permissible errors of non-automatic scales (UK SI 1995/1907, schedule 2; in service
    twice those of verification); the interval is a judgement.
explained-plausibility = A meter turns out volume, so what this roller gave before, or what it holds in a turn, times
    how heavy the seed lies, says about what to expect. A factor far from that is more often a slip on the sheet than a
    change in the machine.
explained-plausibility-source = Mass follows bulk density in volumetric meters (North Dakota State University AE-1144);
    moving and standing catches differ by 4 to 15 % in published tests, so only a wide gap fails.

## Figures of a plan: what each is called at the beginning of a sentence, and what to do about one that cannot be so

figure-plants = The plants wanted
figure-seeds = The seeds
figure-seeds-counted = The seeds counted
figure-sample-mass = The mass of the sample
figure-seed-weight = The thousand-seed weight
figure-seeds-per-kg = The seeds per kg
figure-establishment = The establishment
figure-germination = The germination
figure-emergence = The emergence
figure-loss = The field loss
figure-purity = The purity
figure-hard-seed = The hard or dormant seed
figure-rate = The rate
figure-row-spacing = The row spacing
figure-bulk-density = The bulk density
figure-seed-weight-doubt = The doubt of the thousand-seed weight
figure-share-doubt = The doubt of a percentage
figure-slip = The slip
figure-metres-per-turn = The way per wheel turn
figure-setting = The old setting
figure-measured = The measured value
figure-wanted = The wanted value

figure-plants-remedy = Give the plants that should stand on a square metre.
figure-seeds-remedy = Look at the plants wanted and at the share that comes up.
figure-seeds-counted-remedy = Count the seeds of a weighed sample.
figure-sample-mass-remedy = Weigh the seeds that were counted.
figure-seed-weight-remedy = Give the grams of a thousand seeds.
figure-seeds-per-kg-remedy = Give the seeds that make a kilogram or a pound.
figure-establishment-remedy = Give the share of the seeds that become plants.
figure-germination-remedy = Give it as the seed test states it.
figure-emergence-remedy = Give the share of the germinating seeds that come up.
figure-loss-remedy = Give the percentage points taken off the germination.
figure-purity-remedy = Give it as the seed test states it.
figure-hard-seed-remedy = Give it as the label states it.
figure-rate-remedy = Look at the rate and its unit.
figure-row-spacing-remedy = Measure from row to row, and look at the unit.
figure-bulk-density-remedy = Look at the bulk density and its unit.
figure-seed-weight-doubt-remedy = Give half the width of its range.
figure-share-doubt-remedy = Give half the width of its range.
figure-slip-remedy = Measure it: metres per turn loaded against unloaded.
figure-metres-per-turn-remedy = Drive a measured way and count the turns of the wheel.
figure-setting-remedy = Give the setting as its scale shows it.
figure-measured-remedy = Give what was caught at the old setting.
figure-wanted-remedy = Give it in the unit of what was measured.

figure-no-number = { $figure } is not a number.
figure-outside = { $figure } cannot be { $size ->
        [large] that large
        [small] that small
       *[plain] { $given }
    }; allowed is { $bounds ->
        [above] above { $least }, up to { $most }
       *[from] { $least } to { $most }
    }.
figure-nothing-comes-up = { $figure ->
    [emergence] With an emergence of 0 % nothing comes up; it must be above 0 %.
   *[germination] With a germination of 0 % nothing comes up; it must be above 0 %.
}
figure-nothing-left = A field loss of { $loss } % leaves nothing of a germination of { $germination } %; it must be below
    the germination.
figure-beyond-all = A germination of { $germination } % and { $hard } % of hard or dormant seed are more than 100 %
    together. Labels that state hard seed apart leave it out of the germination: give the germination without it.
figure-too-doubtful = The figures are known within { $within } only, which gives no range; below 100 % is needed. Test the
    lot again.
figure-per-square-metre = { $number } per m²
figure-points = { $number } points

## The number as a controller wants it

keyed-per-revolution = { $unit } per revolution
keyed-per-hundred-revolutions = { $unit } per 100 revolutions
keyed-for-run = per run
keyed-for-unit = whole unit

## The next gate setting

gate-stay = Stay at { $setting }, which gives what is wanted already.
gate-begin = { $direction ->
    [less] Begin at { $setting }, which is { $change } less.
   *[more] Begin at { $setting }, which is { $change } more.
}
gate-guess = This is a first guess by proportion: catch again at it before sowing.
gate-far = A change of more than { $limit } % is far: flow does not follow a setting in a straight line, so expect to catch
    twice.

## How an expected stand was reckoned; said after a colon

convention-given = establishment as given
convention-multiplied = germination times emergence
convention-subtracted = germination less field loss, in percentage points

## The factor against the roller speed

speed-differs = { $direction ->
    [falls] From { $from } to { $to } the factor falls by { $size } (± { $within }, 95 %): catch at the roller speed that
        you will sow at.
   *[rises] From { $from } to { $to } the factor rises by { $size } (± { $within }, 95 %): catch at the roller speed that
        you will sow at.
}
speed-not-shown = From { $from } to { $to } the factor changes by { $size }, within the ± { $within } (95 %) that these
    catches can tell: no dependence on roller speed is shown.

## The runs against each other

runs-rounding = The runs differ by no more than the scale's rounding explains: catch more seed to compare them.
runs-repeats-rounding = The repeats differ by no more than the scale's rounding explains: that speaks of the scale, not of
    the meter.
runs-always-low = { $times ->
    [caught] Each time it was caught, { $run } gave less than the mean of the runs, { $size } on average: look at its
        outlet, its hose and its part of the roller.
    [both] In both repeats { $run } gave less than the mean of the runs, { $size } on average: look at its outlet, its hose
        and its part of the roller.
   *[all] In every repeat { $run } gave less than the mean of the runs, { $size } on average: look at its outlet, its hose
        and its part of the roller.
}
runs-always-high = { $times ->
    [caught] Each time it was caught, { $run } gave more than the mean of the runs, { $size } on average: look at the
        outlets of the others, then at its part of the roller.
    [both] In both repeats { $run } gave more than the mean of the runs, { $size } on average: look at the outlets of the
        others, then at its part of the roller.
   *[all] In every repeat { $run } gave more than the mean of the runs, { $size } on average: look at the outlets of the
        others, then at its part of the roller.
}
runs-unequal-repeats = The repeats are of unequal length, and a short one disagrees with the long ones: their plain mean is
    { $off } off the factor, in which every revolution counts alike. Catch repeats of equal length.

## What to catch yet

advice-longer-repeats = { $more } more revolutions with this scale: { $needed } to a repeat make every catch heavy enough
    that the scale's rounding stays within { $share } % of it. Set the shorter repeats aside.
advice-scale-too-coarse = This scale is too coarse: a catch heavy enough that its rounding stays within { $share } % is more
    than the scale can weigh, or than can be turned out in one repeat. Use a scale with a smaller step.
advice-longer = { $repeats ->
    [one] One more repeat of { $each } revolutions, { $more } more than the last had, would bring the uncertainty to about
        { $expected }, within { $goal ->
            [half] half of the limit ({ $limit } %)
           *[whole] the limit of { $limit } %
        }, if the scatter stays as it is.
   *[other] { $repeats } more repeats of { $each } revolutions each, { $more } more than the last had, would bring the
        uncertainty to about { $expected }, within { $goal ->
            [half] half of the limit ({ $limit } %)
           *[whole] the limit of { $limit } %
        }, if the scatter stays as it is.
}
advice-alike = { $repeats ->
    [one] One more repeat like the last, { $each } revolutions, would bring the uncertainty to about { $expected }, within
        { $goal ->
            [half] half of the limit ({ $limit } %)
           *[whole] the limit of { $limit } %
        }, if the scatter stays as it is.
   *[other] { $repeats } more repeats like the last, { $each } revolutions each, would bring the uncertainty to about
        { $expected }, within { $goal ->
            [half] half of the limit ({ $limit } %)
           *[whole] the limit of { $limit } %
        }, if the scatter stays as it is.
}
advice-scale-check-instead = So would a passing check of the scale alone, to { $expected }.
advice-not-by-catching = Even { $repeats } more repeats would not bring the uncertainty within { $goal ->
        [half] half of the limit ({ $limit } %)
       *[whole] the limit of { $limit } %
    }; { $best } would be the best: { $because ->
        [checked-scale] that is what the scale may be off by. It takes a better scale, and a tighter limit for its checks.
        [scale] that is what the scale may be off by. A passing check with a known mass halves that part.
        [scatter] that is how much the repeats scatter.
        [much-scatter] the repeats scatter too much. Find out why they differ before you catch more.
        [step] that is the scale's step. Use a scale with a smaller one.
       *[revolutions] that is how coarsely the revolutions are counted. Count in smaller steps.
    }

## Readiness

trigger-unknown = “{ $given }” is no trigger; use one of { $names }

## A figure that is far from what it should be near, as a question to whoever reads the record

unlikely-job-area = { $area } is { $times } times the field’s { $field }. A slip?
unlikely-job-rate = { $side ->
    [above] { $rate } sown is { $times } times the target of { $target }. A slip?
   *[below] The target of { $target } is { $times } times the { $rate } sown. A slip?
}
unlikely-seed-weight = { $side ->
    [above] { $found } per thousand seeds is { $times } times the { $before } of the test before. A slip?
   *[below] { $found } per thousand seeds: the test before found { $before }, { $times } times as much. A slip?
}
unlikely-bulk-density = { $side ->
    [above] { $found } is { $times } times the { $before } of the test before. A slip?
   *[below] { $found }: the test before found { $before }, { $times } times as much. A slip?
}
unlikely-fill = { $mass } is more than the { $came } that had come in of this lot. A slip?

## What most likely went wrong: what to look at
#
# $repeat is 0 where the slip is in every repeat.

suspicion-would-be = The factor would then be { $factor } g/rev.
suspicion-would-be-without-them = Without them the factor would be { $factor } g/rev.
suspicion-would-be-without-it = Without it the factor would be { $factor } g/rev.
suspicion-right-for-that-roller = The factor as measured, { $factor } g/rev, is then right for that roller.
suspicion-bags-of-the-last-calibration = { $tare ->
    [none] The bags may have been weighed in: no tare was taken off, and the bags of the last calibration weighed { $usual }.
   *[little] The bags may have been weighed in: hardly any tare was taken off, and the bags of the last calibration weighed
        { $usual }.
}
suspicion-tare-missing = No tare was taken off { $catch } of repeat { $repeat }, and the other bags weigh { $bags }: weigh its
    empty bag.
suspicion-bags-of-a-repeat = The bags of repeat { $repeat } may have been weighed in: the other bags have a tare of { $bags }.
suspicion-some-bags = { $count ->
    [one] { $count } bag may have been weighed in: the others have a tare of { $bags }.
   *[other] { $count } bags may have been weighed in: the others have a tare of { $bags }.
}
suspicion-shown-in-pounds = { $repeat ->
    [0] The scale may have shown pounds that were entered as kilograms: look at the unit on its display.
   *[other] The scale may have shown pounds in repeat { $repeat } that were entered as kilograms: look at the
        unit on its display.
}
suspicion-shown-in-kilograms = { $repeat ->
    [0] The scale may have shown kilograms that were entered as pounds: look at the unit on its display.
   *[other] The scale may have shown kilograms in repeat { $repeat } that were entered as pounds: look at the
        unit on its display.
}
suspicion-ounces-as-tenths = { $repeat ->
    [0] Pounds and ounces may have been entered as one decimal, { $example } lb for 5 lb 8 oz: enter pounds and
        ounces apart.
   *[other] Pounds and ounces in repeat { $repeat } may have been entered as one decimal, { $example } lb for 5
        lb 8 oz: enter pounds and ounces apart.
}
suspicion-decimal-sign = { $repeat ->
    [0] The decimal sign may be one place off in the masses or the revolutions: read the sheet against the
        scale.
   *[other] The decimal sign may be one place off in the masses or the revolutions in repeat { $repeat }: read
        the sheet against the scale.
}
suspicion-decimal-sign-of-the-grosses = { $repeat ->
    [0] The decimal sign may be one place off in the grosses: read the sheet against the scale.
   *[other] The decimal sign may be one place off in the grosses in repeat { $repeat }: read the sheet against
        the scale.
}
suspicion-decimal-sign-of-the-tares = { $repeat ->
    [0] The decimal sign may be one place off in the tares: read the sheet against the scale.
   *[other] The decimal sign may be one place off in the tares in repeat { $repeat }: read the sheet against the
        scale.
}
suspicion-decimal-sign-of-the-revolutions = { $repeat ->
    [0] The decimal sign of the revolutions may be one place off: read it again.
   *[other] The decimal sign of the revolutions may be one place off in repeat { $repeat }: read it again.
}
suspicion-decimal-sign-of-a-reading = The decimal sign of the { $reading ->
        [gross] gross
        [tare] tare
       *[both] gross and tare
    } of { $catch } in repeat { $repeat } may be one place off: read it against the scale.
suspicion-half-of-each-run = { $repeat ->
    [0] Only one branch of each run may have been caught: follow every hose from the meter to all of its ends.
   *[other] Only one branch of each run may have been caught in repeat { $repeat }: follow every hose from the
        meter to all of its ends.
}
suspicion-one-run-more = { $repeat ->
    [0] One run more than entered may be in each catch: count the runs that ended in it.
   *[other] One run more than entered may be in each catch in repeat { $repeat }: count the runs that ended in
        it.
}
suspicion-one-run-fewer = { $repeat ->
    [0] One run fewer than entered may be in each catch: count the runs that ended in it.
   *[other] One run fewer than entered may be in each catch in repeat { $repeat }: count the runs that ended in
        it.
}
suspicion-runs-of-a-catch = { $catch } of repeat { $repeat } may hold { $runs } runs, not { $entered }: count the runs that
    ended in it.
suspicion-revolutions-doubled = { $repeat ->
    [0] The revolutions may be twice the true ones: count full turns of the roller's own shaft again.
   *[other] The revolutions in repeat { $repeat } may be twice the true ones: count full turns of the roller's
        own shaft again.
}
suspicion-revolutions-halved = { $repeat ->
    [0] The revolutions may be half the true ones: count full turns of the roller's own shaft again.
   *[other] The revolutions in repeat { $repeat } may be half the true ones: count full turns of the roller's
        own shaft again.
}
suspicion-other-drive-ratio = The drive ratio may be { $ratio }, not { $on_record } as on record: look at the sprockets or the
    gear that is in.
suspicion-run-low = { $run } gave only { $share } of the others: look for a plug, seed that bridges, or a sealed hose end.
suspicion-run-low-once = { $run } gave only { $share } of the others in repeat { $repeat }: look for a plug, seed that bridges,
    or a sealed hose end.
suspicion-run-low-sometimes = { $count ->
    [one] { $run } gave only { $share } of the others in { $count } repeat: look for a plug, seed that bridges, or a sealed hose
        end.
   *[other] { $run } gave only { $share } of the others in { $count } repeats: look for a plug, seed that bridges, or a sealed
        hose end.
}
suspicion-not-primed = The first repeat gave { $less } less than the others: the meter may not have been full. Turn until seed
    falls from every run, empty the bags, then begin.
suspicion-other-roller = Another roller may be in: what was caught is what “{ $roller }” should give. Look at the roller.

## A file of task data: what is wrong in it, or is not read

task-data-at = { $place }: { $says }
task-data-place-zip = the zip
task-data-place-line = { $file }, line { $line }
task-data-place-element = { $file }, line { $line }, { $element }
task-data-empty = The file is empty. Export the task data again.
task-data-not-xml = This is neither XML nor a zip. Choose TASKDATA.XML, or a zip of the folder that holds it.
task-data-not-utf-8 = A letter here is not written in UTF-8, as task data must be. Export the file again.
task-data-broken = The XML is broken here. Export the file again; one that was edited by hand cannot be read.
task-data-breaks-off = The file breaks off here. Copy it again from the terminal, and wait until copying is done.
task-data-entity = A document type or an entity stands here, which task data never has. Export the file again.
task-data-wrong-root = This is XML, but no task data: its first element is not { $wanted }. Choose TASKDATA.XML.
task-data-version = The file says version { $given } of the format. Versions 3 and 4 are read: export one of these.
task-data-too-large = The XML is larger than { $most } MB. Export fewer tasks at a time.
task-data-too-many-elements = There are more than { $most } elements. Export fewer tasks at a time.
task-data-too-many-tasks = There are more than { $most } tasks. Export fewer at a time.
task-data-too-many-tanks = The tasks sowed from more than { $most } tanks together. Export fewer tasks at a time.
task-data-too-deep = Elements lie more than { $most } deep, which those of task data never do. Export the file again.
task-data-too-many-attributes = An element has more than { $most } attributes, which none of task data has. Export the file
    again.
task-data-too-long = Attribute { $attribute } is longer than { $most } bytes. Shorten the name where it was given, and export
    again.
task-data-zip-broken = The zip is damaged. Pack or copy it again.
task-data-zip-files = The zip holds more than { $most } files. Pack only the folder with TASKDATA.XML.
task-data-zip-ratio = A file unpacks to more than { $most } times its size, which task data never does. Pack it again.
task-data-zip-method = The file is packed by a method that is not read. Pack it as a plain zip (deflate).
task-data-zip-encrypted = The file is locked with a password. Pack it without one.
task-data-no-task-file = There is no TASKDATA.XML in the zip. Pack the folder that holds it.
task-data-several-task-files = The zip holds several task files, “{ $first }” and “{ $second }”. Send them one by one.
task-data-attribute-missing = Attribute { $attribute } is missing, which the format demands. Export the file again.
task-data-not-a-number = Attribute { $attribute } is “{ $given }”, which is no number. Export the file again.
task-data-out-of-range = Attribute { $attribute } is { $given }; from { $least } to { $most } can be. Export the file again.
task-data-wrong-id = The id “{ $given }” does not fit its element: the tag and a number are wanted. Export the file again.
task-data-id-twice = The id “{ $given }” was given already in line { $line }. Export the file again.
task-data-not-there = Attribute { $attribute } names “{ $given }”, which the file does not hold. Export it with all it refers
    to.
task-data-not-a-time = Attribute { $attribute } is “{ $given }”, which is no time between 1990 and 2099. Set the terminal's
    clock, and log this work by hand.
task-data-ends-before-it-begins = It ends before it begins. Log this work by hand, with the right times.
task-data-times-of-two-kinds = Some times have an offset and some have none, so that their order is not known. Log this work
    by hand.
task-data-not-described = The machine logs { $ddi } here and does not describe it, so that nobody can tell a total of the
    task from one of its life: it is not used.
task-data-total-twice = The total { $ddi } stands here twice with different values. Log this work by hand.
task-data-total-negative = The total { $ddi } is { $given }: the counter ran over. Log this work by hand.
task-data-masses-apart = The machine's two totals differ by more than a kilogram: { $grams } g and { $kilograms } kg. Log this
    work by hand.
task-data-two-products = “{ $first }” and “{ $second }” were in the same tank during the task, and the total cannot be
    divided between them. Log this work by hand.
task-data-no-area = The machine counted no area for it. Log this work by hand.
task-data-no-mass = There is no mass for it, neither the machine's nor a weighed one. Log this work by hand.
task-data-nothing-sown = No tank has a total of mass in it: nothing was sown, or the machine does not count it.
task-data-counter-set-back = { $times ->
    [one] The counter of { $ddi } was set back once during the task; its two parts were added.
   *[other] The counter of { $ddi } was set back { $times } times during the task; its parts were added.
}
task-data-rate-varies = The rate varied over the field, so that there is no single target: enter the one you meant.
task-data-log-not-read = The log “{ $file }” is not read; the totals come from the task's time elements.
task-data-file-not-read = The attached file “{ $file }” is not read.
task-data-file-missing = The file “{ $file }” belongs to it and was not sent. Send a zip of the whole folder.
task-data-links-not-read = The list of links to other programs is not read; nothing of a job stands in it.
task-data-unknown = { $count ->
    [one] An element { $tag } is not known here and was skipped.
   *[other] { $count } elements { $tag } are not known here and were skipped; this is the first.
}
