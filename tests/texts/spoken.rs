//! What core makes of sheets and records, in English and in every other language: nothing of it may stay English.

use std::sync::LazyLock;

use sowmark_core::texts::{Catalogue, Language};
use sowmark_core::words::{DecimalSign, Words};

use crate::ftl::{languages, read};

static OTHERS: LazyLock<Vec<Catalogue>> = LazyLock::new(|| {
    let made = languages().into_iter().map(|tag| {
        let path = format!("texts/{tag}.ftl");
        Catalogue::new(&tag, &[(&path, &read(&path))], Some(Language::default().catalogue())).expect(&path)
    });
    made.collect()
});

/// The words of a reader of a language, decimals with a point.
pub(crate) fn words(tag: &str) -> Words {
    let catalogue = OTHERS.iter().find(|catalogue| catalogue.tag() == tag).expect(tag);
    Words { decimal: DecimalSign::Point, language: Language::of(catalogue) }
}
