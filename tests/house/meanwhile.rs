//! Two people who change the same thing at once: neither undoes the other unseen. Each has the form open before the other
//! saves, as browsers have.

use crate::on_both;
use crate::people::browser::Browser;
use crate::spanish;
use crate::world::{Answer, Person, World};
use serde_json::{Value, json};
use sowmark::access::Role;

on_both!(
    what_one_did_not_touch_keeps_what_the_other_made_of_it,
    what_both_changed_is_told_and_saved_again_goes_through,
    a_clash_is_told_as_its_reader_reads,
    the_same_by_both_is_no_clash,
    a_form_left_as_it_was_shown_stores_nothing,
    another_fault_loses_nothing_of_either,
    a_form_without_what_it_showed_is_taken_as_it_is,
    tolerances_are_changed_side_by_side,
    boxes_of_a_crew_are_ticked_each_for_itself,
    a_member_is_changed_by_two,
    a_seeder_is_changed_by_two,
    a_record_says_what_stands_or_what_its_author_saw,
    own_choices_are_changed_in_two_tabs,
    of_many_at_one_moment_one_is_stored,
);

/// A form that somebody has open.
#[derive(Clone)]
struct Tab {
    path: String,
    fields: Vec<(String, String)>,
}

impl Tab {
    /// The form of a page that goes to this path.
    fn of(page: &Answer, path: &str) -> Self {
        let begin = page.text.find(&format!("action=\"{path}\"")).unwrap_or_else(|| panic!("no form goes to {path}"));
        let form = page.text[begin..].split("</form>").next().unwrap();
        let mut fields: Vec<(String, String)> = Vec::new();
        let (mut list, mut is_chosen) = (String::new(), false);
        for tag in form.split('<').skip(1) {
            let (head, text) = tag.split_once('>').unwrap();
            let at = |name: &str| attribute(head, name).unwrap_or_default();
            match head.split([' ', '/']).find(|part| !part.is_empty()).unwrap_or_default() {
                "input" if at("type") != "checkbox" || head.ends_with(" checked") || head.contains(" checked ") => {
                    fields.push((at("name"), at("value")));
                }
                "textarea" => fields.push((at("name"), plain(text))),
                "select" => (list, is_chosen) = (at("name"), false),
                "option" if head.contains(" selected") => {
                    fields.retain(|(name, _)| *name != list);
                    fields.push((list.clone(), at("value")));
                    is_chosen = true;
                }
                // A browser sends the first of a list when none is chosen.
                "option" if !is_chosen && fields.iter().all(|(name, _)| *name != list) && !list.is_empty() => {
                    fields.push((list.clone(), at("value")));
                }
                _ => {}
            }
        }
        Self { path: path.to_owned(), fields }
    }

    fn says(&self, name: &str) -> &str {
        let found = self.fields.iter().find(|(known, _)| known == name);
        found.map_or("", |(_, value)| value.as_str())
    }

    /// With something else typed; empty for nothing.
    fn typing(mut self, typed: &[(&str, &str)]) -> Self {
        for (name, value) in typed {
            self.fields.retain(|(known, _)| known != name);
            self.fields.push(((*name).to_owned(), (*value).to_owned()));
        }
        self
    }

    /// With a box ticked, or not.
    fn ticking(mut self, name: &str, value: &str, is_ticked: bool) -> Self {
        self.fields.retain(|pair| *pair != (name.to_owned(), value.to_owned()));
        if is_ticked {
            self.fields.push((name.to_owned(), value.to_owned()));
        }
        self
    }

    fn without_shown(mut self) -> Self {
        self.fields.retain(|(name, _)| name != "_shown");
        self
    }
}

fn attribute(head: &str, name: &str) -> Option<String> {
    let (_, rest) = head.split_once(&format!(" {name}=\""))?;
    rest.split_once('"').map(|(value, _)| plain(value))
}

fn plain(text: &str) -> String {
    text.replace("&#34;", "\"").replace("&#39;", "'").replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
}

/// Two of the office of one farm, each at a browser.
struct Office {
    world: World,
    ana: Person,
    anas: Browser,
    beas: Browser,
}

impl Office {
    async fn of(world: World) -> Self {
        let ana = world.ana().await;
        let bea = world.member(ana.organization, "bea@example.org", "office").await;
        let (anas, beas) =
            (Browser::of(&world, &ana, Role::Office).await, Browser::of(&world, &bea, Role::Office).await);
        Self { world, ana, anas, beas }
    }

    async fn add(&self, list: &str, entry: Value) -> String {
        self.ana.create(list, entry).await["id"].as_str().unwrap().to_owned()
    }

    async fn entry(&self, list: &str, id: &str) -> Value {
        let list = self.ana.read(list).await;
        list["items"].as_array().unwrap().iter().find(|item| item["id"] == id).unwrap().clone()
    }

    async fn lines(&self) -> usize {
        self.ana.read("/audit?limit=500").await["items"].as_array().unwrap().len()
    }

    /// The same form, open before Ana and before Bea.
    async fn both(&mut self, page: &str, path: &str) -> (Tab, Tab) {
        let anas = Tab::of(&self.anas.get(&self.world, page).await, path);
        let beas = Tab::of(&self.beas.get(&self.world, page).await, path);
        (anas, beas)
    }

    async fn ana_saves(&mut self, tab: Tab) {
        saved(&send(&mut self.anas, &self.world, &tab).await);
    }

    async fn bea_saves(&mut self, tab: Tab) {
        saved(&send(&mut self.beas, &self.world, &tab).await);
    }

    /// Ana is told of these, each field with its sentence; what comes back is her form.
    async fn ana_is_told(&mut self, tab: Tab, all: &[(&str, &str)]) -> Tab {
        let answer = send(&mut self.anas, &self.world, &tab).await;
        assert_eq!(answer.status, 422, "{}", answer.text);
        for (name, sentence) in all {
            let (_, beside) = answer.text.split_once(&format!("id=\"{name}-error\"")).expect(name);
            let beside = beside.split("</p>").next().unwrap();
            assert!(beside.contains(sentence), "{sentence} is missing: {beside}");
        }
        assert_eq!(answer.text.matches("-error\"><span").count(), all.len(), "and of no other: {}", answer.text);
        Tab::of(&answer, &tab.path)
    }
}

async fn send(browser: &mut Browser, world: &World, tab: &Tab) -> Answer {
    let fields: Vec<(&str, &str)> = tab.fields.iter().map(|(name, value)| (name.as_str(), value.as_str())).collect();
    browser.submit(world, &tab.path, &fields).await
}

#[track_caller]
fn saved(answer: &Answer) {
    assert_eq!(answer.status, 303, "{}", answer.text);
}

fn q(value: &str, unit: &str) -> Value {
    json!({ "value": value, "unit": unit })
}

/// A kind of entry, what one types and what the other does, and what of the entry is so then.
struct Kept {
    list: &'static str,
    added: Value,
    one: &'static [(&'static str, &'static str)],
    other: &'static [(&'static str, &'static str)],
    is: Value,
}

fn all_kept() -> Vec<Kept> {
    vec![
        Kept {
            list: "/fields",
            added: json!({ "name": "Long acre", "area": q("9.0", "ha") }),
            one: &[("name", "Far acre")],
            other: &[("area/value", "22.5"), ("area/unit", "ac")],
            is: json!({ "name": "Far acre", "area": q("22.5", "ac") }),
        },
        Kept {
            list: "/rollers",
            added: json!({ "label": "fine", "kind": "fluted", "displacement_per_rev": q("82.0", "cm3") }),
            one: &[("kind", "studded")],
            other: &[("displacement_per_rev/value", "")],
            is: json!({ "label": "fine", "kind": "studded", "displacement_per_rev": null }),
        },
        Kept {
            list: "/scales",
            added: json!({ "name": "Yard scale", "readability": q("10", "g"), "capacity": q("50", "kg") }),
            one: &[("readability/value", "20")],
            other: &[("capacity/value", "60"), ("name", "Bench scale")],
            is: json!({ "name": "Bench scale", "readability": q("20", "g"), "capacity": q("60", "kg") }),
        },
        Kept {
            list: "/seasons",
            added: json!({ "name": "Spring", "starts_on": "2027-02-15", "crops": ["maize", "rye"] }),
            one: &[("starts_on", "2027-02-20")],
            other: &[("crops", "maize")],
            is: json!({ "name": "Spring", "starts_on": "2027-02-20", "crops": ["maize"] }),
        },
        Kept {
            list: "/lots",
            added: json!({ "lot_number": "W-16", "crop": "wheat", "variety": "Elmora",
                "treatment": { "product": "Tefin", "caution": "Gloves." } }),
            one: &[("label/hermetic", "true"), ("treatment/caution", "Gloves\r\nand mask.")],
            other: &[("variety", ""), ("treatment/product", "Tefin 2")],
            is: json!({ "lot_number": "W-16", "crop": "wheat", "variety": null,
                "treatment": { "product": "Tefin 2", "caution": "Gloves\r\nand mask." } }),
        },
    ]
}

async fn what_one_did_not_touch_keeps_what_the_other_made_of_it(world: World) {
    let mut office = Office::of(world).await;
    for kept in all_kept() {
        for [first, second] in [[kept.one, kept.other], [kept.other, kept.one]] {
            let id = office.add(kept.list, kept.added.clone()).await;
            let path = format!("{}/{id}/change", kept.list);
            let (anas, beas) = office.both(&path, &path).await;
            let before = office.lines().await;
            office.bea_saves(beas.typing(first)).await;
            office.ana_saves(anas.typing(second)).await;
            let stands = office.entry(kept.list, &id).await;
            for (name, value) in kept.is.as_object().unwrap() {
                assert_eq!(&stands[name], value, "{path}: {name} after {first:?} and {second:?}");
            }
            if kept.list == "/lots" {
                assert_eq!(stands["label"]["hermetic"], json!(true));
            }
            assert_eq!(office.lines().await, before + 2, "{path}");
        }
    }
}

async fn what_both_changed_is_told_and_saved_again_goes_through(world: World) {
    let mut office = Office::of(world).await;
    let client = office.add("/clients", json!({ "name": "Rainfeld" })).await;
    let id = office.add("/fields", json!({ "name": "Long acre", "area": q("9.0", "ha") })).await;
    let path = format!("/fields/{id}/change");
    let (anas, beas) = office.both(&path, &path).await;
    office.bea_saves(beas.typing(&[("area/value", "22.5"), ("area/unit", "ac"), ("client_id", &client)])).await;
    let stood = office.entry("/fields", &id).await;
    let before = office.lines().await;

    let typed = anas.typing(&[("name", "Far acre"), ("area/value", "10.0")]);
    let told = "Meanwhile bea changed this to “22.5 ac”. Save again to put yours in its place.";
    let again = office.ana_is_told(typed, &[("area/value", told)]).await;
    assert_eq!((office.entry("/fields", &id).await, office.lines().await), (stood, before), "nothing was stored");
    let says = ["name", "area/value", "area/unit", "client_id"].map(|name| again.says(name));
    assert_eq!(says, ["Far acre", "10.0", "ha", client.as_str()], "what was typed, and elsewhere what stands");

    office.ana_saves(again).await;
    let stands = office.entry("/fields", &id).await;
    assert_eq!(
        [&stands["name"], &stands["area"], &stands["client_id"]],
        [&json!("Far acre"), &q("10.0", "ha"), &json!(client)]
    );
    assert_eq!(office.lines().await, before + 1);

    // A list, and one that both changed while it came back to one of them.
    let other = office.add("/clients", json!({ "name": "Halm & Sons" })).await;
    let (anas, beas) = office.both(&path, &path).await;
    office.bea_saves(beas.clone().typing(&[("client_id", &other)])).await;
    let told = "Meanwhile bea changed this to “Halm &#38; Sons”. Save again to put yours in its place.";
    let again = office.ana_is_told(anas.typing(&[("client_id", "")]), &[("client_id", told)]).await;
    let beas = Tab::of(&office.beas.get(&office.world, &path).await, &path);
    office.bea_saves(beas.typing(&[("client_id", &client)])).await;
    let told = "Meanwhile bea changed this to “Rainfeld”.";
    let again = office.ana_is_told(again, &[("client_id", told)]).await;
    assert_eq!(again.says("client_id"), "");
    office.ana_saves(again).await;
    assert_eq!(office.entry("/fields", &id).await["client_id"], Value::Null);
}

async fn a_clash_is_told_as_its_reader_reads(world: World) {
    let mut office = Office::of(world).await;
    let lot = json!({ "lot_number": "W-16", "crop": "wheat", "variety": "Elmora" });
    let lot = office.add("/lots", lot).await;
    let scale =
        office.add("/scales", json!({ "name": "Yard", "readability": q("10", "g"), "capacity": q("50", "kg") })).await;
    let season = office.add("/seasons", json!({ "name": "Spring", "starts_on": "2027-02-15" })).await;
    office.anas = spanish::reader(&office.world, &office.ana, Role::Office).await;
    let again = "Guarde otra vez para poner lo suyo en su lugar.";

    for (path, mut bea, mut ana, sentence) in [
        (
            format!("/lots/{lot}/change"),
            vec![("variety", "")],
            vec![("variety", "Elmora 2")],
            format!("Entretanto bea dejó esto vacío. {again}"),
        ),
        (
            format!("/scales/{scale}/change"),
            vec![("capacity/value", "62.5"), ("capacity/unit", "kg")],
            vec![("capacity/value", "60,5"), ("capacity/unit", "kg")],
            format!("Entretanto bea cambió esto a «62,5 kg». {again}"),
        ),
        (
            format!("/seasons/{season}/change"),
            vec![("starts_on", "2027-02-20")],
            vec![("starts_on", "2027-02-25")],
            format!("Entretanto bea cambió esto a «20 de febrero de 2027». {again}"),
        ),
    ] {
        let (anas, beas) = office.both(&path, &path).await;
        let field = ana[0].0;
        office.bea_saves(beas.typing(&std::mem::take(&mut bea))).await;
        let told = office.ana_is_told(anas.typing(&ana), &[(field, &sentence)]).await;
        assert_eq!(told.says(field), std::mem::take(&mut ana)[0].1);
        office.ana_saves(told).await;
    }
    assert_eq!(office.entry("/scales", &scale).await["capacity"], q("60.5", "kg"));
    assert_eq!(office.entry("/lots", &lot).await["variety"], json!("Elmora 2"));
    assert_eq!(office.entry("/seasons", &season).await["starts_on"], json!("2027-02-25"));
}

async fn the_same_by_both_is_no_clash(world: World) {
    let mut office = Office::of(world).await;
    let id = office.add("/fields", json!({ "name": "Long acre", "area": q("9.0", "ha") })).await;
    office.anas = spanish::reader(&office.world, &office.ana, Role::Office).await;
    let path = format!("/fields/{id}/change");
    let (anas, beas) = office.both(&path, &path).await;
    assert_eq!((anas.says("area/value"), beas.says("area/value")), ("9,0", "9.0"));
    let before = office.lines().await;
    office.bea_saves(beas.typing(&[("name", "Far acre"), ("area/value", "9.4")])).await;
    office.ana_saves(anas.clone().typing(&[("name", "Far acre"), ("area/value", "9,4")])).await;
    office.ana_saves(anas.typing(&[("name", "Far acre"), ("area/value", "9.4")])).await;
    let stands = office.entry("/fields", &id).await;
    assert_eq!([&stands["name"], &stands["area"]], [&json!("Far acre"), &q("9.4", "ha")]);
    assert_eq!(office.lines().await, before + 1, "the second changed nothing more");
}

async fn a_form_left_as_it_was_shown_stores_nothing(world: World) {
    let mut office = Office::of(world).await;
    for kept in all_kept() {
        let id = office.add(kept.list, kept.added.clone()).await;
        let path = format!("{}/{id}/change", kept.list);
        let (anas, beas) = office.both(&path, &path).await;
        office.bea_saves(beas.typing(kept.one).typing(kept.other)).await;
        let (stood, before) = (office.entry(kept.list, &id).await, office.lines().await);
        office.ana_saves(anas).await;
        assert_eq!((office.entry(kept.list, &id).await, office.lines().await), (stood, before), "{path}");
    }
    let crew = office.add("/crews", json!({ "name": "yard", "members": [office.ana.account], "seeders": [] })).await;
    let kim = office.world.member(office.ana.organization, "kim@example.org", "crew").await.account.0;
    let pages = [format!("/crews/{crew}"), format!("/people/{kim}"), "/tolerances".to_owned()];
    let changes: [&[(&str, &str)]; 3] =
        [&[("name", "field")], &[("role", "agronomist")], &[("repeat_spread_limit_percent", "2.5")]];
    for (path, change) in pages.into_iter().zip(changes) {
        let (anas, beas) = office.both(&path, &path).await;
        assert!(!anas.says(change[0].0).is_empty(), "{path}");
        office.bea_saves(beas.typing(change)).await;
        let before = office.lines().await;
        office.ana_saves(anas).await;
        assert_eq!(office.lines().await, before, "{path}");
        let now = Tab::of(&office.anas.get(&office.world, &path).await, &path);
        assert_eq!(now.says(change[0].0), change[0].1, "{path}");
    }
}

async fn another_fault_loses_nothing_of_either(world: World) {
    let mut office = Office::of(world).await;
    let id = office.add("/fields", json!({ "name": "Long acre", "area": q("9.0", "ha") })).await;
    let path = format!("/fields/{id}/change");
    let (anas, beas) = office.both(&path, &path).await;
    office.bea_saves(beas.typing(&[("name", "Far acre")])).await;
    let again = office.ana_is_told(anas.typing(&[("area/value", "nine")]), &[("area/value", "nine")]).await;
    assert_eq!((again.says("name"), again.says("area/value")), ("Far acre", "nine"));
    office.ana_saves(again.typing(&[("area/value", "9.9")])).await;
    let stands = office.entry("/fields", &id).await;
    assert_eq!([&stands["name"], &stands["area"]], [&json!("Far acre"), &q("9.9", "ha")]);
}

async fn a_form_without_what_it_showed_is_taken_as_it_is(world: World) {
    let mut office = Office::of(world).await;
    let id = office.add("/fields", json!({ "name": "Long acre", "area": q("9.0", "ha") })).await;
    let path = format!("/fields/{id}/change");
    for shown in [None, Some("no list"), Some("{}"), Some("[[\"name\"]]")] {
        let (anas, beas) = office.both(&path, &path).await;
        office.bea_saves(beas.typing(&[("name", "Far acre")])).await;
        let old = match shown {
            None => anas.without_shown(),
            Some(shown) => anas.typing(&[("_shown", shown)]),
        };
        office.ana_saves(old.typing(&[("area/value", "9.9")])).await;
        let stands = office.entry("/fields", &id).await;
        assert_eq!([&stands["name"], &stands["area"]], [&json!("Long acre"), &q("9.9", "ha")]);
    }
}

async fn tolerances_are_changed_side_by_side(world: World) {
    let mut office = Office::of(world).await;
    office.anas = spanish::reader(&office.world, &office.ana, Role::Office).await;
    let path = "/tolerances";
    let (spread, recall, repeats) = ("repeat_spread_limit_percent", "recall_allowed", "minimum_repeats");
    let (anas, beas) = office.both(path, path).await;
    let was = anas.says(recall).to_owned();
    let before = office.lines().await;
    office.bea_saves(beas.clone().typing(&[(spread, "2.5"), (repeats, "4")])).await;
    office.ana_saves(anas.clone().ticking(recall, "true", was.is_empty())).await;
    let policy = office.ana.read("/policy").await["tolerances"].clone();
    assert_eq!([&policy[spread], &policy[repeats], &policy[recall]], [&json!(2.5), &json!(4), &json!(was.is_empty())]);
    // Both the same, the other back from an older tab: nothing more.
    office.bea_saves(beas.typing(&[(repeats, "4")]).ticking(recall, "true", was.is_empty())).await;
    assert_eq!(office.lines().await, before + 2);

    let told = "Entretanto bea cambió esto a «2,5». Guarde otra vez para poner lo suyo en su lugar.";
    let again = office.ana_is_told(anas.typing(&[(spread, "3,5")]), &[(spread, told)]).await;
    assert_eq!((again.says(spread), again.says(repeats), again.says(recall).is_empty()), ("3,5", "4", !was.is_empty()));
    assert_eq!(office.ana.read("/policy").await["tolerances"], policy);
    office.ana_saves(again).await;
    assert_eq!(office.ana.read("/policy").await["tolerances"][spread], json!(3.5));
    assert_eq!(office.lines().await, before + 3);
}

async fn boxes_of_a_crew_are_ticked_each_for_itself(world: World) {
    let mut office = Office::of(world).await;
    let [kim, ole, eva] = ["kim@example.org", "ole@example.org", "eva@example.org"];
    let mut ids = Vec::new();
    for email in [kim, ole, eva] {
        ids.push(office.world.member(office.ana.organization, email, "crew").await.account.0.to_string());
    }
    let [kim, ole, eva] = [&ids[0], &ids[1], &ids[2]];
    let crew = office.add("/crews", json!({ "name": "yard", "members": [kim, ole], "seeders": [] })).await;
    let path = format!("/crews/{crew}");
    let (anas, beas) = office.both(&path, &path).await;
    office.bea_saves(beas.typing(&[("name", "barn")]).ticking("members", eva, true)).await;
    office.ana_saves(anas.clone().ticking("members", kim, false)).await;
    let members = |crew: &Value| {
        let all = crew["members"].as_array().unwrap().iter();
        all.map(|member| member["name"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    let stands = office.ana.read(&path).await;
    assert_eq!((&stands["name"], members(&stands)), (&json!("barn"), vec!["eva".to_owned(), "ole".to_owned()]));

    // The name clashes; the boxes come back ticked as typed and as they stand.
    let before = office.lines().await;
    let typed = anas.typing(&[("name", "field")]).ticking("members", ole, false);
    let again = office.ana_is_told(typed, &[("name", "Meanwhile bea changed this to “barn”.")]).await;
    assert_eq!(office.lines().await, before);
    let ticked: Vec<&str> =
        again.fields.iter().filter(|(name, _)| name == "members").map(|(_, value)| value.as_str()).collect();
    assert_eq!((again.says("name"), ticked), ("field", vec![eva.as_str()]));
    office.ana_saves(again).await;
    let stands = office.ana.read(&path).await;
    assert_eq!((&stands["name"], members(&stands)), (&json!("field"), vec!["eva".to_owned()]));
}

async fn a_member_is_changed_by_two(world: World) {
    let mut office = Office::of(world).await;
    let [halm, rain] = ["Halm", "Rainfeld"].map(|name| json!({ "name": name }));
    let (halm, rain) = (office.add("/clients", halm).await, office.add("/clients", rain).await);
    let mia = office.world.member_for(office.ana.organization, "mia@example.org", "agronomist", &[&halm]).await;
    let path = format!("/people/{}", mia.account.0);
    let ticked = |tab: &Tab| tab.fields.iter().filter(|(name, _)| name == "clients").cloned().collect::<Vec<_>>();
    // One who changes the role alone keeps the other's clients.
    let (_, beas) = office.both(&path, &path).await;
    office.bea_saves(beas.ticking("clients", &rain, true)).await;
    let both = [("clients".to_owned(), halm.clone()), ("clients".to_owned(), rain.clone())];
    let (anas, beas) = office.both(&path, &path).await;
    assert_eq!(ticked(&anas).len(), both.len());
    // Each leaves another client. Put together that would be none, and who is limited to none sees all.
    office.bea_saves(beas.ticking("clients", &halm, false)).await;
    let before = office.lines().await;
    let narrowed = anas.clone().ticking("clients", &rain, false);
    let answer = send(&mut office.anas, &office.world, &narrowed).await;
    assert!(
        answer.status == 422 && answer.text.contains("Meanwhile another changed for which clients."),
        "{}",
        answer.text
    );
    assert_eq!(office.lines().await, before);
    let again = Tab::of(&answer, &path);
    assert_eq!(ticked(&again), [("clients".to_owned(), halm.clone())]);
    office.ana_saves(again).await;
    let now = Tab::of(&office.anas.get(&office.world, &path).await, &path);
    assert_eq!(ticked(&now), [("clients".to_owned(), halm.clone())]);
    office.ana_saves(now.ticking("clients", &halm, false).ticking("clients", &rain, true)).await;

    let (anas, beas) = office.both(&path, &path).await;
    office.bea_saves(beas.typing(&[("role", "crew")]).ticking("clients", &rain, false)).await;
    let before = office.lines().await;
    let typed = anas.typing(&[("role", "office")]).ticking("clients", &rain, false);
    let again = office.ana_is_told(typed, &[("role", "Meanwhile this was changed to “crew: ")]).await;
    assert_eq!((office.lines().await, again.says("role")), (before, "office"));
    office.ana_saves(again).await;
    assert_eq!(Tab::of(&office.anas.get(&office.world, &path).await, &path).says("role"), "office");
}

fn drill() -> Value {
    let unit = |label: &str| json!({ "label": label, "runs": 24, "drive": "hydraulic" });
    json!({
        "name": "Drill 1", "kind": "box_drill", "commissioned_on": "2019-07-05", "working_width": q("6", "m"),
        "row_spacing": q("12.5", "cm"), "metering_units": [unit("front"), unit("rear")]
    })
}

async fn a_seeder_is_changed_by_two(world: World) {
    let mut office = Office::of(world).await;
    let id = office.add("/seeders", drill()).await;
    let path = format!("/seeders/{id}/change");
    let (front, rear) = ("metering_units/0/keyed_in/mass_unit", "metering_units/1/keyed_in/mass_unit");
    let (anas, beas) = office.both(&path, &path).await;
    office.bea_saves(beas.typing(&[("name", "Drill 9"), (front, "g")])).await;
    office.ana_saves(anas.clone().typing(&[("serial_number", "S-1"), (rear, "kg")])).await;
    let stands = office.ana.read(&format!("/seeders/{id}")).await;
    let mass = |unit: usize| stands["metering_units"][unit]["keyed_in"]["mass_unit"].clone();
    assert_eq!(
        [stands["name"].clone(), stands["serial_number"].clone(), mass(0), mass(1)],
        [json!("Drill 9"), json!("S-1"), json!("g"), json!("kg")]
    );
    let before = office.lines().await;
    let typed = anas.typing(&[("name", "Drill 2"), (front, "lb")]);
    let all = [("name", "Meanwhile bea changed this to “Drill 9”."), (front, "Meanwhile this was changed to “")];
    let again = office.ana_is_told(typed, &all).await;
    assert_eq!(
        (office.lines().await, ["name", "serial_number", front, rear].map(|name| again.says(name))),
        (before, ["Drill 2", "S-1", "lb", "kg"])
    );
    office.ana_saves(again).await;
    let stands = office.ana.read(&format!("/seeders/{id}")).await;
    assert_eq!([&stands["name"], &stands["serial_number"]], [&json!("Drill 2"), &json!("S-1")]);
    assert_eq!(stands["metering_units"][0]["keyed_in"]["mass_unit"], json!("lb"));
}

async fn a_record_says_what_stands_or_what_its_author_saw(world: World) {
    let mut office = Office::of(world).await;
    let seeder = office.ana.create("/seeders", drill()).await;
    let [seeder, front] = [&seeder["id"], &seeder["metering_units"][0]["id"]].map(|id| id.as_str().unwrap().to_owned());
    let roller = office.add("/rollers", json!({ "label": "fine", "kind": "fluted" })).await;
    let fitted = json!({ "occurred_at": "2027-03-01T08:00:00Z", "roller_id": roller, "drive_ratio": "1", "runs": 24 });
    office.ana.create(&format!("/metering-units/{front}/setups"), fitted).await;
    let told = |now: &str| format!("Meanwhile this was changed to “{now}”. Save again to put yours in its place.");

    for (path, [bea, ana], now, [(one, is), (other, was)]) in [
        (
            format!("/seeders/{seeder}/configurations"),
            [("working_width/value", "5.4"), ("row_spacing/value", "15")],
            "5.4 m",
            [("working_width", q("6", "m")), ("row_spacing", q("15", "cm"))],
        ),
        (
            format!("/metering-units/{front}/setups"),
            [("drive_ratio", "2"), ("gate", "7")],
            "2",
            [("drive_ratio", json!("1")), ("gate", json!("7"))],
        ),
    ] {
        let (anas, beas) = office.both(&format!("{path}/new"), &path).await;
        let before = office.lines().await;
        office.bea_saves(beas.clone().typing(&[bea])).await;
        let again = office.ana_is_told(anas.typing(&[ana]), &[(bea.0, &told(now))]).await;
        assert_eq!(office.lines().await, before + 1);
        assert_eq!((again.says(ana.0), again.says(bea.0) == bea.1), (ana.1, false), "{path}: as typed, as shown");
        let again = again.typing(&[("occurred_at", "2027-04-01T09:30")]);
        office.ana_saves(again.clone()).await;
        office.ana_saves(again).await;
        assert_eq!(office.lines().await, before + 2, "{path}: sent twice it is stored once");
        let all = office.ana.read(&path).await["items"].as_array().unwrap().clone();
        let last = all.iter().max_by_key(|record| record["occurred_at"].to_string()).unwrap();
        assert_eq!([&last[one], &last[other]], [&is, &was], "{path}");
    }
}

async fn own_choices_are_changed_in_two_tabs(world: World) {
    let mut office = Office::of(world.sending_by("smtp://127.0.0.1:9")).await;
    let reading = "/account/reading";
    let (one, _) = office.both("/account", reading).await;
    office.ana_saves(one.clone().typing(&[("decimal_sign", "comma")])).await;
    office.ana_saves(one.clone().typing(&[("units", "us")])).await;
    let again = office.anas.get(&office.world, "/account").await;
    let now = Tab::of(&again, reading);
    assert_eq!((now.says("decimal_sign"), now.says("units")), ("comma", "us"));
    let told = "Meanwhile this was changed to “";
    let again = office.ana_is_told(one.typing(&[("units", "metric")]), &[("units", told)]).await;
    office.ana_saves(again).await;
    assert_eq!(Tab::of(&office.anas.get(&office.world, "/account").await, reading).says("units"), "metric");

    let digest = "/notices/digest";
    let (one, _) = office.both("/notices", digest).await;
    office.ana_saves(one.clone().typing(&[("every", "daily"), ("hour", "7")])).await;
    office.ana_saves(one.clone()).await;
    let now = Tab::of(&office.anas.get(&office.world, "/notices").await, digest);
    assert_eq!((now.says("every"), now.says("hour")), ("daily", "7"), "the older tab had nothing to say");
    let told = "Meanwhile this was changed to “07:00”.";
    let again = office.ana_is_told(one.typing(&[("hour", "9")]), &[("hour", told)]).await;
    assert_eq!((again.says("every"), again.says("hour")), ("daily", "9"));
    office.ana_saves(again).await;
    let now = Tab::of(&office.anas.get(&office.world, "/notices").await, digest);
    assert_eq!((now.says("every"), now.says("hour")), ("daily", "9"));
}

async fn of_many_at_one_moment_one_is_stored(world: World) {
    let mut office = Office::of(world).await;
    let id = office.add("/fields", json!({ "name": "Long acre" , "area": q("9.0", "ha") })).await;
    let path = format!("/fields/{id}/change");
    let (tab, _) = office.both(&path, &path).await;
    let before = office.lines().await;
    let names: Vec<String> = (0..8).map(|number| format!("Acre {number}")).collect();
    let tries = names.iter().map(|name| {
        let (mut browser, tab, world) = (office.anas.clone(), tab.clone().typing(&[("name", name)]), &office.world);
        async move { (name, send(&mut browser, world, &tab).await) }
    });
    let answers = futures_util::future::join_all(tries).await;
    let (stored, told): (Vec<_>, Vec<_>) = answers.iter().partition(|(_, answer)| answer.status == 303);
    assert_eq!(stored.len(), 1, "one of them");
    assert_eq!(office.entry("/fields", &id).await["name"], json!(stored[0].0));
    assert_eq!(office.lines().await, before + 1);
    for (name, answer) in told {
        assert_eq!(answer.status, 422, "{}", answer.text);
        assert!(answer.text.contains("Meanwhile ana") || answer.text.contains("at the same moment"), "{}", answer.text);
        assert_eq!(Tab::of(answer, &path).says("name"), *name, "what was typed stands there");
    }
    // Without what they were shown the last one wins.
    let tries = names.iter().map(|name| {
        let tab = tab.clone().without_shown().typing(&[("name", name)]);
        let (mut browser, world) = (office.anas.clone(), &office.world);
        async move { send(&mut browser, world, &tab).await }
    });
    for answer in futures_util::future::join_all(tries).await {
        saved(&answer);
    }
}
