//! A fault of an entry and where it stands, as a JSON pointer that the API passes on.

use std::fmt;

use serde::{Serialize, Serializer};

/// The place of a field in a request; prints as an RFC 6901 pointer.
///
/// ```
/// use sowmark_core::catch::Pointer;
///
/// let gross = Pointer::root().then("repeats").then(0).then("catches").then(1).then("gross");
/// assert_eq!(gross.to_string(), "/repeats/0/catches/1/gross");
/// assert_eq!(Pointer::root().then("a/b~c").to_string(), "/a~1b~0c");
/// assert_eq!(Pointer::root().to_string(), "");
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Pointer(Vec<String>);

impl Pointer {
    /// The whole request.
    pub const fn root() -> Self {
        Self(Vec::new())
    }

    /// One step further in: a member's name or a position.
    #[must_use]
    pub fn then(&self, segment: impl fmt::Display) -> Self {
        let mut longer = self.0.clone();
        longer.push(segment.to_string());
        Self(longer)
    }

    /// The steps, unescaped.
    pub fn segments(&self) -> &[String] {
        &self.0
    }
}

impl fmt::Display for Pointer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|segment| write!(f, "/{}", segment.replace('~', "~0").replace('/', "~1")))
    }
}

impl Serialize for Pointer {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// One thing that cannot be so, for the person who entered it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Finding {
    /// The field at fault.
    pub at: Pointer,
    /// What was given, what is allowed, what to do.
    pub says: String,
}

impl Finding {
    /// A fault at a field.
    pub const fn new(at: Pointer, says: String) -> Self {
        Self { at, says }
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.at, self.says)
    }
}
