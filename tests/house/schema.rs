//! The two folders of migrations make the same tables: columns, their kinds, what may be null, and keys.

use crate::world::{World, schema_of_its_own};
use sowmark::db::Db;
use sowmark::db::copy::TABLES;
use std::collections::BTreeSet;

type Column = (String, String, String, bool);

#[tokio::test]
async fn both_dialects_make_the_same_columns() {
    let sqlite = World::on_sqlite().await;
    let postgres = Db::open_postgres(schema_of_its_own().await).await.unwrap();
    let here = columns(&sqlite.app.db, SQLITE_COLUMNS, kind_in_sqlite).await;
    let there = columns(&postgres, POSTGRES_COLUMNS, kind_in_postgres).await;
    assert!(here.len() > 100, "the query sees the tables");
    let only_here: Vec<_> = here.difference(&there).collect();
    let only_there: Vec<_> = there.difference(&here).collect();
    assert!(
        only_here.is_empty() && only_there.is_empty(),
        "SQLite alone: {only_here:?}; PostgreSQL alone: {only_there:?}"
    );
}

#[tokio::test]
async fn both_dialects_make_the_same_foreign_keys() {
    let sqlite = World::on_sqlite().await;
    let postgres = Db::open_postgres(schema_of_its_own().await).await.unwrap();
    let here = keys(&sqlite.app.db, SQLITE_KEYS).await;
    let there = keys(&postgres, POSTGRES_KEYS).await;
    assert!(here.len() > 40, "the query sees the keys");
    assert_eq!(here, there);
}

#[tokio::test]
async fn a_copy_takes_every_table_each_after_those_that_it_refers_to() {
    let world = World::on_sqlite().await;
    let there = columns(&world.app.db, SQLITE_COLUMNS, kind_in_sqlite).await;
    let there: BTreeSet<&str> = there.iter().map(|(table, ..)| table.as_str()).collect();
    assert_eq!(TABLES.iter().copied().collect::<BTreeSet<_>>(), there);
    let place = |name: &str| TABLES.iter().position(|table| *table == name).unwrap();
    for (table, other, from, _) in keys(&world.app.db, SQLITE_KEYS).await {
        // A record may correct one that comes after it: the copy sets that last.
        let is_set_last =
            table == "entry" && other == "entry" && ["organization_id", "corrects"].contains(&from.as_str());
        assert!(is_set_last || place(&table) > place(&other), "{table} refers to {other} by {from}");
    }
}

const SQLITE_COLUMNS: &str =
    "select m.name, c.name, c.type, c.\"notnull\" = 0 from sqlite_master m, pragma_table_info(m.name) c
    where m.type = 'table' and m.name not like 'sqlite_%' and m.name <> '_sqlx_migrations'";
const POSTGRES_COLUMNS: &str =
    "select c.table_name::text, c.column_name::text, c.data_type::text, c.is_nullable = 'YES'
    from information_schema.columns c join information_schema.tables t using (table_schema, table_name)
    where c.table_schema = current_schema() and t.table_type = 'BASE TABLE' and c.table_name <> '_sqlx_migrations'";
const SQLITE_KEYS: &str =
    "select m.name, k.\"table\", k.\"from\", k.\"to\" from sqlite_master m, pragma_foreign_key_list(m.name) k
    where m.type = 'table'";
const POSTGRES_KEYS: &str = "select r.relname::text, f.relname::text, a.attname::text, b.attname::text
    from pg_constraint c
    join pg_class r on r.oid = c.conrelid join pg_class f on f.oid = c.confrelid
    join pg_namespace n on n.oid = r.relnamespace
    cross join lateral unnest(c.conkey, c.confkey) as k (own, other)
    join pg_attribute a on a.attrelid = c.conrelid and a.attnum = k.own
    join pg_attribute b on b.attrelid = c.confrelid and b.attnum = k.other
    where c.contype = 'f' and n.nspname = current_schema()";

async fn columns(db: &Db, sql: &'static str, kind: fn(&str) -> &'static str) -> BTreeSet<Column> {
    let rows: Vec<Column> = db.read().await.unwrap().cx().fetch_all(sql, &[]).await.unwrap();
    rows.into_iter().map(|(table, column, declared, null)| (table, column, kind(&declared).to_owned(), null)).collect()
}

async fn keys(db: &Db, sql: &'static str) -> BTreeSet<(String, String, String, String)> {
    let rows: Vec<(String, String, String, String)> = db.read().await.unwrap().cx().fetch_all(sql, &[]).await.unwrap();
    rows.into_iter().collect()
}

/// SQLite keeps ids and hashes both as BLOB, and numbers and flags both as INTEGER.
fn kind_in_sqlite(declared: &str) -> &'static str {
    match declared {
        "BLOB" => "bytes",
        "INTEGER" => "whole",
        "REAL" => "real",
        "TEXT" => "text",
        other => panic!("a type that only one database knows: {other}"),
    }
}

fn kind_in_postgres(declared: &str) -> &'static str {
    match declared {
        "uuid" | "bytea" => "bytes",
        "bigint" | "boolean" => "whole",
        "double precision" => "real",
        "text" => "text",
        other => panic!("a type that only one database knows: {other}"),
    }
}
