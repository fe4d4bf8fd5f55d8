//! Labels for the machines' doors: what a phone's camera reads from them, and where it comes to.

use super::yard::{Yard, drill};
use crate::on_both;
use crate::people::browser::{Browser, PASSWORD, location, member};
use crate::world::World;
use serde_json::json;

on_both!(
    the_code_opens_the_seeders_page,
    a_public_address_is_the_one_in_the_code,
    whoever_scans_signs_in_and_comes_back,
    the_office_chooses_what_to_print,
    the_short_address_leads_to_the_seeder,
);

/// The drawings on a page that are QR codes.
fn codes(page: &str) -> Vec<&str> {
    let parts = page.split("<svg class=\"qr\"").skip(1);
    parts.map(|part| part.split("</svg>").next().unwrap()).collect()
}

fn between<'t>(text: &'t str, before: &str, after: &str) -> &'t str {
    text.split_once(before).unwrap_or_else(|| panic!("no {before}")).1.split_once(after).unwrap().0
}

/// What an independent reader sees in a drawing: its path is painted, dark on light, and the picture is read.
fn read(svg: &str) -> String {
    const DOTS: usize = 6;
    let side: usize = between(svg, "viewBox=\"0 0 ", " ").parse().unwrap();
    let mut dark = vec![false; side * side];
    for bar in between(svg, "<path d=\"M", "\" fill=\"#000\"/>").split('M') {
        let (x, rest) = bar.split_once(' ').unwrap();
        let (y, rest) = rest.split_once('h').unwrap();
        let (length, rest) = rest.split_once("v1h-").unwrap();
        assert_eq!(rest, format!("{length}z"), "a bar is a closed rectangle");
        let [x, y, length] = [x, y, length].map(|number| number.parse::<usize>().unwrap());
        dark[y * side + x..][..length].fill(true);
    }
    let is_quiet = |at: usize| at < 4 || at >= side - 4;
    for (at, dark) in dark.iter().enumerate() {
        assert!(!dark || !is_quiet(at % side) && !is_quiet(at / side), "four light modules around it");
    }
    assert!(side >= 8 + 25, "of 40 mm at least 30 are the code");
    let dot = |x: usize, y: usize| if dark[y / DOTS * side + x / DOTS] { 0 } else { 255 };
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(side * DOTS, side * DOTS, dot);
    let found = picture.detect_grids();
    assert_eq!(found.len(), 1, "one code in the drawing");
    found[0].decode().unwrap().1
}

async fn the_code_opens_the_seeders_page(world: World) {
    let yard = Yard::new(&world).await;
    let home = format!("/seeders/{}", yard.drill);
    for person in [&yard.ana, &yard.kim, &yard.mia] {
        for page in [home.clone(), format!("{home}/label")] {
            let answer = person.get(&format!("/page{page}")).await;
            assert_eq!(answer.status, 200, "{}", answer.text);
            let codes = codes(&answer.text);
            assert_eq!(codes.len(), 1, "{page}");
            assert_eq!(read(codes[0]), format!("http://sowmark.test{home}"));
            assert!(codes[0].contains("aria-label=\"QR code that opens the page of Drill 1\""), "{}", codes[0]);
        }
    }
    let label = yard.ana.get(&format!("/page{home}/label")).await.text;
    for text in ["Drill 1", "BD-104", "Open this machine&#39;s page", "sowmark.test<wbr>/s/"] {
        assert!(label.contains(text) || label.contains(&text.replace("&#39;", "'")), "{text}: {label}");
    }
    assert_eq!(yard.kim.get(&format!("/page/seeders/{}/label", yard.other)).await.status, 404, "not Kim's");
}

async fn a_public_address_is_the_one_in_the_code(world: World) {
    let world = world.reached_at("https://seed.example");
    let yard = Yard::new(&world).await;
    let page = yard.ana.get(&format!("/page{}", yard.at("label"))).await.text;
    assert_eq!(read(codes(&page)[0]), format!("https://seed.example/seeders/{}", yard.drill));
    assert!(page.contains(">seed.example<wbr>/s/") && !page.contains("a phone cannot reach"), "{page}");

    let world = world.reached_at("http://127.0.0.1:8080");
    let yard = Yard::new(&world).await;
    for page in [yard.at("label"), "/seeders/labels".to_owned()] {
        let page = yard.ana.get(&format!("/page{page}")).await.text;
        assert!(page.contains("http://127.0.0.1:8080, which a phone cannot reach"), "{page}");
    }
}

async fn whoever_scans_signs_in_and_comes_back(world: World) {
    let ana = world.ana().await;
    let kim = member(&world, ana.organization, "kim@example.org", "crew").await;
    let seeder = ana.create("/seeders", drill("Drill 1")).await;
    ana.create("/crews", json!({ "name": "Yard", "members": [kim], "seeders": [seeder["id"]] })).await;
    let page = ana.get(&format!("/page/seeders/{}/label", seeder["id"].as_str().unwrap())).await.text;
    let scanned = read(codes(&page)[0]);
    let path = scanned.strip_prefix("http://sowmark.test").unwrap();

    let mut phone = Browser::default();
    let sent = phone.get(&world, path).await;
    assert_eq!(
        (sent.status.as_u16(), location(&sent)),
        (303, format!("/sign-in?back={}", path.replace('/', "%2F").replace('-', "%2D")).as_str())
    );
    let form = phone.get(&world, location(&sent)).await;
    let back = between(&form.text, "name=\"back\" value=\"", "\"").replace("&#x2F;", "/").replace("&#47;", "/");
    assert_eq!(back, path);
    let fields = [("email", "kim@example.org"), ("password", PASSWORD), ("back", back.as_str())];
    assert_eq!(location(&phone.submit(&world, "/sign-in", &fields).await), path);
    let opened = phone.get(&world, path).await;
    assert_eq!(opened.status, 200);
    assert!(opened.text.contains("<h1>Drill 1</h1>"), "{}", opened.text);
}

async fn the_office_chooses_what_to_print(world: World) {
    let yard = Yard::new(&world).await;
    let page = |query: String| {
        let ana = yard.ana.clone();
        async move {
            let answer = ana.get(&format!("/page/seeders/labels{query}")).await;
            assert_eq!(answer.status, 200, "{}", answer.text);
            answer.text
        }
    };
    let addresses = |page: &str| codes(page).into_iter().map(read).collect::<Vec<_>>();
    let address = |seeder: &str| format!("http://sowmark.test/seeders/{seeder}");
    let all = page(String::new()).await;
    assert_eq!(addresses(&all), [address(&yard.drill), address(&yard.other)], "all, by name");
    assert!(all.contains("class=\"labels a4 lines\""), "{all}");
    let one = page(format!("?paper=letter&seeder={}", yard.other)).await;
    assert_eq!(addresses(&one), [address(&yard.other)]);
    assert!(one.contains("class=\"labels letter\""), "{one}");
    assert_eq!(one.matches(" checked").count(), 1, "the form keeps what was ticked");
    let none = page("?paper=a4&lines=yes&seeder=nobody".to_owned()).await;
    assert!(none.contains("Tick at least one machine.") && codes(&none).is_empty(), "{none}");

    for number in 3..=9 {
        yard.ana.create("/seeders", drill(&format!("Drill {number}"))).await;
    }
    let nine = page(String::new()).await;
    assert_eq!((codes(&nine).len(), nine.matches("<section class=\"labels").count()), (9, 2), "eight on a sheet of A4");
    let ids = yard.ana.read("/seeders?limit=50").await["items"].as_array().unwrap().clone();
    let ticked: Vec<String> = ids.iter().map(|seeder| format!("&seeder={}", seeder["id"].as_str().unwrap())).collect();
    let letter = page(format!("?paper=letter{}", ticked.concat())).await;
    assert_eq!((codes(&letter).len(), letter.matches("<section class=\"labels").count()), (9, 1));
    assert_eq!(yard.kim.get("/page/seeders/labels").await.status, 403);
}

async fn the_short_address_leads_to_the_seeder(world: World) {
    let ana = world.ana().await;
    let seeder = |id: &str| {
        let mut seeder = drill(&format!("Drill {id}"));
        seeder["id"] = json!(id);
        seeder
    };
    let (first, twin, single) = (
        "0196d2a0-0000-7000-8000-0000b0a7ba01",
        "0196d2a0-0001-7000-8000-0001b0a7ba01",
        "0196d2a0-0002-7000-8000-0000b0a7ba02",
    );
    for id in [first, twin, single] {
        ana.create("/seeders", seeder(id)).await;
    }
    let leads = |typed: &'static str| {
        let ana = ana.clone();
        async move {
            let answer = ana.get(&format!("/page/s/{typed}")).await;
            (answer.status.as_u16(), location(&answer).to_owned())
        }
    };
    let label = ana.get(&format!("/page/seeders/{single}/label")).await.text;
    assert!(label.contains(">sowmark.test<wbr>/s/b0a7ba02<"), "{label}");
    assert_eq!(leads("b0a7ba02").await, (303, format!("/seeders/{single}")));
    assert_eq!(leads("B0A7BA02").await, (303, format!("/seeders/{single}")), "as a phone's keyboard begins a word");
    assert_eq!(leads("b0a7ba01").await, (303, "/seeders".to_owned()), "two of them: the person chooses");
    assert_eq!(leads("0001b0a7ba01").await, (303, format!("/seeders/{twin}")), "more digits tell them apart");
    for nothing in ["a02", "deadbeef", "%20"] {
        assert_eq!(leads(nothing).await.0, 404, "{nothing}");
    }
    let stranger = world.ana().await;
    assert_eq!(stranger.get("/page/s/b0a7ba02").await.status, 404, "another organization's");
}
