//! A server in this process, with an organization and people in it, on a database of its own.

use axum::Router;
use axum::body::Body;
use axum::http::{HeaderMap, Method, Request, StatusCode, header};
use http_body_util::BodyExt;
use jiff::Timestamp;
use serde_json::{Value, json};
use sowmark::access::{self, password::Hasher, token};
use sowmark::app;
use sowmark::clock::Clock;
use sowmark::config::Config;
use sowmark::db::Db;
use sowmark::people::act;
use sowmark::web::door::App;
use sowmark::web::input;
use sowmark_core::ids::OrganizationId;
use std::sync::Arc;
use std::sync::atomic::{AtomicU32, Ordering};
use tower::ServiceExt;

/// Runs each `async fn name(world: World)` on SQLite and on PostgreSQL.
#[macro_export]
macro_rules! on_both {
    ($($name:ident),* $(,)?) => {
        mod sqlite {
            $(#[tokio::test]
            async fn $name() {
                super::$name($crate::world::World::on_sqlite().await).await;
            })*
        }
        mod postgres {
            $(#[tokio::test]
            async fn $name() {
                super::$name($crate::world::World::on_postgres().await).await;
            })*
        }
    };
}

/// When every test begins: early in a spring that is not today's, so that nothing depends on the real date.
pub const NOW: &str = "2027-04-01T06:00:00Z";

/// A server and what it stands on.
pub struct World {
    pub app: App,
    router: Router,
    file: Option<tempfile::TempDir>,
}

/// Somebody with a bearer token.
#[derive(Clone)]
pub struct Person {
    router: Router,
    token: Option<String>,
    pub organization: OrganizationId,
    pub account: sowmark_core::ids::AccountId,
}

/// What came back.
#[derive(Debug)]
pub struct Answer {
    pub status: StatusCode,
    pub headers: HeaderMap,
    pub text: String,
}

impl World {
    pub async fn on_sqlite() -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        let url = format!("sqlite://{}", folder.path().join("sowmark.db").display());
        let db = Db::open(&url).await.expect("sqlite opens");
        Self::on(db, Some(folder))
    }

    pub async fn on_postgres() -> Self {
        Self::on(Db::open_postgres(schema_of_its_own().await).await.expect("postgres opens"), None)
    }

    fn on(db: Db, file: Option<tempfile::TempDir>) -> Self {
        let app = App {
            db,
            clock: Clock::standing_at(NOW.parse::<Timestamp>().expect("a time")),
            hasher: Hasher::new(),
            config: Arc::new(Config::default()),
        };
        Self { router: app::router(app.clone()), app, file }
    }

    /// An organization in a zone, with nobody in it.
    pub async fn organization(&self, name: &str, zone: &str) -> OrganizationId {
        let draft = json!({ "name": name, "time_zone": zone, "units": "metric" });
        let draft = input::read(&draft).expect("a draft");
        act::add_organization(&self.app.db, &self.app.clock, draft).await.expect("an organization")
    }

    /// A member with a token. The address need only be new to have a new account.
    pub async fn member(&self, organization: OrganizationId, email: &str, role: &str) -> Person {
        self.member_for(organization, email, role, &[]).await
    }

    /// An agronomist limited to clients.
    pub async fn member_for(&self, organization: OrganizationId, email: &str, role: &str, clients: &[&str]) -> Person {
        let draft = json!({ "name": email.split('@').next(), "email": email, "role": role, "clients": clients });
        let draft = input::read(&draft).expect("a draft");
        let grant = access::host(organization);
        let (db, clock) = (&self.app.db, &self.app.clock);
        let added = act::add_member(db, clock, &self.app.hasher, &grant, draft, None).await.expect("a member");
        let token = token::add(db, clock, &grant, added.account, "test").await.expect("a token");
        Person { router: self.router.clone(), token: Some(token), organization, account: added.account }
    }

    /// Somebody who is a member already, with a token.
    pub async fn person(&self, organization: OrganizationId, account: sowmark_core::ids::AccountId) -> Person {
        let (db, clock) = (&self.app.db, &self.app.clock);
        let token = token::add(db, clock, &access::host(organization), account, "test").await.expect("a token");
        Person { router: self.router.clone(), token: Some(token), organization, account }
    }

    /// The office of a farm of its own: Ana at Birkenfeld, in Central European time.
    pub async fn ana(&self) -> Person {
        let organization = self.organization("Birkenfeld", "Europe/Vienna").await;
        self.member(organization, &format!("ana-{}@example.org", next()), "office").await
    }

    /// Somebody who is not signed in.
    pub fn nobody(&self) -> Person {
        Person {
            router: self.router.clone(),
            token: None,
            organization: OrganizationId(uuid::Uuid::max()),
            account: sowmark_core::ids::AccountId(uuid::Uuid::max()),
        }
    }

    /// The same server, reached at an address of its own.
    pub fn reached_at(mut self, url: &str) -> Self {
        self.app.config = Arc::new(Config { public_url: Some(url.to_owned()), ..Config::default() });
        self.router = app::router(self.app.clone());
        self
    }

    /// The same server, with a mail server to send by.
    pub fn sending_by(mut self, smtp: &str) -> Self {
        let mail = Some(sowmark::mail::Mailer::new(smtp, "Sowmark <sowmark@seed.example>").expect("a mail server"));
        self.app.config = Arc::new(Config { public_url: Some("http://seed.example".to_owned()), mail, metrics: None });
        self.router = app::router(self.app.clone());
        self
    }

    /// Every byte that SQLite keeps, in its file and in its log; nothing on PostgreSQL.
    pub fn bytes_kept(&self) -> Vec<u8> {
        let Some(folder) = &self.file else { return Vec::new() };
        let files = std::fs::read_dir(folder.path()).expect("a folder");
        files.flat_map(|file| std::fs::read(file.expect("a file").path()).expect("its bytes")).collect()
    }

    pub fn set_time(&self, at: &str) {
        self.app.clock.set(at.parse().expect("a time"));
    }

    /// A raw request.
    pub async fn request(&self, request: Request<Body>) -> Answer {
        answer(&self.router, request).await
    }
}

fn next() -> u32 {
    static NEXT: AtomicU32 = AtomicU32::new(1);
    NEXT.fetch_add(1, Ordering::Relaxed)
}

/// Options for a schema that only this test uses. It is not dropped: the cluster goes as a whole.
#[allow(clippy::disallowed_methods)]
pub async fn schema_of_its_own() -> sqlx::postgres::PgConnectOptions {
    postgres_of_its_own().await.parse().expect("a PostgreSQL address")
}

/// The address of such a schema, for a program of its own.
pub async fn postgres_of_its_own() -> String {
    use sqlx::{ConnectOptions, Executor};
    let url = std::env::var("TEST_POSTGRES_URL")
        .expect("TEST_POSTGRES_URL is not set: run the tests through scripts/with-postgres");
    let options: sqlx::postgres::PgConnectOptions = url.parse().expect("a PostgreSQL address");
    let schema = format!("t_{}", Clock::system().new_id().expect("an id").simple());
    let mut connection = options.connect().await.expect("PostgreSQL answers");
    connection.execute(sqlx::AssertSqlSafe(format!("create schema {schema}"))).await.expect("a schema");
    format!("{url}?options[search_path]={schema}")
}

/// What the page itself says: the sentences that its scripts may come to say stand in it as well, unseen.
fn without_scripts_texts(text: &str) -> String {
    let begin = text.find("<template id=\"says\">");
    let end = begin.and_then(|begin| text[begin..].find("</template>").map(|length| begin + length));
    match (begin, end) {
        (Some(begin), Some(end)) => format!("{}{}", &text[..begin], &text[end..]),
        _ => text.to_owned(),
    }
}

async fn answer(router: &Router, request: Request<Body>) -> Answer {
    let response = router.clone().oneshot(request).await.expect("an answer");
    let (parts, body) = response.into_parts();
    let bytes = body.collect().await.expect("a body").to_bytes();
    let text = String::from_utf8_lossy(&bytes);
    Answer { status: parts.status, headers: parts.headers, text: without_scripts_texts(&text) }
}

impl Person {
    /// Somebody with a token that stands for nobody.
    pub fn with_token(&self, token: &str) -> Self {
        Self { token: Some(token.to_owned()), ..self.clone() }
    }

    pub async fn get(&self, path: &str) -> Answer {
        self.send(Method::GET, path, None).await
    }

    /// The answer as it begins, its body still to be read.
    pub async fn open(&self, path: &str) -> axum::response::Response {
        let request = self.request(Method::GET, path).body(Body::empty()).expect("a request");
        self.router.clone().oneshot(request).await.expect("an answer")
    }

    pub async fn post(&self, path: &str, body: Value) -> Answer {
        self.send(Method::POST, path, Some(body.to_string())).await
    }

    pub async fn put(&self, path: &str, body: Value) -> Answer {
        self.send(Method::PUT, path, Some(body.to_string())).await
    }

    pub async fn patch(&self, path: &str, body: Value) -> Answer {
        self.send(Method::PATCH, path, Some(body.to_string())).await
    }

    /// A body that need not be JSON.
    pub async fn post_text(&self, path: &str, body: impl Into<Body>) -> Answer {
        let request = self.request(Method::POST, path).header(header::CONTENT_TYPE, "application/json");
        answer(&self.router, request.body(body.into()).expect("a request")).await
    }

    /// A form of a page, as a browser sends it from Sowmark's own page.
    pub async fn submit(&self, path: &str, fields: &[(&str, &str)]) -> Answer {
        let encode =
            |text: &str| percent_encoding::utf8_percent_encode(text, percent_encoding::NON_ALPHANUMERIC).to_string();
        let body: Vec<String> =
            fields.iter().map(|(name, value)| format!("{}={}", encode(name), encode(value))).collect();
        let request = self
            .request(Method::POST, path)
            .header("sec-fetch-site", "same-origin")
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
        answer(&self.router, request.body(Body::from(body.join("&"))).expect("a request")).await
    }

    /// A file from a page's form, as a browser sends it from Sowmark's own page.
    pub async fn upload(&self, path: &str, name: &str, bytes: &[u8]) -> Answer {
        const BOUNDARY: &str = "----between7MA4YWxkTrZu0gW";
        let head = format!(
            "--{BOUNDARY}\r\nContent-Disposition: form-data; name=\"file\"; filename=\"{name}\"\r\n\
             Content-Type: application/octet-stream\r\n\r\n"
        );
        let body = [head.as_bytes(), bytes, format!("\r\n--{BOUNDARY}--\r\n").as_bytes()].concat();
        let request = self
            .request(Method::POST, path)
            .header("sec-fetch-site", "same-origin")
            .header(header::CONTENT_TYPE, format!("multipart/form-data; boundary={BOUNDARY}"));
        answer(&self.router, request.body(Body::from(body)).expect("a request")).await
    }

    /// Creates and answers the record; anything but 201 ends the test.
    pub async fn create(&self, path: &str, body: Value) -> Value {
        let answer = self.post(path, body).await;
        assert_eq!(answer.status, StatusCode::CREATED, "POST {path}: {}", answer.text);
        answer.json()
    }

    /// Reads; anything but 200 ends the test.
    pub async fn read(&self, path: &str) -> Value {
        let answer = self.get(path).await;
        assert_eq!(answer.status, StatusCode::OK, "GET {path}: {}", answer.text);
        answer.json()
    }

    async fn send(&self, method: Method, path: &str, body: Option<String>) -> Answer {
        let request = self.request(method, path).header(header::CONTENT_TYPE, "application/json");
        answer(&self.router, request.body(body.map_or_else(Body::empty, Body::from)).expect("a request")).await
    }

    fn request(&self, method: Method, path: &str) -> axum::http::request::Builder {
        let path = if path.starts_with("/page") {
            path.trim_start_matches("/page").to_owned()
        } else {
            format!("/api/v1{path}")
        };
        let request = Request::builder().method(method).uri(path).header(header::HOST, "sowmark.test");
        match &self.token {
            Some(token) => request.header(header::AUTHORIZATION, format!("Bearer {token}")),
            None => request,
        }
    }
}

impl Answer {
    pub fn json(&self) -> Value {
        serde_json::from_str(&self.text).unwrap_or_else(|error| panic!("{error}: {}", self.text))
    }

    /// The pointers of a problem's faults.
    pub fn pointers(&self) -> Vec<String> {
        let problem = self.json();
        let errors = problem["errors"].as_array().cloned().unwrap_or_default();
        errors.iter().map(|error| error["pointer"].as_str().unwrap_or_default().to_owned()).collect()
    }

    /// Asserts a refusal with these pointers, each with a sentence.
    pub fn refused(&self, status: u16, pointers: &[&str]) {
        assert_eq!(self.status.as_u16(), status, "{}", self.text);
        assert_eq!(self.headers[header::CONTENT_TYPE], "application/problem+json");
        let problem = self.json();
        assert_eq!(problem["status"], json!(status));
        for pointer in pointers {
            assert!(self.pointers().iter().any(|p| p == pointer), "no fault at {pointer}: {}", self.text);
        }
        for error in problem["errors"].as_array().into_iter().flatten() {
            assert!(error["detail"].as_str().is_some_and(|detail| detail.ends_with('.')), "{error}");
        }
    }
}
