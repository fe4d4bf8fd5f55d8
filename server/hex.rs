//! Bytes as hexadecimal digits, and back: how secrets and hashes are written.

/// Two digits a byte, in lower case.
#[must_use]
pub fn written(bytes: &[u8]) -> String {
    bytes.iter().fold(String::with_capacity(bytes.len() * 2), |mut text, byte| {
        text.extend([byte >> 4, byte & 15].into_iter().filter_map(|digit| char::from_digit(u32::from(digit), 16)));
        text
    })
}

/// The 32 bytes behind 64 digits; none for any other text.
#[must_use]
pub fn read(text: &str) -> Option<[u8; 32]> {
    let digits: Vec<u8> =
        text.chars().map(|c| c.to_digit(16).and_then(|digit| u8::try_from(digit).ok())).collect::<Option<_>>()?;
    let bytes: Vec<u8> = digits.chunks_exact(2).map(|pair| pair[0] << 4 | pair[1]).collect();
    if text.len() == 64 { bytes.try_into().ok() } else { None }
}

#[cfg(test)]
mod tests {
    use super::{read, written};

    #[test]
    fn what_was_written_reads_the_same_and_nothing_else_reads() {
        let bytes: [u8; 32] = std::array::from_fn(|i| u8::try_from(i * 8).unwrap());
        assert_eq!(read(&written(&bytes)), Some(bytes));
        for not in ["", "00", &"g".repeat(64), &"0".repeat(63), &"0".repeat(65), &"é".repeat(64)] {
            assert_eq!(read(not), None);
        }
    }
}
