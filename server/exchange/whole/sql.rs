//! The SQL of each table of the list, made once from it: the same text for both databases.

use super::tables::{Column, Holds, Key, TABLES, Table};
use crate::db::cells::lasting;
use crate::db::kind::Kind;
use std::sync::LazyLock;

pub(super) const ACCOUNT_THERE: &str = "select id, email, password_hash from account where id = $1 or email = $2";
pub(super) const ORGANIZATION_THERE: &str = "select name from organization where id = $1";
pub(super) const SET_CORRECTS: &str = "update entry set corrects = $3 where organization_id = $1 and id = $2";
pub(super) const NEWCOMERS: &str = "select a.id, a.email from membership m join account a on a.id = m.account_id
        where m.organization_id = $1 and m.active = true and a.password_hash is null order by a.email, a.id";
pub(super) const JUDGED: &str =
    "select id, sheet, circumstances, judgement, verdict, factor, expanded_uncertainty_percent from calibration
        where organization_id = $1 and id > $2 order by id limit 100";
pub(super) const ENTRIES: &str =
    "select id, kind, occurred_at, occurred_offset from entry where organization_id = $1 and id > $2
        order by id limit 1000";
pub(super) const OTHER_KIND: &str =
    "select c.id from entry c join entry e on e.organization_id = c.organization_id and e.id = c.corrects
        where c.organization_id = $1 and c.kind <> e.kind order by c.id limit 1";
pub(super) const SEQ_AND_ZONE: &str = "select seq, time_zone from organization where id = $1";
pub(super) const SIGNED_ELSEWHERE: &str = "select s.id, s.chain_seq from signature s where s.organization_id = $1
        and not exists (select 1 from audit a where a.organization_id = s.organization_id and a.seq = s.chain_seq
            and a.hash = s.chain_head) order by s.id";
pub(super) const ORGANIZATIONS: &str = "select id, name from organization order by name, id";
/// Each of them with its name.
const ASKED: &[(&str, &str)] = &[
    ("exchange::whole::ACCOUNT_THERE", ACCOUNT_THERE),
    ("exchange::whole::ORGANIZATION_THERE", ORGANIZATION_THERE),
    ("exchange::whole::SET_CORRECTS", SET_CORRECTS),
    ("exchange::whole::NEWCOMERS", NEWCOMERS),
    ("exchange::whole::JUDGED", JUDGED),
    ("exchange::whole::ENTRIES", ENTRIES),
    ("exchange::whole::OTHER_KIND", OTHER_KIND),
    ("exchange::whole::SEQ_AND_ZONE", SEQ_AND_ZONE),
    ("exchange::whole::SIGNED_ELSEWHERE", SIGNED_ELSEWHERE),
    ("exchange::whole::ORGANIZATIONS", ORGANIZATIONS),
];

/// The statements about one table.
#[derive(Debug)]
pub(super) struct Statements {
    pub(super) table: &'static Table,
    /// Rows after a key, in its order.
    pub(super) select: &'static str,
    pub(super) insert: &'static str,
    /// For the table of a kind of entry: an entry of the kind without a row, and a row whose entry is of another kind.
    pub(super) astray: Option<&'static str>,
}

/// Rows that one query fetches.
pub(super) const PAGE: usize = 500;

pub(super) static STATEMENTS: LazyLock<Vec<Statements>> = LazyLock::new(|| {
    TABLES
        .iter()
        .map(|table| Statements {
            table,
            select: lasting(select(table)),
            insert: lasting(insert(table)),
            astray: Kind::from_word(table.name)
                // The entries themselves are no kind's table, though something sent of no kind is called one.
                .filter(|kind| *kind != Kind::Entry && table.key == Key::Id("id"))
                .map(|_| lasting(astray(table.name))),
        })
        .collect()
});

/// Every query of the export and the import, for the test that prepares each.
#[must_use]
pub fn queries() -> Vec<(&'static str, &'static str)> {
    let listed = STATEMENTS.iter().flat_map(|made| [Some(made.select), Some(made.insert), made.astray]);
    ASKED.iter().copied().chain(listed.flatten().map(|sql| ("exchange::whole", sql))).collect()
}

fn select(table: &Table) -> String {
    let names = table.columns.iter().map(|column| column.name).collect::<Vec<_>>().join(", ");
    let name = table.name;
    match table.key {
        Key::Itself => format!("select {names} from {name} where id = $1"),
        Key::Accounts => {
            format!("select {names} from {name} where id in ({}) and id > $2 order by id limit {PAGE}", accounts())
        }
        Key::Id(key) | Key::Number(key) => {
            format!("select {names} from {name} where organization_id = $1 and {key} > $2 order by {key} limit {PAGE}")
        }
        Key::Several(keys) => {
            format!("select {names} from {name} where organization_id = $1 order by {}", keys.join(", "))
        }
    }
}

/// Every account that a row of the organization names.
fn accounts() -> String {
    let is_account = |column: &&Column| matches!(column.holds, Holds::Account);
    let named = TABLES.iter().flat_map(|table| {
        table.columns.iter().filter(is_account).map(|column| {
            let (table, column) = (table.name, column.name);
            format!("select {column} from {table} where organization_id = $1 and {column} is not null")
        })
    });
    named.collect::<Vec<_>>().join(" union ")
}

fn insert(table: &Table) -> String {
    let own = match table.key {
        Key::Itself | Key::Accounts => None,
        _ => Some("organization_id"),
    };
    let names: Vec<&str> = own.into_iter().chain(table.columns.iter().map(|column| column.name)).collect();
    let values: Vec<String> = (1..=names.len()).map(|at| format!("${at}")).collect();
    format!("insert into {} ({}) values ({})", table.name, names.join(", "), values.join(", "))
}

fn astray(name: &str) -> String {
    format!(
        "select e.id from entry e where e.organization_id = $1 and e.kind = $2
            and not exists (select 1 from {name} t where t.organization_id = e.organization_id and t.id = e.id)
        union all
        select t.id from {name} t join entry e on e.organization_id = t.organization_id and e.id = t.id
            where t.organization_id = $1 and e.kind <> $2
        limit 1"
    )
}
