//! Every list as a file for spreadsheets: comma-separated values by RFC 4180, streamed, so that a long list takes no more
//! memory than a short one.
//!
//! A list is an async function that fetches its rows through the acts of their kind, as the API does, and hands them to an
//! [`Out`]. It begins with a `Sheet`, which says what stands in each column. Headings are the same in every language.

pub mod asked;
mod body;
mod fleet;
mod ledger;
pub mod out;
mod seed;
pub mod sheet;
mod weighed;

use self::asked::ExportAsked;
use self::out::Out;
use crate::access::{Actor, Permission};
use crate::seed::client;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Posted, pairs};
use crate::web::input;
use crate::web::routes::{Need, Route};
use crate::words;
use axum::extract::{Path, RawQuery};
use axum::response::Response;
use sowmark_core::say;
use sowmark_core::words::Words;

/// Writes every page of a list, a connection for each: a slow reader holds none. `dated` leaves out what happened outside
/// the period.
macro_rules! pages {
    ($out:ident, $signed:ident, $sheet:ident, |$cx:ident, $scope:ident, $asked:ident| $page:expr) => {
        $crate::exchange::lists::pages!(@ $out, $signed, $sheet, $cx, $scope, $asked, $page, row, true)
    };
    ($out:ident, $signed:ident, $sheet:ident, |$cx:ident, $scope:ident, $asked:ident| $page:expr, dated) => {
        $crate::exchange::lists::pages!(@ $out, $signed, $sheet, $cx, $scope, $asked, $page,
            row, $out.is_asked(row.head.occurred_at))
    };
    ($out:ident, $signed:ident, $sheet:ident, |$cx:ident, $scope:ident, $asked:ident| $page:expr, dated, $row:ident: $is_shown:expr) => {
        $crate::exchange::lists::pages!(@ $out, $signed, $sheet, $cx, $scope, $asked, $page,
            $row, $out.is_asked($row.head.occurred_at) && $is_shown)
    };
    (@ $out:ident, $signed:ident, $sheet:ident, $cx:ident, $scope:ident, $asked:ident, $page:expr, $row:ident, $is_shown:expr) => {
        let $scope = &$signed.actor.scope;
        let mut of = $crate::web::paging::PageAsked { limit: Some($crate::web::input::Whole(500)), after: None };
        loop {
            let list = {
                let mut conn = $signed.app.read().await?;
                let ($cx, $asked) = (&mut conn.cx(), &of);
                $page.await?
            };
            for $row in &list.items {
                if $is_shown {
                    $out.row(&$sheet, $row).await?;
                }
            }
            match list.next {
                Some(next) => of.after = next.parse().ok(),
                None => break,
            }
        }
    };
}
use pages;

words! {
    /// A list that can be taken away.
    pub enum Listed {
        Seeders = "seeders",
        MeteringUnits = "metering-units",
        Rollers = "rollers",
        Scales = "scales",
        ScaleChecks = "scale-checks",
        Seasons = "seasons",
        Crews = "crews",
        Configurations = "configurations",
        Setups = "setups",
        Services = "services",
        LayUps = "lay-ups",
        Clients = "clients",
        Fields = "fields",
        Lots = "lots",
        LotTests = "lot-tests",
        Movements = "movements",
        Fills = "fills",
        Emptyings = "emptyings",
        Jobs = "jobs",
        Calibrations = "calibrations",
        Catches = "catches",
        Decisions = "decisions",
        Waivers = "waivers",
        Readiness = "readiness",
        Usage = "usage",
        Signatures = "signatures",
        Audit = "audit",
    }
}

impl Listed {
    /// As a person reads it.
    #[must_use]
    pub fn says(self, words: Words) -> String {
        say!(words, "exchange-list", list = self.word())
    }

    /// What it holds, in a sentence.
    #[must_use]
    pub fn what(self, words: Words) -> String {
        say!(words, "exchange-list-what", list = self.word())
    }

    /// What one must be allowed to take it away. A crew member takes the own jobs and no more, whatever they may look at.
    #[must_use]
    pub fn needs(self) -> Permission {
        match self {
            Self::Jobs | Self::Usage => Permission::ReadUsage,
            Self::Audit => Permission::ReadAudit,
            Self::Crews => Permission::KeepFleet,
            _ => Permission::ReadStock,
        }
    }

    /// Whether its rows happened at some moment, so that a period can be asked for.
    #[must_use]
    pub fn is_dated(self) -> bool {
        !matches!(
            self,
            Self::Seeders
                | Self::MeteringUnits
                | Self::Rollers
                | Self::Scales
                | Self::Seasons
                | Self::Crews
                | Self::Clients
                | Self::Fields
                | Self::Lots
                | Self::Readiness
        )
    }

    /// The lists that somebody may take away.
    #[must_use]
    pub fn of(actor: &Actor) -> Vec<Self> {
        Self::ALL.iter().copied().filter(|list| actor.may(list.needs())).collect()
    }

    async fn write(self, out: &mut Out, signed: &Signed) -> Result<(), Error> {
        match self {
            Self::Seeders => fleet::seeders(out, signed).await,
            Self::MeteringUnits => fleet::metering_units(out, signed).await,
            Self::Rollers => fleet::rollers(out, signed).await,
            Self::Scales => fleet::scales(out, signed).await,
            Self::ScaleChecks => fleet::scale_checks(out, signed).await,
            Self::Seasons => fleet::seasons(out, signed).await,
            Self::Crews => fleet::crews(out, signed).await,
            Self::Configurations => fleet::configurations(out, signed).await,
            Self::Setups => fleet::setups(out, signed).await,
            Self::Services => fleet::services(out, signed).await,
            Self::LayUps => fleet::lay_ups(out, signed).await,
            Self::Clients => seed::clients(out, signed).await,
            Self::Fields => seed::fields(out, signed).await,
            Self::Lots => seed::lots(out, signed).await,
            Self::LotTests => seed::lot_tests(out, signed).await,
            Self::Movements => seed::movements(out, signed).await,
            Self::Fills => seed::fills(out, signed).await,
            Self::Emptyings => seed::emptyings(out, signed).await,
            Self::Jobs => seed::jobs(out, signed).await,
            Self::Calibrations => weighed::calibrations(out, signed).await,
            Self::Catches => weighed::catches(out, signed).await,
            Self::Decisions => weighed::decisions(out, signed).await,
            Self::Waivers => ledger::waivers(out, signed).await,
            Self::Readiness => ledger::readiness(out, signed).await,
            Self::Usage => ledger::usage(out, signed).await,
            Self::Signatures => ledger::signatures(out, signed).await,
            Self::Audit => ledger::audit(out, signed).await,
        }
    }
}

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/exchange/csv/{list}", Need::May(Permission::ReadUsage), take_list)]
}

async fn take_list(signed: Signed, Path(name): Path<String>, RawQuery(query): RawQuery) -> Result<Response, Error> {
    let list = name.strip_suffix(".csv").and_then(Listed::from_word).ok_or_else(|| Error::not_there("page"))?;
    let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?);
    let asked = input::read::<ExportAsked>(&posted.query());
    if !signed.actor.may(list.needs()) {
        return Err(Error::Forbidden);
    }
    let asked = asked?;
    let signed = {
        let mut conn = signed.app.read().await?;
        client::act::for_client(&mut conn.cx(), &signed, asked.client_id).await?
    };
    if !signed.actor.may(list.needs()) {
        return Err(Error::Forbidden);
    }
    let way = asked.way(list, &signed)?;
    body::streamed(list, way, signed).await
}
