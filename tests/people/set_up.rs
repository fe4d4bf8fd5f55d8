//! The first visit: the link works once, for one, in time.

use super::browser::{Browser, PASSWORD, is_signed_in, location};
use crate::on_both;
use crate::world::World;
use sowmark::access::link;

on_both!(
    the_first_visit_makes_the_office_and_signs_it_in,
    of_two_visitors_at_once_one_gets_in,
    an_old_or_replaced_link_is_not_there,
    what_was_typed_comes_back_with_each_fault,
    passwords_that_anybody_would_guess_are_refused,
);

async fn code(world: &World) -> String {
    link::add_set_up(&world.app.db, &world.app.clock).await.unwrap()
}

fn fields<'a>(email: &'a str, password: &'a str) -> [(&'a str, &'a str); 6] {
    [
        ("organization", "Birkenfeld"),
        ("time_zone", "Europe/Vienna"),
        ("units", "metric"),
        ("name", "Ana"),
        ("email", email),
        ("password", password),
    ]
}

async fn the_first_visit_makes_the_office_and_signs_it_in(world: World) {
    let path = format!("/set-up/{}", code(&world).await);
    let mut ana = Browser::default();
    let page = ana.get(&world, &path).await;
    assert_eq!(page.status, 200);
    assert!(
        page.text.contains("<option value=\"Europe&#x2F;Vienna\">")
            || page.text.contains("<option value=\"Europe/Vienna\">")
    );

    let done = ana.submit(&world, &path, &fields("ana@example.org", PASSWORD)).await;
    assert_eq!((done.status.as_u16(), location(&done)), (303, "/"), "{}", done.text);
    assert_eq!(ana.get(&world, "/").await.status, 200);
    assert_eq!(ana.get(&world, "/people").await.status, 200, "the first account is office");

    let again = Browser::default().submit(&world, &path, &fields("eve@example.org", PASSWORD)).await;
    assert_eq!(again.status, 404, "the link is used");
    assert_eq!(Browser::default().get(&world, &path).await.status, 404);
}

async fn of_two_visitors_at_once_one_gets_in(world: World) {
    let path = format!("/set-up/{}", code(&world).await);
    let (mut one, mut two) = (Browser::default(), Browser::default());
    let (first, second) = (fields("one@example.org", PASSWORD), fields("two@example.org", PASSWORD));
    let (first, second) = tokio::join!(one.submit(&world, &path, &first), two.submit(&world, &path, &second));
    let mut statuses = [first.status.as_u16(), second.status.as_u16()];
    statuses.sort_unstable();
    assert_eq!(statuses, [303, 404]);
    let (winner, loser) = if first.status == 303 { (&mut one, &mut two) } else { (&mut two, &mut one) };
    assert!(is_signed_in(&world, winner).await);
    assert!(!is_signed_in(&world, loser).await);
    let mut conn = world.app.db.read().await.unwrap();
    let (accounts,): (i64,) = conn.cx().fetch_one("select count(*) from account", &[]).await.unwrap();
    let (organizations,): (i64,) = conn.cx().fetch_one("select count(*) from organization", &[]).await.unwrap();
    assert_eq!((accounts, organizations), (1, 1));
}

async fn an_old_or_replaced_link_is_not_there(world: World) {
    let first = code(&world).await;
    let second = code(&world).await;
    let mut browser = Browser::default();
    assert_eq!(browser.get(&world, &format!("/set-up/{first}")).await.status, 404, "a restart prints a newer link");
    assert_eq!(browser.get(&world, &format!("/set-up/{second}")).await.status, 200);
    assert_eq!(browser.get(&world, &format!("/set-password/{second}")).await.status, 404, "it is for something else");
    world.set_time("2027-04-02T06:00:01Z");
    let late = browser.get(&world, &format!("/set-up/{second}")).await;
    assert_eq!(late.status, 404, "a day is over");
    assert!(late.headers["content-type"].to_str().unwrap().starts_with("text/html"));
    for odd in ["x", "%00", "..%2F..", &"0".repeat(64), &"0".repeat(4000)] {
        assert_eq!(browser.get(&world, &format!("/set-up/{odd}")).await.status, 404, "{odd}");
    }
}

async fn what_was_typed_comes_back_with_each_fault(world: World) {
    let path = format!("/set-up/{}", code(&world).await);
    let mut browser = Browser::default();
    let typed = [
        ("organization", "Birken & Feld"),
        ("time_zone", "Nowhere/Land"),
        ("units", "metric"),
        ("email", "ana"),
        ("password", PASSWORD),
    ];
    let back = browser.submit(&world, &path, &typed).await;
    assert_eq!(back.status, 422);
    for part in ["time_zone-error", "name-error", "email-error", "Birken &#38; Feld", "<title>Error: "] {
        assert!(back.text.contains(part), "{part}: {}", back.text);
    }
    assert!(!back.text.contains(PASSWORD), "a password is never sent back");
    assert!(!back.text.contains("password-error"), "{}", back.text);
    let short = browser.submit(&world, &path, &[("units", "metric"), ("email", "ana"), ("password", "short")]).await;
    for part in ["organization-error", "time_zone-error", "name-error", "email-error", "password-error"] {
        assert!(short.text.contains(part), "{part}: {}", short.text);
    }
    assert!(!back.text.contains("units-error"));
    let done = browser.submit(&world, &path, &fields("ana@example.org", PASSWORD)).await;
    assert_eq!(done.status, 303, "the link is still good after a fault");
}

async fn passwords_that_anybody_would_guess_are_refused(world: World) {
    let path = format!("/set-up/{}", code(&world).await);
    let email = "ana.birkenfeld@example.org";
    let (long, longest) = ("long ".repeat(26), "x y".repeat(42));
    for bad in [
        "",
        "short",
        "elevenchars",
        "password1234",
        "PassWord1234",
        "aaaaaaaaaaaaaa",
        "ANA.birkenfeld@example.org",
        &long,
    ] {
        let answer = Browser::default().submit(&world, &path, &fields(email, bad)).await;
        assert_eq!(answer.status, 422, "{bad:?}");
        assert!(answer.text.contains("password-error"), "{bad:?}: {}", answer.text);
    }
    assert_eq!(longest.len(), 126);
    let mut ana = Browser::default();
    let spaced = format!(" {longest} ");
    assert_eq!(ana.submit(&world, &path, &fields(email, &spaced)).await.status, 303, "128 characters will do");
    let mut again = Browser::default();
    assert_eq!(again.sign_in(&world, email, &longest).await.status, 422, "blanks at its ends count");
    assert_eq!(again.sign_in(&world, email, &spaced).await.status, 303);
}
