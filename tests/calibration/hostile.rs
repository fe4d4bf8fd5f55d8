//! The fuzz target of the preview as a plain test: the committed corpus, and chance from a fixed beginning.

#[path = "../../fuzz/shared/mod.rs"]
mod shared;

/// Bodies made of chance; the largest sheets take a debug build a tenth of a second, so the fuzzer tries the many.
const CASES: u64 = 400;

#[test]
fn the_preview_answers_the_corpus_in_numbers_or_says_where_it_is_wrong() {
    let corpus = std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/fuzz/corpus/preview")).unwrap();
    let files: Vec<_> = corpus.map(|file| std::fs::read(file.unwrap().path()).unwrap()).collect();
    assert!(files.len() >= 10, "{} files", files.len());
    for bytes in &files {
        shared::look_at(bytes);
    }
}

#[test]
fn the_preview_answers_chance_in_numbers_or_says_where_it_is_wrong() {
    let mut state = 0x5eed_u64;
    // splitmix64, so that a failure comes again on every machine.
    let mut next = || {
        state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    };
    for _ in 0..CASES {
        let length = next() % 600 + 1;
        let bytes: Vec<u8> = (0..length).map(|_| next().to_le_bytes()[4]).collect();
        shared::look_at(&bytes);
    }
}
