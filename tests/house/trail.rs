//! The audit trail: gapless, chained, append-only; and creating is idempotent however often and at once it is sent.

use crate::on_both;
use crate::world::World;
use serde_json::json;
use sowmark::audit::{self, GENESIS, Line, hash};
use sowmark_core::ids::{AccountId, OrganizationId};
use uuid::Uuid;

on_both!(
    the_chain_holds_and_the_database_refuses_to_rewrite_it,
    three_at_once_make_one_record,
    writers_at_once_make_one_chain,
    what_conflicts_is_refused_and_kept,
    a_write_from_another_site_is_refused,
);

async fn the_chain_holds_and_the_database_refuses_to_rewrite_it(world: World) {
    let ana = world.ana().await;
    for label in ["fine", "coarse", "belt"] {
        ana.create("/rollers", json!({ "label": label, "kind": "fluted" })).await;
    }
    let mut conn = world.app.db.read().await.unwrap();
    let head = audit::verify(&mut conn.cx(), ana.organization).await.unwrap().expect("the chain holds");
    drop(conn);
    let trail = ana.read("/audit").await;
    let lines = trail["items"].as_array().unwrap();
    assert_eq!(i64::try_from(lines.len()).unwrap(), head.seq);
    for (i, line) in lines.iter().enumerate() {
        assert_eq!(line["seq"], json!(i + 1), "no gap");
    }
    assert_eq!(lines.last().unwrap()["who"]["id"], json!(ana.account));

    for sql in ["update audit set action = 'nothing'", "delete from audit"] {
        let mut tx = world.app.db.begin().await.unwrap();
        let refused = tx.cx().execute(sql, &[]).await.expect_err(sql);
        assert!(refused.to_string().contains("append-only"), "{refused}");
    }
}

async fn three_at_once_make_one_record(world: World) {
    let ana = world.ana().await;
    let roller = json!({ "id": "0196d2a0-0000-7000-8000-00000000000a", "label": "fine", "kind": "fluted" });
    let (a, b, c) = tokio::join!(
        ana.post("/rollers", roller.clone()),
        ana.post("/rollers", roller.clone()),
        ana.post("/rollers", roller.clone())
    );
    let mut statuses = [a.status.as_u16(), b.status.as_u16(), c.status.as_u16()];
    statuses.sort_unstable();
    assert_eq!(statuses, [200, 200, 201]);
    assert_eq!((a.json(), b.json()), (b.json(), c.json()));
    assert_eq!(ana.read("/rollers").await["items"].as_array().unwrap().len(), 1);
}

async fn writers_at_once_make_one_chain(world: World) {
    let ana = world.ana().await;
    let one = |n: u32| ana.post("/rollers", json!({ "label": format!("roller {n}"), "kind": "fluted" }));
    let answers = tokio::join!(one(1), one(2), one(3), one(4), one(5), one(6));
    for answer in [answers.0, answers.1, answers.2, answers.3, answers.4, answers.5] {
        assert_eq!(answer.status, 201, "{}", answer.text);
    }
    let mut conn = world.app.db.read().await.unwrap();
    audit::verify(&mut conn.cx(), ana.organization).await.unwrap().expect("the chain holds");
}

async fn what_conflicts_is_refused_and_kept(world: World) {
    let ana = world.ana().await;
    let id = "0196d2a0-0000-7000-8000-00000000000b";
    ana.create("/rollers", json!({ "id": id, "label": "fine", "kind": "fluted" })).await;
    ana.post("/rollers", json!({ "id": id, "label": "coarse", "kind": "fluted" })).await.refused(409, &[]);
    // Another kind of thing under the same id is other content too.
    ana.post("/clients", json!({ "id": id, "name": "Hollerhof" })).await.refused(409, &[]);
    let mut conn = world.app.db.read().await.unwrap();
    let kept: Vec<(String,)> =
        conn.cx().fetch_all("select sent from conflict order by sent_at, id", &[]).await.unwrap();
    assert_eq!(kept.len(), 2);
    assert!(kept.iter().any(|(sent,)| sent.contains("coarse")));
    // The same id in another organization is another thing, and says nothing of the first.
    let ben = world.ana().await;
    ben.create("/rollers", json!({ "id": id, "label": "belt", "kind": "belt" })).await;
}

async fn a_write_from_another_site_is_refused(world: World) {
    use axum::body::Body;
    use axum::http::{Request, header};
    let post = |headers: &[(&str, &str)]| {
        let mut request = Request::builder().method("POST").uri("/theme").header(header::HOST, "sowmark.test");
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        request
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded")
            .body(Body::from("theme=dark"))
            .unwrap()
    };
    let cookie = ("cookie", "sowmark=0000");
    for (headers, allowed) in [
        (vec![cookie, ("sec-fetch-site", "same-origin")], true),
        (vec![cookie, ("sec-fetch-site", "none")], true),
        (vec![cookie, ("sec-fetch-site", "same-site")], false),
        (vec![cookie, ("sec-fetch-site", "cross-site")], false),
        (vec![cookie, ("origin", "http://sowmark.test")], true),
        (vec![cookie, ("origin", "http://elsewhere.test")], false),
        (vec![cookie, ("origin", "null")], false),
        (vec![cookie], false),
        (vec![], true),
        (vec![cookie, ("sec-fetch-site", "cross-site"), ("origin", "http://sowmark.test")], false),
    ] {
        let status = world.request(post(&headers)).await.status.as_u16();
        assert_eq!(status != 403, allowed, "{headers:?}: {status}");
    }
    let ana = world.ana().await;
    ana.with_token("sowmark_nobody").post("/rollers", json!({})).await.refused(401, &[]);
}

#[test]
fn every_field_of_a_line_is_in_its_hash() {
    let line = Line {
        organization: OrganizationId(Uuid::from_u128(1)),
        seq: 7,
        at: jiff::Timestamp::UNIX_EPOCH,
        account: Some(AccountId(Uuid::from_u128(2))),
        action: "created".into(),
        subject_kind: "roller".into(),
        subject_id: Uuid::from_u128(3),
        change: "{}".into(),
    };
    let was = hash(&GENESIS, &line);
    let changed = [
        Line { organization: OrganizationId(Uuid::from_u128(9)), ..line.clone() },
        Line { seq: 8, ..line.clone() },
        Line { at: jiff::Timestamp::from_microsecond(1).unwrap(), ..line.clone() },
        Line { account: None, ..line.clone() },
        Line { action: "creates".into(), ..line.clone() },
        Line { subject_kind: "rolle".into(), ..line.clone() },
        Line { subject_id: Uuid::from_u128(4), ..line.clone() },
        Line { change: "{ }".into(), ..line.clone() },
        // The lengths keep the border between two fields where it is.
        Line { action: "createdroller".into(), subject_kind: String::new(), ..line.clone() },
    ];
    for other in changed {
        assert_ne!(hash(&GENESIS, &other), was, "{other:?}");
    }
    assert_ne!(hash(&[1; 32], &line), was);
}
