//! Records of every kind in the database: what one hangs on, its void, and all those of a seeder.

use super::free_text::FreeText;
use super::head::Head;
use crate::db::{Cx, Result, Work};
use crate::{args, queries};
use sowmark_core::ids::{AccountId, OrganizationId, SeederId};
use uuid::Uuid;

queries! {
    SUBJECT = "select e.kind, e.recorded_at, e.recorded_by,
            coalesce(cf.seeder_id, sv.seeder_id, lu.seeder_id, u.seeder_id) as seeder_id,
            coalesce(lt.lot_id, mv.lot_id, fi.lot_id, em.lot_id, jo.lot_id, ca.lot_id, dc.lot_id) as lot_id,
            u.id as metering_unit_id, sc.scale_id
        from entry e
        left join configuration cf on cf.organization_id = e.organization_id and cf.id = e.id
        left join service sv on sv.organization_id = e.organization_id and sv.id = e.id
        left join lay_up lu on lu.organization_id = e.organization_id and lu.id = e.id
        left join setup su on su.organization_id = e.organization_id and su.id = e.id
        left join fill fi on fi.organization_id = e.organization_id and fi.id = e.id
        left join emptying em on em.organization_id = e.organization_id and em.id = e.id
        left join job jo on jo.organization_id = e.organization_id and jo.id = e.id
        left join calibration ca on ca.organization_id = e.organization_id and ca.id = e.id
        left join decision de on de.organization_id = e.organization_id and de.id = e.id
        left join calibration dc on dc.organization_id = de.organization_id and dc.id = de.calibration_id
        left join waiver wa on wa.organization_id = e.organization_id and wa.id = e.id
        left join metering_unit u on u.organization_id = e.organization_id
            and u.id = coalesce(su.metering_unit_id, fi.metering_unit_id, em.metering_unit_id, jo.metering_unit_id,
                ca.metering_unit_id, dc.metering_unit_id, wa.metering_unit_id)
        left join lot_test lt on lt.organization_id = e.organization_id and lt.id = e.id
        left join movement mv on mv.organization_id = e.organization_id and mv.id = e.id
        left join scale_check sc on sc.organization_id = e.organization_id and sc.id = e.id
        where e.organization_id = $1 and e.id = $2";
    HEAD = "select * from recorded where organization_id = $1 and id = $2 and occurred_at is not null";
    ADD_VOID = "insert into void (organization_id, id, record_id, reason) values ($1, $2, $3, $4)
        on conflict (organization_id, record_id) do nothing";
    FIND_VOID = "select v.id, v.record_id, v.reason, e.recorded_at, e.recorded_by, a.name as recorded_by_name
        from void v join entry e on e.organization_id = v.organization_id and e.id = v.id
        left join account a on a.id = e.recorded_by
        where v.organization_id = $1 and v.id = $2";
    MOMENTS = "select occurred_at, recorded_at from entry where organization_id = $1 and id = $2 and occurred_at is not null";
    FIRST = "select min(e.occurred_at) from (
            select t.id from configuration t where t.organization_id = $1 and t.seeder_id = $2
            union all select t.id from service t where t.organization_id = $1 and t.seeder_id = $2
            union all select t.id from lay_up t where t.organization_id = $1 and t.seeder_id = $2
            union all select t.id from setup t
            join metering_unit m on m.organization_id = t.organization_id and m.id = t.metering_unit_id
            where t.organization_id = $1 and m.seeder_id = $2
            union all select t.id from fill t
            join metering_unit m on m.organization_id = t.organization_id and m.id = t.metering_unit_id
            where t.organization_id = $1 and m.seeder_id = $2
            union all select t.id from emptying t
            join metering_unit m on m.organization_id = t.organization_id and m.id = t.metering_unit_id
            where t.organization_id = $1 and m.seeder_id = $2
            union all select t.id from job t
            join metering_unit m on m.organization_id = t.organization_id and m.id = t.metering_unit_id
            where t.organization_id = $1 and m.seeder_id = $2
            union all select t.id from calibration t
            join metering_unit m on m.organization_id = t.organization_id and m.id = t.metering_unit_id
            where t.organization_id = $1 and m.seeder_id = $2
            union all select t.id from waiver t
            join metering_unit m on m.organization_id = t.organization_id and m.id = t.metering_unit_id
            where t.organization_id = $1 and m.seeder_id = $2
        ) t join entry e on e.organization_id = $1 and e.id = t.id";
    TIMELINE = "select r.*, t.metering_unit_id, u.label as unit, t.lot_id, t.subject, t.second, t.third, t.flag, t.runs,
            t.note, j.target_rate, f.area as field_area, f.client_id as field_client_id
        from (
            select c.id, cast(null as text) as subject, c.working_width as second, c.row_spacing as third,
                false as flag, 0 as runs, '' as note, cast(null as uuid) as metering_unit_id, cast(null as uuid) as lot_id
            from configuration c where c.organization_id = $1 and c.seeder_id = $2
            union all
            select s.id, s.component, cast(null as text), cast(null as text), s.affects_metering, 0, s.note,
                s.metering_unit_id, cast(null as uuid)
            from service s where s.organization_id = $1 and s.seeder_id = $2
            union all
            select l.id, cast(null as text), cast(null as text), cast(null as text), l.laid_up, 0, l.note,
                cast(null as uuid), cast(null as uuid)
            from lay_up l where l.organization_id = $1 and l.seeder_id = $2
            union all
            select s.id, o.label, s.drive_ratio, s.gate, false, s.runs, s.note, m.id, cast(null as uuid)
            from setup s join metering_unit m on m.organization_id = s.organization_id and m.id = s.metering_unit_id
            join roller o on o.organization_id = s.organization_id and o.id = s.roller_id
            where s.organization_id = $1 and m.seeder_id = $2
            union all
            select f.id, l.lot_number, f.mass, l.crop, false, 0, '', m.id, l.id
            from fill f join metering_unit m on m.organization_id = f.organization_id and m.id = f.metering_unit_id
            join lot l on l.organization_id = f.organization_id and l.id = f.lot_id
            where f.organization_id = $1 and m.seeder_id = $2
            union all
            select e.id, l.lot_number, e.mass, l.crop, e.to_empty, 0, '', m.id, l.id
            from emptying e join metering_unit m on m.organization_id = e.organization_id and m.id = e.metering_unit_id
            join lot l on l.organization_id = e.organization_id and l.id = e.lot_id
            where e.organization_id = $1 and m.seeder_id = $2
            union all
            select j.id, coalesce(f.name, j.field_name), j.area, j.seed_used, false, 0, j.note, m.id, j.lot_id
            from job j join metering_unit m on m.organization_id = j.organization_id and m.id = j.metering_unit_id
            left join field f on f.organization_id = j.organization_id and f.id = j.field_id
            where j.organization_id = $1 and m.seeder_id = $2
            union all
            select c.id, l.lot_number, c.verdict, l.crop, false, 0, c.note, m.id, l.id
            from calibration c join metering_unit m on m.organization_id = c.organization_id and m.id = c.metering_unit_id
            join lot l on l.organization_id = c.organization_id and l.id = c.lot_id
            where c.organization_id = $1 and m.seeder_id = $2
            union all
            select d.id, d.decision, cast(null as text), cast(null as text), false, 0, d.reason, m.id, c.lot_id
            from decision d join calibration c on c.organization_id = d.organization_id and c.id = d.calibration_id
            join metering_unit m on m.organization_id = c.organization_id and m.id = c.metering_unit_id
            where d.organization_id = $1 and m.seeder_id = $2
            union all
            select w.id, w.trigger_name, cast(null as text), cast(null as text), false, 0, w.reason, m.id, cast(null as uuid)
            from waiver w join metering_unit m on m.organization_id = w.organization_id and m.id = w.metering_unit_id
            where w.organization_id = $1 and m.seeder_id = $2
        ) t
        join recorded r on r.organization_id = $1 and r.id = t.id
        left join metering_unit u on u.organization_id = $1 and u.id = t.metering_unit_id
        left join job j on j.organization_id = $1 and j.id = t.id
        left join field f on f.organization_id = $1 and f.id = j.field_id
        where (r.occurred_at, r.recorded_at, r.id) < ($3, $4, $5) and r.occurred_at >= $9
          and ($6 = true or t.lot_id is null or exists (
            select 1 from lot l join membership_client m on m.organization_id = l.organization_id and m.client_id = l.client_id
            where l.organization_id = $1 and l.id = t.lot_id and m.account_id = $7))
        order by r.occurred_at desc, r.recorded_at desc, r.id desc limit $8";
}

/// What a record is and what it hangs on.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct SubjectRow {
    pub kind: String,
    pub recorded_at: i64,
    pub recorded_by: Option<Uuid>,
    /// The seeder, its own or that of its unit.
    pub seeder_id: Option<Uuid>,
    /// The lot, of a test, a movement, or a record of what a unit did with it.
    pub lot_id: Option<Uuid>,
    /// The unit, of what was done with one.
    pub metering_unit_id: Option<Uuid>,
    /// The scale, of a check.
    pub scale_id: Option<Uuid>,
}

/// That a record was voided.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct VoidRow {
    pub id: Uuid,
    pub record_id: Uuid,
    pub reason: String,
    pub recorded_at: i64,
    pub recorded_by: Option<Uuid>,
    pub recorded_by_name: Option<String>,
}

/// A record of any kind in a seeder's timeline. What `subject`, `second`, `third`, `flag` and `runs` hold depends on
/// the kind; `timeline.rs` makes the sentence.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct TimelineRow {
    #[sqlx(flatten)]
    pub head: Head,
    pub metering_unit_id: Option<Uuid>,
    pub unit: Option<String>,
    pub lot_id: Option<Uuid>,
    pub subject: Option<String>,
    pub second: Option<String>,
    pub third: Option<String>,
    pub flag: bool,
    pub runs: i64,
    pub note: FreeText,
    /// Of a job, as entered.
    pub target_rate: Option<String>,
    /// Of the field of a job, where that is kept, as entered.
    pub field_area: Option<String>,
    pub field_client_id: Option<Uuid>,
}

/// Which part of a timeline, and for whom.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stretch {
    pub before: (i64, i64, Uuid),
    /// The first moment that belongs to it, microseconds.
    pub from: i64,
    /// The account whose clients' lots alone are shown.
    pub limited_to: Option<AccountId>,
    pub limit: i64,
}

pub(super) async fn subject(cx: &mut Cx<'_>, organization: OrganizationId, record: Uuid) -> Result<Option<SubjectRow>> {
    cx.fetch_optional(SUBJECT, args![organization, record]).await
}

pub(super) async fn head(cx: &mut Cx<'_>, organization: OrganizationId, record: Uuid) -> Result<Option<Head>> {
    cx.fetch_optional(HEAD, args![organization, record]).await
}

/// Whether it was not void before.
pub(super) async fn add_void(work: &mut Work, id: Uuid, record: Uuid, reason: &str) -> Result<bool> {
    let organization = work.organization();
    Ok(work.cx().execute(ADD_VOID, args![organization, id, record, reason]).await? == 1)
}

pub(super) async fn find_void(cx: &mut Cx<'_>, organization: OrganizationId, id: Uuid) -> Result<Option<VoidRow>> {
    cx.fetch_optional(FIND_VOID, args![organization, id]).await
}

pub(super) async fn moments(cx: &mut Cx<'_>, organization: OrganizationId, record: Uuid) -> Result<Option<(i64, i64)>> {
    cx.fetch_optional(MOMENTS, args![organization, record]).await
}

/// When the first of a seeder's records happened; a decision comes after the catch that it is on.
pub(super) async fn first(cx: &mut Cx<'_>, organization: OrganizationId, seeder: SeederId) -> Result<Option<i64>> {
    let found: Option<(Option<i64>,)> = cx.fetch_optional(FIRST, args![organization, seeder]).await?;
    Ok(found.and_then(|(first,)| first))
}

pub(super) async fn timeline(
    cx: &mut Cx<'_>,
    organization: OrganizationId,
    seeder: SeederId,
    stretch: Stretch,
) -> Result<Vec<TimelineRow>> {
    let (occurred, recorded, id) = stretch.before;
    let everything = stretch.limited_to.is_none();
    let (limited_to, limit) = (stretch.limited_to, stretch.limit);
    let values = args![organization, seeder, occurred, recorded, id, everything, limited_to, limit, stretch.from];
    cx.fetch_all(TIMELINE, values).await
}
