//! `sowmark member add`.

use super::{Place, parse_id, told};
use crate::access::{self, password::Hasher};
use crate::people::act;
use crate::people::draft::MemberDraft;
use anyhow::Context;
use serde_json::json;
use sowmark_core::ids::OrganizationId;
use std::io::Read;

#[derive(Debug, clap::Subcommand)]
pub(super) enum Command {
    /// Make an account if it is new, and the membership. Without a password it prints a one-time link to set one.
    Add {
        email: String,
        #[arg(long, value_name = "ID")]
        organization: String,
        #[arg(long, value_parser = ["office", "crew", "agronomist"])]
        role: String,
        /// Limit an agronomist to a client; may be given several times.
        #[arg(long, value_name = "ID")]
        client: Vec<String>,
        /// The person's name; the part of the address before the @ if not given.
        #[arg(long)]
        name: Option<String>,
        /// Read the password from standard input, up to the first line's end.
        #[arg(long)]
        password_stdin: bool,
    },
    /// Print a one-time link to set a new password, for a member who has lost theirs.
    NewLink {
        email: String,
        #[arg(long, value_name = "ID")]
        organization: String,
    },
}

pub(super) async fn run(place: &Place, command: Command) -> anyhow::Result<()> {
    match command {
        Command::NewLink { email, organization } => new_link(place, &email, &organization).await,
        Command::Add { email, organization, role, client, name, password_stdin } => {
            let new = New { email, organization, role, client, name, password_stdin };
            add(place, new).await
        }
    }
}

struct New {
    email: String,
    organization: String,
    role: String,
    client: Vec<String>,
    name: Option<String>,
    password_stdin: bool,
}

async fn new_link(place: &Place, email: &str, organization: &str) -> anyhow::Result<()> {
    let grant = access::host(OrganizationId(parse_id(organization, "--organization")?));
    let account = act::account_of(&place.db, email).await.map_err(|error| told(&error))?;
    let code = act::add_password_link(&place.db, &place.clock, &grant, account).await.map_err(|error| told(&error))?;
    print_link(&code);
    Ok(())
}

fn print_link(code: &str) {
    println!("Set a password here, once, within a week: /set-password/{code} (after the server's address)");
}

async fn add(place: &Place, new: New) -> anyhow::Result<()> {
    let New { email, organization, role, client, name, password_stdin } = new;
    let organization = OrganizationId(parse_id(&organization, "--organization")?);
    let name = name.unwrap_or_else(|| email.split('@').next().unwrap_or_default().to_owned());
    let draft: MemberDraft =
        crate::web::input::read(&json!({ "email": email, "name": name, "role": role, "clients": client }))
            .map_err(|error| told(&error))?;
    let password = if password_stdin { Some(read_password()?) } else { None };
    let grant = access::host(organization);
    let added = act::add_member(&place.db, &place.clock, &Hasher::new(), &grant, draft, password)
        .await
        .map_err(|error| told(&error))?;
    match added.link {
        Some(code) => print_link(&code),
        None => println!("{}", added.account),
    }
    Ok(())
}

fn read_password() -> anyhow::Result<String> {
    let mut text = String::new();
    std::io::stdin().take(4096).read_to_string(&mut text).context("the password cannot be read from standard input")?;
    Ok(text.lines().next().unwrap_or_default().to_owned())
}
