//! A mail server as small as can be: RFC 5321 as far as one client needs it, on a port of its own.

use mail_parser::{Message, MessageParser};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, Mutex};
use tokio::io::{AsyncBufReadExt, AsyncWriteExt, BufReader};
use tokio::net::{TcpListener, TcpStream};

/// What came in.
#[derive(Clone, Default)]
pub struct PostOffice {
    letters: Arc<Mutex<Vec<Letter>>>,
    /// How many came to the door at all.
    callers: Arc<AtomicUsize>,
    /// Whether it turns letters away.
    is_closed: Arc<AtomicBool>,
    pub url: String,
}

/// A letter with its envelope.
#[derive(Clone, Debug)]
pub struct Letter {
    pub from: String,
    pub to: Vec<String>,
    pub raw: Vec<u8>,
}

impl Letter {
    pub fn read(&self) -> Message<'_> {
        MessageParser::default().parse(&self.raw).expect("a letter")
    }

    /// A header as it stands, unfolded.
    pub fn header(&self, name: &str) -> String {
        let message = self.read();
        message.header_raw(name).unwrap_or_else(|| panic!("no {name}")).replace("\r\n", "").trim().to_owned()
    }

    pub fn plain(&self) -> String {
        self.read().body_text(0).expect("plain text").replace("\r\n", "\n")
    }

    pub fn html(&self) -> String {
        self.read().body_html(0).expect("HTML").into_owned()
    }

    /// The path of the link to stop.
    pub fn stop(&self) -> String {
        let header = self.header("List-Unsubscribe");
        let link = header.trim_start_matches('<').trim_end_matches('>');
        link.strip_prefix("http://seed.example").expect("on this server").to_owned()
    }
}

impl PostOffice {
    pub async fn open() -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let office = Self { url: format!("smtp://{}", listener.local_addr().unwrap()), ..Self::default() };
        let here = office.clone();
        tokio::spawn(async move {
            while let Ok((stream, _)) = listener.accept().await {
                here.callers.fetch_add(1, Ordering::SeqCst);
                let here = here.clone();
                tokio::spawn(async move { here.receive(stream).await.unwrap() });
            }
        });
        office
    }

    pub fn close(&self, closed: bool) {
        self.is_closed.store(closed, Ordering::SeqCst);
    }

    pub fn callers(&self) -> usize {
        self.callers.load(Ordering::SeqCst)
    }

    pub fn letters(&self) -> Vec<Letter> {
        self.letters.lock().unwrap().clone()
    }

    pub fn last(&self) -> Letter {
        self.letters().pop().expect("a letter")
    }

    async fn receive(&self, stream: TcpStream) -> std::io::Result<()> {
        let (read, mut write) = stream.into_split();
        let mut lines = BufReader::new(read);
        let mut letter = Letter { from: String::new(), to: Vec::new(), raw: Vec::new() };
        write.write_all(b"220 post office\r\n").await?;
        loop {
            let mut line = Vec::new();
            if lines.read_until(b'\n', &mut line).await? == 0 {
                return Ok(());
            }
            let said = String::from_utf8_lossy(&line).trim_end().to_owned();
            let address = || said.split(['<', '>']).nth(1).unwrap_or_default().to_owned();
            let answer: &[u8] = match said.to_ascii_uppercase().split([' ', ':']).next().unwrap_or_default() {
                "EHLO" => b"250-post office\r\n250 8BITMIME\r\n",
                "MAIL" => {
                    letter.from = address();
                    b"250 ok\r\n"
                }
                "RCPT" if self.is_closed.load(Ordering::SeqCst) => b"451 the office is closed\r\n",
                "RCPT" => {
                    letter.to.push(address());
                    b"250 ok\r\n"
                }
                "DATA" => {
                    write.write_all(b"354 go on\r\n").await?;
                    letter.raw = body(&mut lines).await?;
                    self.letters.lock().unwrap().push(letter.clone());
                    b"250 taken\r\n"
                }
                "QUIT" => {
                    write.write_all(b"221 bye\r\n").await?;
                    return Ok(());
                }
                _ => b"250 ok\r\n",
            };
            write.write_all(answer).await?;
        }
    }
}

/// Up to the line with a dot alone; doubled dots undone.
async fn body(lines: &mut BufReader<tokio::net::tcp::OwnedReadHalf>) -> std::io::Result<Vec<u8>> {
    let mut raw = Vec::new();
    loop {
        let mut line = Vec::new();
        lines.read_until(b'\n', &mut line).await?;
        if line == b".\r\n" || line.is_empty() {
            return Ok(raw);
        }
        raw.extend_from_slice(if line.starts_with(b"..") { &line[1..] } else { &line });
    }
}
