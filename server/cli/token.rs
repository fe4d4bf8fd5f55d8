//! `sowmark token add`.

use super::{Place, parse_id, told};
use crate::access::{self, token};
use crate::people::act;
use crate::people::draft::TokenDraft;
use crate::web::input;
use serde_json::json;
use sowmark_core::ids::OrganizationId;

#[derive(Debug, clap::Subcommand)]
pub(super) enum Command {
    /// Make a bearer token for a member; prints it once.
    Add {
        email: String,
        #[arg(long, value_name = "ID")]
        organization: String,
        /// What the token is for, to know it by when it must be ended.
        #[arg(long)]
        label: String,
    },
}

pub(super) async fn run(place: &Place, command: Command) -> anyhow::Result<()> {
    let Command::Add { email, organization, label } = command;
    let organization = OrganizationId(parse_id(&organization, "--organization")?);
    let draft: TokenDraft = input::read(&json!({ "label": label })).map_err(|error| told(&error))?;
    let account = act::account_of(&place.db, &email).await.map_err(|error| told(&error))?;
    let secret = token::add(&place.db, &place.clock, &access::host(organization), account, &draft.label.0)
        .await
        .map_err(|error| told(&error))?;
    println!("{secret}");
    Ok(())
}
