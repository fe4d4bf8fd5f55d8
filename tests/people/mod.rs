//! People: the first visit, signing in, members, crews, and what a browser of another site may not do.

pub mod browser;
mod crews;
mod headers;
mod members;
mod reading;
mod set_up;
mod signing;
mod sites;
mod spanish;
mod tokens;
