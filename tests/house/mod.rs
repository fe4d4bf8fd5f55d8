//! What holds for all parts: the database, the routes, the limits, the trail, the look, the documents.

mod database;
mod look;
mod openapi;
mod schema;
