//! Every page opens for whoever may see it: with records of all kinds, nothing stumbles.

use super::{DAY, all, id, made, one};
use crate::on_both;
use crate::world::{Person, World};
use serde_json::Value;
use sowmark::access::Role;

on_both!(every_page_opens);

/// The pages of a role: those that all see, and its own.
fn lists(role: Role) -> Vec<&'static str> {
    let for_all = ["/", "/seeders", "/lots", "/fields", "/rate-plan", "/refused", "/checks", "/usage"];
    let own: &[&str] = match role {
        Role::Office => &[
            "/keeping",
            "/people",
            "/clients",
            "/rollers",
            "/scales",
            "/seasons",
            "/tolerances",
            "/audit",
            "/outbox",
            "/seeders/labels",
            "/?state=calibrate",
            "/?crop=wheat",
        ],
        Role::Crew => &["/scales", "/outbox", "/phone/pages"],
        Role::Agronomist => &["/audit"],
    };
    for_all.into_iter().chain(own.iter().copied()).collect()
}

/// The pages of everything that somebody sees.
async fn details(person: &Person, role: Role) -> Vec<String> {
    let mut pages = Vec::new();
    for lot in all(person, "/lots").await {
        pages.push(format!("/lots/{}", id(&lot)));
    }
    for seeder in all(person, "/seeders").await {
        pages.extend(["", "/label"].map(|part| format!("/seeders/{}{part}", id(&seeder))));
        for unit in seeder["metering_units"].as_array().unwrap() {
            let unit = id(unit);
            pages.extend(["calibrations", "rate", "gate"].map(|part| format!("/metering-units/{unit}/{part}")));
            if role != Role::Agronomist {
                let forms = ["catch", "setups/new", "fills/new", "emptyings/new", "jobs/new"];
                pages.extend(forms.map(|form| format!("/metering-units/{unit}/{form}")));
            }
            let catches = all(person, &format!("/metering-units/{unit}/calibrations")).await;
            pages.extend(catches.iter().map(|catch| format!("/calibrations/{}", id(catch))));
        }
    }
    if role == Role::Office {
        let ids = |items: &[Value]| items.iter().map(|item| id(item).to_owned()).collect::<Vec<_>>();
        let (crews, scales) = (all(person, "/crews").await, all(person, "/scales").await);
        pages.extend(ids(&crews).iter().map(|id| format!("/crews/{id}")));
        pages.extend(ids(&scales).iter().map(|id| format!("/scales/{id}/checks/new")));
    }
    pages
}

async fn every_page_opens(world: World) {
    let made = made(&world, DAY).await;
    for role in Role::ALL {
        let person = one(&world, &made, role).await;
        let details = details(&person, role).await;
        assert!(details.len() > 30, "{role:?} sees {}", details.len());
        for path in lists(role).into_iter().map(str::to_owned).chain(details) {
            let answer = person.get(&format!("/page{path}")).await;
            assert_eq!(answer.status.as_u16(), 200, "{path} for {role:?}: {}", answer.text);
            // Its one slip of the decimal sign was corrected; what is ordinary is asked nothing.
            assert!(!answer.text.contains("A slip?"), "{path} for {role:?}: {}", answer.text);
        }
    }
    limited_to_a_client(&world, &made).await;
}

/// The agronomist of one farm sees its seed, and not the other's.
async fn limited_to_a_client(world: &World, made: &sowmark::demo::Made) {
    let mut seen = Vec::new();
    for account in made.accounts.iter().filter(|account| account.role == Role::Agronomist) {
        let person = world.person(made.organization, account.account).await;
        seen.push(all(&person, "/lots").await.len());
        assert_eq!(person.get("/page/").await.status.as_u16(), 200);
    }
    assert_eq!(seen.first(), Some(&30));
    assert!(seen.iter().any(|lots| (1..30).contains(lots)), "{seen:?}");
}
