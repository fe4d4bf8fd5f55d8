//! Lines of the trail with what they are about: its name, and the page where it can be read. For the page alone; the chain
//! knows kinds and ids.

use super::StoredLine;
use crate::access::{Actor, Permission};
use crate::db::kind::Kind;
use crate::db::{Cx, Result};
use crate::{args, queries};
use sowmark_core::ids::{AccountId, OrganizationId};
use uuid::Uuid;

queries! {
    NAMED = "select a.seq, a.at, a.account_id, p.name, p.email, a.action, a.subject_kind, a.subject_id, a.change, a.previous_hash, a.hash,
            s.id as seeder_id, s.name as seeder, u.label as unit, l.id as lot_id, l.lot_number as lot,
            de.calibration_id as calibration_id,
            coalesce(o.label, n.name, b.name, f.name, c.name, w.name, m.name) as thing
        from audit a
        left join account p on p.id = a.account_id
        left join configuration cf on cf.organization_id = a.organization_id and cf.id = a.subject_id
        left join service sv on sv.organization_id = a.organization_id and sv.id = a.subject_id
        left join lay_up lu on lu.organization_id = a.organization_id and lu.id = a.subject_id
        left join setup su on su.organization_id = a.organization_id and su.id = a.subject_id
        left join fill fi on fi.organization_id = a.organization_id and fi.id = a.subject_id
        left join emptying em on em.organization_id = a.organization_id and em.id = a.subject_id
        left join job jo on jo.organization_id = a.organization_id and jo.id = a.subject_id
        left join calibration ca on ca.organization_id = a.organization_id and ca.id = a.subject_id
        left join decision de on de.organization_id = a.organization_id and de.id = a.subject_id
        left join calibration dc on dc.organization_id = de.organization_id and dc.id = de.calibration_id
        left join waiver wa on wa.organization_id = a.organization_id and wa.id = a.subject_id
        left join lot_test lt on lt.organization_id = a.organization_id and lt.id = a.subject_id
        left join movement mv on mv.organization_id = a.organization_id and mv.id = a.subject_id
        left join scale_check sk on sk.organization_id = a.organization_id and sk.id = a.subject_id
        left join metering_unit u on u.organization_id = a.organization_id
            and u.id = coalesce(su.metering_unit_id, fi.metering_unit_id, em.metering_unit_id, jo.metering_unit_id,
                ca.metering_unit_id, dc.metering_unit_id, wa.metering_unit_id, sv.metering_unit_id, a.subject_id)
        left join seeder s on s.organization_id = a.organization_id
            and s.id = coalesce(cf.seeder_id, sv.seeder_id, lu.seeder_id, u.seeder_id, a.subject_id)
        left join lot l on l.organization_id = a.organization_id
            and l.id = coalesce(lt.lot_id, mv.lot_id, fi.lot_id, em.lot_id, jo.lot_id, ca.lot_id, dc.lot_id, a.subject_id)
        left join roller o on o.organization_id = a.organization_id and o.id = a.subject_id
        left join season n on n.organization_id = a.organization_id and n.id = a.subject_id
        left join scale b on b.organization_id = a.organization_id and b.id = coalesce(sk.scale_id, a.subject_id)
        left join field f on f.organization_id = a.organization_id and f.id = a.subject_id
        left join client c on c.organization_id = a.organization_id and c.id = a.subject_id
        left join crew w on w.organization_id = a.organization_id and w.id = a.subject_id
        left join account m on m.id = a.subject_id
        where a.organization_id = $1 and a.seq < $2
            and ($3 = true or a.subject_kind = $4) and ($5 = true or a.account_id = $6)
        order by a.seq desc limit $7";
    PEOPLE = "select p.id, p.name from membership m join account p on p.id = m.account_id
        where m.organization_id = $1 order by p.name, p.id";
}

/// Which lines are wanted.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    /// Those before this number.
    pub(super) before: i64,
    /// About one kind alone.
    pub(super) kind: Option<String>,
    /// Of one person alone.
    pub(super) who: Option<AccountId>,
}

/// A line, and what it is about as far as that has a name.
#[derive(Clone, Debug, sqlx::FromRow)]
pub(super) struct NamedLine {
    #[sqlx(flatten)]
    pub(super) line: StoredLine,
    #[sqlx(flatten)]
    pub(super) about: About,
}

/// What a line is about: a thing with a name, or what a record hangs on.
#[derive(Clone, Debug, Default, sqlx::FromRow)]
pub(super) struct About {
    seeder_id: Option<Uuid>,
    seeder: Option<String>,
    unit: Option<String>,
    lot_id: Option<Uuid>,
    lot: Option<String>,
    calibration_id: Option<Uuid>,
    thing: Option<String>,
}

impl About {
    /// Its names, the widest first; empty where it has none.
    pub(super) fn name(&self) -> String {
        let names = [&self.thing, &self.seeder, &self.unit, &self.lot];
        names.into_iter().flatten().map(String::as_str).collect::<Vec<_>>().join(", ")
    }

    /// The page where it can be read, for who may; none where it has none.
    pub(super) fn href(&self, line: &StoredLine, actor: &Actor) -> Option<String> {
        let id = line.subject_id;
        let if_may = |permission, path: &str| actor.may(permission).then(|| path.to_owned());
        match Kind::from_word(&line.subject_kind)? {
            Kind::Lot | Kind::LotTest | Kind::Movement => self.lot_id.map(|lot| format!("/lots/{lot}")),
            Kind::Seeder | Kind::MeteringUnit => self.seeder_id.map(|seeder| format!("/seeders/{seeder}")),
            Kind::Configuration
            | Kind::Setup
            | Kind::Service
            | Kind::LayUp
            | Kind::Fill
            | Kind::Emptying
            | Kind::Job
            | Kind::Waiver => self.seeder_id.map(|seeder| format!("/seeders/{seeder}#{id}")),
            Kind::Calibration => Some(format!("/calibrations/{id}")),
            Kind::Decision => self.calibration_id.map(|calibration| format!("/calibrations/{calibration}")),
            Kind::Signature => if_may(Permission::ReadStock, &format!("/usage/signatures/{id}")),
            Kind::Roller => if_may(Permission::KeepFleet, "/rollers"),
            Kind::Season => if_may(Permission::KeepFleet, "/seasons"),
            Kind::Policy => if_may(Permission::KeepFleet, "/tolerances"),
            Kind::Client => if_may(Permission::KeepFleet, "/clients"),
            Kind::Field => if_may(Permission::ReadFleet, "/fields"),
            Kind::Scale | Kind::ScaleCheck => if_may(Permission::Log, "/scales"),
            Kind::Crew | Kind::Membership | Kind::Account => if_may(Permission::KeepPeople, "/people"),
            Kind::Organization
            | Kind::Session
            | Kind::BearerToken
            | Kind::FeedAddress
            | Kind::TaskFile
            | Kind::Void
            | Kind::Entry => None,
        }
    }
}

/// Lines before a number, newest first, each with what it is about.
pub(super) async fn named(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    wanted: &Wanted,
    limit: i64,
) -> Result<Vec<NamedLine>> {
    let Wanted { before, kind, who } = wanted;
    let (kind_word, anybody) = (kind.clone().unwrap_or_default(), AccountId(Uuid::nil()));
    cx.fetch_all(
        NAMED,
        args![organization, *before, kind.is_none(), kind_word, who.is_none(), who.unwrap_or(anybody), limit],
    )
    .await
}

/// Who is or was a member, by name.
pub(super) async fn people(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Vec<(Uuid, String)>> {
    cx.fetch_all(PEOPLE, args![organization]).await
}
