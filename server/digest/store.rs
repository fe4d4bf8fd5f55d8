//! Choices and digests in the database.

use crate::db::{Cx, Result};
use crate::{args, queries};
use jiff::Timestamp;
use sowmark_core::ids::{AccountId, OrganizationId};
use uuid::Uuid;

queries! {
    CHOICES = "select c.organization_id, c.account_id, c.every, c.hour, c.language, c.chosen_at from digest_choice c
        join membership m on m.organization_id = c.organization_id and m.account_id = c.account_id
        where m.active = true order by c.organization_id, c.account_id";
    CHOICE = "select organization_id, account_id, every, hour, language, chosen_at from digest_choice
        where organization_id = $1 and account_id = $2";
    CHOOSE = "insert into digest_choice (organization_id, account_id, every, hour, language, chosen_at)
        values ($1, $2, $3, $4, $5, $6)
        on conflict (organization_id, account_id) do update set every = excluded.every, hour = excluded.hour,
            language = excluded.language, chosen_at = excluded.chosen_at";
    STOP = "delete from digest_choice where organization_id = $1 and account_id = $2";
    CLAIM = "insert into digest (organization_id, account_id, period, state, held_until, attempts)
        values ($1, $2, $3, 'waiting', $4, 1) on conflict (organization_id, account_id, period) do nothing";
    CLAIM_AGAIN = "update digest set held_until = $4, attempts = attempts + 1
        where organization_id = $1 and account_id = $2 and period = $3 and state = 'waiting' and held_until <= $5";
    IS_TAKEN = "select state from digest where organization_id = $1 and account_id = $2 and period = $3
        and (state <> 'waiting' or held_until > $4)";
    ATTEMPTS = "select attempts from digest where organization_id = $1 and account_id = $2 and period = $3";
    GIVE_UP_OLDER = "update digest set state = 'failed', ended_at = $4
        where organization_id = $1 and account_id = $2 and period < $3 and state = 'waiting'";
    FORGET_OLDER = "delete from digest where organization_id = $1 and account_id = $2 and period < $3";
    LAST_TOLD = "select told from digest where organization_id = $1 and account_id = $2 and state in ('sent', 'nothing')
        order by period desc limit 1";
    GIVE_STOP = "insert into digest_stop (organization_id, account_id, period, stop_hash) values ($1, $2, $3, $4)";
    FORGET_STOPS = "delete from digest_stop where organization_id = $1 and account_id = $2 and period < $3";
    END = "update digest set state = $4, ended_at = $5, told = $6, problem = null
        where organization_id = $1 and account_id = $2 and period = $3 and state = 'waiting'";
    FAIL = "update digest set state = $4, held_until = $5, problem = $6, ended_at = $7
        where organization_id = $1 and account_id = $2 and period = $3 and state = 'waiting'";
    OF_STOP = "select organization_id, account_id from digest_stop where stop_hash = $1";
    RECIPIENTS = "select c.account_id, a.name, a.email, c.every, c.hour, d.state, d.attempts, d.problem, d.ended_at, d.held_until
        from digest_choice c join account a on a.id = c.account_id
        join membership m on m.organization_id = c.organization_id and m.account_id = c.account_id
        left join digest d on d.organization_id = c.organization_id and d.account_id = c.account_id
            and d.period = (select max(x.period) from digest x
                where x.organization_id = c.organization_id and x.account_id = c.account_id)
        where c.organization_id = $1 and m.active = true order by a.name, c.account_id";
}

/// Who asked for digests, and when they are to come.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct ChoiceRow {
    organization_id: Uuid,
    account_id: Uuid,
    pub every: String,
    pub hour: i64,
    pub language: String,
    pub chosen_at: i64,
}

impl ChoiceRow {
    #[must_use]
    pub fn organization(&self) -> OrganizationId {
        OrganizationId(self.organization_id)
    }

    #[must_use]
    pub fn account(&self) -> AccountId {
        AccountId(self.account_id)
    }
}

/// Somebody who asked for digests, with what became of the last one.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct RecipientRow {
    pub account_id: Uuid,
    pub name: String,
    pub email: String,
    pub every: String,
    pub hour: i64,
    pub state: Option<String>,
    pub attempts: Option<i64>,
    pub problem: Option<String>,
    pub ended_at: Option<i64>,
    pub held_until: Option<i64>,
}

/// One person's digest of one period.
#[derive(Clone, Debug)]
pub(super) struct Key {
    pub(super) organization: OrganizationId,
    pub(super) account: AccountId,
    pub(super) period: String,
}

pub(super) async fn choices(cx: &mut Cx<'_>) -> Result<Vec<ChoiceRow>> {
    cx.fetch_all(CHOICES, &[]).await
}

pub(super) async fn choice(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    account: AccountId,
) -> Result<Option<ChoiceRow>> {
    cx.fetch_optional(CHOICE, args![organization, account]).await
}

pub(super) async fn choose(
    cx: &mut Cx<'_>,
    (organization, account): (OrganizationId, AccountId),
    every: &str,
    hour: i64,
    language: &str,
    now: Timestamp,
) -> Result<()> {
    cx.execute(CHOOSE, args![organization, account, every, hour, language, now]).await?;
    Ok(())
}

pub(super) async fn stop(cx: &mut Cx<'_>, organization: OrganizationId, account: AccountId) -> Result<()> {
    cx.execute(STOP, args![organization, account]).await?;
    Ok(())
}

/// Whether a digest is done, or somebody has it: asked first, so that looking writes nothing.
pub(super) async fn is_taken(cx: &mut Cx<'_>, key: &Key, now: Timestamp) -> Result<bool> {
    let (organization, account, period) = (key.organization, key.account, key.period.as_str());
    let taken: Option<(String,)> = cx.fetch_optional(IS_TAKEN, args![organization, account, period, now]).await?;
    Ok(taken.is_some())
}

/// Takes a period's digest, for as long as `held_until`; which attempt it is. None when somebody else has it, or it is
/// done.
pub(super) async fn claim(cx: &mut Cx<'_>, key: &Key, held_until: Timestamp, now: Timestamp) -> Result<Option<i64>> {
    let Key { organization, account, period } = key;
    let (organization, account, period) = (*organization, *account, period.as_str());
    let is_new = cx.execute(CLAIM, args![organization, account, period, held_until]).await? == 1;
    if !is_new && cx.execute(CLAIM_AGAIN, args![organization, account, period, held_until, now]).await? == 0 {
        return Ok(None);
    }
    cx.execute(GIVE_UP_OLDER, args![organization, account, period, now]).await?;
    let (attempts,): (i64,) = cx.fetch_one(ATTEMPTS, args![organization, account, period]).await?;
    Ok(Some(attempts))
}

/// Drops a person's digests from before a day: nobody follows a link in so old a letter.
pub(super) async fn forget(cx: &mut Cx<'_>, key: &Key, before: &str) -> Result<()> {
    cx.execute(FORGET_OLDER, args![key.organization, key.account, before]).await?;
    cx.execute(FORGET_STOPS, args![key.organization, key.account, before]).await?;
    Ok(())
}

/// The ids of what was due when the last digest was settled, as JSON.
pub(super) async fn last_told(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    account: AccountId,
) -> Result<Option<String>> {
    let told: Option<(Option<String>,)> = cx.fetch_optional(LAST_TOLD, args![organization, account]).await?;
    Ok(told.and_then(|(told,)| told))
}

pub(super) async fn give_stop(cx: &mut Cx<'_>, key: &Key, hash: [u8; 32]) -> Result<()> {
    cx.execute(GIVE_STOP, args![key.organization, key.account, key.period.as_str(), hash]).await?;
    Ok(())
}

pub(super) async fn end(cx: &mut Cx<'_>, key: &Key, state: &str, told: &str, now: Timestamp) -> Result<()> {
    cx.execute(END, args![key.organization, key.account, key.period.as_str(), state, now, told]).await?;
    Ok(())
}

/// What failed waits until `again`; without one it is given up.
pub(super) async fn fail(
    cx: &mut Cx<'_>,
    key: &Key,
    again: Option<Timestamp>,
    problem: &str,
    now: Timestamp,
) -> Result<()> {
    let state = if again.is_some() { "waiting" } else { "failed" };
    let ended = if again.is_some() { None } else { Some(now) };
    let (period, again) = (key.period.as_str(), again.unwrap_or(now));
    cx.execute(FAIL, args![key.organization, key.account, period, state, again, problem, ended]).await?;
    Ok(())
}

/// Whose digest a link to stop stands in.
pub(super) async fn of_stop(cx: &mut Cx<'_>, hash: [u8; 32]) -> Result<Option<(OrganizationId, AccountId)>> {
    let found: Option<(Uuid, Uuid)> = cx.fetch_optional(OF_STOP, args![hash]).await?;
    Ok(found.map(|(organization, account)| (OrganizationId(organization), AccountId(account))))
}

pub(super) async fn recipients(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<RecipientRow>> {
    cx.fetch_all(RECIPIENTS, args![organization]).await
}
