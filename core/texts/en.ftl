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
