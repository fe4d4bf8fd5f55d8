//! What is sent about people, read into what is meant.

use crate::access::password;
use crate::web::input::{At, Faults, Input, Line, Name, Text, cut, part, read_word, text_of, word_schema};
use crate::{input, saying, texts, words};
use jiff::tz::TimeZone;
use serde_json::{Map, Value};
use sowmark_core::ids::{AccountId, ClientId, SeederId};
use sowmark_core::texts::Language;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};

words! {
    /// What a member may be.
    pub enum RoleWord {
        Office = "office",
        Crew = "crew",
        Agronomist = "agronomist",
    }
}

words! {
    /// Which units an organization reads in.
    pub enum UnitsWord {
        Metric = "metric",
        Us = "us",
    }
}

words! {
    /// Which units a person reads in: the organization's, or their own.
    pub enum OwnUnitsWord {
        Organization = "organization",
        Metric = "metric",
        Us = "us",
    }
}

/// A language of those that there are, by its tag.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OwnLanguage(pub Language);

impl Input for OwnLanguage {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let tags: Vec<_> = texts::languages().map(Language::tag).collect();
        read_word(value, at, faults, &tags, |tag| texts::language(tag).map(Self))
    }

    fn schema() -> RefOr<Schema> {
        word_schema(&texts::languages().map(Language::tag).collect::<Vec<_>>())
    }
}

words! {
    /// The decimal sign that a person reads.
    pub enum DecimalWord {
        Point = "point",
        Comma = "comma",
    }
}

/// A time zone by its IANA name.
#[derive(Clone, Debug)]
pub struct Zone(pub String);

impl Input for Zone {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let text = text_of(value, at, faults)?.trim();
        if TimeZone::get(text).is_ok() {
            return Some(Self(text.to_owned()));
        }
        let given = cut(text);
        faults.add(at, saying!("fault-no-zone", given = &given))
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).description(Some("An IANA time zone.")).into()
    }
}

/// An e-mail address, folded to lower case.
#[derive(Clone, Debug)]
pub struct Email(pub String);

impl Input for Email {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let text = Line::<254>::read(value, at, faults)?.0.to_lowercase();
        let is_address = text
            .split_once('@')
            .is_some_and(|(local, host)| !local.is_empty() && !host.is_empty() && !host.contains('@'));
        if is_address && !text.contains(char::is_whitespace) {
            Some(Self(text))
        } else {
            let given = cut(&text);
            faults.add(at, saying!("fault-no-email", given = &given))
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).max_length(Some(254)).into()
    }
}

/// A password, exactly as typed: blanks at its ends count. It never shows in a log.
#[derive(Clone)]
pub struct Password(pub String);

impl std::fmt::Debug for Password {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Password(…)")
    }
}

impl Input for Password {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        text_of(value, at, faults).map(|text| Self(text.to_owned()))
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).into()
    }
}

input! {
    /// An organization to be made.
    pub struct OrganizationDraft {
        pub name: Name,
        /// The time zone of its days and seasons.
        pub time_zone: Zone,
        pub units: UnitsWord,
    }
}

input! {
    /// A member to be added.
    pub struct MemberDraft {
        pub email: Email,
        pub name: Name,
        pub role: RoleWord,
        /// The clients that an agronomist is limited to; none, no limit.
        pub clients: Option<Vec<ClientId>>,
    }
}

input! {
    /// The first office account, with its organization.
    pub struct SetUpDraft {
        pub organization: Name,
        pub time_zone: Zone,
        pub units: UnitsWord,
        pub name: Name,
        pub email: Email,
        pub password: Password,
    } with check_password
}

/// A password that may be set.
fn check_password(fields: &Map<String, Value>, at: &At, faults: &mut Faults) {
    let email = part::<Email>(fields, "email").map_or_else(String::new, |email| email.0);
    if let Some(why) = part::<Password>(fields, "password").and_then(|typed| password::refusal(&typed.0, &email)) {
        faults.add::<()>(&at.key("password"), why);
    }
}

input! {
    /// A new password, by a one-time link.
    pub struct NewPasswordDraft {
        pub password: Password,
    }
}

input! {
    /// A new password, by who knows the old one.
    pub struct ChangePasswordDraft {
        pub old_password: Password,
        pub password: Password,
    }
}

input! {
    /// How a person reads from now on.
    pub struct ReadingDraft {
        pub units: OwnUnitsWord,
        pub decimal_sign: DecimalWord,
        /// Nothing, and it is the one that the browser asks for.
        pub language: Option<OwnLanguage>,
    }
}

input! {
    /// What a member is from now on.
    pub struct MemberChange {
        pub role: RoleWord,
        /// The clients that an agronomist is limited to; none, no limit.
        pub clients: Option<Vec<ClientId>>,
    }
}

input! {
    /// What a bearer token is called.
    pub struct TokenDraft {
        /// What it is for, to know it by when it must be ended.
        pub label: Name,
    }
}

input! {
    /// A crew to be added.
    pub entry struct CrewDraft {
        pub name: Name,
        /// The accounts of its members.
        pub members: Option<Vec<AccountId>>,
        /// The seeders that it sees and logs for.
        pub seeders: Option<Vec<SeederId>>,
    }
}

input! {
    /// What a crew is from now on: its whole list of members and seeders.
    pub struct CrewChange {
        pub name: Name,
        /// The accounts of its members.
        pub members: Vec<AccountId>,
        /// The seeders that it sees and logs for.
        pub seeders: Vec<SeederId>,
    }
}

input! {
    /// What the sign-in page is asked with.
    pub struct SignInAsked {
        /// Where to go then: a path of this site.
        pub back: Option<Text<4000>>,
        /// What was done just before.
        pub done: Option<Text<40>>,
    }
}
