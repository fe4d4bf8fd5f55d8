//! The service worker, at the root of the site: it may look after no more than what lies below its own address.

use crate::web::assets;
use crate::web::error::Error;
use crate::web::routes::{Need, Route};
use axum::http::header;
use axum::response::{IntoResponse, Response};

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/worker.js", Need::Anyone, show_worker)]
}

/// The script, told which files to keep: another text, and so a new worker, as soon as one of them changes.
async fn show_worker() -> Result<Response, Error> {
    let script = assets::script("worker.js")?;
    let mut keep: Vec<String> =
        assets::names().filter(|name| name != "worker.js").map(|name| assets::href(&name)).collect();
    keep.push("/offline".to_owned());
    let keep = serde_json::to_string(&keep).map_err(Error::broken)?;
    let text = format!("const VERSION = \"{}\";\nconst ASSETS = {keep};\n{script}", assets::version());
    let headers = [(header::CONTENT_TYPE, "text/javascript; charset=utf-8"), (header::CACHE_CONTROL, "no-cache")];
    Ok((headers, text).into_response())
}
