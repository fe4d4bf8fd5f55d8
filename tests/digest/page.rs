//! The page of notices: the choice, what the next letter will say, and who gets letters.

use super::choose;
use super::post_office::PostOffice;
use crate::on_both;
use crate::people::browser::Browser;
use crate::readiness::farm::{Farm, setup};
use crate::world::World;
use sowmark::access::Role;

on_both!(the_page_says_what_the_next_letter_will_say, the_office_sees_who_gets_letters_and_nobody_else_does);

async fn the_page_says_what_the_next_letter_will_say(world: World) {
    let office = PostOffice::open().await;
    let world = world.sending_by(&office.url);
    let (farm, _) = Farm::ready(&world).await;
    let mut ana = Browser::of(&world, &farm.ana, Role::Office).await;
    let page = ana.get(&world, "/notices").await.text;
    assert!(
        page.contains("<option value=\"none\" selected>Never</option>") && !page.contains("Your next letter"),
        "{page}"
    );
    for (every, hour, fault) in [("hourly", "6", "every"), ("daily", "24", "hour"), ("daily", "", "hour")] {
        let refused = ana.submit(&world, "/notices/digest", &[("every", every), ("hour", hour)]).await;
        assert_eq!(refused.status, 422);
        assert!(refused.text.contains(&format!("id=\"{fault}-error\"")), "{every} {hour}: {}", refused.text);
    }
    choose(&world, &mut ana, "daily", "17").await;
    let page = ana.get(&world, "/notices").await.text;
    assert!(
        page.contains("if anything comes due until then") && page.contains("<option value=\"17\" selected>"),
        "{page}"
    );
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let page = ana.get(&world, "/notices").await.text;
    assert!(
        page.contains("As things stand, it says:") && page.contains("<li>Drill 1, front tank: Roller changed</li>"),
        "{page}"
    );
}

async fn the_office_sees_who_gets_letters_and_nobody_else_does(world: World) {
    let office = PostOffice::open().await;
    let world = world.sending_by(&office.url);
    let ana = world.ana().await;
    let kim = world.member(ana.organization, "kim-digest@example.org", "crew").await;
    let mut crew = Browser::of(&world, &kim, Role::Crew).await;
    choose(&world, &mut crew, "weekly", "5").await;
    let seen = "kim-digest@example.org";
    let page = Browser::of(&world, &ana, Role::Office).await.get(&world, "/notices").await.text;
    assert!(
        page.contains(seen) && page.contains("Every Monday at 05:00.") && page.contains("No letter has been due yet."),
        "{page}"
    );
    assert!(!crew.get(&world, "/notices").await.text.contains(seen));
    let mut eve = Browser::of(&world, &world.ana().await, Role::Office).await;
    assert!(!eve.get(&world, "/notices").await.text.contains(seen));
    assert_eq!(kim.submit("/page/notices/digest", &[("every", "daily"), ("hour", "6")]).await.status, 403, "a token");
}
