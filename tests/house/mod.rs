//! What holds for all parts: the database, the routes, the limits, the trail.

mod database;
