//! Whether a reader has it already: RFC 9110, sections 8.8 and 13.

use crate::hex;
use axum::http::{HeaderMap, HeaderValue, header};
use jiff::Timestamp;
use jiff::fmt::rfc2822::{DateTimeParser, DateTimePrinter};

/// What an answer is known by.
#[derive(Debug)]
pub(super) struct Known {
    tag: String,
    /// To the second, as HTTP tells time.
    since: Timestamp,
}

impl Known {
    /// Of a form (`calendar`, `news`), what was told and since when. The tag is weak: compressed it is the same.
    pub(super) fn new(form: &str, hash: [u8; 32], base: &str, since: Timestamp) -> Self {
        use sha2::{Digest, Sha256};
        let mut all = Sha256::new();
        all.update(hash);
        all.update(form.as_bytes());
        // The links in it are those of the address that it was asked at.
        all.update(base.as_bytes());
        let digest: [u8; 32] = all.finalize().into();
        let seconds = Timestamp::from_second(since.as_second()).unwrap_or(since);
        Self { tag: format!("W/\"{}\"", &hex::written(&digest)[..32]), since: seconds }
    }

    /// Whether the reader has this already. A tag, where one is sent, alone decides.
    pub(super) fn is_known(&self, headers: &HeaderMap) -> bool {
        let sent: Vec<&str> =
            headers.get_all(header::IF_NONE_MATCH).iter().filter_map(|value| value.to_str().ok()).collect();
        if !sent.is_empty() {
            let opaque = |tag: &str| tag.trim().trim_start_matches("W/").to_owned();
            return sent
                .iter()
                .flat_map(|tags| tags.split(','))
                .any(|tag| tag.trim() == "*" || opaque(tag) == opaque(&self.tag));
        }
        let since = headers.get(header::IF_MODIFIED_SINCE).and_then(|value| value.to_str().ok());
        since
            .and_then(|since| DateTimeParser::new().parse_timestamp(since).ok())
            .is_some_and(|since| self.since <= since)
    }

    /// Adds what it is known by, and that it is asked for anew each time.
    pub(super) fn put_on(&self, headers: &mut HeaderMap) {
        if let Ok(tag) = HeaderValue::from_str(&self.tag) {
            headers.insert(header::ETAG, tag);
        }
        let since = DateTimePrinter::new().timestamp_to_rfc9110_string(&self.since).ok();
        if let Some(since) = since.and_then(|since| HeaderValue::from_str(&since).ok()) {
            headers.insert(header::LAST_MODIFIED, since);
        }
        headers.insert(header::CACHE_CONTROL, HeaderValue::from_static("private, no-cache"));
        // The address is a secret: whoever follows a link in it must not be told where it was.
        headers.insert(header::REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
    }
}

#[cfg(test)]
mod tests {
    use super::Known;
    use axum::http::{HeaderMap, HeaderValue, header};

    /// The precedence and comparison of RFC 9110, sections 13.1.2, 13.1.3 and 8.8.3.2.
    #[test]
    fn a_tag_decides_alone_and_the_time_only_without_one() {
        let since = "2027-04-01T06:00:00.5Z".parse().unwrap();
        let known = Known::new("calendar", [7; 32], "https://seed.example", since);
        let other = Known::new("news", [7; 32], "https://seed.example", since);
        let asked = |name: header::HeaderName, value: &str| {
            let mut headers = HeaderMap::new();
            headers.insert(name, HeaderValue::from_str(value).unwrap());
            headers
        };
        let mut answer = HeaderMap::new();
        known.put_on(&mut answer);
        assert_eq!(answer[header::LAST_MODIFIED], "Thu, 01 Apr 2027 06:00:00 GMT");
        let strong = known.tag.trim_start_matches("W/").to_owned();
        for has in [known.tag.clone(), strong, "*".to_owned(), format!("\"x\", {}", known.tag)] {
            assert!(known.is_known(&asked(header::IF_NONE_MATCH, &has)), "{has}");
        }
        let mut both = asked(header::IF_NONE_MATCH, &other.tag);
        both.insert(header::IF_MODIFIED_SINCE, answer[header::LAST_MODIFIED].clone());
        assert!(!known.is_known(&both));
        for (since, has) in [
            ("Thu, 01 Apr 2027 06:00:00 GMT", true),
            ("Thu, 01 Apr 2027 07:00:00 GMT", true),
            ("Thu, 01 Apr 2027 05:59:59 GMT", false),
            ("some time ago", false),
        ] {
            assert_eq!(known.is_known(&asked(header::IF_MODIFIED_SINCE, since)), has, "{since}");
        }
        assert!(!known.is_known(&HeaderMap::new()));
    }
}
