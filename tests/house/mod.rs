//! What holds for all parts: the database, the routes, the limits, the trail, the look, the documents.

mod audit;
mod clients;
mod conflicts;
mod database;
mod documents;
mod languages;
mod look;
mod meanwhile;
mod openapi;
mod routes;
mod schema;
