//! Why a file of texts was refused, for whoever wrote it. In English: there may be no other language yet.

use std::fmt;

use fluent_bundle::FluentError;
use fluent_syntax::parser::ParserError;

/// A catalogue that cannot be made: which file, which line, what is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CatalogueError {
    fault: Fault,
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum Fault {
    Tag(String),
    Syntax { file: String, line: usize, says: String },
    Twice { file: String, keys: Vec<String> },
}

impl CatalogueError {
    pub(super) fn tag(given: &str) -> Self {
        Self { fault: Fault::Tag(given.to_owned()) }
    }

    pub(super) fn syntax(file: &str, content: &str, faults: &[ParserError]) -> Self {
        let first = faults.iter().min_by_key(|fault| fault.pos.start);
        let before = first.and_then(|fault| content.get(..fault.pos.start)).unwrap_or_default();
        let says = first.map(|fault| fault.kind.to_string()).unwrap_or_default();
        Self { fault: Fault::Syntax { file: file.to_owned(), line: before.matches('\n').count() + 1, says } }
    }

    pub(super) fn twice(file: &str, faults: &[FluentError]) -> Self {
        let keys = faults.iter().map(|fault| match fault {
            FluentError::Overriding { id, .. } => id.clone(),
            other => other.to_string(),
        });
        Self { fault: Fault::Twice { file: file.to_owned(), keys: keys.collect() } }
    }

    /// The line at fault, where it is the syntax.
    pub const fn line(&self) -> Option<usize> {
        match &self.fault {
            Fault::Syntax { line, .. } => Some(*line),
            Fault::Tag(_) | Fault::Twice { .. } => None,
        }
    }
}

impl fmt::Display for CatalogueError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.fault {
            Fault::Tag(given) => write!(f, "{given:?} is no language; write a tag like es or pt-BR"),
            Fault::Syntax { file, line, says } => {
                write!(f, "{file}, line {line}: {says}; write key = text, and go on indented on the next line")
            }
            Fault::Twice { file, keys } => {
                write!(f, "{file}: {} stands twice; every key has one text", keys.join(", "))
            }
        }
    }
}

impl std::error::Error for CatalogueError {}
