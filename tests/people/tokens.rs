//! Bearer tokens: shown once, ended at once, and no way to more than they are.

use super::browser::{Browser, PASSWORD, is_signed_in, location, member, shown_once};
use crate::on_both;
use crate::world::World;
use sowmark::access::Role;

on_both!(
    a_token_is_shown_once_and_ends_at_once,
    a_token_opens_no_new_way_in,
    a_person_of_two_organizations_goes_between_them,
);

async fn a_token_is_shown_once_and_ends_at_once(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "kim@example.org", "crew").await;
    let mut kim = Browser::default();
    kim.sign_in(&world, "kim@example.org", PASSWORD).await;
    assert_eq!(kim.submit(&world, "/account/tokens", &[("label", "")]).await.status, 422);
    let secret = shown_once(&kim.submit(&world, "/account/tokens", &[("label", "weather station")]).await.text);
    let program = world.nobody().with_token(&secret);
    assert_eq!(program.read("/me").await["user"]["email"], "kim@example.org");
    let page = kim.get(&world, "/account").await.text;
    assert!(page.contains("weather station") && !page.contains(&secret));
    let (_, rest) = page.split_once("/account/tokens/").unwrap();
    let id = rest.split('/').next().unwrap();
    assert_eq!(kim.submit(&world, &format!("/account/tokens/{id}/end"), &[]).await.status, 303);
    program.get("/me").await.refused(401, &[]);
    assert_eq!(kim.submit(&world, &format!("/account/tokens/{id}/end"), &[]).await.status, 404);
}

async fn a_token_opens_no_new_way_in(world: World) {
    let ana = world.ana().await;
    let own = ana.account;
    for (path, fields) in [
        ("/page/account/tokens".to_owned(), vec![("label", "another")]),
        ("/page/account/password".to_owned(), vec![("old_password", PASSWORD), ("password", PASSWORD)]),
        ("/page/people".to_owned(), vec![("name", "Eve"), ("email", "eve@example.org"), ("role", "office")]),
        (format!("/page/people/{own}/password-link"), vec![]),
        (format!("/page/people/{own}/tokens"), vec![("label", "another")]),
        (format!("/page/people/{own}"), vec![("role", "crew")]),
        (format!("/page/people/{own}/end"), vec![]),
    ] {
        assert_eq!(ana.submit(&path, &fields).await.status, 403, "{path}");
    }
    for odd in ["", "sowmark_", "sowmark_00", "Basic abc", &format!("sowmark_{}", "0".repeat(64))] {
        world.nobody().with_token(odd).get("/me").await.refused(401, &[]);
    }
}

async fn a_person_of_two_organizations_goes_between_them(world: World) {
    let (here, there) =
        (world.organization("Birkenfeld", "Europe/Vienna").await, world.organization("Talhof", "Europe/Vienna").await);
    world.set_time("2027-04-01T06:00:01Z");
    member(&world, here, "mia@example.org", "agronomist").await;
    world.set_time("2027-04-01T06:00:02Z");
    member(&world, there, "mia@example.org", "office").await;
    let other = world.organization("Foreign", "Europe/Vienna").await;
    let mut mia = Browser::default();
    mia.sign_in(&world, "mia@example.org", PASSWORD).await;
    assert_eq!(mia.get(&world, "/people").await.status, 403, "an agronomist here");
    let go = |to: sowmark_core::ids::OrganizationId| format!("/account/organizations/{to}");
    assert_eq!(mia.submit(&world, &go(other), &[]).await.status, 404);
    let gone = mia.submit(&world, &go(there), &[]).await;
    assert_eq!((gone.status.as_u16(), location(&gone)), (303, "/"));
    assert_eq!(mia.get(&world, "/people").await.status, 200, "office there");

    // The office of either may not set a password that opens the other.
    let boss = world.member(here, "boss@example.org", "office").await;
    let mut boss = Browser::of(&world, &boss, Role::Office).await;
    let mia_id = sowmark::people::act::account_of(&world.app.db, "mia@example.org").await.unwrap();
    let refused = boss.submit(&world, &format!("/people/{mia_id}/password-link"), &[]).await;
    assert_eq!(refused.status, 422);
    assert!(!refused.text.contains("/set-password/"));
    // But each may end what is its own, and only that.
    assert_eq!(boss.submit(&world, &format!("/people/{mia_id}/end"), &[]).await.status, 303);
    assert!(is_signed_in(&world, &mut mia).await, "her session is at Talhof");
    assert_eq!(mia.submit(&world, &go(here), &[]).await.status, 404, "no longer a member");
}
