//! A database for the program, and ways to run the program on it.

use crate::world::postgres_of_its_own;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Command, Output, Stdio};

/// Runs each `async fn name(place: Place)` with an empty database of its own, on SQLite and on PostgreSQL.
#[macro_export]
macro_rules! on_both_places {
    ($($name:ident),* $(,)?) => {
        mod sqlite {
            $(#[tokio::test]
            async fn $name() {
                super::$name($crate::cli::place::Place::on_sqlite()).await;
            })*
        }
        mod postgres {
            $(#[tokio::test]
            async fn $name() {
                super::$name($crate::cli::place::Place::on_postgres().await).await;
            })*
        }
    };
}

pub struct Place {
    url: String,
    _folder: Option<tempfile::TempDir>,
}

impl Place {
    pub fn on_sqlite() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let url = format!("sqlite://{}", folder.path().join("sowmark.db").display());
        Self { url, _folder: Some(folder) }
    }

    pub async fn on_postgres() -> Self {
        Self { url: postgres_of_its_own().await, _folder: None }
    }

    pub fn url(&self) -> &str {
        &self.url
    }

    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = program();
        command.arg("--database").arg(&self.url).args(arguments);
        command
    }

    pub fn run(&self, arguments: &[&str]) -> Output {
        self.command(arguments).output().unwrap()
    }

    /// What it printed, without the line's end; anything but success ends the test.
    pub fn say(&self, arguments: &[&str]) -> String {
        said(&self.run(arguments))
    }

    /// Runs it with something on its standard input.
    pub fn run_with(&self, arguments: &[&str], input: &str) -> Output {
        let mut child = self
            .command(arguments)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        child.stdin.take().unwrap().write_all(input.as_bytes()).unwrap();
        child.wait_with_output().unwrap()
    }

    /// A server on a free port.
    pub fn serve(&self) -> Server {
        Server::start(self.command(&["serve", "--listen", "127.0.0.1:0"]))
    }
}

/// The program, without what the surroundings say.
pub fn program() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_sowmark"));
    for variable in ["SOWMARK_DATABASE_URL", "SOWMARK_LISTEN", "SOWMARK_METRICS", "SOWMARK_PUBLIC_URL", "RUST_LOG"] {
        command.env_remove(variable);
    }
    command
}

pub fn said(output: &Output) -> String {
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout.clone()).unwrap().trim_end().to_owned()
}

/// Asserts a failure told in one line on standard error; answers the line.
pub fn told(output: &Output) -> String {
    let error = String::from_utf8(output.stderr.clone()).unwrap();
    assert!(!output.status.success(), "it should have failed");
    assert_eq!(String::from_utf8_lossy(&output.stdout), "", "nothing on standard output");
    assert_eq!(error.trim_end().lines().count(), 1, "one line: {error}");
    assert!(error.starts_with("sowmark: "), "{error}");
    assert!(!error.contains("panicked") && !error.contains("RUST_BACKTRACE"), "{error}");
    error.trim_end().to_owned()
}

/// A running server; it ends with the test.
pub struct Server {
    child: Child,
    out: BufReader<std::process::ChildStdout>,
    pub address: String,
}

impl Server {
    pub fn start(mut command: Command) -> Self {
        let mut child = command.stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
        let out = BufReader::new(child.stdout.take().unwrap());
        let mut server = Self { child, out, address: String::new() };
        let line = server.line();
        let url = line.rsplit(' ').next().unwrap().to_owned();
        url.strip_prefix("http://").unwrap_or_else(|| panic!("no address in: {line}")).clone_into(&mut server.address);
        server
    }

    pub fn id(&self) -> String {
        self.child.id().to_string()
    }

    /// The next line that it prints.
    pub fn line(&mut self) -> String {
        let mut line = String::new();
        self.out.read_line(&mut line).unwrap();
        line.trim_end().to_owned()
    }

    /// Status and body of a request.
    pub fn request(&self, method: &str, path: &str, headers: &[(&str, &str)], body: &str) -> (u16, String) {
        request_at(&self.address, method, path, headers, body)
    }

    /// Tells it to stop, as a service manager does; whether it went in peace.
    pub fn stop(mut self) -> bool {
        let id = self.id();
        assert!(Command::new("kill").args(["-TERM", &id]).status().unwrap().success());
        self.child.wait().unwrap().success()
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        // It may have ended already; then there is nothing to end.
        self.child.kill().ok();
        self.child.wait().ok();
    }
}

/// Status and body of a request to an address.
pub fn request_at(address: &str, method: &str, path: &str, headers: &[(&str, &str)], body: &str) -> (u16, String) {
    let mut stream = TcpStream::connect(address).unwrap();
    let extra: Vec<String> = headers.iter().map(|(name, value)| format!("{name}: {value}\r\n")).collect();
    let extra = extra.concat();
    let head = format!(
        "{method} {path} HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n{extra}Content-Length: {}\r\n\r\n",
        body.len()
    );
    stream.write_all(head.as_bytes()).unwrap();
    stream.write_all(body.as_bytes()).unwrap();
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer).unwrap();
    let answer = String::from_utf8_lossy(&answer).into_owned();
    let status = answer.split(' ').nth(1).unwrap_or_else(|| panic!("no answer: {answer}")).parse().unwrap();
    let body = answer.split_once("\r\n\r\n").map_or_else(String::new, |(_, body)| body.to_owned());
    (status, body)
}
