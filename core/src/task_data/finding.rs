//! What is wrong in a file, or stands in it and is not read, with its place.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::{say, words::Words};

/// Where something stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Place {
    /// The file, by its name in the format.
    pub file: String,
    /// The line, from 1 on; none for the file as a whole.
    pub line: Option<u32>,
    /// The element: its id, or else its tag.
    pub element: Option<String>,
}

impl Place {
    /// A file as a whole.
    pub fn file(name: &str) -> Self {
        Self { file: name.to_owned(), line: None, element: None }
    }

    /// With what is wrong there.
    pub const fn finding(self, what: What) -> Finding {
        Finding { place: self, what }
    }

    /// For a person: "TASKDATA.XML, line 12, TIM".
    pub fn says(&self, words: Words) -> String {
        let file = &self.file;
        match (self.line, &self.element) {
            (None, _) if file == "zip" => say!(words, "task-data-place-zip"),
            (None, _) => file.clone(),
            (Some(line), None) => say!(words, "task-data-place-line", file = file, line = line.to_string()),
            (Some(line), Some(element)) => {
                say!(words, "task-data-place-element", file = file, line = line.to_string(), element = element)
            }
        }
    }
}

/// One thing that is wrong, or that is not read, for the person who sent the file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Finding {
    /// Where.
    pub place: Place,
    /// What.
    pub what: What,
}

impl Finding {
    /// The sentence behind its place.
    pub fn says(&self, words: Words) -> String {
        say!(words, "task-data-at", place = self.place.says(words), says = self.what.says(words))
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.says(Words::default()))
    }
}

/// Why a file as a whole was not read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused(pub Finding);

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl std::error::Error for Refused {}

/// What can be wrong, or is not read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "what")]
#[allow(missing_docs, reason = "each is what its text says; the fields are what the text is filled with")]
pub enum What {
    // The file as a whole.
    Empty,
    NotXml,
    NotUtf8,
    Broken,
    BreaksOff,
    Entity,
    WrongRoot { wanted: String },
    Version { given: String },
    TooLarge { most: usize },
    TooManyElements { most: usize },
    TooManyTasks { most: usize },
    TooManyTanks { most: usize },
    TooDeep { most: usize },
    TooManyAttributes { most: usize },
    TooLong { attribute: String, most: usize },
    ZipBroken,
    ZipFiles { most: usize },
    ZipRatio { most: usize },
    ZipMethod,
    ZipEncrypted,
    NoTaskFile,
    SeveralTaskFiles { first: String, second: String },
    // An element.
    AttributeMissing { attribute: String },
    NotANumber { attribute: String, given: String },
    OutOfRange { attribute: String, given: String, least: i64, most: i64 },
    WrongId { given: String },
    IdTwice { given: String, line: u32 },
    NotThere { attribute: String, given: String },
    NotATime { attribute: String, given: String },
    // A task.
    EndsBeforeItBegins,
    TimesOfTwoKinds,
    NotDescribed { ddi: String },
    TotalTwice { ddi: String },
    TotalNegative { ddi: String, given: i64 },
    MassesApart { grams: i64, kilograms: i64 },
    TwoProducts { first: String, second: String },
    NoArea,
    NoMass,
    NothingSown,
    // What is said besides.
    CounterSetBack { ddi: String, times: u32 },
    RateVaries,
    LogNotRead { file: String },
    FileNotRead { file: String },
    FileMissing { file: String },
    LinksNotRead,
    Unknown { tag: String, count: usize },
}

impl What {
    /// The sentence, with what to do where something can be done.
    pub fn says(&self, words: Words) -> String {
        self.of_the_file(words).or_else(|| self.of_an_element(words)).unwrap_or_else(|| self.of_a_task(words))
    }

    fn of_the_file(&self, words: Words) -> Option<String> {
        Some(match self {
            Self::Empty => say!(words, "task-data-empty"),
            Self::NotXml => say!(words, "task-data-not-xml"),
            Self::NotUtf8 => say!(words, "task-data-not-utf-8"),
            Self::Broken => say!(words, "task-data-broken"),
            Self::BreaksOff => say!(words, "task-data-breaks-off"),
            Self::Entity => say!(words, "task-data-entity"),
            Self::WrongRoot { wanted } => say!(words, "task-data-wrong-root", wanted = wanted),
            Self::Version { given } => say!(words, "task-data-version", given = given),
            Self::TooLarge { most } => say!(words, "task-data-too-large", most = most.to_string()),
            Self::TooManyElements { most } => say!(words, "task-data-too-many-elements", most = most.to_string()),
            Self::TooManyTasks { most } => say!(words, "task-data-too-many-tasks", most = most.to_string()),
            Self::TooManyTanks { most } => say!(words, "task-data-too-many-tanks", most = most.to_string()),
            Self::TooDeep { most } => say!(words, "task-data-too-deep", most = most.to_string()),
            Self::TooManyAttributes { most } => say!(words, "task-data-too-many-attributes", most = most.to_string()),
            Self::ZipBroken => say!(words, "task-data-zip-broken"),
            Self::ZipFiles { most } => say!(words, "task-data-zip-files", most = most.to_string()),
            Self::ZipRatio { most } => say!(words, "task-data-zip-ratio", most = most.to_string()),
            Self::ZipMethod => say!(words, "task-data-zip-method"),
            Self::ZipEncrypted => say!(words, "task-data-zip-encrypted"),
            Self::NoTaskFile => say!(words, "task-data-no-task-file"),
            Self::SeveralTaskFiles { first, second } => {
                say!(words, "task-data-several-task-files", first = first, second = second)
            }
            _ => return None,
        })
    }

    fn of_an_element(&self, words: Words) -> Option<String> {
        Some(match self {
            Self::TooLong { attribute, most } => {
                say!(words, "task-data-too-long", attribute = attribute, most = most.to_string())
            }
            Self::AttributeMissing { attribute } => say!(words, "task-data-attribute-missing", attribute = attribute),
            Self::NotANumber { attribute, given } => {
                say!(words, "task-data-not-a-number", attribute = attribute, given = given)
            }
            Self::OutOfRange { attribute, given, least, most } => say!(
                words,
                "task-data-out-of-range",
                attribute = attribute,
                given = given,
                least = least.to_string(),
                most = most.to_string(),
            ),
            Self::WrongId { given } => say!(words, "task-data-wrong-id", given = given),
            Self::IdTwice { given, line } => say!(words, "task-data-id-twice", given = given, line = line.to_string()),
            Self::NotThere { attribute, given } => {
                say!(words, "task-data-not-there", attribute = attribute, given = given)
            }
            Self::NotATime { attribute, given } => {
                say!(words, "task-data-not-a-time", attribute = attribute, given = given)
            }
            _ => return None,
        })
    }

    fn of_a_task(&self, words: Words) -> String {
        match self {
            Self::EndsBeforeItBegins => say!(words, "task-data-ends-before-it-begins"),
            Self::TimesOfTwoKinds => say!(words, "task-data-times-of-two-kinds"),
            Self::NotDescribed { ddi } => say!(words, "task-data-not-described", ddi = ddi),
            Self::TotalTwice { ddi } => say!(words, "task-data-total-twice", ddi = ddi),
            Self::TotalNegative { ddi, given } => {
                say!(words, "task-data-total-negative", ddi = ddi, given = given.to_string())
            }
            Self::MassesApart { grams, kilograms } => {
                say!(words, "task-data-masses-apart", grams = grams.to_string(), kilograms = kilograms.to_string())
            }
            Self::TwoProducts { first, second } => {
                say!(words, "task-data-two-products", first = first, second = second)
            }
            Self::NoArea => say!(words, "task-data-no-area"),
            Self::NoMass => say!(words, "task-data-no-mass"),
            Self::CounterSetBack { ddi, times } => {
                say!(words, "task-data-counter-set-back", ddi = ddi, times = *times)
            }
            Self::RateVaries => say!(words, "task-data-rate-varies"),
            Self::LogNotRead { file } => say!(words, "task-data-log-not-read", file = file),
            Self::FileNotRead { file } => say!(words, "task-data-file-not-read", file = file),
            Self::FileMissing { file } => say!(words, "task-data-file-missing", file = file),
            Self::LinksNotRead => say!(words, "task-data-links-not-read"),
            Self::Unknown { tag, count } => say!(words, "task-data-unknown", tag = tag, count = *count),
            _ => say!(words, "task-data-nothing-sown"),
        }
    }
}
