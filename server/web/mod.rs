//! What every feature needs to speak HTTP: errors, input, routes, pages, limits. Knows no feature.

pub mod accept;
pub mod api;
pub mod assets;
pub mod change;
pub mod door;
pub mod error;
pub mod form;
pub mod guard;
pub mod headers;
pub mod input;
pub mod line;
pub mod month;
pub mod number;
pub mod openapi;
pub mod page;
pub mod paging;
pub mod posted;
pub mod quantity;
pub mod reader;
pub mod refill;
pub mod routes;
pub mod said;
pub mod saying;
pub mod temperature;
pub mod time;
pub mod upload;
