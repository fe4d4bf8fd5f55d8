//! What is sent to the preview and what must hold of the answer; shared by the fuzz target and the plain test of it.
//!
//! Bytes that begin with `{` or `[` or that are no structure are a body as they stand; all others are choices from which
//! `sheet.rs` makes a body with hostile numbers in honest places, because chance alone seldom finds its way past the reader.

mod answer;
mod choices;
mod machine;
mod sheet;

use choices::Choices;

/// Sends what the bytes amount to, and panics where the answer is not as it must be.
pub fn look_at(bytes: &[u8]) {
    match bytes.split_first() {
        Some((b'{' | b'[' | b'"' | b' ', _)) | None => answer::hold(bytes, &machine::of(&mut Choices::of(&[]))),
        Some((kind, rest)) => {
            let mut choices = Choices::of(rest);
            let circumstances = machine::of(&mut choices);
            if kind % 16 == 15 {
                answer::hold(rest, &circumstances);
            } else {
                answer::hold(sheet::body(&mut choices).as_bytes(), &circumstances);
            }
        }
    }
}
