//! What the server was told at its start. Options beat environment variables beat defaults; `cli/` reads them.

use crate::mail::Mailer;
use crate::metrics::Metrics;

/// The settings of a running server.
#[derive(Clone, Debug, Default)]
pub struct Config {
    /// The address under which people reach it, such as `https://seed.example`. With https the session cookie is
    /// `Secure` and bound to the host by its name's prefix.
    pub public_url: Option<String>,
    /// The way to a mail server; without one no e-mail is sent at all.
    pub mail: Option<Mailer>,
    /// What is counted for whoever watches the server; without it nothing is.
    pub metrics: Option<Metrics>,
}

impl Config {
    /// Whether people reach it over TLS.
    #[must_use]
    pub fn is_https(&self) -> bool {
        self.public_url.as_deref().is_some_and(|url| url.starts_with("https://"))
    }
}
