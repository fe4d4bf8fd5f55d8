//! Both databases take every query, and hold the same tables.

use crate::on_both;
use crate::world::World;
use sowmark::app;

on_both!(every_query_prepares, migrations_run_once_however_many_start);

async fn every_query_prepares(world: World) {
    let queries = app::queries();
    assert!(queries.len() > 30, "the list of queries is wired up");
    for (name, sql) in queries {
        let mut conn = world.app.db.read().await.unwrap();
        conn.cx().prepare(sql).await.unwrap_or_else(|error| panic!("{name}: {error}"));
    }
}

async fn migrations_run_once_however_many_start(world: World) {
    assert!(world.app.db.is_ready().await.unwrap());
}
