//! From XML to the elements that matter, in bounds: what is kept, how deep, how long. No rule of the format beyond its tags.

use std::collections::BTreeMap;

use quick_xml::{
    Reader, XmlVersion,
    events::{BytesStart, Event},
};

use super::{
    finding::{Finding, Place, Refused, What},
    limits,
};

/// Elements that are kept, with those within them that are kept too.
const KEPT: &[&str] = &[
    "CTR", "FRM", "WKR", "CTP", "CVT", "PFD", "PDT", "DVC", "DET", "DOR", "DPD", "DPT", "TSK", "TZN", "PDV", "TIM",
    "DLV", "PAN", "ASP", "TLG", "GRD", "XFR", "AFE",
];

/// Elements of the format that a job has no use for: shapes, positions, code lists, who had which key, and more. They are
/// skipped with all they hold, without a word.
const SKIPPED: &[&str] = &[
    "BSN", "CAN", "CAT", "CCG", "CCL", "CCT", "CHC", "CLD", "CNN", "CPC", "CTT", "DAN", "DLT", "DVP", "GAN", "GGP",
    "GPN", "LGP", "LNK", "LSG", "OTP", "OTQ", "OTR", "PGP", "PLN", "PNT", "PPR", "PTN", "TCC", "VPN", "VRN", "WAN",
];

/// An element: tag, place, the attributes that the format names, and the elements within.
#[derive(Debug)]
pub(super) struct Node {
    pub(super) tag: &'static str,
    file: Box<str>,
    line: u32,
    pub(super) attributes: Vec<(String, String)>,
    pub(super) children: Vec<Self>,
}

impl Node {
    pub(super) fn get(&self, attribute: &str) -> Option<&str> {
        let found = self.attributes.iter().find(|(name, _)| name == attribute);
        found.map(|(_, value)| value.trim()).filter(|value| !value.is_empty())
    }

    pub(super) fn within<'a>(&'a self, tag: &'a str) -> impl Iterator<Item = &'a Self> {
        self.children.iter().filter(move |child| child.tag == tag)
    }

    pub(super) const fn line(&self) -> u32 {
        self.line
    }

    pub(super) fn finding(&self, what: What) -> Finding {
        let named = matches!(self.tag, "TIM" | "DLV" | "PDV" | "PAN" | "ASP" | "TZN" | "DPD" | "DPT" | "DOR");
        let id = if named { None } else { self.get("A") };
        let element = if self.tag == ROOT { None } else { Some(id.unwrap_or(self.tag).to_owned()) };
        Place { file: self.file.to_string(), line: Some(self.line), element }.finding(what)
    }
}

/// The tag of the root in a node, whatever it is called in its file.
const ROOT: &str = "";

/// The reading of one or several files under the same bounds.
#[derive(Default)]
pub(super) struct Reading {
    seen: usize,
    kept: usize,
    tasks: usize,
    unknown: BTreeMap<String, (usize, Place)>,
}

/// How many kinds of unknown elements are told apart.
const UNKNOWN_KINDS: usize = 20;

impl Reading {
    /// Reads a file: its root with the elements that are kept.
    pub(super) fn document(&mut self, file: &str, bytes: &[u8], root: &str) -> Result<Node, Refused> {
        let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
        if bytes.iter().all(u8::is_ascii_whitespace) {
            return Err(Refused(Place::file(file).finding(What::Empty)));
        }
        let text = std::str::from_utf8(bytes).map_err(|error| {
            let line = Lines::default().at(bytes, error.valid_up_to());
            let what = if bytes.starts_with(&[0xFF, 0xFE]) || bytes.starts_with(&[0xFE, 0xFF]) || line > 1 {
                What::NotUtf8
            } else {
                What::NotXml
            };
            Refused(Place { file: file.to_owned(), line: Some(line), element: None }.finding(what))
        })?;
        if !text.trim_start().starts_with('<') {
            return Err(Refused(Place::file(file).finding(What::NotXml)));
        }
        Document { reading: self, file, text, lines: Lines::default(), open: Vec::new(), skipping: 0 }.read(root)
    }

    /// What was skipped because nobody knows it.
    pub(super) fn skipped(self) -> Vec<Finding> {
        let said = self.unknown.into_iter().map(|(tag, (count, place))| place.finding(What::Unknown { tag, count }));
        said.collect()
    }
}

/// Line numbers of growing positions.
#[derive(Default)]
struct Lines {
    position: usize,
    line: u32,
}

impl Lines {
    fn at(&mut self, bytes: &[u8], position: usize) -> u32 {
        let passed = bytes.get(self.position..position).unwrap_or_default();
        let breaks = passed.split(|byte| *byte == b'\n').count() - 1;
        self.line = self.line.saturating_add(u32::try_from(breaks).unwrap_or(u32::MAX));
        self.position = self.position.max(position);
        self.line.saturating_add(1)
    }
}

struct Document<'a> {
    reading: &'a mut Reading,
    file: &'a str,
    text: &'a str,
    lines: Lines,
    open: Vec<Node>,
    /// How many elements are open that are not kept.
    skipping: usize,
}

impl Document<'_> {
    fn read(mut self, root: &str) -> Result<Node, Refused> {
        let mut reader = Reader::from_str(self.text);
        loop {
            let position = usize::try_from(reader.buffer_position()).unwrap_or(usize::MAX);
            let line = self.lines.at(self.text.as_bytes(), position);
            let event = match reader.read_event() {
                Ok(event) => event,
                Err(error) => return Err(self.broken(line, &error)),
            };
            match event {
                Event::Start(start) => self.start(&start, line, root)?,
                Event::Empty(start) => {
                    self.start(&start, line, root)?;
                    if let Some(whole) = self.end() {
                        return Ok(whole);
                    }
                }
                Event::End(_) => {
                    if let Some(whole) = self.end() {
                        return Ok(whole);
                    }
                }
                Event::DocType(_) => return Err(self.refused(line, What::Entity)),
                Event::GeneralRef(name) if !name.is_char_ref() && !is_predefined(&name) => {
                    return Err(self.refused(line, What::Entity));
                }
                Event::Eof if self.open.is_empty() => return Err(self.refused(line, What::NotXml)),
                Event::Eof => return Err(self.refused(line, What::BreaksOff)),
                _ => {}
            }
        }
    }

    fn refused(&self, line: u32, what: What) -> Refused {
        Refused(Place { file: self.file.to_owned(), line: Some(line), element: None }.finding(what))
    }

    fn broken(&self, line: u32, error: &quick_xml::Error) -> Refused {
        let what = if matches!(error, quick_xml::Error::Syntax(_)) { What::BreaksOff } else { What::Broken };
        self.refused(line, what)
    }

    fn start(&mut self, start: &BytesStart<'_>, line: u32, root: &str) -> Result<(), Refused> {
        self.reading.seen += 1;
        if self.reading.seen > limits::ELEMENTS {
            return Err(self.refused(line, What::TooManyElements { most: limits::ELEMENTS }));
        }
        if self.open.len() + self.skipping >= limits::DEPTH {
            return Err(self.refused(line, What::TooDeep { most: limits::DEPTH }));
        }
        if self.skipping > 0 {
            self.skipping += 1;
            return Ok(());
        }
        let name = start.name();
        let kept = KEPT.iter().find(|kept| **kept == name.as_ref());
        let tag = match (self.open.is_empty(), kept) {
            (true, _) if name.as_ref() == root => ROOT,
            (true, _) => return Err(self.refused(line, What::WrongRoot { wanted: root.to_owned() })),
            (false, Some(kept)) => kept,
            (false, None) => {
                self.skip(name.as_ref(), line);
                return Ok(());
            }
        };
        self.count(tag, line)?;
        let attributes = self.attributes(start, tag, line)?;
        self.open.push(Node { tag, file: self.file.into(), line, attributes, children: Vec::new() });
        Ok(())
    }

    fn count(&mut self, tag: &str, line: u32) -> Result<(), Refused> {
        self.reading.kept += 1;
        self.reading.tasks += usize::from(tag == "TSK");
        if self.reading.kept > limits::KEPT {
            return Err(self.refused(line, What::TooManyElements { most: limits::KEPT }));
        }
        if self.reading.tasks > limits::TASKS {
            return Err(self.refused(line, What::TooManyTasks { most: limits::TASKS }));
        }
        Ok(())
    }

    fn skip(&mut self, tag: &str, line: u32) {
        self.skipping = 1;
        // A maker's own elements are named P with a number.
        let own = tag.strip_prefix('P').is_some_and(|rest| rest.starts_with(|first: char| first.is_ascii_digit()));
        if SKIPPED.contains(&tag) || own {
            return;
        }
        let unknown = &mut self.reading.unknown;
        let tag: String = tag.chars().take(40).collect();
        if let Some((count, _)) = unknown.get_mut(&tag) {
            *count += 1;
        } else if unknown.len() < UNKNOWN_KINDS {
            let place = Place { file: self.file.to_owned(), line: Some(line), element: Some(tag.clone()) };
            unknown.insert(tag, (1, place));
        }
    }

    fn attributes(&self, start: &BytesStart<'_>, tag: &str, line: u32) -> Result<Vec<(String, String)>, Refused> {
        let mut kept = Vec::new();
        for (number, attribute) in start.attributes().enumerate() {
            if number == limits::ATTRIBUTES {
                return Err(self.refused(line, What::TooManyAttributes { most: limits::ATTRIBUTES }));
            }
            let attribute = attribute.map_err(|_| self.refused(line, What::Broken))?;
            let name = attribute.key.as_ref();
            // The format's attributes are single letters, those of the root apart; others are a maker's own.
            if name.len() != 1 && !(tag == ROOT && name.starts_with("Version")) {
                continue;
            }
            if attribute.value.len() > limits::TEXT_BYTES {
                let what = What::TooLong { attribute: name.to_owned(), most: limits::TEXT_BYTES };
                return Err(self.refused(line, what));
            }
            let value = attribute.normalized_value(XmlVersion::Implicit1_0);
            let value = value.map_err(|_| self.refused(line, What::Entity))?;
            if value.chars().any(|letter| letter.is_control() && !letter.is_whitespace()) {
                return Err(self.refused(line, What::Broken));
            }
            kept.push((name.to_owned(), value.into_owned()));
        }
        Ok(kept)
    }

    /// Closes the innermost element; the root, when it was that.
    fn end(&mut self) -> Option<Node> {
        if self.skipping > 0 {
            self.skipping -= 1;
            return None;
        }
        let closed = self.open.pop()?;
        match self.open.last_mut() {
            Some(outer) => {
                outer.children.push(closed);
                None
            }
            None => Some(closed),
        }
    }
}

fn is_predefined(name: &str) -> bool {
    matches!(name, "lt" | "gt" | "amp" | "apos" | "quot")
}
