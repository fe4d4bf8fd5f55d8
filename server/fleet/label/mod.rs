//! Labels for the machines' doors: a QR code that opens the seeder's page, and a short address for those whose camera
//! fails. Whoever opens it still signs in; the code gives nobody a right.

pub mod code;
mod page;
pub mod paper;
pub mod short;

pub use page::code_of;
pub(super) use page::routes;
