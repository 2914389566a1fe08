//! What a folder holds besides its streams: house rules and the families of the bench's own.

use std::{
    fs::{self, File},
    io::{Read, Seek, SeekFrom},
    path::{Path, PathBuf},
};

use super::{FolderStore, index::END_SEEN};
use crate::{
    shop_rules::ShopRules,
    store::{
        files::{Links, TEXT_MOST, open_to_read, read_text, shown},
        form::read_rules,
        job_id::FileName,
        port::{Store, StoreProblem, StreamId},
    },
};

impl FolderStore {
    /// The folder of the bench's own families.
    pub fn library(&self) -> PathBuf {
        self.folder.join("library")
    }

    /// Makes the folder, when it is not there yet.
    pub fn make(&self) -> Result<(), StoreProblem> {
        let folder = || shown(&self.folder);
        fs::create_dir_all(&self.folder).map_err(|why| StoreProblem::NoFolder {
            folder: folder(),
            what: "jobs",
            why,
        })
    }

    /// Puts a tool book that is written already beside the jobs.
    pub fn put_tool_book(&self, name: &FileName, text: &str) -> Result<(), StoreProblem> {
        Self::at(self.folder.join("tools")).export(name, text).map(drop)
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
        read_rules(&shown(path), &text).map_err(|why| StoreProblem::NotUnderstood(format!("{why:#}")))
    }

    /// The last bytes of a stream's file, when they can be read.
    pub(super) fn disk_end(&self, stream: &StreamId) -> Option<Vec<u8>> {
        let mut file: File = open_to_read(&self.path_of(stream), Links::Refused).ok()?;
        let length = file.metadata().ok()?.len();
        file.seek(SeekFrom::Start(length.saturating_sub(END_SEEN))).ok()?;
        let mut end = Vec::new();
        file.take(END_SEEN).read_to_end(&mut end).ok()?;
        Some(end)
    }
}
