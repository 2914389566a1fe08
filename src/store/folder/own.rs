//! What a folder holds besides its streams: house rules and the families of the bench's own.

use std::path::{Path, PathBuf};

use super::{FolderStore, exports};
use crate::{
    form::read_rules,
    shop_rules::ShopRules,
    store::{
        files::{Links, TEXT_MOST, read_text, shown},
        job_id::FileName,
        port::StoreProblem,
    },
};

impl FolderStore {
    /// The folder of the bench's own families.
    pub fn library(&self) -> PathBuf {
        self.folder.join("library")
    }

    /// Makes the folder, when it is not there yet.
    pub fn make(&self) -> Result<(), StoreProblem> {
        exports::make(&self.folder)
    }

    /// Puts a tool book that is written already beside the jobs.
    pub fn put_tool_book(&self, name: &FileName, text: &str) -> Result<(), StoreProblem> {
        exports::write(&self.folder.join("tools"), name, text).map(drop)
    }

    /// The house rules: of the file named, else of this folder, else those built in.
    pub fn rules(&self, named: Option<&Path>) -> Result<ShopRules, StoreProblem> {
        let own = self.folder.join("house-rules.ron");
        let path = match named {
            Some(path) => path,
            None if own.exists() => &own,
            None => return Ok(ShopRules::default()),
        };
        let text = read_text(path, TEXT_MOST, Links::Followed).map_err(StoreProblem::NoRules)?;
        read_rules(&shown(path), &text).map_err(|why| StoreProblem::NotUnderstood(why.to_string()))
    }
}
