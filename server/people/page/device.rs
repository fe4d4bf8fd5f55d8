//! A device by a name that its owner recognizes: "Chrome on Android". Made from what a browser says of itself, which is
//! long, misleading by design (nearly all claim to be others too) and no proof of anything.

use sowmark_core::say;
use sowmark_core::words::Words;

/// Browsers by the mark that only they leave, the particular before those whose marks they carry as well.
const BROWSERS: &[(&str, &str)] = &[
    ("EdgA/", "Edge"),
    ("EdgiOS/", "Edge"),
    ("Edg/", "Edge"),
    ("OPR/", "Opera"),
    ("SamsungBrowser/", "Samsung Internet"),
    ("FxiOS/", "Firefox"),
    ("Firefox/", "Firefox"),
    ("CriOS/", "Chrome"),
    ("Chrome/", "Chrome"),
    ("Safari/", "Safari"),
];

/// Systems by their mark; Android says Linux too, and a phone of Apple's says Mac OS X.
const SYSTEMS: &[(&str, &str)] = &[
    ("Android", "Android"),
    ("iPhone", "iPhone"),
    ("iPad", "iPad"),
    ("Windows", "Windows"),
    ("CrOS", "ChromeOS"),
    ("Macintosh", "Mac"),
    ("Linux", "Linux"),
];

/// The name of a device by its `User-Agent`.
pub(super) fn name(agent: &str, words: Words) -> String {
    let known =
        |marks: &[(&str, &'static str)]| marks.iter().find(|(mark, _)| agent.contains(mark)).map(|(_, name)| *name);
    match (known(BROWSERS), known(SYSTEMS)) {
        (Some(browser), Some(system)) => say!(words, "device", browser = browser, system = system),
        (Some(browser), None) => browser.to_owned(),
        (None, Some(system)) => say!(words, "device-system", system = system),
        (None, None) if agent.trim().is_empty() => say!(words, "device-unknown"),
        // A program, which names itself first: "curl/8.5".
        (None, None) => agent.split_whitespace().next().unwrap_or_default().chars().take(60).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::name;

    /// As the browsers' own documentation gives the form of each (from memory; version numbers are of no matter).
    #[test]
    fn a_device_has_a_name_that_people_recognize() {
        let mozilla = |rest: &str| format!("Mozilla/5.0 {rest}");
        let chrome = "AppleWebKit/537.36 (KHTML, like Gecko) Chrome/126.0.0.0";
        let apple = "AppleWebKit/605.1.15 (KHTML, like Gecko)";
        for (agent, expected) in [
            (mozilla(&format!("(Linux; Android 10; K) {chrome} Mobile Safari/537.36")), "Chrome on Android"),
            (mozilla(&format!("(Linux; Android 10; K) {chrome} Mobile Safari/537.36 EdgA/126.0")), "Edge on Android"),
            (
                mozilla(
                    "(Linux; Android 14; SM-A1) AppleWebKit/537.36 SamsungBrowser/25.0 Chrome/121.0 Mobile Safari/537.36",
                ),
                "Samsung Internet on Android",
            ),
            (mozilla("(Android 14; Mobile; rv:127.0) Gecko/127.0 Firefox/127.0"), "Firefox on Android"),
            (
                mozilla(&format!(
                    "(iPhone; CPU iPhone OS 17_5 like Mac OS X) {apple} Version/17.5 Mobile/15E148 Safari/604.1"
                )),
                "Safari on iPhone",
            ),
            (
                mozilla(&format!(
                    "(iPhone; CPU iPhone OS 17_5 like Mac OS X) {apple} CriOS/126.0 Mobile/15E148 Safari/604.1"
                )),
                "Chrome on iPhone",
            ),
            (
                mozilla(&format!("(Windows NT 10.0; Win64; x64) {chrome} Safari/537.36 Edg/126.0.0.0")),
                "Edge on Windows",
            ),
            (mozilla(&format!("(Windows NT 10.0; Win64; x64) {chrome} Safari/537.36 OPR/111.0")), "Opera on Windows"),
            (
                mozilla(&format!("(Macintosh; Intel Mac OS X 10_15_7) {apple} Version/17.5 Safari/605.1.15")),
                "Safari on Mac",
            ),
            (mozilla(&format!("(X11; CrOS x86_64 14541.0.0) {chrome} Safari/537.36")), "Chrome on ChromeOS"),
            (mozilla("(X11; Linux x86_64; rv:127.0) Gecko/20100101 Firefox/127.0"), "Firefox on Linux"),
            (mozilla("(Linux; Slate 8) Mobile"), "A browser on Linux"),
            ("curl/8.5.0".to_owned(), "curl/8.5.0"),
            (" ".to_owned(), "Unknown device"),
        ] {
            assert_eq!(name(&agent, crate::texts::plain()), expected, "{agent}");
        }
    }
}
