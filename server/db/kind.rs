//! What an entry is: the word for its kind, the same in the database, the audit trail and the API.

macro_rules! kinds {
    ($($(#[$doc:meta])* $variant:ident = $word:literal, $record:literal;)*) => {
        /// The kind of an entry.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Kind {
            $($(#[$doc])* $variant,)*
        }

        impl Kind {
            /// Every kind.
            pub const ALL: &[Self] = &[$(Self::$variant),*];

            /// Its word.
            #[must_use]
            pub fn word(self) -> &'static str {
                match self {
                    $(Self::$variant => $word,)*
                }
            }

            /// The kind of a word, if there is such.
            #[must_use]
            pub fn from_word(word: &str) -> Option<Self> {
                match word {
                    $($word => Some(Self::$variant),)*
                    _ => None,
                }
            }

            /// Whether it is an append-only record, which can be voided and corrected but not changed.
            #[must_use]
            pub fn is_record(self) -> bool {
                match self {
                    $(Self::$variant => $record,)*
                }
            }
        }
    };
}

kinds! {
    Organization = "organization", false;
    Account = "account", false;
    Membership = "membership", false;
    Session = "session", false;
    BearerToken = "token", false;
    FeedAddress = "feed_address", false;
    Client = "client", false;
    Crew = "crew", false;
    Seeder = "seeder", false;
    MeteringUnit = "metering_unit", false;
    Roller = "roller", false;
    Lot = "lot", false;
    Season = "season", false;
    Scale = "scale", false;
    Field = "field", false;
    Configuration = "configuration", true;
    Setup = "setup", true;
    Service = "service", true;
    LayUp = "lay_up", true;
    Fill = "fill", true;
    Emptying = "emptying", true;
    Job = "job", true;
    LotTest = "lot_test", true;
    Movement = "movement", true;
    ScaleCheck = "scale_check", true;
    Calibration = "calibration", true;
    Decision = "decision", true;
    Waiver = "waiver", true;
    Policy = "policy", false;
    Void = "void", false;
    /// Something sent that is of no kind that there is.
    Entry = "entry", false;
}

impl std::fmt::Display for Kind {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.word().replace('_', " "))
    }
}
