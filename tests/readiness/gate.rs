//! The next gate setting: a first guess, said so, with the way to the next catch.

use super::farm::Farm;
use crate::on_both;
use crate::world::World;

on_both!(a_proportion_is_a_first_guess, what_is_typed_wrong_comes_back);

/// Generic proportion of the trade (no source): 40.0 gave 5.0, wanted 5.5: 44.0.
async fn a_proportion_is_a_first_guess(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let path = format!("/page/metering-units/{}/gate", farm.unit);
    let open = farm.ana.get(&path).await;
    assert_eq!(open.status, 200, "{}", open.text);
    // The gate of the setup and the number in force are filled in.
    assert!(open.text.contains("value=\"12\"") && open.text.contains("value=\"30.06\""), "{}", open.text);
    let near = farm.ana.get(&format!("{path}?setting=40.0&measured/value=5.0&measured/unit=g/rev&wanted=5.5")).await;
    assert_eq!(near.status, 200, "{}", near.text);
    for part in [
        ">44.0</strong>",
        "+10.0 %",
        "This is a first guess by proportion: catch again at it before sowing.",
        "/catch\">Log a catch at it",
    ] {
        assert!(near.text.contains(part), "{part} is not in {}", near.text);
    }
    assert!(!near.text.contains("is far"));
    let far = farm.ana.get(&format!("{path}?setting=40,0&measured/value=5&measured/unit=kg/ha&wanted=7,5")).await;
    assert!(far.text.contains(">60.0</strong>") && far.text.contains("expect to catch twice"), "{}", far.text);

    // A unit without a number has a guess all the same.
    let bare = Farm::of(world.ana().await).await;
    let guess = bare
        .ana
        .get(&format!(
            "/page/metering-units/{}/gate?setting=4&measured/value=90&measured/unit=lb/ac&wanted=100",
            bare.unit
        ))
        .await;
    assert!(guess.status == 200 && guess.text.contains(">4.44</strong>"), "{}", guess.text);
}

async fn what_is_typed_wrong_comes_back(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let path = format!("/page/metering-units/{}/gate", farm.unit);
    let wrong = farm.ana.get(&format!("{path}?setting=wide&measured/value=0&measured/unit=g/rev&wanted=-3")).await;
    assert_eq!(wrong.status, 422, "{}", wrong.text);
    for name in ["setting", "measured/value", "wanted"] {
        assert!(wrong.text.contains(&format!("id=\"{name}-error\"")), "{name}: {}", wrong.text);
    }
    assert!(wrong.text.contains("value=\"wide\"") && wrong.text.contains("value=\"-3\""));
    let other = world.ana().await;
    assert_eq!(other.get(&path).await.status, 404);
}
