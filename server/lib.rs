//! The server.
