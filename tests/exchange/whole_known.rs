//! A table or a column that is added is exported, or named among what is left out with a reason: nothing stays behind
//! unnoticed.

use crate::world::World;
use sowmark::exchange::whole::tables::{Key, LEFT_OUT, TABLES};
use std::collections::BTreeSet;

const COLUMNS: &str = "select m.name, c.name, c.\"notnull\" = 0 from sqlite_master m, pragma_table_info(m.name) c
    where m.type = 'table' and m.name not like 'sqlite_%' and m.name <> '_sqlx_migrations'";

/// Both databases have the same columns: `tests/house/schema.rs`.
#[tokio::test]
async fn every_column_is_exported_or_left_out_with_a_reason() {
    let world = World::on_sqlite().await;
    let mut conn = world.app.db.read().await.unwrap();
    let there: Vec<(String, String, bool)> = conn.cx().fetch_all(COLUMNS, &[]).await.unwrap();
    assert!(there.len() > 150, "the query sees the tables");
    let is_left_out = |table: &str, column: &str| {
        LEFT_OUT.iter().any(|(left, only, _)| *left == table && only.is_none_or(|only| only == column))
    };
    let there: BTreeSet<(String, String, bool)> =
        there.into_iter().filter(|(table, column, _)| !is_left_out(table, column)).collect();
    let mut known = BTreeSet::new();
    for table in TABLES {
        if !matches!(table.key, Key::Itself | Key::Accounts) {
            known.insert((table.name.to_owned(), "organization_id".to_owned(), false));
        }
        for column in table.columns {
            let is_new = known.insert((table.name.to_owned(), column.name.to_owned(), column.optional));
            assert!(is_new, "{}.{} is listed twice", table.name, column.name);
            assert!(!is_left_out(table.name, column.name), "{}.{} is exported and left out", table.name, column.name);
        }
    }
    let missing: Vec<_> = there.difference(&known).collect();
    let gone: Vec<_> = known.difference(&there).collect();
    assert!(
        missing.is_empty() && gone.is_empty(),
        "server/exchange/whole/tables.rs lacks {missing:?} and has what no migration makes so, {gone:?} \
         (table, column, may be empty). Export it, raise VERSION, or name it in LEFT_OUT with a reason."
    );
}

#[test]
fn what_is_left_out_says_why() {
    for (table, column, why) in LEFT_OUT {
        assert!(why.len() > 10, "{table} {column:?}");
    }
}
