//! What is sent, read into what is meant: every fault of a request at once, each with its place.
//!
//! A draft is declared with [`input!`](crate::input): the declaration reads JSON, refuses unknown fields and describes
//! itself in the OpenAPI document, so that the three cannot drift apart. serde's derive was rejected: it stops at the
//! first fault and names no pointer. Pages send the same tree, built from their fields by `posted.rs`.

pub use super::line::{Line, Name, Note, Text};
pub use super::number::{Percent, Positive, Rpm, Whole};
pub use super::time::parse_stamp;

use super::error::{Error, Fault};
use super::saying::Saying;
use crate::saying;
use serde_json::{Map, Value};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ArrayBuilder, KnownFormat, ObjectBuilder, Schema, SchemaFormat, SchemaType, Type};
use uuid::Uuid;

/// Where in the request something stands: an RFC 6901 pointer.
#[derive(Clone, Debug, Default)]
pub struct At(String);

impl At {
    #[must_use]
    pub fn key(&self, key: &str) -> Self {
        Self(format!("{}/{}", self.0, key.replace('~', "~0").replace('/', "~1")))
    }

    #[must_use]
    pub fn index(&self, index: usize) -> Self {
        Self(format!("{}/{index}", self.0))
    }
}

impl std::fmt::Display for At {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

/// The faults found so far.
#[derive(Debug, Default)]
pub struct Faults(Vec<Fault>);

impl Faults {
    /// Notes a fault; answers none, so that a reader can end with it. What core says is a clause; here it is a sentence.
    pub fn add<T>(&mut self, at: &At, detail: impl Into<Saying>) -> Option<T> {
        self.0.push(Fault::new(at.to_string(), detail.into().ended()));
        None
    }

    /// The result, if there was no fault.
    ///
    /// # Errors
    /// All faults, if there was one.
    pub fn finish<T>(self, read: Option<T>) -> Result<T, Error> {
        match read {
            Some(read) if self.0.is_empty() => Ok(read),
            _ => Err(Error::Faults(self.0)),
        }
    }

    /// The faults alone.
    #[must_use]
    pub fn found(self) -> Vec<Fault> {
        self.0
    }

    /// The object at a place, whatever its fields are.
    pub fn object_of_any<'v>(&mut self, value: Option<&'v Value>, at: &At) -> Option<&'v Map<String, Value>> {
        match value {
            Some(Value::Object(fields)) => Some(fields),
            other => self.object(other, at, &[]),
        }
    }

    /// The object at a place, with no field but the known ones.
    pub fn object<'v>(&mut self, value: Option<&'v Value>, at: &At, known: &[&str]) -> Option<&'v Map<String, Value>> {
        match value {
            Some(Value::Object(fields)) => {
                for name in fields.keys().filter(|name| !known.contains(&name.as_str())) {
                    let known = known.join(", ");
                    self.add::<()>(&at.key(name), saying!("fault-field-unknown", known = &known));
                }
                Some(fields)
            }
            other => self.wrong_kind(other, at, "object"),
        }
    }

    /// Something is missing or of another kind than wanted: `object`, `text`, `list`, `flag`, `number`, or another variant
    /// of the text `fault-wrong-kind`.
    pub fn wrong_kind<T>(&mut self, value: Option<&Value>, at: &At, wanted: &'static str) -> Option<T> {
        match value {
            None | Some(Value::Null) => self.add(at, saying!("fault-missing")),
            Some(other) => {
                let given = kind_of(other);
                self.add(at, saying!("fault-wrong-kind", given = given, wanted = wanted))
            }
        }
    }
}

/// A value's kind, as texts of faults choose by it.
#[must_use]
pub fn kind_of(value: &Value) -> &'static str {
    match value {
        Value::Null => "null",
        Value::Bool(_) => "flag",
        Value::Number(_) => "number",
        Value::String(_) => "text",
        Value::Array(_) => "list",
        Value::Object(_) => "object",
    }
}

/// Something that can be read from a request.
pub trait Input: Sized {
    /// Reads it; none when a fault was noted. An absent field is `None`.
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self>;
    /// How it is described.
    fn schema() -> RefOr<Schema>;
    /// Whether it must be there.
    fn is_required() -> bool {
        true
    }
}

/// Reads a whole request.
///
/// # Errors
/// 422 with every fault.
pub fn read<T: Input>(value: &Value) -> Result<T, Error> {
    let mut faults = Faults::default();
    let read = T::read(Some(value), &At::default(), &mut faults);
    faults.finish(read)
}

/// A field that reads well, and none without a word where it does not: for faults that no single field can know, which are
/// found whatever else is wrong.
pub fn part<T: Input>(fields: &Map<String, Value>, key: &str) -> Option<T> {
    T::read(fields.get(key), &At::default(), &mut Faults::default())
}

/// Declares a draft. `entry` adds the optional client-made `id`; `record` adds `id`, `occurred_at` and `corrects`. A function
/// named behind `with` finds what no single field can know.
#[macro_export]
macro_rules! input {
    ($(#[doc = $doc:literal])* pub entry struct $name:ident { $($body:tt)* } $(with $check:path)?) => {
        $crate::input! {
            $(#[doc = $doc])*
            pub struct $name {
                /// Made by the sender; sent again with the same content it changes nothing.
                pub id: Option<uuid::Uuid>,
                $($body)*
            } $(with $check)?
        }
    };
    ($(#[doc = $doc:literal])* pub record struct $name:ident { $($body:tt)* } $(with $check:path)?) => {
        $crate::input! {
            $(#[doc = $doc])*
            pub struct $name {
                /// Made by the sender; sent again with the same content it changes nothing.
                pub id: Option<uuid::Uuid>,
                /// When it happened, RFC 3339 with offset.
                pub occurred_at: $crate::clock::Stamp,
                /// The record of the same kind that this one replaces.
                pub corrects: Option<uuid::Uuid>,
                $($body)*
            } $(with $check)?
        }
    };
    ($(#[doc = $doc:literal])* pub struct $name:ident { $($(#[doc = $field_doc:literal])* pub $field:ident: $type:ty),* $(,)? } $(with $check:path)?) => {
        $(#[doc = $doc])*
        // A draft may be declared where nobody else reaches it.
        #[allow(unreachable_pub)]
        #[derive(Clone, Debug)]
        pub struct $name {
            $($(#[doc = $field_doc])* pub $field: $type),*
        }

        impl $crate::web::input::Input for $name {
            fn read(
                value: Option<&serde_json::Value>,
                at: &$crate::web::input::At,
                faults: &mut $crate::web::input::Faults,
            ) -> Option<Self> {
                let fields = faults.object(value, at, &[$(stringify!($field)),*])?;
                $(let $field = <$type as $crate::web::input::Input>::read(
                    fields.get(stringify!($field)), &at.key(stringify!($field)), faults);)*
                $($check(fields, at, faults);)?
                Some(Self { $($field: $field?),* })
            }

            fn schema() -> utoipa::openapi::RefOr<utoipa::openapi::schema::Schema> {
                let object = utoipa::openapi::schema::ObjectBuilder::new();
                $(
                    let object = object.property(
                        stringify!($field),
                        $crate::web::input::described::<$type>(concat!($($field_doc),*)),
                    );
                    let object = if <$type as $crate::web::input::Input>::is_required() {
                        object.required(stringify!($field))
                    } else {
                        object
                    };
                )*
                object.description(Some(concat!($($doc),*).trim())).additional_properties(Some(
                    utoipa::openapi::schema::AdditionalProperties::FreeForm(false))).into()
            }
        }
    };
}

/// The schema of a field, with its description where the schema has none of its own.
#[must_use]
pub fn described<T: Input>(description: &str) -> RefOr<Schema> {
    let description = description.trim();
    match T::schema() {
        RefOr::T(Schema::Object(mut object)) if !description.is_empty() && object.description.is_none() => {
            object.description = Some(description.to_owned());
            object.into()
        }
        other => other,
    }
}

/// Declares a closed list of words.
#[macro_export]
macro_rules! words {
    ($(#[$meta:meta])* pub enum $name:ident { $($(#[doc = $doc:literal])* $variant:ident = $word:literal),* $(,)? }) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum $name {
            $($(#[doc = $doc])* $variant),*
        }

        impl $name {
            /// Every word.
            pub const ALL: &[Self] = &[$(Self::$variant),*];

            /// The word as it is sent and stored.
            #[must_use]
            pub fn word(self) -> &'static str {
                match self {
                    $(Self::$variant => $word),*
                }
            }

            /// The meaning of a word.
            #[must_use]
            pub fn from_word(word: &str) -> Option<Self> {
                match word {
                    $($word => Some(Self::$variant),)*
                    _ => None,
                }
            }
        }

        impl $crate::web::input::Input for $name {
            fn read(
                value: Option<&serde_json::Value>,
                at: &$crate::web::input::At,
                faults: &mut $crate::web::input::Faults,
            ) -> Option<Self> {
                $crate::web::input::read_word(value, at, faults, &[$($word),*], Self::from_word)
            }

            fn schema() -> utoipa::openapi::RefOr<utoipa::openapi::schema::Schema> {
                $crate::web::input::word_schema(&[$($word),*])
            }
        }
    };
}

/// Reads one of a list of words.
pub fn read_word<T>(
    value: Option<&Value>,
    at: &At,
    faults: &mut Faults,
    words: &[&str],
    from: impl Fn(&str) -> Option<T>,
) -> Option<T> {
    let text = text_of(value, at, faults)?;
    from(text).or_else(|| {
        let (given, known) = (cut(text), words.join(", "));
        faults.add(at, saying!("fault-word-unknown", given = &given, known = &known))
    })
}

/// The schema of a list of words.
#[must_use]
pub fn word_schema(words: &[&str]) -> RefOr<Schema> {
    ObjectBuilder::new().schema_type(Type::String).enum_values(Some(words.iter().copied())).into()
}

/// What was given, short enough for a message, which sets it between its language's quotation marks.
#[must_use]
pub fn cut(text: &str) -> String {
    let mut short: String = text.chars().take(40).filter(|c| !c.is_control()).collect();
    if text.chars().count() > 40 {
        short.push('…');
    }
    short
}

/// The same between those of English.
#[must_use]
pub fn shown(text: &str) -> String {
    format!("\u{201c}{}\u{201d}", cut(text))
}

/// The text at a place.
pub fn text_of<'v>(value: Option<&'v Value>, at: &At, faults: &mut Faults) -> Option<&'v str> {
    match value {
        Some(Value::String(text)) => Some(text),
        other => faults.wrong_kind(other, at, "text"),
    }
}

impl<T: Input> Input for Option<T> {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        match value {
            None | Some(Value::Null) => Some(None),
            there => T::read(there, at, faults).map(Some),
        }
    }

    fn schema() -> RefOr<Schema> {
        match T::schema() {
            RefOr::T(Schema::Object(mut object)) => {
                if let SchemaType::Type(one) = object.schema_type {
                    object.schema_type = SchemaType::from_iter([one, Type::Null]);
                }
                object.into()
            }
            other => other,
        }
    }

    fn is_required() -> bool {
        false
    }
}

/// A list, of a length that a person could have meant.
const LONGEST_LIST: usize = 500;

impl<T: Input> Input for Vec<T> {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        match value {
            Some(Value::Array(items)) if items.len() > LONGEST_LIST => {
                let count = items.len();
                faults.add(at, saying!("fault-list-too-long", count = count, most = LONGEST_LIST))
            }
            Some(Value::Array(items)) => {
                let read: Vec<Option<T>> =
                    items.iter().enumerate().map(|(i, item)| T::read(Some(item), &at.index(i), faults)).collect();
                read.into_iter().collect()
            }
            other => faults.wrong_kind(other, at, "list"),
        }
    }

    fn schema() -> RefOr<Schema> {
        ArrayBuilder::new().items(T::schema()).into()
    }
}

impl Input for bool {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        match value {
            Some(Value::Bool(flag)) => Some(*flag),
            // A ticked box of a form.
            Some(Value::String(text)) if text == "true" || text == "on" => Some(true),
            Some(Value::String(text)) if text == "false" => Some(false),
            other => faults.wrong_kind(other, at, "flag"),
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::Boolean).into()
    }
}

impl Input for Uuid {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let text = text_of(value, at, faults)?;
        match Uuid::try_parse(text) {
            Ok(id) if id.is_nil() || id.is_max() => faults.add(at, saying!("fault-id-of-nothing")),
            Ok(id) => Some(id),
            Err(_) => {
                let given = cut(text);
                faults.add(at, saying!("fault-no-id", given = &given))
            }
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).format(Some(SchemaFormat::KnownFormat(KnownFormat::Uuid))).into()
    }
}

macro_rules! id_inputs {
    ($($id:ident),* $(,)?) => { $(
        impl Input for sowmark_core::ids::$id {
            fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
                Uuid::read(value, at, faults).map(Self)
            }

            fn schema() -> RefOr<Schema> {
                Uuid::schema()
            }
        }
    )* };
}

id_inputs!(
    AccountId,
    ClientId,
    CrewId,
    SeederId,
    MeteringUnitId,
    RollerId,
    LotId,
    SeasonId,
    ScaleId,
    FieldId,
    CalibrationId
);
