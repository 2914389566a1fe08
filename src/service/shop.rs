//! A shop as a bench finds it: the folder with its jobs, its house rules, its own families.

use std::{
    path::{Path, PathBuf},
    rc::Rc,
};

use super::open::JobAt;
use crate::{
    catalogue::FamilyForm,
    reckoning::ToolBook,
    shop_rules::ShopRules,
    store::{FileName, FolderStore, JobIdProblem, Store, StoreProblem, StreamId, write_family},
};

/// A shop that keeps its jobs in a folder.
#[derive(Debug, Clone)]
pub struct Shop {
    folder: Rc<FolderStore>,
}

impl Shop {
    /// The shop in the folder named, else in the one the environment names, else in the user's data folder.
    pub fn find(named: Option<PathBuf>) -> Result<Self, StoreProblem> {
        Ok(Self { folder: Rc::new(FolderStore::find(named)?) })
    }

    /// The shop in this folder.
    pub fn at(folder: PathBuf) -> Self {
        Self { folder: Rc::new(FolderStore::at(folder)) }
    }

    /// Where its jobs are kept.
    pub fn store(&self) -> Rc<dyn Store> {
        self.folder.clone()
    }

    /// Makes its folder, when it is not there yet.
    pub fn make(&self) -> Result<(), StoreProblem> {
        self.folder.make()
    }

    /// A job as a person names it: by a path where the word has a stroke or the ending of a job's file,
    /// else by its id in this shop.
    pub fn job(&self, word: &str) -> Result<JobAt, JobIdProblem> {
        if word.contains(['/', std::path::MAIN_SEPARATOR]) || word.ends_with(".job.ron") {
            return Ok(JobAt::file(Path::new(word)));
        }
        Ok(JobAt::new(self.folder.clone(), StreamId::Job(word.parse()?)))
    }

    /// The folder of the shop's own families.
    pub fn library(&self) -> PathBuf {
        self.folder.library()
    }

    /// The house rules: of the file named, else of the shop, else those built in.
    pub fn rules(&self, named: Option<&Path>) -> Result<ShopRules, StoreProblem> {
        self.folder.rules(named)
    }

    /// The tool books of its benches, as one.
    pub fn tool_book(&self) -> Result<ToolBook, StoreProblem> {
        self.folder.tool_book()
    }

    /// Puts a tool book that is written already beside the jobs.
    pub fn put_tool_book(&self, name: &FileName, text: &str) -> Result<(), StoreProblem> {
        self.folder.put_tool_book(name, text)
    }
}

/// Writes a housing that was described at the bench into a folder of families; gives the file.
pub fn describe_family(folder: &Path, form: &FamilyForm) -> Result<PathBuf, StoreProblem> {
    write_family(folder, form)
}
