//! What every command takes, and how a command ends.

use std::{path::PathBuf, process::ExitCode};

use anyhow::Result;
use clap::Args;

use super::library;
use crate::{form::Catalogue, service::Shop};

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Exit {
    /// Nothing to say.
    Fine,
    /// Understood, and the answer is no, not yet, or with problems.
    Problems,
    /// Not done.
    NotDone,
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        match exit {
            Exit::Fine => Self::from(0),
            Exit::Problems => Self::from(1),
            Exit::NotDone => Self::from(2),
        }
    }
}

/// What every command takes.
#[derive(Debug, Clone, Args)]
pub struct Common {
    /// The folder jobs are kept in (else REPIN_STORE, else your data folder)
    #[arg(long, global = true, value_name = "DIR")]
    pub(super) store: Option<PathBuf>,
    /// A folder with more connector families (else the folder library of the store)
    #[arg(long, global = true, value_name = "DIR")]
    pub(super) library: Option<PathBuf>,
    /// House rules for a new job (else house-rules.ron in the store, else those built in)
    #[arg(long, global = true, value_name = "FILE")]
    pub(super) rules: Option<PathBuf>,
    /// Who works here (else REPIN_BY, else the login name)
    #[arg(long, global = true, value_name = "NAME")]
    pub(super) by: Option<String>,
    /// Plain ASCII on the screen and in text
    #[arg(long, global = true)]
    pub(super) ascii: bool,
    /// One JSON document instead of text
    #[arg(long, global = true)]
    pub(super) json: bool,
}

impl Common {
    /// The shop whose jobs are kept there.
    pub(super) fn shop(&self) -> Result<Shop> {
        Ok(Shop::find(self.store.clone())?)
    }

    /// Who works here.
    pub(super) fn by(&self) -> String {
        let environment = ["REPIN_BY", "USER", "LOGNAME", "USERNAME"];
        let named = self.by.clone().or_else(|| environment.iter().find_map(|name| std::env::var(name).ok()));
        let name = named.filter(|name| !name.trim().is_empty()).unwrap_or_else(|| "bench".to_owned());
        crate::quantity::harmless(name.trim()).into_owned()
    }

    /// The families built in, and those of the library folder, else of the store. Nothing is read but the
    /// folder, and only when somebody looks for a housing.
    pub(super) fn catalogue(&self) -> Result<Catalogue> {
        // Without a folder for jobs there is none for families either.
        let own = || self.shop().ok().map(|shop| shop.library()).filter(|folder| folder.is_dir());
        library::catalogue(self.library.clone().or_else(own).as_deref())
    }
}
