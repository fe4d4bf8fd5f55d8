//! A feed speaks its owner's language: the one chosen on the account page, else the one in which it was asked for.

use super::{events, fetched, made};
use crate::on_both;
use crate::people::browser::Browser;
use crate::readiness::farm::{Farm, setup};
use crate::world::World;
use atom_syndication::Feed;
use sowmark::access::Role;

on_both!(a_feed_is_in_its_owners_language);

async fn a_feed_is_in_its_owners_language(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let mut browser = Browser { language: "es-AR,es;q=0.9", ..Browser::of(&world, &farm.ana, Role::Office).await };
    let page = browser.get(&world, "/notices").await.text;
    assert!(page.contains("<h1>Lo pendiente, a su alcance</h1>") && page.contains("Crear mi dirección"), "{page}");
    let address = made(&world, &mut browser).await;
    let in_spanish = "Drill 1, front tank: Cambio de rodillo";
    let seen = events(&fetched(&world, &format!("{address}/due.ics")).await.text);
    assert!(seen.contains_key(in_spanish), "{seen:?}");
    assert!(seen["Yard scale: verificar con una pesa patrón"]["DESCRIPTION"].contains("20 de marzo"), "{seen:?}");
    let feed: Feed = fetched(&world, &format!("{address}/due.atom")).await.text.parse().unwrap();
    assert_eq!((feed.lang(), feed.title().as_str()), (Some("es"), "Pendiente en Birkenfeld"));
    let chosen = [("units", "organization"), ("decimal_sign", "point"), ("language", "en")];
    assert_eq!(browser.submit(&world, "/account/reading", &chosen).await.status, 303);
    let seen = events(&fetched(&world, &format!("{address}/due.ics")).await.text);
    assert!(seen.contains_key("Drill 1, front tank: Roller changed"), "{seen:?}");
}
