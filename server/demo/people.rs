//! Who works at the made-up contractor: persons, crews, and the farms that they sow for.

use crate::access::Role;

/// A farm whose fields and seed they are.
#[derive(Debug)]
pub(super) struct Client {
    pub(super) key: &'static str,
    pub(super) name: &'static str,
}

pub(super) static TARNBECK: Client = Client { key: "client/tarnbeck", name: "Tarnbeck Farm" };
pub(super) static HOLLIN: Client = Client { key: "client/hollin", name: "Hollin Hall" };

pub(super) static CLIENTS: [&Client; 2] = [&TARNBECK, &HOLLIN];

/// Somebody with an account.
#[derive(Debug)]
pub(super) struct Person {
    pub(super) name: &'static str,
    pub(super) email: &'static str,
    pub(super) role: Role,
    /// Whom an agronomist is limited to.
    pub(super) client: Option<&'static Client>,
    /// Chosen to read: units, decimal sign, language.
    pub(super) reads: Option<(&'static str, &'static str, &'static str)>,
}

const fn person(name: &'static str, email: &'static str, role: Role) -> Person {
    Person { name, email, role, client: None, reads: None }
}

pub(super) static MARTA: Person = person("Marta Ledgerway", "marta@fallowmere.example", Role::Office);
pub(super) static OWEN: Person = person("Owen Yardley-Tally", "owen@fallowmere.example", Role::Office);
pub(super) static ANNA: Person = person("Anna Fieldhand", "anna@fallowmere.example", Role::Crew);
pub(super) static BEN: Person = person("Ben Hopperton", "ben@fallowmere.example", Role::Crew);
pub(super) static CARLA: Person = person("Carla Furrowes", "carla@fallowmere.example", Role::Crew);
pub(super) static DEV: Person = person("Dev Cartwright-Lane", "dev@fallowmere.example", Role::Crew);
pub(super) static LUCIA: Person = Person {
    reads: Some(("organization", "comma", "es")),
    ..person("Lucía Besana", "lucia@besana.example", Role::Crew)
};
pub(super) static IRIS: Person = person("Iris Seedcomb", "iris@seedcomb.example", Role::Agronomist);
pub(super) static JONAS: Person =
    Person { client: Some(&TARNBECK), ..person("Jonas Scoutman", "jonas@seedcomb.example", Role::Agronomist) };

/// Everybody, in the order in which they are listed to sign in.
pub(super) static PEOPLE: [&Person; 9] = [&MARTA, &OWEN, &ANNA, &BEN, &CARLA, &DEV, &LUCIA, &IRIS, &JONAS];

/// A team with the machines that it sees and logs for.
#[derive(Debug)]
pub(super) struct Crew {
    pub(super) key: &'static str,
    pub(super) name: &'static str,
    pub(super) people: &'static [&'static Person],
    pub(super) seeders: &'static [&'static str],
}

pub(super) static CREWS: [Crew; 4] = [
    Crew {
        key: "crew/boxes",
        name: "Box drills",
        people: &[&ANNA],
        seeders: &["seeder/box3", "seeder/box6", "seeder/spare"],
    },
    Crew {
        key: "crew/air",
        name: "Air drills",
        people: &[&BEN, &ANNA],
        seeders: &["seeder/air6", "seeder/air8", "seeder/air12"],
    },
    Crew { key: "crew/carts", name: "Carts", people: &[&CARLA, &DEV], seeders: &["seeder/cart18", "seeder/cart12"] },
    Crew { key: "crew/hired", name: "Hired: Besana", people: &[&LUCIA], seeders: &["seeder/grass", "seeder/air6"] },
];
