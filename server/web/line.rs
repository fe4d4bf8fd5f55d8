//! Text that is sent: on one line, or on several.

use super::input::{At, Faults, Input, text_of};
use crate::saying;
use serde_json::Value;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};

/// Words on one line, at most `MOST` characters, with something in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line<const MOST: usize>(pub String);

/// A name or label.
pub type Name = Line<120>;

/// Text of several lines, at most `MOST` characters; may be empty.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Text<const MOST: usize>(pub String);

/// A note.
pub type Note = Text<4000>;

impl<const MOST: usize> Input for Line<MOST> {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let text = text_of(value, at, faults)?.trim();
        if text.is_empty() {
            faults.add(at, saying!("fault-empty"))
        } else if text.chars().any(char::is_control) {
            faults.add(at, saying!("fault-not-one-line"))
        } else {
            within(text, MOST, at, faults).map(Self)
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).min_length(Some(1)).max_length(Some(MOST)).into()
    }
}

impl<const MOST: usize> Input for Text<MOST> {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let text = text_of(value, at, faults)?.trim();
        if text.chars().any(|c| c.is_control() && !matches!(c, '\n' | '\r' | '\t')) {
            faults.add(at, saying!("fault-control-character"))
        } else {
            within(text, MOST, at, faults).map(Self)
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).max_length(Some(MOST)).into()
    }
}

fn within(text: &str, most: usize, at: &At, faults: &mut Faults) -> Option<String> {
    let length = text.chars().count();
    if length > most {
        faults.add(at, saying!("fault-too-long", length = length, most = most))
    } else {
        Some(text.to_owned())
    }
}
