//! Members as the office keeps them: added, changed, cut off.

use super::browser::{Browser, PASSWORD, is_signed_in, location, member, shown_once};
use crate::on_both;
use crate::world::{Answer, World};
use axum::body::Body;
use axum::http::{Request, header};
use serde_json::json;
use sowmark::access::{Role, host, token};

on_both!(
    a_new_member_sets_a_password_by_the_link,
    an_ended_membership_kills_sessions_and_tokens_at_once,
    another_role_means_signing_in_again,
    the_last_office_member_stays,
    a_lost_phone_is_cut_off_by_the_office,
    members_are_listed_for_the_office_alone,
    nobody_reaches_into_another_organization,
);

async fn office(world: &World) -> (crate::world::Person, Browser) {
    let ana = world.ana().await;
    let browser = Browser::of(world, &ana, Role::Office).await;
    (ana, browser)
}

async fn a_new_member_sets_a_password_by_the_link(world: World) {
    let (_, mut ana) = office(&world).await;
    let faulty = ana.submit(&world, "/people", &[("name", "Kim"), ("email", "kim"), ("role", "boss")]).await;
    assert_eq!(faulty.status, 422);
    assert!(
        faulty.text.contains("email-error")
            && faulty.text.contains("role-error")
            && faulty.text.contains("value=\"Kim\"")
    );
    let added = ana.submit(&world, "/people", &[("name", "Kim"), ("email", "kim@example.org"), ("role", "crew")]).await;
    let link = shown_once(&added.text);
    let path = link.strip_prefix("http://sowmark.test").unwrap();
    let mut kim = Browser::default();
    assert_eq!(kim.submit(&world, path, &[("password", PASSWORD)]).await.status, 303);
    assert_eq!(kim.sign_in(&world, "kim@example.org", PASSWORD).await.status, 303);
    let page = ana.get(&world, "/people").await.text;
    assert!(page.contains("kim@example.org") && page.contains("in no crew, so sees no seeder"), "{page}");

    // Who has an account keeps its password; adding again must not hand out a way into it.
    let again = ana.submit(&world, "/people", &[("name", "Eve"), ("email", "kim@example.org"), ("role", "crew")]).await;
    assert_eq!(again.status, 303);
    assert!(is_signed_in(&world, &mut kim).await);
}

async fn an_ended_membership_kills_sessions_and_tokens_at_once(world: World) {
    let (ana_person, mut ana) = office(&world).await;
    let kim_person = world.member(ana_person.organization, "kim@example.org", "crew").await;
    let mut kim = Browser::of(&world, &kim_person, Role::Crew).await;
    assert!(is_signed_in(&world, &mut kim).await);
    assert_eq!(kim_person.get("/me").await.status, 200);
    let crew = ana_person.create("/crews", json!({ "name": "yard", "members": [kim_person.account] })).await;
    assert_eq!(ana.submit(&world, &format!("/people/{}/end", kim_person.account), &[]).await.status, 303);
    assert!(!is_signed_in(&world, &mut kim).await);
    kim_person.get("/me").await.refused(401, &[]);

    // Let in again, nothing of before comes back.
    world.member(ana_person.organization, "kim@example.org", "crew").await;
    assert!(!is_signed_in(&world, &mut kim).await);
    kim_person.get("/me").await.refused(401, &[]);
    let crew = ana_person.read(&format!("/crews/{}", crew["id"].as_str().unwrap())).await;
    assert_eq!(crew["members"], json!([]));
    assert_eq!(ana.submit(&world, &format!("/people/{}/end", uuid::Uuid::from_u128(7)), &[]).await.status, 404);
}

async fn another_role_means_signing_in_again(world: World) {
    let (ana_person, mut ana) = office(&world).await;
    let kim_person = world.member(ana_person.organization, "kim@example.org", "crew").await;
    let mut kim = Browser::of(&world, &kim_person, Role::Crew).await;
    let path = format!("/people/{}", kim_person.account);
    assert_eq!(ana.submit(&world, &path, &[("role", "crew")]).await.status, 303);
    assert!(is_signed_in(&world, &mut kim).await, "the same role as before");
    let client = uuid::Uuid::from_u128(9).to_string();
    assert_eq!(
        ana.submit(&world, &path, &[("role", "crew"), ("clients", &client)]).await.status,
        422,
        "crew has no clients"
    );
    assert_eq!(
        ana.submit(&world, &path, &[("role", "agronomist"), ("clients", &client)]).await.status,
        404,
        "no such client"
    );
    assert_eq!(kim_person.read("/me").await["role"], "crew");
    assert_eq!(ana.submit(&world, &path, &[("role", "agronomist")]).await.status, 303);
    assert!(!is_signed_in(&world, &mut kim).await);
    assert_eq!(kim_person.read("/me").await["role"], "agronomist", "its token has the new role at once");
}

async fn the_last_office_member_stays(world: World) {
    let (ana_person, mut ana) = office(&world).await;
    let own = ana_person.account;
    for path in [format!("/people/{own}/end"), format!("/people/{own}")] {
        let refused = ana.submit(&world, &path, &[("role", "crew")]).await;
        assert_eq!(refused.status, 422);
        assert!(refused.text.contains("This is the only office member."), "{}", refused.text);
    }
    world.member(ana_person.organization, "ben@example.org", "office").await;
    assert_eq!(ana.submit(&world, &format!("/people/{own}/end"), &[]).await.status, 303);
    assert!(!is_signed_in(&world, &mut ana).await);
}

async fn a_lost_phone_is_cut_off_by_the_office(world: World) {
    let (ana_person, mut ana) = office(&world).await;
    let organization = ana_person.organization;
    let kim_id = member(&world, organization, "kim@example.org", "crew").await;
    let (mut phone, mut desk) = (Browser::default(), Browser::default());
    phone.sign_in(&world, "kim@example.org", PASSWORD).await;
    world.set_time("2027-04-01T07:00:00Z");
    desk.sign_in(&world, "kim@example.org", PASSWORD).await;
    let secret = token::add(&world.app.db, &world.app.clock, &host(organization), kim_id, "logger").await.unwrap();
    let logger = world.nobody().with_token(&secret);

    let page = ana.get(&world, &format!("/people/{kim_id}")).await.text;
    let ids = |what: &str| -> Vec<String> {
        let marker = format!("/people/{kim_id}/{what}/");
        page.split(&marker).skip(1).map(|rest| rest.split('/').next().unwrap().to_owned()).collect()
    };
    assert_eq!((ids("sessions").len(), ids("tokens").len()), (2, 1), "{page}");
    assert!(page.contains("1 April 2027") && page.contains("logger"), "{page}");
    assert!(page.contains("A browser on Linux") && page.contains("Last seen: 1 April 2027, 09:00"), "{page}");
    assert_eq!(api(&world, &phone).await.status, 200);
    // The last used comes first; the phone is the other.
    let lost = format!("/people/{kim_id}/sessions/{}/end", ids("sessions")[1]);
    assert_eq!(ana.submit(&world, &lost, &[]).await.status, 303);
    api(&world, &phone).await.refused(401, &[]);
    let sent_away = phone.get(&world, "/seeders").await;
    assert_eq!((sent_away.status.as_u16(), location(&sent_away)), (303, "/sign-in?back=%2Fseeders"));
    assert!(is_signed_in(&world, &mut desk).await);
    assert_eq!(ana.submit(&world, &format!("/people/{kim_id}/tokens/{}/end", ids("tokens")[0]), &[]).await.status, 303);
    logger.get("/me").await.refused(401, &[]);
    let trail = ana_person.read("/audit?limit=500").await;
    let actions: Vec<&str> =
        trail["items"].as_array().unwrap().iter().map(|line| line["action"].as_str().unwrap()).collect();
    assert!(actions.contains(&"session_ended") && actions.contains(&"token_ended"), "{actions:?}");
}

/// The API as a page's script calls it: with the browser's session.
async fn api(world: &World, browser: &Browser) -> Answer {
    let cookie = browser.session.clone().unwrap_or_default();
    let request =
        Request::builder().uri("/api/v1/me").header(header::HOST, "sowmark.test").header(header::COOKIE, cookie);
    world.request(request.body(Body::empty()).unwrap()).await
}

async fn members_are_listed_for_the_office_alone(world: World) {
    let ana = world.ana().await;
    let kim = world.member(ana.organization, "kim@example.org", "crew").await;
    let mia = world.member(ana.organization, "mia@example.org", "agronomist").await;
    let members = ana.read("/members").await;
    let roles: Vec<&str> = members["items"].as_array().unwrap().iter().map(|m| m["role"].as_str().unwrap()).collect();
    assert_eq!(roles.len(), 3);
    assert!(roles.contains(&"office") && roles.contains(&"crew") && roles.contains(&"agronomist"));
    kim.get("/members").await.refused(403, &[]);
    mia.get("/members").await.refused(403, &[]);
}

async fn nobody_reaches_into_another_organization(world: World) {
    let (_, mut ana) = office(&world).await;
    let other = world.organization("Talhof", "Europe/Vienna").await;
    let eve = world.member(other, "eve@example.org", "crew").await;
    let mut eve_browser = Browser::of(&world, &eve, Role::Crew).await;
    let base = format!("/people/{}", eve.account);
    assert_eq!(ana.get(&world, &base).await.status, 404);
    for (path, fields) in [
        (base.clone(), vec![("role", "office")]),
        (format!("{base}/end"), vec![]),
        (format!("{base}/password-link"), vec![]),
        (format!("{base}/tokens"), vec![("label", "mine")]),
    ] {
        assert_eq!(ana.submit(&world, &path, &fields).await.status, 404, "{path}");
    }
    assert!(is_signed_in(&world, &mut eve_browser).await);
    assert_eq!(eve.read("/me").await["role"], "crew");
}
