//! Signing in and out: cookies, ways back, guessing, and when a session ends.

use super::browser::{Browser, PASSWORD, is_signed_in, location, member, shown_once};
use crate::on_both;
use crate::world::World;
use axum::http::header;
use sha2::{Digest, Sha256};
use sowmark::hex;

on_both!(
    a_cookie_carries_the_session_and_its_secret_is_kept_nowhere,
    over_tls_the_cookie_is_bound_to_the_host,
    the_way_back_stays_on_this_site,
    an_unknown_address_is_answered_like_a_wrong_password,
    guessing_is_made_to_wait_and_then_may_go_on,
    a_session_ends_when_it_is_not_used,
    a_phone_stays_signed_in_for_a_season,
    no_answer_clears_what_waits_on_a_phone,
    signing_out_ends_the_session_for_good,
    signing_in_again_ends_the_session_before,
    a_changed_password_signs_out_everywhere_else,
    a_lost_password_is_set_by_a_link_that_works_once,
);

async fn a_cookie_carries_the_session_and_its_secret_is_kept_nowhere(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "ana@example.org", "office").await;
    let mut ana = Browser::default();
    let answer = ana.sign_in(&world, " ANA@example.org ", PASSWORD).await;
    assert_eq!((answer.status.as_u16(), location(&answer)), (303, "/"));
    let cookie = answer.headers[header::SET_COOKIE].to_str().unwrap();
    let parts: Vec<&str> = cookie.split("; ").collect();
    for flag in ["HttpOnly", "SameSite=Lax", "Path=/"] {
        assert!(parts.contains(&flag), "{cookie}");
    }
    assert!(!parts.contains(&"Secure") && !cookie.contains("Domain"), "{cookie}");

    let token = shown_once(&ana.submit(&world, "/account/tokens", &[("label", "export")]).await.text);
    let secret = parts[0].split_once('=').unwrap().1.to_owned();
    let mut conn = world.app.db.read().await.unwrap();
    let mut kept: Vec<Vec<u8>> = Vec::new();
    for query in ["select token_hash from session", "select token_hash from bearer_token"] {
        let rows: Vec<(Vec<u8>,)> = conn.cx().fetch_all(query, &[]).await.unwrap();
        kept.extend(rows.into_iter().map(|(hash,)| hash));
    }
    let digits = token.strip_prefix("sowmark_").unwrap();
    for secret in [secret.as_str(), digits] {
        let raw = hex::read(secret).unwrap();
        let hash: [u8; 32] = Sha256::digest(raw).into();
        assert!(kept.contains(&hash.to_vec()), "its hash is kept");
        assert!(!kept.contains(&raw.to_vec()));
        let bytes = world.bytes_kept();
        for form in [raw.as_slice(), secret.as_bytes(), PASSWORD.as_bytes()] {
            assert!(!bytes.windows(form.len()).any(|window| window == form), "a secret lies in the database");
        }
    }
    let (hash,): (String,) = conn.cx().fetch_one("select password_hash from account", &[]).await.unwrap();
    assert!(hash.starts_with("$argon2id$v=19$m=65536,t=3,p=1$"), "{hash}");
    let changes: Vec<(String,)> = conn.cx().fetch_all("select change from audit", &[]).await.unwrap();
    assert!(!changes.iter().any(|(change,)| change.contains(digits)), "the trail holds no secret");
}

async fn over_tls_the_cookie_is_bound_to_the_host(world: World) {
    let world = world.reached_at("https://seed.example");
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "ana@example.org", "office").await;
    let mut ana = Browser::default();
    let answer = ana.sign_in(&world, "ana@example.org", PASSWORD).await;
    let cookie = answer.headers[header::SET_COOKIE].to_str().unwrap();
    assert!(
        cookie.starts_with("__Host-sowmark=") && cookie.contains("; Secure") && cookie.contains("; Path=/;"),
        "{cookie}"
    );
    assert!(is_signed_in(&world, &mut ana).await);
    assert!(answer.headers[header::STRICT_TRANSPORT_SECURITY].to_str().unwrap().starts_with("max-age=31536000"));
    let plain = ana.session.as_ref().unwrap().replace("__Host-", "");
    assert!(
        !is_signed_in(&world, &mut Browser { session: Some(plain), ..Browser::default() }).await,
        "another name is another cookie"
    );
}

async fn the_way_back_stays_on_this_site(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "ana@example.org", "office").await;
    let sent_away = Browser::default().get(&world, "/people?x=1&y=%2F").await;
    assert_eq!(location(&sent_away), "/sign-in?back=%2Fpeople%3Fx%3D1%26y%3D%252F");
    let page = Browser::default().get(&world, location(&sent_away)).await;
    assert!(page.text.contains("name=\"back\""), "{}", page.text);
    for (back, to) in [
        ("/people?x=1&y=%2F", "/people?x=1&y=%2F"),
        ("//evil.example", "/"),
        ("/\\evil.example", "/"),
        ("/\t/evil.example", "/"),
        ("https://evil.example", "/"),
        ("evil", "/"),
        ("", "/"),
    ] {
        let mut ana = Browser::default();
        let fields = [("email", "ana@example.org"), ("password", PASSWORD), ("back", back)];
        let answer = ana.submit(&world, "/sign-in", &fields).await;
        assert_eq!((answer.status.as_u16(), location(&answer)), (303, to), "{back:?}");
        let again = ana.get(&world, "/sign-in").await;
        assert_eq!((again.status.as_u16(), location(&again)), (303, "/"), "signed in already");
    }
    let mut browser = Browser::default();
    for (theme, kept) in [("light", "theme=light;"), ("dark", "theme=dark;"), ("", "theme=;"), ("<b>", "theme=;")] {
        let answer = browser.submit(&world, "/theme", &[("theme", theme)]).await;
        let cookie = answer.headers[header::SET_COOKIE].to_str().unwrap();
        assert!(cookie.starts_with(kept) && cookie.contains("Max-Age=31536000"), "{cookie}");
        assert_eq!(location(&answer), "/", "without a referring page");
    }
}

async fn an_unknown_address_is_answered_like_a_wrong_password(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "ana@example.org", "office").await;
    let gone = member(&world, organization, "gone@example.org", "crew").await;
    let grant = sowmark::access::host(organization);
    sowmark::people::act::end_member(&world.app.db, &world.app.clock, &grant, gone).await.unwrap();
    let tries =
        [("ana@example.org", "not her password"), ("bob@example.org", PASSWORD), ("gone@example.org", PASSWORD)];
    for round in 0..6 {
        let mut answers = Vec::new();
        for (email, password) in tries {
            let answer = Browser::default().sign_in(&world, email, password).await;
            assert!(!answer.headers.contains_key(header::SET_COOKIE));
            let wait = answer.headers.get(header::RETRY_AFTER).cloned();
            answers.push((answer.status, wait, answer.text.replace(email, "WHO")));
        }
        assert_eq!(answers[0], answers[1], "round {round}");
        assert_eq!(answers[0], answers[2], "round {round}");
    }
}

async fn guessing_is_made_to_wait_and_then_may_go_on(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "ana@example.org", "office").await;
    member(&world, organization, "kim@example.org", "crew").await;
    let mut browser = Browser::default();
    for _ in 0..5 {
        assert_eq!(browser.sign_in(&world, "ana@example.org", "wrong").await.status, 422);
    }
    let told = browser.sign_in(&world, "ana@example.org", PASSWORD).await;
    assert_eq!(told.status, 429, "even the right one waits");
    assert_eq!(told.headers[header::RETRY_AFTER], "1");
    assert!(told.text.contains("Wait 1 seconds") || told.text.contains("Wait 1 second"), "{}", told.text);
    assert!(told.headers[header::CONTENT_TYPE].to_str().unwrap().starts_with("text/html"));
    assert_eq!(Browser::default().sign_in(&world, "kim@example.org", PASSWORD).await.status, 303, "others do not wait");

    world.set_time("2027-04-01T06:00:01Z");
    assert_eq!(browser.sign_in(&world, "ana@example.org", "wrong again").await.status, 422);
    assert_eq!(
        browser.sign_in(&world, "ana@example.org", PASSWORD).await.headers[header::RETRY_AFTER],
        "2",
        "it doubles"
    );
    world.set_time("2027-04-01T06:00:03Z");
    assert_eq!(browser.sign_in(&world, "ana@example.org", PASSWORD).await.status, 303, "after the wait it works");
    assert_eq!(
        Browser::default().sign_in(&world, "ana@example.org", "wrong").await.status,
        422,
        "counting begins anew"
    );
}

async fn a_session_ends_when_it_is_not_used(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "ana@example.org", "office").await;
    member(&world, organization, "kim@example.org", "crew").await;
    let (mut ana, mut kim) = (Browser::default(), Browser::default());
    ana.sign_in(&world, "ana@example.org", PASSWORD).await;
    kim.sign_in(&world, "kim@example.org", PASSWORD).await;
    world.set_time("2027-04-01T17:59:00Z");
    assert!(is_signed_in(&world, &mut ana).await, "less than twelve hours");
    world.set_time("2027-04-02T05:58:00Z");
    assert!(is_signed_in(&world, &mut ana).await, "it was used meanwhile");
    world.set_time("2027-04-02T18:00:00Z");
    assert!(!is_signed_in(&world, &mut ana).await, "twelve idle hours");
    world.set_time("2027-04-30T06:00:00Z");
    assert!(is_signed_in(&world, &mut kim).await, "a phone in the field stays signed in for thirty days");
    world.set_time("2027-05-30T06:00:01Z");
    assert!(!is_signed_in(&world, &mut kim).await);

    // Used every few hours, an office session still ends after fourteen days in all.
    ana.sign_in(&world, "ana@example.org", PASSWORD).await;
    for step in 1..=33_i64 {
        let now: jiff::Timestamp = "2027-05-30T06:00:01Z".parse().unwrap();
        world.set_time(&(now + jiff::SignedDuration::from_hours(10 * step)).to_string());
        assert!(is_signed_in(&world, &mut ana).await, "step {step}");
    }
    world.set_time("2027-06-13T06:00:02Z");
    assert!(!is_signed_in(&world, &mut ana).await);
}

async fn a_phone_stays_signed_in_for_a_season(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "kim@example.org", "crew").await;
    let mut kim = Browser::default();
    let answer = kim.sign_in(&world, "kim@example.org", PASSWORD).await;
    let cookie = answer.headers[header::SET_COOKIE].to_str().unwrap();
    let age = cookie.split("; ").find_map(|part| part.strip_prefix("Max-Age=")).unwrap();
    assert!(
        age.parse::<u64>().unwrap() >= 365 * 24 * 3600,
        "the browser keeps it as long as the server does: {cookie}"
    );
    let begin: jiff::Timestamp = crate::world::NOW.parse().unwrap();
    // Looked at every twenty-nine days, for half a year.
    for step in 1..=6_i64 {
        world.set_time(&(begin + jiff::SignedDuration::from_hours(24 * 29 * step)).to_string());
        assert!(is_signed_in(&world, &mut kim).await, "step {step}");
    }
    let idle = begin + jiff::SignedDuration::from_hours(24 * (29 * 6 + 30)) + jiff::SignedDuration::from_secs(1);
    world.set_time(&idle.to_string());
    assert!(!is_signed_in(&world, &mut kim).await, "thirty days without use");
}

/// Records that wait on a phone lie in its storage: an answer that clears it would lose them.
async fn no_answer_clears_what_waits_on_a_phone(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "kim@example.org", "crew").await;
    let mut kim = Browser::default();
    let mut answers = vec![kim.sign_in(&world, "kim@example.org", PASSWORD).await];
    answers.push(kim.get(&world, "/sign-in").await);
    answers.push(kim.submit(&world, "/sign-out", &[]).await);
    answers.push(kim.submit(&world, "/sign-out", &[]).await);
    for path in ["/lots", "/seeders", "/api/v1/me", "/api/v1/readiness"] {
        answers.push(kim.get(&world, path).await);
    }
    answers.push(kim.submit(&world, "/account/tokens", &[]).await);
    answers.push(kim.submit(&world, "/api/v1/sync", &[]).await);
    assert!(answers.iter().filter(|answer| answer.status == 401).count() >= 3, "the session is over");
    for answer in answers {
        let cleared = answer.headers.get("clear-site-data").map_or("", |value| value.to_str().unwrap());
        assert!(["", "\"cache\""].contains(&cleared), "{cleared}");
        assert_eq!(cleared.is_empty(), location(&answer) != "/sign-in", "only signing out clears, and only the cache");
    }
}

async fn signing_out_ends_the_session_for_good(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "ana@example.org", "office").await;
    let mut ana = Browser::default();
    ana.sign_in(&world, "ana@example.org", PASSWORD).await;
    let mut copy = ana.clone();
    let answer = ana.submit(&world, "/sign-out", &[]).await;
    assert_eq!((answer.status.as_u16(), location(&answer)), (303, "/sign-in"));
    assert_eq!(answer.headers["clear-site-data"], "\"cache\"");
    assert!(answer.headers[header::SET_COOKIE].to_str().unwrap().contains("Max-Age=0"));
    assert_eq!(ana.session, None);
    assert!(!is_signed_in(&world, &mut copy).await, "the database has forgotten it too");
}

async fn signing_in_again_ends_the_session_before(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "ana@example.org", "office").await;
    let mut ana = Browser::default();
    ana.sign_in(&world, "ana@example.org", PASSWORD).await;
    let mut before = ana.clone();
    ana.sign_in(&world, "ana@example.org", PASSWORD).await;
    assert_ne!(ana.session, before.session);
    assert!(!is_signed_in(&world, &mut before).await);
    assert!(is_signed_in(&world, &mut ana).await);
    // A cookie that somebody planted is not taken over.
    let mut planted = Browser { session: Some(format!("sowmark={}", "ab".repeat(32))), ..Browser::default() };
    planted.sign_in(&world, "ana@example.org", PASSWORD).await;
    assert_ne!(planted.session, Some(format!("sowmark={}", "ab".repeat(32))));
}

async fn a_changed_password_signs_out_everywhere_else(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "ana@example.org", "office").await;
    let (mut desk, mut phone) = (Browser::default(), Browser::default());
    desk.sign_in(&world, "ana@example.org", PASSWORD).await;
    phone.sign_in(&world, "ana@example.org", PASSWORD).await;
    let page = desk.get(&world, "/account").await.text;
    assert_eq!(page.matches("A browser on Linux").count(), 4, "two devices, each with a button that names it");
    assert!(page.contains("this one"));

    let new = "four slow tractors";
    for (old, new, at) in [("wrong one", new, "old_password-error"), (PASSWORD, "short", "password-error")] {
        let back = desk.submit(&world, "/account/password", &[("old_password", old), ("password", new)]).await;
        assert_eq!(back.status, 422);
        assert!(back.text.contains(at), "{}", back.text);
        assert!(is_signed_in(&world, &mut phone).await);
    }
    let done = desk.submit(&world, "/account/password", &[("old_password", PASSWORD), ("password", new)]).await;
    assert_eq!(done.status, 303);
    assert!(is_signed_in(&world, &mut desk).await);
    assert!(!is_signed_in(&world, &mut phone).await);
    assert_eq!(phone.sign_in(&world, "ana@example.org", PASSWORD).await.status, 422);
    assert_eq!(phone.sign_in(&world, "ana@example.org", new).await.status, 303);

    assert_eq!(desk.submit(&world, "/account/sessions/end-others", &[]).await.status, 303);
    assert!(is_signed_in(&world, &mut desk).await);
    assert!(!is_signed_in(&world, &mut phone).await);
}

async fn a_lost_password_is_set_by_a_link_that_works_once(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "ana@example.org", "office").await;
    let kim_id = member(&world, organization, "kim@example.org", "crew").await;
    let (mut ana, mut kim) = (Browser::default(), Browser::default());
    ana.sign_in(&world, "ana@example.org", PASSWORD).await;
    kim.sign_in(&world, "kim@example.org", PASSWORD).await;
    let make = format!("/people/{kim_id}/password-link");
    let spare = shown_once(&ana.submit(&world, &make, &[]).await.text);
    let link = shown_once(&ana.submit(&world, &make, &[]).await.text);
    let path = link.strip_prefix("http://sowmark.test").unwrap();
    assert!(is_signed_in(&world, &mut kim).await, "nothing changes until the link is used");

    let mut new = Browser::default();
    assert_eq!(new.get(&world, path).await.status, 200);
    assert_eq!(new.submit(&world, path, &[("password", "short")]).await.status, 422);
    let (first, second) = ([("password", "one slow tractor")], [("password", "two slow tractor")]);
    let mut other = Browser::default();
    let (one, two) = tokio::join!(new.submit(&world, path, &first), other.submit(&world, path, &second));
    let mut statuses = [one.status.as_u16(), two.status.as_u16()];
    statuses.sort_unstable();
    assert_eq!(statuses, [303, 404], "one of two at once");
    assert_eq!(location(if one.status == 303 { &one } else { &two }), "/sign-in?done=password");
    assert_eq!((new.session.is_none(), other.session.is_none()), (true, true), "not signed in by it");
    assert!(!is_signed_in(&world, &mut kim).await);
    assert_eq!(new.get(&world, path).await.status, 404);
    let spare = spare.strip_prefix("http://sowmark.test").unwrap();
    assert_eq!(new.get(&world, spare).await.status, 404, "its other links end with it");
    let password = if one.status == 303 { "one slow tractor" } else { "two slow tractor" };
    assert_eq!(kim.sign_in(&world, "kim@example.org", password).await.status, 303);
}
