//! A period's letter goes out once: with two servers on a database, after a restart, when the mail server was away, and
//! when the clocks change.

use super::post_office::PostOffice;
use super::{choose, look, look_at};
use crate::on_both;
use crate::people::browser::Browser;
use crate::readiness::farm::{Farm, setup};
use crate::world::World;
use sowmark::access::Role;
use sowmark::digest::act;

on_both!(
    of_two_servers_that_look_at_once_one_sends,
    what_was_not_taken_is_tried_again_and_shown_to_the_office,
    what_is_given_up_is_told_by_the_next,
    a_change_of_the_clocks_neither_skips_nor_doubles_a_letter,
);

/// A farm on which something has been due since 30 March, and whose office wants a letter each day. By the next morning
/// the session in which it chose so has ended.
async fn waiting(world: &World, hour: &str) -> Farm {
    let (farm, _) = Farm::ready(world).await;
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let mut ana = Browser::of(world, &farm.ana, Role::Office).await;
    choose(world, &mut ana, "daily", hour).await;
    farm
}

async fn of_two_servers_that_look_at_once_one_sends(world: World) {
    let office = PostOffice::open().await;
    let world = world.sending_by(&office.url);
    waiting(&world, "6").await;
    world.set_time("2027-04-02T04:00:00Z");
    let (one, other, third) =
        tokio::join!(act::send_due(&world.app), act::send_due(&world.app), act::send_due(&world.app));
    let sent = [one, other, third].into_iter().map(Result::unwrap_or_default).sum::<usize>();
    assert_eq!((sent, office.letters().len()), (1, 1));
    // As after a restart: all there is to know stands in the database.
    for at in ["2027-04-02T04:00:30Z", "2027-04-02T12:00:00Z", "2027-04-03T03:59:00Z"] {
        assert_eq!(look_at(&world, at).await, 0, "{at}");
    }
    assert_eq!(office.letters().len(), 1);
}

async fn what_was_not_taken_is_tried_again_and_shown_to_the_office(world: World) {
    let office = PostOffice::open().await;
    let world = world.sending_by(&office.url);
    let farm = waiting(&world, "6").await;
    office.close(true);
    assert_eq!(look_at(&world, "2027-04-02T04:00:00Z").await, 0);
    let mut ana = Browser::of(&world, &farm.ana, Role::Office).await;
    assert_eq!(look_at(&world, "2027-04-02T04:04:59Z").await, 0);
    assert_eq!(office.callers(), 1, "not before five minutes");
    let page = ana.get(&world, "/notices").await.text;
    assert!(page.contains("The letter could not be sent:") && page.contains("the office is closed"), "{page}");
    assert_eq!(look_at(&world, "2027-04-02T04:05:00Z").await, 0);
    assert_eq!(look_at(&world, "2027-04-02T04:14:59Z").await, 0);
    assert_eq!(office.callers(), 2, "then not before ten more");
    assert!(ana.get(&world, "/notices").await.text.contains("after 2 attempts"));
    office.close(false);
    assert_eq!(look_at(&world, "2027-04-02T04:15:00Z").await, 1);
    assert_eq!(look_at(&world, "2027-04-02T06:00:00Z").await, 0);
    assert_eq!(office.letters().len(), 1);
    let page = ana.get(&world, "/notices").await.text;
    assert!(page.contains("The last letter went out on") && !page.contains("the office is closed"), "{page}");
}

async fn what_is_given_up_is_told_by_the_next(world: World) {
    let office = PostOffice::open().await;
    let world = world.sending_by(&office.url);
    let farm = waiting(&world, "6").await;
    office.close(true);
    world.set_time("2027-04-02T04:00:00Z");
    let start: jiff::Timestamp = "2027-04-02T04:00:00Z".parse().unwrap();
    let mut after = 0;
    for attempt in 0..8_u32 {
        world.app.clock.set(start + jiff::SignedDuration::from_mins(after));
        look(&world).await;
        after += 5 * 2_i64.pow(attempt);
    }
    assert_eq!(office.callers(), 8);
    world.app.clock.set(start + jiff::SignedDuration::from_mins(after));
    assert_eq!((look(&world).await, office.callers()), (0, 8), "given up");
    let mut ana = Browser::of(&world, &farm.ana, Role::Office).await;
    let page = ana.get(&world, "/notices").await.text;
    assert!(page.contains("was given up on") && page.contains("the office is closed"), "{page}");
    office.close(false);
    assert_eq!(look_at(&world, "2027-04-03T04:00:00Z").await, 1);
    assert!(office.last().plain().contains("Roller changed"));
}

/// In Vienna the hour from 2 to 3 comes twice on 31 October 2027; on 28 March 2027 it does not come at all, which
/// `server/digest/when.rs` tests alone, as the farm's records begin on that day.
async fn a_change_of_the_clocks_neither_skips_nor_doubles_a_letter(world: World) {
    let office = PostOffice::open().await;
    let world = world.sending_by(&office.url);
    let farm = waiting(&world, "2").await;
    let zone = jiff::tz::TimeZone::get("Europe/Vienna").unwrap();
    let mut now: jiff::Timestamp = "2027-10-29T12:00:00Z".parse().unwrap();
    let mut days = Vec::new();
    for step in 0..(4 * 48) {
        world.app.clock.set(now);
        if step % 48 == 20 {
            // Something new to tell each day, in the evening: caught again, and then the ratio changed again.
            let before = now - jiff::SignedDuration::from_mins(10);
            farm.caught(&before.to_string(), &farm.wheat).await;
            farm.log("setups", setup(&now.to_string(), &farm.coarse, &format!("{}:7", 11 + step / 48), "12")).await;
        }
        if look(&world).await > 0 {
            days.push(zone.to_datetime(now).date().to_string());
        }
        now += jiff::SignedDuration::from_mins(30);
    }
    assert_eq!(days, ["2027-10-29", "2027-10-30", "2027-10-31", "2027-11-01", "2027-11-02"]);
}
