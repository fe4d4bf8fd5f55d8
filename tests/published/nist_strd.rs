//! The Statistical Reference Datasets: data that bring out what is lost on the way, with results certified to all digits.
//!
//! NIST Information Technology Laboratory, StRD (US government data). Univariate sets as carried by Apache Commons Math and
//! the GNU Scientific Library, Norris as carried by SciPy. The limit of each set is the rounding of its data to binary,
//! not the method: computed in exact fractions, all of them reproduce.

use sowmark_core::{
    line::Line,
    statistics::{mean, ratio_of_sums, standard_deviation},
};

use crate::check::{Check, Seen, Source, check};

/// NIST StRD Mavro.
const MAVRO: &str = "
    180 170 180 190 180 170 150 140 150 150 170 180 180 190 190 210 200 160 140 130 130 150 150 160 150 140 130 140
    150 140 150 160 150 160 190 200 200 210 220 230 240 250 270 260 260 260 270 260 250 240";

/// NIST StRD Michelso.
const MICHELSO: &str = "
    85 74 90 107 93 85 95 98 98 88 100 98 93 65 76 81 100 100 96 96 96 94 96 94 88 80 85 88 90 84 83 79 81 88 88 83
    80 79 76 80 88 88 88 86 72 72 62 86 97 95 88 91 85 87 84 84 85 84 84 84 89 81 81 82 80 77 76 74 75 76 91 92 89
    86 88 72 84 85 85 78 89 84 78 81 76 81 79 81 82 85 87 87 81 74 81 94 95 80 81 87";

/// NIST StRD Lew.
const LEW: &str = "
    -213 -564 -35 -15 141 115 -420 -360 203 -338 -431 194 -220 -513 154 -125 -559 92 -21 -579 -52 99 -543 -175 162
    -457 -346 204 -300 -474 164 -107 -572 -8 83 -541 -224 180 -420 -374 201 -236 -531 83 27 -564 -112 131 -507 -254
    199 -311 -495 143 -46 -579 -90 136 -472 -338 202 -287 -477 169 -124 -568 17 48 -568 -135 162 -430 -422 172 -74
    -577 -13 92 -534 -243 194 -355 -465 156 -81 -578 -64 139 -449 -384 193 -198 -538 110 -44 -577 -6 66 -552 -164
    161 -460 -344 205 -281 -504 134 -28 -576 -118 156 -437 -381 200 -220 -540 83 11 -568 -160 172 -414 -408 188 -125
    -572 -32 139 -492 -321 205 -262 -504 142 -83 -574 0 48 -571 -106 137 -501 -266 190 -391 -406 194 -186 -553 83
    -13 -577 -49 103 -515 -280 201 300 -506 131 -45 -578 -80 138 -462 -361 201 -211 -554 32 74 -533 -235 187 -372
    -442 182 -147 -566 25 68 -535 -244 194 -351 -463 174 -125 -570 15 72 -550 -190 172 -424 -385 198 -218 -536 96";

/// NIST StRD Lottery.
const LOTTERY: &str = "
    162 671 933 414 788 730 817 33 536 875 670 236 473 167 877 980 316 950 456 92 517 557 956 954 104 178 794 278
    147 773 437 435 502 610 582 780 689 562 964 791 28 97 848 281 858 538 660 972 671 613 867 448 738 966 139 636
    847 659 754 243 122 455 195 968 793 59 730 361 574 522 97 762 431 158 429 414 22 629 788 999 187 215 810 782 47
    34 108 986 25 644 829 630 315 567 919 331 207 412 242 607 668 944 749 168 864 442 533 805 372 63 458 777 416 340
    436 140 919 350 510 572 905 900 85 389 473 758 444 169 625 692 140 897 672 288 312 860 724 226 884 508 976 741
    476 417 831 15 318 432 241 114 799 955 833 358 935 146 630 830 440 642 356 373 271 715 367 393 190 669 8 861 108
    795 269 590 326 866 64 523 862 840 219 382 998 4 628 305 747 247 34 747 729 645 856 974 24 568 24 694 608 480
    410 729 947 293 53 930 223 203 677 227 62 455 387 318 562 242 428 968";

/// NIST StRD Norris: y x.
const NORRIS: &str = "
    0.1 0.2 338.8 337.4 118.1 118.2 888.0 884.6 9.2 10.1 228.1 226.5 668.5 666.3 998.5 996.3 449.1 448.6
    778.9 777.0 559.2 558.2 0.3 0.4 0.1 0.6 778.1 775.5 668.8 666.9 339.3 338.0 448.9 447.5 10.8 11.6
    557.7 556.0 228.3 228.1 998.0 995.8 888.8 887.6 119.6 120.2 0.3 0.3 0.6 0.3 557.6 556.8 339.3 339.1
    888.0 887.2 998.5 999.0 778.9 779.0 10.2 11.1 117.6 118.3 228.9 229.2 668.4 669.1 449.2 448.9 0.2 0.5";

fn numbers(data: &str) -> Vec<f64> {
    data.split_whitespace().map(|number| number.parse().expect("a number")).collect()
}

/// The first of a set and then five hundred times the two around it.
fn swinging(middle: f64, low: f64, high: f64) -> Vec<f64> {
    std::iter::once(middle).chain(std::iter::repeat_n([low, high], 500).flatten()).collect()
}

/// The set is not quite pi: its 957th number is a 3 where pi has an 8, in the data as the GNU Scientific Library carries them, and the
/// certified values (the autocorrelation, which is not computed here, among them) are those of the set as it stands.
fn almost_pi() -> Vec<f64> {
    let mut digits = digits_of_pi(5_000);
    assert!((digits[956] - 8.0).abs() < f64::EPSILON, "...81857780532171...");
    digits[956] = 3.0;
    digits
}

const TO_THE_LAST_BITS: &str = "doubles hold no more";
const OF_THE_DATA: &str = "the rounding of the data to binary";

fn univariate() -> Vec<Check> {
    let sets = [
        ("NumAcc1", vec![10_000_001.0, 10_000_003.0, 10_000_002.0], 3, "10000002", "1", 0.0),
        ("NumAcc2", swinging(1.2, 1.1, 1.3), 1001, "1.2", "0.1", 1e-13),
        ("NumAcc3", swinging(1_000_000.2, 1_000_000.1, 1_000_000.3), 1001, "1000000.2", "0.1", 1e-9),
        ("NumAcc4", swinging(10_000_000.2, 10_000_000.1, 10_000_000.3), 1001, "10000000.2", "0.1", 1e-8),
        ("Lew", numbers(LEW), 200, "-177.435000000000", "277.332168044316", 1e-13),
        ("Lottery", numbers(LOTTERY), 218, "518.958715596330", "291.699727470969", 1e-13),
        (
            "Mavro",
            numbers(MAVRO).iter().map(|x| 2.0 + x * 1e-5).collect(),
            50,
            "2.00185600000000",
            "0.000429123454003053",
            2e-12,
        ),
        (
            "Michelso",
            numbers(MICHELSO).iter().map(|x| 299.0 + x / 100.0).collect(),
            100,
            "299.852400000000",
            "0.0790105478190518",
            2e-12,
        ),
        ("PiDigits", almost_pi(), 5_000, "4.53480000000000", "2.86733906028871", 1e-13),
    ];
    let mut checks = Vec::new();
    for (set, data, count, certified_mean, certified_deviation, within) in sets {
        assert_eq!(data.len(), count, "{set}");
        let inputs = format!("{set}, n = {count}");
        let deviation = standard_deviation(&data).expect(set);
        checks.push(check("mean", &inputs, mean(&data).expect(set)).certified(certified_mean, 1e-14, TO_THE_LAST_BITS));
        checks.push(check("s", inputs, deviation).certified(certified_deviation, within, OF_THE_DATA));
    }
    checks
}

fn norris() -> Vec<Check> {
    let values = numbers(NORRIS);
    let points: Vec<_> = values.chunks_exact(2).map(|pair| (pair[1], pair[0])).collect();
    assert_eq!(points.len(), 36);
    let line = Line::ordinary(&points).expect("a line");
    let u = |component: Option<sowmark_core::uncertainty::Component>| component.expect("34").standard_uncertainty;
    let explained = line.determination().expect("R²");
    [
        ("B0", line.intercept(), "-0.262323073774029"),
        ("B1", line.slope(), "1.00211681802045"),
        ("sd of B0", u(line.intercept_uncertainty()), "0.232818234301152"),
        ("sd of B1", u(line.slope_uncertainty()), "0.429796848199937e-3"),
        ("residual s", line.scatter().expect("34"), "0.884796396144373"),
        ("R²", explained, "0.999993745883712"),
        ("sum of squares", line.sum_of_squares(), "26.6173985294224"),
        ("F", (line.slope() / u(line.slope_uncertainty())).powi(2), "5436385.54079785"),
    ]
    .into_iter()
    .map(|(name, found, certified)| check(name, "Norris, 36 points", found).certified(certified, 1e-11, TO_THE_LAST_BITS))
    .collect()
}

/// Grams against revolutions through the origin, so to speak.
fn through_the_origin() -> Vec<Check> {
    let first: Vec<_> = (0..11).map(|i| (60.0 + f64::from(i), 130.0 + f64::from(i))).collect();
    let second = [(4.0, 3.0), (5.0, 4.0), (6.0, 4.0)];
    let line = Line::through_origin(&first).expect("a line");
    let short = Line::through_origin(&second).expect("a line");
    let u = |line: &Line| line.slope_uncertainty().expect("more than one point").standard_uncertainty;
    let by_sums = ratio_of_sums(first.iter().map(|(x, y)| x * y), first.iter().map(|(x, _)| x * x)).expect("a slope");
    [
        ("B1", "NoInt1", line.slope(), "2.07438016528926"),
        ("B1 as a ratio of sums", "NoInt1", by_sums, "2.07438016528926"),
        ("sd of B1", "NoInt1", u(&line), "0.0165289256198347"),
        ("sum of squares", "NoInt1", line.sum_of_squares(), "127.272727272727"),
        ("residual s", "NoInt1", line.scatter().expect("ten"), "3.56753034006338"),
        ("B1", "NoInt2", short.slope(), "0.727272727272727"),
        ("sd of B1", "NoInt2", u(&short), "0.0420827318078432"),
        ("sum of squares", "NoInt2", short.sum_of_squares(), "0.272727272727273"),
    ]
    .into_iter()
    .map(|(name, set, found, certified)| check(name, set, found).certified(certified, 1e-12, TO_THE_LAST_BITS))
    .collect()
}

pub(crate) fn source() -> Source {
    Source {
        title: "NIST Statistical Reference Datasets",
        address: "https://www.itl.nist.gov/div898/strd/",
        seen: Seen::Read,
        checks: [univariate(), norris(), through_the_origin()].concat(),
    }
}

/// The digits of pi, the leading 3 among them, by Machin's formula: `pi = 16 arctan(1/5) - 4 arctan(1/239)`.
///
/// Whole numbers in limbs of nine digits; four limbs more than asked for take up what is cut off.
fn digits_of_pi(count: usize) -> Vec<f64> {
    const LIMB: u64 = 1_000_000_000;
    let limbs = count / 9 + 5;
    let divide = |number: &mut Vec<u64>, by: u64| {
        let mut rest = 0;
        for limb in number.iter_mut() {
            let whole = rest * LIMB + *limb;
            *limb = whole / by;
            rest = whole % by;
        }
    };
    // sum + term, or sum - term; what goes beyond a limb is carried from the back.
    let add = |sum: &mut Vec<u64>, term: &[u64], minus: bool| {
        let mut carry = 0_u64;
        for (limb, other) in sum.iter_mut().zip(term).rev() {
            if minus {
                let lacking = u64::from(*limb < other + carry);
                *limb = *limb + lacking * LIMB - other - carry;
                carry = lacking;
            } else {
                let whole = *limb + other + carry;
                *limb = whole % LIMB;
                carry = whole / LIMB;
            }
        }
    };
    // `times` x arctan(1 / `of`): each term is the last over of², the n-th over 2 n + 1.
    let mut pi = vec![0; limbs];
    for (times, of, negative) in [(16, 5, false), (4, 239, true)] {
        let mut power = vec![0; limbs];
        power[0] = times;
        divide(&mut power, of);
        let mut odd = 1;
        while power.iter().any(|&limb| limb > 0) {
            let mut term = power.clone();
            divide(&mut term, odd);
            add(&mut pi, &term, negative != (odd % 4 == 3));
            divide(&mut power, of * of);
            odd += 2;
        }
    }
    let limbs: Vec<_> = pi[1..].iter().map(|limb| format!("{limb:09}")).collect();
    let digits = format!("{}{}", pi[0], limbs.concat());
    digits.bytes().take(count).map(|digit| f64::from(digit - b'0')).collect()
}

#[test]
fn pi_begins_and_ends_as_it_is_known_to() {
    let digits: String = digits_of_pi(1_000).iter().map(ToString::to_string).collect();
    assert!(digits.starts_with("3141592653589793238462643383279502884197"));
    // The 762nd decimal begins six nines; the thousandth digit is an 8.
    assert_eq!(&digits[762..768], "999999");
    assert!(digits.ends_with("216420198"), "{}", &digits[980..]);
}
