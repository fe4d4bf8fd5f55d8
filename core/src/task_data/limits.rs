//! How much of a stranger's file is read. A season of a fleet's task data without its binary logs is a hundredth of it.

/// Most bytes of all XML files together, unpacked.
pub const XML_BYTES: usize = 32 * 1024 * 1024;
/// Most elements, those that are skipped included.
pub const ELEMENTS: usize = 1_000_000;
/// Most elements that are kept while reading: customers, devices, time elements and what they logged.
pub const KEPT: usize = 100_000;
/// Most tasks.
pub const TASKS: usize = 1_000;
/// Most tanks that something was sown from, of all tasks together.
pub const SOWN: usize = 2_000;
/// Deepest nesting. Task data needs five.
pub const DEPTH: usize = 24;
/// Most attributes of an element.
pub const ATTRIBUTES: usize = 64;
/// Longest name or text, in bytes. The format allows 128 letters.
pub const TEXT_BYTES: usize = 512;
/// Most files in a zip.
pub const FILES: usize = 10_000;
/// How many times its packed size a file in a zip may have. XML of task data packs to a tenth or a thirtieth.
pub const RATIO: usize = 200;
