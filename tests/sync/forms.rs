//! The forms of a page as a browser would send them back.

/// The fields of the form that has a button or a hidden id: names and what stands in them, in order.
pub fn fields(page: &str) -> Vec<(String, String)> {
    let form = page.split("<form class=\"form\"").nth(1).expect("a form").split("</form>").next().unwrap();
    let mut found = Vec::new();
    let mut rest = form;
    while let Some(start) = rest.find('<') {
        rest = &rest[start..];
        let tag = &rest[..=rest.find('>').expect("a whole tag")];
        let name = attribute(tag, "name");
        if let Some(name) = name {
            if tag.starts_with("<input") {
                let is_box = attribute(tag, "type").as_deref() == Some("checkbox");
                if !is_box || tag.contains(" checked") {
                    found.push((name, attribute(tag, "value").unwrap_or_default()));
                }
            } else if tag.starts_with("<select") {
                let options = rest.split("</select>").next().unwrap();
                found.push((name, chosen(options)));
            } else if tag.starts_with("<textarea") {
                let text = rest[tag.len()..].split("</textarea>").next().unwrap();
                found.push((name, plain(text)));
            }
        }
        rest = &rest[tag.len()..];
    }
    found
}

/// As a browser chooses: the option that is marked, or the first.
fn chosen(options: &str) -> String {
    let tags: Vec<&str> = options.split("<option").skip(1).map(|tag| tag.split('>').next().unwrap()).collect();
    let marked = tags.iter().find(|tag| tag.ends_with(" selected")).or(tags.first()).expect("an option");
    attribute(marked, "value").unwrap_or_default()
}

fn attribute(tag: &str, name: &str) -> Option<String> {
    let (_, rest) = tag.split_once(&format!(" {name}=\""))?;
    rest.split('"').next().map(plain)
}

/// A text without its escapes.
pub fn plain(text: &str) -> String {
    let named = [
        ("&quot;", "\""),
        ("&#34;", "\""),
        ("&#39;", "'"),
        ("&lt;", "<"),
        ("&#60;", "<"),
        ("&gt;", ">"),
        ("&#62;", ">"),
        ("&#38;", "&"),
        ("&amp;", "&"),
    ];
    named.into_iter().fold(text.to_owned(), |text, (escape, letter)| text.replace(escape, letter))
}

/// The same with other texts in some fields.
pub fn with(mut fields: Vec<(String, String)>, changed: &[(&str, &str)]) -> Vec<(String, String)> {
    for (name, text) in changed {
        let field = fields.iter_mut().find(|(known, _)| known == name).unwrap_or_else(|| panic!("no field {name}"));
        (*text).clone_into(&mut field.1);
    }
    fields
}

/// What stands in a field.
pub fn text<'f>(fields: &'f [(String, String)], name: &str) -> &'f str {
    fields.iter().find(|(known, _)| known == name).map_or("", |(_, text)| text)
}
