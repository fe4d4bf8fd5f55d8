//! What the office keeps is changed with a trace: clients, fields, lots, rollers, scales and seasons, each through the API and
//! on its page, by one table.

use super::pages::{holds, went_to};
use super::yard::{Yard, q, text};
use crate::exchange::csv_lists::file;
use crate::exchange::whole_round::{exported, imported, rows};
use crate::on_both;
use crate::spanish;
use crate::world::{Person, World};
use serde_json::{Value, json};
use sowmark::access::Role;
use std::collections::BTreeSet;

on_both!(
    an_entry_is_changed_with_a_trace,
    only_the_office_changes_its_own,
    bad_changes_are_refused_with_every_fault,
    a_form_shows_what_stands_and_changes_it,
    a_bad_form_comes_back_as_typed,
    a_list_leads_to_each_form,
    exports_show_what_was_changed,
    the_document_tells_what_can_be_changed,
    the_forms_are_in_spanish,
);

type Fields = Vec<(&'static str, &'static str)>;

/// One kind of entry: how it is added, changed, and changed wrongly.
struct Kept {
    list: &'static str,
    kind: &'static str,
    added: Value,
    /// What is sent, and what the trail then says of before and after.
    change: Value,
    from: Value,
    to: Value,
    bad: Value,
    faults: &'static [&'static str],
    /// What its form holds as it was added.
    shows: Fields,
    /// What is typed into it, and what of the entry is then so.
    typed: Fields,
    typed_is: Value,
    /// A field, and what cannot stand in it.
    wrong: (&'static str, &'static str),
    /// What its list as a file says after the typed change.
    says: &'static str,
}

fn of_the_fleet() -> Vec<Kept> {
    vec![
        Kept {
            list: "rollers",
            kind: "roller",
            added: json!({ "label": "fine fluted", "kind": "fluted", "displacement_per_rev": q("82.0", "cm3") }),
            change: json!({ "displacement_per_rev": q("81.5", "cm3") }),
            from: json!({ "displacement_per_rev": q("82.0", "cm3") }),
            to: json!({ "displacement_per_rev": q("81.5", "cm3") }),
            bad: json!({ "label": "", "kind": "square", "displacement_per_rev": q("1", "pt"), "colour": 1, "id": 5 }),
            faults: &["/label", "/kind", "/displacement_per_rev/unit", "/colour", "/id"],
            shows: vec![("label", "fine fluted"), ("displacement_per_rev/value", "82.0")],
            typed: vec![
                ("label", "worn studded"),
                ("kind", "studded"),
                ("displacement_per_rev/value", ""),
                ("displacement_per_rev/unit", "cm3"),
            ],
            typed_is: json!({ "label": "worn studded", "kind": "studded", "displacement_per_rev": null }),
            wrong: ("displacement_per_rev/value", "many"),
            says: "worn studded",
        },
        Kept {
            list: "scales",
            kind: "scale",
            added: json!({ "name": "Yard scale", "readability": q("10", "g"), "capacity": { "lb": 110, "oz": "4.5" } }),
            change: json!({ "readability": q("20", "g") }),
            from: json!({ "readability": q("10", "g") }),
            to: json!({ "readability": q("20", "g") }),
            bad: json!({ "name": 5, "readability": q("-1", "g"), "capacity": q("50", "L"), "kind": "x" }),
            faults: &["/name", "/readability", "/capacity/unit", "/kind"],
            shows: vec![("name", "Yard scale"), ("readability/value", "10"), ("capacity/value", "110 lb 4.5 oz")],
            typed: vec![
                ("name", "Bench scale"),
                ("readability/value", "0,5"),
                ("readability/unit", "g"),
                ("capacity/value", "110 lb 4.5 oz"),
                ("capacity/unit", "lb"),
            ],
            typed_is: json!({ "name": "Bench scale", "readability": q("0.5", "g") }),
            wrong: ("readability/value", "0"),
            says: "Bench scale",
        },
        Kept {
            list: "seasons",
            kind: "season",
            added: json!({ "name": "Spring", "starts_on": "2027-02-15", "crops": ["maize", "rye"] }),
            change: json!({ "starts_on": "2027-02-20", "crops": null }),
            from: json!({ "starts_on": "2027-02-15", "crops": ["maize", "rye"] }),
            to: json!({ "starts_on": "2027-02-20", "crops": null }),
            bad: json!({ "name": "", "starts_on": "soon", "crops": "maize", "ends_on": null }),
            faults: &["/name", "/starts_on", "/crops", "/ends_on"],
            shows: vec![("name", "Spring"), ("starts_on", "2027-02-15"), ("crops", "maize, rye")],
            typed: vec![("name", "Spring of 2027"), ("starts_on", "2027-02-15"), ("crops", "maize, sorghum")],
            typed_is: json!({ "name": "Spring of 2027", "starts_on": "2027-02-15", "crops": ["maize", "sorghum"] }),
            wrong: ("starts_on", "soon"),
            says: "Spring of 2027",
        },
    ]
}

fn of_the_seed(client: &str) -> Vec<Kept> {
    vec![
        Kept {
            list: "clients",
            kind: "client",
            added: json!({ "name": "Halm" }),
            change: json!({ "name": "Halm & Sons" }),
            from: json!({ "name": "Halm" }),
            to: json!({ "name": "Halm & Sons" }),
            bad: json!({ "name": null, "area": 5 }),
            faults: &["/name", "/area"],
            shows: vec![("name", "Halm")],
            typed: vec![("name", "Halm Farms")],
            typed_is: json!({ "name": "Halm Farms" }),
            wrong: ("name", "two\nlines"),
            says: "Halm Farms",
        },
        Kept {
            list: "fields",
            kind: "field",
            added: json!({ "name": "Long acre", "area": q("9.0", "ha"), "client_id": client }),
            change: json!({ "area": q("22.5", "ac"), "client_id": null }),
            from: json!({ "area": q("9.0", "ha"), "client_id": client }),
            to: json!({ "area": q("22.5", "ac"), "client_id": null }),
            bad: json!({ "name": "", "area": q("0", "ha"), "client_id": "Halm" }),
            faults: &["/name", "/area", "/client_id"],
            shows: vec![("name", "Long acre"), ("area/value", "9.0")],
            typed: vec![("name", "Far acre"), ("area/value", "9.0"), ("area/unit", "ac"), ("client_id", "")],
            typed_is: json!({ "name": "Far acre", "area": q("9.0", "ac"), "client_id": null }),
            wrong: ("area/value", "nine"),
            says: "Far acre",
        },
        Kept {
            list: "lots",
            kind: "lot",
            added: json!({ "lot_number": "W-16", "crop": "wheat", "variety": "Elmora", "received_mass": q("900", "kg"),
                "treatment": { "product": "Tefin", "caution": "Gloves." }, "analysis": { "purity_percent": "99.0" },
                "label": { "origin": "Oregon" }, "client_id": client }),
            change: json!({ "lot_number": "W-61", "variety": null, "treatment": { "caution": "Gloves and mask." } }),
            from: json!({ "lot_number": "W-16", "variety": "Elmora", "treatment": { "caution": "Gloves." } }),
            to: json!({ "lot_number": "W-61", "variety": null, "treatment": { "caution": "Gloves and mask." } }),
            bad: json!({ "lot_number": "", "crop": null, "material": "other", "received_mass": q("1", "kg"),
                "treatment": { "product": null }, "analysis": { "purity_percent": "101" }, "label": { "colour": "red" } }),
            faults: &[
                "/lot_number",
                "/crop",
                "/material",
                "/received_mass",
                "/treatment/product",
                "/analysis/purity_percent",
                "/label/colour",
            ],
            shows: vec![("lot_number", "W-16"), ("treatment/product", "Tefin"), ("label/origin", "Oregon")],
            typed: vec![
                ("lot_number", "W-17"),
                ("crop", "durum wheat"),
                ("treatment/product", ""),
                ("treatment/caution", ""),
                ("analysis/purity_percent", "98,5"),
                ("label/origin", ""),
                ("label/hermetic", "true"),
            ],
            typed_is: json!({ "lot_number": "W-17", "crop": "durum wheat", "variety": "Elmora", "treatment": null,
                "received_mass": q("900", "kg"), "client_id": client }),
            wrong: ("label/weed_seed_percent", "20"),
            says: "W-17",
        },
    ]
}

async fn client_of(ana: &Person) -> String {
    text(&ana.create("/clients", json!({ "name": "Rainfeld" })).await["id"])
}

/// Every kind, added by the office: with the entry as it was answered.
async fn kept(ana: &Person) -> Vec<(Kept, Value)> {
    let client = client_of(ana).await;
    let mut all = Vec::new();
    for kept in of_the_fleet().into_iter().chain(of_the_seed(&client)) {
        let added = ana.create(&format!("/{}", kept.list), kept.added.clone()).await;
        all.push((kept, added));
    }
    all
}

fn path(kept: &Kept, entry: &Value) -> String {
    format!("/{}/{}", kept.list, text(&entry["id"]))
}

/// The entry as its list has it.
async fn stands(ana: &Person, kept: &Kept, entry: &Value) -> Value {
    let list = ana.read(&format!("/{}?limit=500", kept.list)).await;
    list["items"].as_array().unwrap().iter().find(|item| item["id"] == entry["id"]).unwrap().clone()
}

async fn trail(ana: &Person) -> Vec<Value> {
    ana.read("/audit?limit=500").await["items"].as_array().unwrap().clone()
}

async fn an_entry_is_changed_with_a_trace(world: World) {
    let ana = world.ana().await;
    for (kept, added) in kept(&ana).await {
        let path = path(&kept, &added);
        let before = trail(&ana).await.len();
        let answer = ana.patch(&path, kept.change.clone()).await;
        assert_eq!(answer.status, 200, "{path}: {}", answer.text);
        let changed = answer.json();
        let mut wanted = added.clone();
        for (name, value) in kept.change.as_object().unwrap() {
            match value {
                Value::Object(group) if name == "treatment" => {
                    group.iter().for_each(|(inner, value)| wanted[name][inner] = value.clone());
                }
                value => wanted[name] = value.clone(),
            }
        }
        assert_eq!(changed, wanted, "what was not sent stays");
        assert_eq!(stands(&ana, &kept, &added).await, changed);
        let lines = trail(&ana).await;
        assert_eq!(lines.len(), before + 1);
        let line = lines.last().unwrap();
        assert_eq!(
            (&line["action"], &line["subject"]),
            (&json!("changed"), &json!({ "kind": kept.kind, "id": added["id"] }))
        );
        assert_eq!(line["change"], json!({ "from": kept.from, "to": kept.to }));

        // What says nothing new leaves no trace.
        for nothing in [kept.change.clone(), json!({})] {
            let again = ana.patch(&path, nothing).await;
            assert_eq!((again.status.as_u16(), again.json()), (200, changed.clone()));
        }
        assert_eq!(trail(&ana).await.len(), before + 1);
        ana.patch(&path, kept.from.clone()).await;
        assert_eq!(stands(&ana, &kept, &added).await, added, "and back");
    }
}

async fn only_the_office_changes_its_own(world: World) {
    let yard = Yard::new(&world).await;
    let ben = world.ana().await;
    for (kept, added) in kept(&yard.ana).await {
        let path = path(&kept, &added);
        let form = format!("/page{path}/change");
        for person in [&yard.kim, &yard.mia] {
            person.patch(&path, kept.change.clone()).await.refused(403, &[]);
            assert_eq!(person.get(&form).await.status, 403, "{form}");
            assert_eq!(person.submit(&form, &kept.typed).await.status, 403, "{form}");
        }
        world.nobody().patch(&path, kept.change.clone()).await.refused(401, &[]);
        ben.patch(&path, kept.change.clone()).await.refused(404, &[]);
        assert_eq!(ben.get(&form).await.status, 404, "{form}");
        assert_eq!(ben.submit(&form, &kept.typed).await.status, 404, "{form}");
        yard.ana
            .patch(&format!("/{}/0196d2a0-0000-7000-8000-00000000dead", kept.list), json!({}))
            .await
            .refused(404, &[]);
        assert_eq!(stands(&yard.ana, &kept, &added).await, added);
    }
    // Another organization's client is none here.
    let theirs = client_of(&ben).await;
    for (kept, added) in kept(&yard.ana).await.into_iter().filter(|(kept, _)| kept.added.get("client_id").is_some()) {
        yard.ana.patch(&path(&kept, &added), json!({ "client_id": theirs })).await.refused(404, &["/client_id"]);
        assert_eq!(stands(&yard.ana, &kept, &added).await, added);
    }
}

async fn bad_changes_are_refused_with_every_fault(world: World) {
    let ana = world.ana().await;
    for (kept, added) in kept(&ana).await {
        let path = path(&kept, &added);
        let before = trail(&ana).await.len();
        let answer = ana.patch(&path, kept.bad.clone()).await;
        answer.refused(422, kept.faults);
        let named: BTreeSet<String> = answer.pointers().into_iter().collect();
        assert_eq!(named, kept.faults.iter().map(|fault| (*fault).to_owned()).collect(), "{path}: and no other");
        ana.patch(&path, json!([])).await.refused(422, &[""]);
        assert_eq!(stands(&ana, &kept, &added).await, added);
        assert_eq!(trail(&ana).await.len(), before);
    }
    // What no single field can know is looked at with what stands.
    let scale = json!({ "name": "A", "readability": q("10", "g"), "capacity": q("5", "kg") });
    let scale = text(&ana.create("/scales", scale).await["id"]);
    ana.patch(&format!("/scales/{scale}"), json!({ "readability": q("5", "kg") })).await.refused(422, &["/capacity"]);
}

async fn a_form_shows_what_stands_and_changes_it(world: World) {
    let ana = world.ana().await;
    for (kept, added) in kept(&ana).await {
        let form = format!("/page{}/change", path(&kept, &added));
        let page = ana.get(&form).await;
        assert_eq!(page.status, 200, "{form}");
        for (name, value) in &kept.shows {
            assert!(holds(&page, name, value), "{form} shows {name} as {value}: {}", page.text);
        }
        assert!(!holds(&page, "id", &text(&added["id"])), "nothing is added by it");
        // Saved as it stands, it changes nothing.
        let before = trail(&ana).await.len();
        went_to(&ana.submit(&form, &kept.shows).await);
        assert_eq!((trail(&ana).await.len(), stands(&ana, &kept, &added).await), (before, added.clone()), "{form}");

        let place = went_to(&ana.submit(&form, &kept.typed).await);
        let home = if kept.kind == "lot" { path(&kept, &added) } else { format!("/{}", kept.list) };
        assert_eq!(place, home);
        let now = stands(&ana, &kept, &added).await;
        for (name, value) in kept.typed_is.as_object().unwrap() {
            assert_eq!(&now[name], value, "{form}: {name}");
        }
        if kept.kind == "lot" {
            assert_eq!(now["analysis"]["purity_percent"].to_string(), "98.5");
            assert_eq!((&now["label"]["origin"], &now["label"]["hermetic"]), (&Value::Null, &json!(true)));
        }
        assert!(ana.get(&format!("/page{home}")).await.text.contains(kept.says), "{home} says {}", kept.says);
        let lines = trail(&ana).await;
        assert_eq!((lines.len(), &lines[before]["action"]), (before + 1, &json!("changed")));
        let (change, stood) = (&lines[before]["change"], lines[before]["change"]["from"].as_object().unwrap());
        assert!(stood.keys().all(|name| change["to"].get(name).is_some()), "{change}");
    }
}

async fn a_bad_form_comes_back_as_typed(world: World) {
    let ana = world.ana().await;
    for (kept, added) in kept(&ana).await {
        let form = format!("/page{}/change", path(&kept, &added));
        let (wrong, value) = kept.wrong;
        let mut fields: Fields = kept.typed.iter().copied().filter(|(name, _)| *name != wrong).collect();
        fields.push(kept.wrong);
        let again = ana.submit(&form, &fields).await;
        assert_eq!(again.status, 422, "{form}: {}", again.text);
        assert!(again.text.contains(&format!("id=\"{wrong}-error\"")), "{form}: {}", again.text);
        assert!(holds(&again, wrong, value), "{form}: {}", again.text);
        let (first, typed) = fields[0];
        assert!(wrong == first || holds(&again, first, typed), "{form}: {}", again.text);
        assert_eq!(stands(&ana, &kept, &added).await, added);
    }
}

async fn a_list_leads_to_each_form(world: World) {
    let yard = Yard::new(&world).await;
    for (kept, added) in kept(&yard.ana).await {
        let link = format!("href=\"{}/change\"", path(&kept, &added));
        let list = if kept.kind == "lot" { path(&kept, &added) } else { format!("/{}", kept.list) };
        assert!(yard.ana.get(&format!("/page{list}")).await.text.contains(&link), "{list}");
        for person in [&yard.kim, &yard.mia] {
            assert!(!person.get(&format!("/page{list}")).await.text.contains(&link), "{list}");
        }
    }
}

async fn exports_show_what_was_changed(world: World) {
    let ana = world.ana().await;
    let mut all = Vec::new();
    for (kept, added) in kept(&ana).await {
        went_to(&ana.submit(&format!("/page{}/change", path(&kept, &added)), &kept.typed).await);
        let lists = file(&ana, kept.list, "").await;
        assert!(lists.contains(kept.says), "{lists}");
        all.push((kept, added));
    }
    let whole = exported(&world, ana.organization).await;
    let there = World::on_sqlite().await;
    imported(&there, &whole).await.unwrap_or_else(|refused| panic!("{refused}"));
    assert!(rows(&exported(&there, ana.organization).await) == rows(&whole), "written again it is the same");
    let again = there.person(ana.organization, ana.account).await;
    for (kept, added) in all {
        assert!(whole.contains(kept.says), "{}", kept.says);
        assert_eq!(stands(&again, &kept, &added).await, stands(&ana, &kept, &added).await);
    }
}

async fn the_document_tells_what_can_be_changed(world: World) {
    let document = world.nobody().read("/openapi.json").await;
    let taken = |path: &str, method: &str| {
        let schema = &document["paths"][path][method]["requestBody"]["content"]["application/json"]["schema"];
        let names = schema["properties"].as_object().unwrap().keys().cloned().collect::<BTreeSet<String>>();
        (names, schema["required"].clone())
    };
    for kept in of_the_fleet().into_iter().chain(of_the_seed("")) {
        let (mut added, _) = taken(&format!("/api/v1/{}", kept.list), "post");
        let (changed, required) = taken(&format!("/api/v1/{}/{{id}}", kept.list), "patch");
        added.remove("id");
        if kept.kind == "lot" {
            assert!(added.remove("material") && added.remove("received_mass"));
        }
        assert_eq!((added, required), (changed, Value::Null), "{}", kept.list);
    }
}

async fn the_forms_are_in_spanish(world: World) {
    let ana = world.ana().await;
    let mut browser = spanish::reader(&world, &ana, Role::Office).await;
    for (kept, added) in kept(&ana).await {
        let form = format!("{}/change", path(&kept, &added));
        let page = browser.get(&world, &form).await;
        spanish::says(&page.text, &["<h1>Modificar ", "Guardar los cambios", "registro de cambios"]);
        // A decimal stands in the form with the reader's sign, and saved so it is the same.
        let comma = page.text.replace("value=\"9,0\"", "").len() < page.text.len();
        assert_eq!(comma, kept.kind == "field", "{}", page.text);
        let (wrong, value) = kept.wrong;
        let again = browser.submit(&world, &form, &[(wrong, value)]).await;
        assert_eq!(again.status, 422, "{form}");
        spanish::says(&again.text, &[format!("id=\"{wrong}-error\"").as_str()]);
    }
    let before = trail(&ana).await.len();
    let field = ana.read("/fields").await["items"][0].clone();
    let same = [("name", "Long acre"), ("area/value", "9,0"), ("area/unit", "ha")];
    let saved = browser.submit(&world, &format!("/fields/{}/change", text(&field["id"])), &same).await;
    assert_eq!((saved.status.as_u16(), trail(&ana).await.len()), (303, before));
}
