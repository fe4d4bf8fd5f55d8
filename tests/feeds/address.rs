//! The secret address: made, renewed and ended by its owner, ended by the office, and gone with the membership.

use super::{fetched, made};
use crate::on_both;
use crate::people::browser::Browser;
use crate::world::World;
use sowmark::access::Role;

on_both!(
    an_address_is_shown_once_and_renewed_and_ended,
    the_office_ends_it_and_so_does_the_end_of_the_membership,
    a_wrong_address_is_like_a_page_that_is_not_there,
    a_token_makes_no_address,
);

async fn an_address_is_shown_once_and_renewed_and_ended(world: World) {
    let ana = world.ana().await;
    let mut browser = Browser::of(&world, &ana, Role::Office).await;
    assert!(browser.get(&world, "/account").await.text.contains("href=\"/notices\""));
    let page = browser.get(&world, "/notices").await;
    assert!(page.text.contains("Make my address") && page.text.contains("Nothing is due."), "{}", page.text);
    assert_eq!(browser.submit(&world, "/notices/feed/end", &[]).await.status, 404);
    let first = made(&world, &mut browser).await;
    let secret = first.trim_start_matches("/feeds/").to_owned();
    assert_eq!(secret.len(), 64);
    let page = browser.get(&world, "/notices").await;
    assert!(!page.text.contains(&secret) && page.text.contains("Last read: never."), "{}", page.text);
    assert_eq!(fetched(&world, &format!("{first}/due.ics")).await.status, 200);
    let page = browser.get(&world, "/notices").await;
    assert!(!page.text.contains("Last read: never."), "{}", page.text);
    let kept = world.bytes_kept();
    assert!(!kept.windows(64).any(|bytes| bytes == secret.as_bytes()), "only a hash is kept");
    let second = made(&world, &mut browser).await;
    assert_eq!(fetched(&world, &format!("{first}/due.ics")).await.status, 404);
    assert_eq!(fetched(&world, &format!("{second}/due.atom")).await.status, 200);
    assert_eq!(browser.submit(&world, "/notices/feed/end", &[]).await.status, 303);
    assert_eq!(fetched(&world, &format!("{second}/due.atom")).await.status, 404);
    let trail = ana.get("/audit?limit=500").await.text;
    assert!(trail.contains("feed_address_made") && trail.contains("feed_address_ended") && !trail.contains(&secret));
}

async fn the_office_ends_it_and_so_does_the_end_of_the_membership(world: World) {
    let ana = world.ana().await;
    let kim = world.member(ana.organization, "kim-feeds@example.org", "crew").await;
    let mut office = Browser::of(&world, &ana, Role::Office).await;
    let mut crew = Browser::of(&world, &kim, Role::Crew).await;
    let member = format!("/people/{}", kim.account);
    assert!(!office.get(&world, &member).await.text.contains("Calendar and news"));
    let address = made(&world, &mut crew).await;
    let page = office.get(&world, &member).await.text;
    assert!(page.contains("Calendar and news") && !page.contains(&address), "{page}");
    let end = format!("{member}/feed/end");
    assert_eq!(crew.submit(&world, &end, &[]).await.status, 403);
    let mut eve = Browser::of(&world, &world.ana().await, Role::Office).await;
    assert_eq!(eve.submit(&world, &end, &[]).await.status, 404, "another organization's");
    assert_eq!(fetched(&world, &format!("{address}/due.ics")).await.status, 200);
    assert_eq!(office.submit(&world, &end, &[]).await.status, 303);
    assert_eq!(fetched(&world, &format!("{address}/due.ics")).await.status, 404);
    let address = made(&world, &mut crew).await;
    assert_eq!(office.submit(&world, &format!("{member}/end"), &[]).await.status, 303);
    assert_eq!(fetched(&world, &format!("{address}/due.ics")).await.status, 404);
    // Back again, the address of before stays gone.
    let back = [("name", "Kim"), ("email", "kim-feeds@example.org"), ("role", "crew")];
    assert!(office.submit(&world, "/people", &back).await.status.as_u16() < 400);
    assert_eq!(fetched(&world, &format!("{address}/due.ics")).await.status, 404);
}

async fn a_wrong_address_is_like_a_page_that_is_not_there(world: World) {
    let nowhere = fetched(&world, "/nowhere").await;
    assert_eq!(nowhere.status, 404);
    for code in ["0".repeat(64), "x".to_owned(), "0".repeat(65), "%ff".to_owned(), "g".repeat(64)] {
        for file in ["due.ics", "due.atom"] {
            let answer = fetched(&world, &format!("/feeds/{code}/{file}")).await;
            assert_eq!((answer.status, &answer.text), (nowhere.status, &nowhere.text), "{code}");
        }
    }
}

async fn a_token_makes_no_address(world: World) {
    let ana = world.ana().await;
    assert_eq!(ana.submit("/page/notices/feed", &[]).await.status, 403);
    assert_eq!(ana.submit("/page/notices/feed/end", &[]).await.status, 403);
}
