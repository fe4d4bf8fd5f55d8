//! What a letter tells, to whom, and how it is stopped.

use super::post_office::PostOffice;
use super::{choose, look, look_at};
use crate::on_both;
use crate::people::browser::Browser;
use crate::readiness::farm::{Farm, fill, setup};
use crate::seed::{drill, hand};
use crate::world::World;
use axum::body::Body;
use axum::http::Request;
use sowmark::access::Role;

on_both!(
    a_letter_tells_what_came_due_since_the_last,
    nothing_is_sent_where_e_mail_is_off_or_nobody_chose_it,
    a_letter_tells_no_more_than_its_reader_may_see,
    a_letter_is_stopped_by_one_click,
    a_letter_is_in_its_readers_language,
);

async fn a_letter_tells_what_came_due_since_the_last(world: World) {
    let office = PostOffice::open().await;
    let world = world.sending_by(&office.url);
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let mut ana = Browser::of(&world, &farm.ana, Role::Office).await;
    // It is 8 o'clock in Vienna: today's 6 o'clock is over, and not made up for.
    choose(&world, &mut ana, "daily", "6").await;
    assert_eq!(look(&world).await, 0);
    assert_eq!(look_at(&world, "2027-04-02T03:59:59Z").await, 0, "a second to six in Vienna");
    assert_eq!(look_at(&world, "2027-04-02T04:00:00Z").await, 1);
    let letter = office.last();
    let read = letter.read();
    assert_eq!(read.subject(), Some("One thing came due at Birkenfeld"));
    assert_eq!(letter.from, "sowmark@seed.example");
    assert!(letter.to.len() == 1 && letter.to[0].starts_with("ana-"), "{:?}", letter.to);
    assert_eq!(read.date().unwrap().to_rfc3339(), "2027-04-02T04:00:00Z");
    assert_eq!(letter.header("List-Unsubscribe-Post"), "List-Unsubscribe=One-Click");
    assert_eq!(letter.header("Auto-Submitted"), "auto-generated");
    for text in [letter.plain(), letter.html()] {
        assert!(text.contains("Drill 1, front tank: Roller changed"), "{text}");
        assert!(
            text.contains("30 March") && text.contains(&format!("http://seed.example/seeders/{}", farm.seeder)),
            "{text}"
        );
        assert!(text.contains(&letter.stop()), "{text}");
    }
    // The next day there is nothing new, and no letter.
    assert_eq!(look_at(&world, "2027-04-03T04:00:00Z").await, 0);
    farm.log("setups", setup("2027-04-03T08:00:00Z", &farm.coarse, "3:1", "12")).await;
    assert_eq!(look_at(&world, "2027-04-04T04:05:00Z").await, 1);
    let text = office.last().plain();
    assert!(text.contains("Drive ratio changed") && !text.contains("Roller changed"), "{text}");
    assert!(text.contains("One thing that you were told of before is still due."), "{text}");
    assert_eq!(office.letters().len(), 2);
}

async fn nothing_is_sent_where_e_mail_is_off_or_nobody_chose_it(world: World) {
    let office = PostOffice::open().await;
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let mut ana = Browser::of(&world, &farm.ana, Role::Office).await;
    assert!(ana.get(&world, "/notices").await.text.contains("This server sends no e-mail."));
    choose(&world, &mut ana, "daily", "6").await;
    assert_eq!(look_at(&world, "2027-04-02T04:00:00Z").await, 0);
    let world = world.sending_by(&office.url);
    let mut ana = Browser::of(&world, &farm.ana, Role::Office).await;
    choose(&world, &mut ana, "none", "6").await;
    assert_eq!(look_at(&world, "2027-04-03T04:00:00Z").await, 0);
    assert_eq!(office.callers(), 0, "the mail server was not even called");
}

async fn a_letter_tells_no_more_than_its_reader_may_see(world: World) {
    let office = PostOffice::open().await;
    let world = world.sending_by(&office.url);
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let other = drill(&world, &farm.ana, "Drill 2").await;
    let ben = hand(&world, &farm.ana, "ben-digest@example.org", &[&other]).await;
    let mut crew = Browser::of(&world, &ben, Role::Crew).await;
    choose(&world, &mut crew, "daily", "6").await;
    farm.ana.create(&other.path("fills"), fill("2027-03-31T08:00:00Z", &farm.wheat)).await;
    assert_eq!(look_at(&world, "2027-04-02T04:00:00Z").await, 1);
    let letter = office.last();
    assert_eq!(letter.to, ["ben-digest@example.org"]);
    for text in [letter.plain(), letter.html()] {
        assert!(text.contains("Drill 2, tank 1: Never calibrated") && !text.contains("Drill 1"), "{text}");
    }
    // Whoever is no member any more gets none.
    let mut ana = Browser::of(&world, &farm.ana, Role::Office).await;
    let before = office.letters().len();
    assert_eq!(ana.submit(&world, &format!("/people/{}/end", ben.account), &[]).await.status, 303);
    assert_eq!(look_at(&world, "2027-04-03T04:00:00Z").await, 0);
    assert_eq!(office.letters().len(), before);
}

/// What a mail program sends: RFC 8058, section 3.2.
async fn one_click(world: &World, path: &str) -> crate::world::Answer {
    let request = Request::builder()
        .method("POST")
        .uri(path)
        .header("host", "seed.example")
        .header("content-type", "application/x-www-form-urlencoded");
    world.request(request.body(Body::from("List-Unsubscribe=One-Click")).unwrap()).await
}

async fn a_letter_is_stopped_by_one_click(world: World) {
    let office = PostOffice::open().await;
    let world = world.sending_by(&office.url);
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let mut ana = Browser::of(&world, &farm.ana, Role::Office).await;
    choose(&world, &mut ana, "daily", "6").await;
    assert_eq!(look_at(&world, "2027-04-02T04:00:00Z").await, 1);
    let stop = office.last().stop();
    let kept = world.bytes_kept();
    let secret = stop.rsplit('/').next().unwrap().as_bytes();
    assert!(secret.len() == 64 && !kept.windows(64).any(|bytes| bytes == secret), "only a hash is kept");
    let gets = "Every day at 06:00.";
    let mut ana = Browser::of(&world, &farm.ana, Role::Office).await;
    let page = world.nobody().get(&format!("/page{stop}")).await;
    assert!(page.status == 200 && page.text.contains("Stop the letters"), "{}", page.text);
    assert!(ana.get(&world, "/notices").await.text.contains(gets), "opening the link stops nothing");
    for _ in 0..2 {
        let stopped = one_click(&world, &stop).await;
        assert!(stopped.status == 200 && stopped.text.contains("You get no more letters"), "{}", stopped.text);
    }
    assert!(!ana.get(&world, "/notices").await.text.contains(gets));
    farm.log("setups", setup("2027-04-02T08:00:00Z", &farm.coarse, "3:1", "12")).await;
    assert_eq!(look_at(&world, "2027-04-03T04:00:00Z").await, 0);
    for code in ["0".repeat(64), "x".to_owned()] {
        assert_eq!(one_click(&world, &format!("/digest/stop/{code}")).await.status, 404);
        assert_eq!(world.nobody().get(&format!("/page/digest/stop/{code}")).await.status, 404);
    }
}

async fn a_letter_is_in_its_readers_language(world: World) {
    let office = PostOffice::open().await;
    let world = world.sending_by(&office.url);
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let mut browser = Browser { language: "es", ..Browser::of(&world, &farm.ana, Role::Office).await };
    choose(&world, &mut browser, "weekly", "6").await;
    let page = browser.get(&world, "/notices").await.text;
    assert!(page.contains("Cada lunes a las 06:00.") && page.contains("Cambio de rodillo"), "{page}");
    // 5 April 2027 is a Monday.
    assert_eq!(look_at(&world, "2027-04-04T23:00:00Z").await, 0);
    assert_eq!(look_at(&world, "2027-04-05T04:00:00Z").await, 1);
    let letter = office.last();
    assert_eq!(letter.read().subject(), Some("Hay un asunto pendiente nuevo en Birkenfeld"));
    assert!(
        letter.html().contains("<html lang=\"es\">") && letter.plain().contains("Dejar de recibirlas"),
        "{}",
        letter.plain()
    );
}
