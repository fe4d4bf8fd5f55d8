//! E-mail digests, over the wire to a small mail server; the letters are read by other people's reader, the crate
//! `mail-parser`.

mod once;
mod page;
mod post_office;
mod told;

use crate::people::browser::Browser;
use crate::world::World;
use sowmark::digest::act;

/// Chooses digests on the page.
pub async fn choose(world: &World, browser: &mut Browser, every: &str, hour: &str) {
    let answer = browser.submit(world, "/notices/digest", &[("every", every), ("hour", hour)]).await;
    assert_eq!(answer.status, 303, "{}", answer.text);
}

/// What one server does when it looks; how many letters went out.
pub async fn look(world: &World) -> usize {
    act::send_due(&world.app).await.unwrap_or_else(|error| panic!("{}", error.problem().detail))
}

/// The same at a moment.
pub async fn look_at(world: &World, at: &str) -> usize {
    world.set_time(at);
    look(world).await
}
