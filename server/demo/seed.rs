//! The fields and the seed lots of two seasons. Bulk densities and thousand-seed weights lie where those of such crops do:
//! the customary bushel weights (wheat, clover and rape 77 kg/hL, barley 62, oats 41 to 52) and the ranges of seed counts
//! that extension services publish; fertilizer granules from memory. Varieties and suppliers are invented.

use super::people::{Client, HOLLIN, TARNBECK};

/// A field.
#[derive(Debug)]
pub(super) struct Field {
    pub(super) key: &'static str,
    pub(super) name: &'static str,
    /// ha.
    pub(super) area: f64,
    pub(super) client: &'static Client,
}

const fn field(key: &'static str, name: &'static str, area: f64, client: &'static Client) -> Field {
    Field { key, name, area, client }
}

pub(super) static LONG_MEADOW: Field = field("field/1", "Long Meadow", 12.4, &TARNBECK);
pub(super) static MILL_BANK: Field = field("field/2", "Mill Bank", 8.7, &TARNBECK);
pub(super) static TOP_FORTY: Field = field("field/3", "Top Forty", 16.2, &TARNBECK);
pub(super) static BECK_PIECE: Field = field("field/4", "Beck Piece", 6.3, &TARNBECK);
pub(super) static STONY_ACRE: Field = field("field/5", "Stony Acre", 9.8, &TARNBECK);
pub(super) static CHURCH_FIELD: Field = field("field/6", "Church Field", 14.1, &HOLLIN);
pub(super) static FAR_MOOR: Field = field("field/7", "Far Moor", 21.6, &HOLLIN);
pub(super) static DROVERS: Field = field("field/8", "Drovers", 11.9, &HOLLIN);
pub(super) static LOWER_CARR: Field = field("field/9", "Lower Carr", 18.4, &HOLLIN);
pub(super) static KILN_CLOSE: Field = field("field/10", "Kiln Close", 5.2, &HOLLIN);

pub(super) static FIELDS: [&Field; 10] = [
    &LONG_MEADOW,
    &MILL_BANK,
    &TOP_FORTY,
    &BECK_PIECE,
    &STONY_ACRE,
    &CHURCH_FIELD,
    &FAR_MOOR,
    &DROVERS,
    &LOWER_CARR,
    &KILN_CLOSE,
];

/// What is sown.
#[derive(Debug)]
pub(super) struct Crop {
    pub(super) name: &'static str,
    pub(super) is_seed: bool,
    /// kg/ha.
    pub(super) rate: f64,
    /// On the label.
    pub(super) germination: &'static str,
    pub(super) treatment: Option<(&'static str, &'static str)>,
    /// On the label beside the germination, percent.
    pub(super) hard_seed: Option<&'static str>,
}

const DRESSED: Option<(&str, &str)> = Some((
    "fungicide dressing",
    "Poisonous to fish and harmful if breathed in. Gloves and mask when filling; not for food, feed or milling.",
));

const fn crop(name: &'static str, rate: f64, germination: &'static str) -> Crop {
    Crop { name, is_seed: true, rate, germination, treatment: None, hard_seed: None }
}

static WHEAT: Crop = Crop { treatment: DRESSED, ..crop("wheat", 180.0, "95") };
static BARLEY: Crop = Crop { treatment: DRESSED, ..crop("barley", 160.0, "96") };
static OATS: Crop = crop("oats", 150.0, "93");
static RYE: Crop = crop("rye", 140.0, "92");
static RAPE: Crop = Crop { treatment: DRESSED, ..crop("rape", 4.0, "90") };
static PEAS: Crop = crop("peas", 220.0, "88");
static CLOVER: Crop = Crop { hard_seed: Some("9"), ..crop("clover", 12.0, "85") };
static PHOSPHATE: Crop = Crop { is_seed: false, ..crop("ammonium phosphate", 120.0, "") };
static POTASH: Crop = Crop { is_seed: false, ..crop("potash", 100.0, "") };

/// A lot.
#[derive(Debug)]
pub(super) struct Lot {
    pub(super) key: &'static str,
    pub(super) number: &'static str,
    pub(super) crop: &'static Crop,
    pub(super) variety: Option<&'static str>,
    pub(super) supplier: &'static str,
    pub(super) client: Option<&'static Client>,
    /// Days ago.
    pub(super) received: i64,
    /// kg/hL.
    pub(super) bulk_density: f64,
    /// g per thousand; none for what is not seed.
    pub(super) seed_weight: Option<&'static str>,
    /// How readily it runs into the roller, against others of its density.
    pub(super) flow: f64,
}

impl Lot {
    /// Whether it came with a certified seed's label; seed of one's own has none.
    pub(super) fn is_certified(&self) -> bool {
        self.crop.is_seed && self.supplier == STORE
    }

    /// Whether a fifth of a kilogram is a catch.
    pub(super) fn is_small(&self) -> bool {
        self.crop.is_seed && self.crop.rate < 20.0
    }
}

const STORE: &str = "Tarnside Seed Store";
const HALL: &str = "Hollin Hall, own seed cleaned";
const MERCHANT: &str = "Wharfgate Supplies";

macro_rules! lots {
    ($($name:ident = $number:literal, $crop:ident, $variety:expr, $supplier:ident, $client:expr, $received:literal, $density:literal,
        $weight:expr, $flow:literal;)*) => {
        $(pub(super) static $name: Lot = Lot {
            key: concat!("lot/", $number), number: $number, crop: &$crop, variety: $variety, supplier: $supplier,
            client: $client, received: $received, bulk_density: $density, seed_weight: $weight, flow: $flow,
        };)*
        /// Every lot, as they came in.
        pub(super) static LOTS: [&Lot; 30] = [$(&$name),*];
    };
}

lots! {
    WHEAT_1 = "TS-4101", WHEAT, Some("Ardel"), STORE, Some(&TARNBECK), 236, 77.4, Some("44.1"), 1.004;
    WHEAT_2 = "TS-4102", WHEAT, Some("Ardel"), STORE, Some(&TARNBECK), 236, 75.9, Some("41.8"), 0.996;
    WHEAT_3 = "HH-W21", WHEAT, Some("Corvane"), HALL, Some(&HOLLIN), 235, 79.1, Some("47.0"), 1.011;
    BARLEY_1 = "TS-4117", BARLEY, Some("Lumick"), STORE, Some(&TARNBECK), 235, 64.2, Some("50.3"), 0.992;
    BARLEY_2 = "HH-B08", BARLEY, Some("Lumick"), HALL, Some(&HOLLIN), 235, 62.9, Some("48.8"), 0.998;
    OATS_1 = "TS-4131", OATS, Some("Findle"), STORE, None, 234, 50.1, Some("36.2"), 0.985;
    RYE_1 = "HH-Y03", RYE, Some("Sorrent"), HALL, Some(&HOLLIN), 234, 72.5, Some("34.0"), 1.002;
    RAPE_1 = "TS-4140", RAPE, Some("Pellow"), STORE, Some(&HOLLIN), 233, 66.5, Some("5.1"), 1.008;
    PEAS_1 = "TS-4152", PEAS, Some("Hodgen"), STORE, Some(&TARNBECK), 233, 79.8, Some("231"), 0.990;
    CLOVER_1 = "TS-4160", CLOVER, Some("Rosely"), STORE, None, 233, 77.0, Some("1.90"), 1.001;
    PHOSPHATE_1 = "WG-770", PHOSPHATE, None, MERCHANT, None, 232, 96.0, None, 0.995;
    POTASH_1 = "WG-781", POTASH, None, MERCHANT, None, 232, 104.0, None, 1.003;
    WHEAT_4 = "TS-5204", WHEAT, Some("Ardel"), STORE, Some(&TARNBECK), 64, 77.9, Some("45.0"), 1.000;
    WHEAT_5 = "TS-5205", WHEAT, Some("Ardel"), STORE, Some(&TARNBECK), 64, 76.8, Some("43.2"), 1.006;
    WHEAT_6 = "HH-W24", WHEAT, Some("Corvane"), HALL, Some(&HOLLIN), 63, 78.6, Some("46.1"), 0.997;
    WHEAT_LIGHT = "HH-W25", WHEAT, Some("Corvane"), HALL, Some(&HOLLIN), 63, 70.9, Some("37.9"), 0.991;
    WHEAT_8 = "TS-5211", WHEAT, Some("Ardel"), STORE, Some(&TARNBECK), 30, 77.1, Some("44.0"), 1.003;
    BARLEY_3 = "TS-5217", BARLEY, Some("Lumick"), STORE, Some(&TARNBECK), 62, 63.8, Some("49.6"), 1.004;
    BARLEY_4 = "HH-B11", BARLEY, Some("Tobrin"), HALL, Some(&HOLLIN), 62, 61.7, Some("47.1"), 0.993;
    BARLEY_5 = "TS-5219", BARLEY, Some("Lumick"), STORE, Some(&TARNBECK), 61, 64.5, Some("51.2"), 1.007;
    OATS_2 = "TS-5231", OATS, Some("Findle"), STORE, None, 61, 49.3, Some("35.1"), 0.990;
    RYE_2 = "HH-Y05", RYE, Some("Sorrent"), HALL, Some(&HOLLIN), 61, 72.0, Some("33.2"), 1.000;
    RAPE_2 = "TS-5240", RAPE, Some("Pellow"), STORE, Some(&HOLLIN), 60, 66.1, Some("5.3"), 0.995;
    RAPE_3 = "TS-5241", RAPE, Some("Pellow"), STORE, Some(&HOLLIN), 60, 67.2, Some("4.6"), 1.006;
    PEAS_2 = "TS-5252", PEAS, Some("Hodgen"), STORE, Some(&TARNBECK), 60, 80.4, Some("238"), 1.002;
    PEAS_3 = "TS-5253", PEAS, Some("Hodgen"), STORE, Some(&TARNBECK), 60, 79.1, Some("224"), 0.997;
    CLOVER_2 = "TS-5260", CLOVER, Some("Rosely"), STORE, None, 59, 77.5, Some("1.85"), 1.004;
    CLOVER_3 = "TS-5261", CLOVER, Some("Snowell"), STORE, None, 59, 78.2, Some("0.68"), 0.994;
    PHOSPHATE_2 = "WG-812", PHOSPHATE, None, MERCHANT, None, 58, 95.0, None, 1.002;
    POTASH_2 = "WG-826", POTASH, None, MERCHANT, None, 58, 103.0, None, 0.998;
}
