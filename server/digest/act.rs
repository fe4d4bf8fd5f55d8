//! Who gets digests, and sending what is due of them: once per person and period, however many servers run.

use super::letter::{self, Content};
use super::store::{self, ChoiceRow, Key, RecipientRow};
use super::when::{self, Every, Period};
use super::{DigestDraft, EveryWord};
use crate::access::session::hash_of;
use crate::access::{Actor, Via, find_actor};
use crate::clock::Clock;
use crate::db::{Cx, Db};
use crate::feeds::act::matter_id;
use crate::mail::Mailer;
use crate::readiness::ahead::{self, Matter};
use crate::web::door::App;
use crate::web::error::Error;
use crate::{hex, texts};
use jiff::{SignedDuration, Timestamp, ToSpan};
use sowmark_core::ids::{AccountId, OrganizationId};
use std::collections::HashSet;
use std::time::Duration;
use uuid::Uuid;

/// How long whoever takes a digest has for it: far longer than a mail server may take. After that it counts as
/// abandoned, as when the server was stopped in the middle. Nobody can tell whether that letter had gone out; it goes out
/// again under the same Message-ID rather than never.
const HELD: SignedDuration = SignedDuration::from_mins(10);
/// After this many attempts a digest is given up; what it would have told is in the next one.
const MOST_ATTEMPTS: i64 = 8;
/// After the first failure; twice as long after each further one.
const FIRST_PAUSE: SignedDuration = SignedDuration::from_mins(5);
/// How often a server looks whether a digest is due.
const LOOK_EVERY: Duration = Duration::from_secs(30);
/// How many days digests are kept, and with them their links to stop.
const KEPT_DAYS: i64 = 400;

/// Sets when a person gets digests.
///
/// # Errors
/// The database.
pub async fn choose(db: &Db, clock: &Clock, actor: &Actor, draft: &DigestDraft) -> Result<(), Error> {
    let mut tx = db.begin().await?;
    let whose = (actor.organization(), actor.account);
    match draft.every {
        EveryWord::Never => store::stop(&mut tx.cx(), whose.0, whose.1).await?,
        EveryWord::Daily | EveryWord::Weekly => {
            let (hour, language) = (i64::from(draft.hour.count()), actor.language.tag());
            store::choose(&mut tx.cx(), whose, draft.every.word(), hour, language, clock.now()).await?;
        }
    }
    tx.commit().await?;
    Ok(())
}

/// Ends a person's digests inside an act, as when the membership ends.
///
/// # Errors
/// The database.
pub async fn end_inside(cx: &mut Cx<'_>, organization: OrganizationId, account: AccountId) -> Result<(), Error> {
    Ok(store::stop(cx, organization, account).await?)
}

/// Stops the digests of whoever got a letter with this link. As often as one likes.
///
/// # Errors
/// 404 when no letter has it; the database.
pub async fn stop(db: &Db, code: &str) -> Result<(), Error> {
    let mut tx = db.begin().await?;
    let (organization, account) = whose_link(&mut tx.cx(), code).await?;
    store::stop(&mut tx.cx(), organization, account).await?;
    tx.commit().await?;
    Ok(())
}

/// Whether a letter has this link.
///
/// # Errors
/// 404 when none has; the database.
pub async fn whose_link(cx: &mut Cx<'_>, code: &str) -> Result<(OrganizationId, AccountId), Error> {
    let nothing = || Error::not_there("page");
    let secret = hex::read(code).ok_or_else(nothing)?;
    store::of_stop(cx, hash_of(&secret)).await?.ok_or_else(nothing)
}

/// When a person gets digests, if they do.
///
/// # Errors
/// The database.
pub async fn choice(cx: &mut Cx<'_>, actor: &Actor) -> Result<Option<ChoiceRow>, Error> {
    Ok(store::choice(cx, actor.organization(), actor.account).await?)
}

/// Everybody in an organization who asked for digests, and what became of each one's last.
///
/// # Errors
/// The database.
pub async fn recipients(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<RecipientRow>, Error> {
    Ok(store::recipients(cx, organization).await?)
}

/// When a person's next digest falls due.
#[must_use]
pub fn next_at(choice: &ChoiceRow, actor: &Actor, now: Timestamp) -> Option<Timestamp> {
    let (every, hour) = (Every::from_word(&choice.every)?, i8::try_from(choice.hour).ok()?);
    when::next(every, hour, &actor.time_zone, now).map(|period| period.at)
}

/// What the next digest will tell of what is due: what the last one had not told.
///
/// # Errors
/// The database.
pub async fn untold<'m>(cx: &mut Cx<'_>, actor: &Actor, matters: &'m [Matter]) -> Result<Vec<&'m Matter>, Error> {
    let told = store::last_told(cx, actor.organization(), actor.account).await?;
    let told: HashSet<Uuid> = match told {
        Some(told) => serde_json::from_str(&told).map_err(|_| Error::inconsistent("digest.told", &told))?,
        None => HashSet::new(),
    };
    let is_new = |matter: &&Matter| !told.contains(&matter_id(actor.organization(), &matter.subject));
    Ok(matters.iter().filter(|matter| !matter.is_coming).filter(is_new).collect())
}

/// Looks again and again whether digests are due, and sends them; never ends.
pub async fn keep_sending(app: App) {
    loop {
        if let Err(error) = send_due(&app).await {
            tracing::warn!(problem = cause(&error), "digests could not be looked after");
        }
        tokio::time::sleep(LOOK_EVERY).await;
    }
}

/// Sends every digest that is due and that no other server has; how many letters went out. Without a mail server
/// nothing is even looked at.
///
/// # Errors
/// The database. What goes wrong with one person's is noted and holds up nobody else's.
pub async fn send_due(app: &App) -> Result<usize, Error> {
    let Some(mailer) = &app.config.mail else { return Ok(0) };
    let choices = {
        let mut conn = app.read().await?;
        store::choices(&mut conn.cx()).await?
    };
    let mut sent = 0;
    for choice in choices {
        match look_after(app, mailer, &choice).await {
            Ok(went_out) => sent += usize::from(went_out),
            Err(error) => {
                tracing::warn!(problem = cause(&error), account = %choice.account(), "a digest could not be sent");
            }
        }
    }
    Ok(sent)
}

/// Sends one person's digest if it is due; whether a letter went out.
async fn look_after(app: &App, mailer: &Mailer, choice: &ChoiceRow) -> Result<bool, Error> {
    let now = app.clock.now();
    let mut conn = app.read().await?;
    let found = find_actor(&mut conn.cx(), choice.organization(), choice.account(), Via::Token).await?;
    drop(conn);
    let Some(mut actor) = found else { return Ok(false) };
    actor.language = actor.own_language.or_else(|| texts::language(&choice.language)).unwrap_or(actor.language);
    let Some(period) = due(choice, &actor, now) else { return Ok(false) };
    let key = Key { organization: choice.organization(), account: choice.account(), period: period.day.to_string() };
    let mut conn = app.read().await?;
    if store::is_taken(&mut conn.cx(), &key, now).await? {
        return Ok(false);
    }
    drop(conn);
    let mut tx = app.db.begin().await?;
    let held_until = now.saturating_add(HELD).map_err(Error::broken)?;
    let Some(attempt) = store::claim(&mut tx.cx(), &key, held_until, now).await? else { return Ok(false) };
    if let Ok(oldest) = period.day.checked_sub(KEPT_DAYS.days()) {
        store::forget(&mut tx.cx(), &key, &oldest.to_string()).await?;
    }
    tx.commit().await?;
    match send(app, mailer, &actor, &key, now).await {
        Ok(went_out) => Ok(went_out),
        Err(problem) => {
            let mut tx = app.db.begin().await?;
            store::fail(&mut tx.cx(), &key, next_attempt(attempt, now), &cause(&problem), now).await?;
            tx.commit().await?;
            Err(problem)
        }
    }
}

/// The digest that is due and was asked for before its hour.
fn due(choice: &ChoiceRow, actor: &Actor, now: Timestamp) -> Option<Period> {
    let (every, hour) = (Every::from_word(&choice.every)?, i8::try_from(choice.hour).ok()?);
    when::latest(every, hour, &actor.time_zone, now).filter(|period| period.at.as_microsecond() > choice.chosen_at)
}

fn next_attempt(attempt: i64, now: Timestamp) -> Option<Timestamp> {
    if attempt >= MOST_ATTEMPTS {
        return None;
    }
    let doubled = u32::try_from(attempt - 1).ok().and_then(|times| 2_i32.checked_pow(times))?;
    now.checked_add(FIRST_PAUSE.checked_mul(doubled)?).ok()
}

/// Writes the letter of a digest that is ours and hands it over; whether there was anything to tell.
async fn send(app: &App, mailer: &Mailer, actor: &Actor, key: &Key, now: Timestamp) -> Result<bool, Error> {
    let mut conn = app.read().await?;
    let matters = ahead::matters(&mut conn.cx(), actor, now).await?;
    let new = untold(&mut conn.cx(), actor, &matters).await?;
    drop(conn);
    let due: Vec<Uuid> = matters
        .iter()
        .filter(|matter| !matter.is_coming)
        .map(|matter| matter_id(actor.organization(), &matter.subject))
        .collect();
    let told = serde_json::to_string(&due).map_err(Error::broken)?;
    if !new.is_empty() {
        let secret = app.clock.secret()?;
        let base = app.config.public_url.as_deref().unwrap_or_default();
        let content = Content {
            actor,
            new: &new,
            others: due.len() - new.len(),
            base,
            stop_href: format!("{base}/digest/stop/{}", hex::written(&secret)),
            id: format!("digest.{}.{}.{}", key.period, key.account, key.organization),
            now,
        };
        let letter = letter::written(&content, mailer)?;
        let mut tx = app.db.begin().await?;
        store::give_stop(&mut tx.cx(), key, hash_of(&secret)).await?;
        tx.commit().await?;
        mailer.send(letter).await.map_err(Error::broken)?;
    }
    let mut tx = app.db.begin().await?;
    store::end(&mut tx.cx(), key, if new.is_empty() { "nothing" } else { "sent" }, &told, app.clock.now()).await?;
    tx.commit().await?;
    Ok(!new.is_empty())
}

/// What went wrong, for the log and the office: in the mail server's own words where they are its.
fn cause(error: &Error) -> String {
    match error {
        Error::Broken(cause) => cause.to_string(),
        Error::Unavailable(cause) => cause.to_string(),
        other => other.problem().detail,
    }
}
