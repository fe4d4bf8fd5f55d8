//! The share of the seeds that becomes plants, and the three ways in which people say it.

use serde::{Deserialize, Serialize};

use crate::{
    figure::{Figure, Impossible},
    say,
    words::Words,
};

/// Which way the expected stand was said. Named in every answer and record: with a germination of 95 % and 10 % lost,
/// one convention expects 85 % and another 85.5 %.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Convention {
    /// One percentage, whatever it is made of.
    Given,
    /// Germination x emergence.
    Multiplied,
    /// Germination - field loss.
    Subtracted,
}

impl Convention {
    /// As it is written in the API.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Given => "given",
            Self::Multiplied => "multiplied",
            Self::Subtracted => "subtracted",
        }
    }

    /// How it reckons, for the person who reads the answer.
    pub fn says(self, words: Words) -> String {
        match self {
            Self::Given => say!(words, "convention-given"),
            Self::Multiplied => say!(words, "convention-multiplied"),
            Self::Subtracted => say!(words, "convention-subtracted"),
        }
    }
}

/// The share of the seeds that becomes plants, as it was said. All in percent.
///
/// Both ways of putting germination and field losses together are published (germination x emergence by Canadian and
/// open data, germination - loss by Irish and other Canadian pages), and neither names the other.
///
/// ```
/// use sowmark_core::seed::Establishment;
///
/// let subtracted = Establishment::Subtracted { germination_percent: 95.0, loss_percent: 10.0 };
/// let multiplied = Establishment::Multiplied { germination_percent: 95.0, emergence_percent: 90.0 };
/// assert_eq!(subtracted.percent(), Ok(85.0));
/// assert_eq!(multiplied.percent(), Ok(85.5));
/// assert!(Establishment::Given { percent: 0.0 }.percent().is_err());
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Establishment {
    /// One percentage.
    Given {
        /// Percent of the seeds that become plants.
        percent: f64,
    },
    /// germination x emergence / 100.
    Multiplied {
        /// Percent of the pure seeds that germinate in the test.
        germination_percent: f64,
        /// Percent of those that come up and stay.
        emergence_percent: f64,
    },
    /// germination - loss.
    Subtracted {
        /// Percent of the pure seeds that germinate in the test.
        germination_percent: f64,
        /// Percentage points of all seeds that germinate and are lost.
        loss_percent: f64,
    },
}

impl Establishment {
    /// Which way it was said.
    pub const fn convention(&self) -> Convention {
        match self {
            Self::Given { .. } => Convention::Given,
            Self::Multiplied { .. } => Convention::Multiplied,
            Self::Subtracted { .. } => Convention::Subtracted,
        }
    }

    /// Percent of the seeds that become plants: above 0, at most 100.
    ///
    /// # Errors
    /// A share outside 0 to 100 %, and shares of which nothing comes up.
    pub fn percent(&self) -> Result<f64, Impossible> {
        match self.faults().first() {
            Some(fault) => Err(*fault),
            None => Ok(match *self {
                Self::Given { percent } => percent,
                Self::Multiplied { germination_percent, emergence_percent } => {
                    germination_percent * emergence_percent / 100.0
                }
                Self::Subtracted { germination_percent, loss_percent } => germination_percent - loss_percent,
            }),
        }
    }

    /// Everything in it that cannot be so.
    pub fn faults(&self) -> Vec<Impossible> {
        match *self {
            Self::Given { percent } => Figure::Establishment.check(percent).err().into_iter().collect(),
            Self::Multiplied { germination_percent, emergence_percent } => {
                [some_of(Figure::Germination, germination_percent), some_of(Figure::Emergence, emergence_percent)]
                    .into_iter()
                    .filter_map(Result::err)
                    .collect()
            }
            Self::Subtracted { germination_percent, loss_percent } => {
                let germination = some_of(Figure::Germination, germination_percent);
                let loss = Figure::Loss.check(loss_percent);
                match (germination, loss) {
                    (Ok(germination), Ok(loss)) if loss >= germination => {
                        vec![Impossible::nothing_left(germination, loss)]
                    }
                    (germination, loss) => germination.err().into_iter().chain(loss.err()).collect(),
                }
            }
        }
    }
}

/// A share of which something is left: a test may well find that nothing germinates, but no plan can be made of it.
fn some_of(figure: Figure, percent: f64) -> Result<f64, Impossible> {
    let percent = figure.check(percent)?;
    if percent > 0.0 { Ok(percent) } else { Err(Impossible::nothing_comes_up(figure)) }
}
