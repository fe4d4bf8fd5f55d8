//! What somebody typed beside the facts of a record: a note, why a trigger was let pass, why a record does not stand.
//!
//! An agronomist limited to clients sees theirs and nothing else. A machine's own records belong to no client: their facts
//! are told to whoever sees the machine, because the clients' numbers rest on them, but what was typed beside them was typed
//! about anything and may name another client. So it is told only to who sees all clients. This is decided here and nowhere
//! else: the text cannot be read without saying whose record it belongs to and who asks. Whoever cuts out a part of the
//! records for one client, a report or a list, asks with that client's scope and is answered alike.

use crate::access::{Reach, Scope};
use crate::db::kind::Kind;
use serde_json::Value;

/// Text that somebody typed, as the database has it: nobody's yet.
#[derive(Clone, Debug, Default, PartialEq, Eq, sqlx::Type)]
#[sqlx(transparent)]
pub struct FreeText(String);

impl FreeText {
    /// The text, for who may read what was typed beside a record of this kind; none where it is withheld.
    #[must_use]
    pub fn told(&self, of: Option<Kind>, scope: &Scope) -> Option<&str> {
        may_read(of, scope).then_some(self.0.as_str())
    }
}

impl From<&str> for FreeText {
    fn from(text: &str) -> Self {
        Self(text.to_owned())
    }
}

/// Whether somebody who sees a record of this kind reads what was typed beside it. Of a kind that is not known: only who sees
/// all.
#[must_use]
pub fn may_read(of: Option<Kind>, scope: &Scope) -> bool {
    scope.clients == Reach::All || of.is_some_and(is_of_a_lot)
}

/// Whether the record is one of a lot, and so of the lot's client: nobody else's sees it.
fn is_of_a_lot(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Fill | Kind::Emptying | Kind::Job | Kind::LotTest | Kind::Movement | Kind::Calibration | Kind::Decision
    )
}

/// The members under which drafts of records take free text.
const TYPED: [&str; 2] = ["note", "reason"];

/// What was sent with a record, without what was typed beside its facts: null stands for it.
pub fn withhold(sent: &mut Value) {
    match sent {
        Value::Object(members) => {
            for (name, value) in members {
                if TYPED.contains(&name.as_str()) {
                    *value = Value::Null;
                } else {
                    withhold(value);
                }
            }
        }
        Value::Array(items) => items.iter_mut().for_each(withhold),
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::{FreeText, withhold};
    use crate::access::{Reach, Scope};
    use crate::db::kind::Kind;
    use serde_json::json;
    use sowmark_core::ids::{ClientId, OrganizationId};
    use std::collections::HashSet;
    use uuid::Uuid;

    fn scope(clients: Reach<ClientId>) -> Scope {
        Scope { organization: OrganizationId(Uuid::nil()), seeders: Reach::All, lots: Reach::All, clients }
    }

    #[test]
    fn a_machines_text_is_told_to_who_sees_all_clients_and_a_lots_to_whoever_sees_the_lot() {
        let text = FreeText::from("worn");
        let (all, some) = (scope(Reach::All), scope(Reach::Only(HashSet::from([ClientId(Uuid::nil())]))));
        for &kind in Kind::ALL.iter().filter(|kind| kind.is_record()) {
            assert_eq!(text.told(Some(kind), &all), Some("worn"), "{kind}");
            let is_machines = matches!(
                kind,
                Kind::Configuration | Kind::Setup | Kind::Service | Kind::LayUp | Kind::ScaleCheck | Kind::Waiver
            );
            assert_eq!(text.told(Some(kind), &some).is_none(), is_machines, "{kind}");
        }
        assert_eq!((text.told(None, &some), text.told(None, &all)), (None, Some("worn")));
    }

    #[test]
    fn of_what_was_sent_only_what_was_typed_is_withheld() {
        let mut sent =
            json!({ "runs": 8, "gate": "12", "note": "for them", "of": [{ "reason": "rain", "until": "x" }] });
        withhold(&mut sent);
        assert_eq!(sent, json!({ "runs": 8, "gate": "12", "note": null, "of": [{ "reason": null, "until": "x" }] }));
    }
}
