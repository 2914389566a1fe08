//! The folder of a bench: jobs, house rules, requests.

use std::{
    fs,
    path::{Path, PathBuf},
    time::SystemTime,
};

use anyhow::{Context, Result};

use super::{
    files::{self, Links, ReadProblem, TEXT_MOST, read_text, shown},
    job_id::{FileName, JobId},
    open::OpenJob,
};
use crate::{form::read_rules, shop_rules::ShopRules};

/// Why there is no store.
#[derive(Debug, thiserror::Error)]
pub enum StoreProblem {
    /// The system names no folder for a user's data.
    #[error("there is no home folder to keep jobs in: name one with --store DIR or REPIN_STORE")]
    NoHome,
}

/// A folder with jobs.
#[derive(Debug, Clone)]
pub struct Store {
    folder: PathBuf,
}

/// A job of the folder, opened to be looked at or not.
#[derive(Debug)]
pub struct Listed {
    /// Its id.
    pub id: JobId,
    /// When its file was last changed.
    pub touched: SystemTime,
    /// The job, or why it cannot be shown.
    pub job: Result<OpenJob, String>,
}

impl Store {
    /// The folder named, else the one the environment names, else the user's data folder.
    pub fn find(named: Option<PathBuf>) -> Result<Self, StoreProblem> {
        let environment = || std::env::var_os("REPIN_STORE").filter(|v| !v.is_empty()).map(PathBuf::from);
        let home = || dirs::data_dir().map(|dir| dir.join("repin"));
        let folder = named.or_else(environment).or_else(home).ok_or(StoreProblem::NoHome)?;
        Ok(Self { folder })
    }

    /// The store in this folder.
    pub fn at(folder: PathBuf) -> Self {
        Self { folder }
    }

    /// The folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// The folder of the bench's own families.
    pub fn library(&self) -> PathBuf {
        self.folder.join("library")
    }

    /// The file a job is or would be in: a path where `job` has a stroke or the ending of a job's
    /// file, else an id in this folder.
    pub fn path_of(&self, job: &str) -> Result<PathBuf> {
        if job.contains(['/', std::path::MAIN_SEPARATOR]) || job.ends_with(".job.ron") {
            return Ok(PathBuf::from(job));
        }
        let id: JobId = job.parse()?;
        Ok(self.folder.join(format!("{id}.job.ron")))
    }

    /// Makes the folder, when it is not there yet.
    pub fn make(&self) -> Result<()> {
        fs::create_dir_all(&self.folder)
            .with_context(|| format!("{}: the folder for jobs cannot be made", shown(&self.folder)))
    }

    /// Every job, the last touched first.
    pub fn jobs(&self) -> Result<Vec<Listed>> {
        if !self.folder.exists() {
            return Ok(Vec::new());
        }
        let entries = fs::read_dir(&self.folder)
            .with_context(|| format!("{}: not a folder that can be read", shown(&self.folder)))?;
        let mut jobs = Vec::new();
        for entry in entries {
            let entry = entry.with_context(|| format!("{}: cannot be listed", shown(&self.folder)))?;
            let name = entry.file_name().to_string_lossy().into_owned();
            let Some(id) = name.strip_suffix(".job.ron").and_then(|id| id.parse::<JobId>().ok()) else {
                continue;
            };
            let touched = entry.metadata().and_then(|m| m.modified()).unwrap_or(SystemTime::UNIX_EPOCH);
            let job = OpenJob::look(&entry.path()).map_err(|why| why.to_string());
            jobs.push(Listed { id, touched, job });
        }
        jobs.sort_by(|a, b| b.touched.cmp(&a.touched).then_with(|| a.id.cmp(&b.id)));
        Ok(jobs)
    }

    /// The house rules: of the file named, else of this folder, else those built in.
    pub fn rules(&self, named: Option<&Path>) -> Result<ShopRules> {
        let own = self.folder.join("house-rules.ron");
        let path = match named {
            Some(path) => path,
            None if own.exists() => &own,
            None => return Ok(ShopRules::default()),
        };
        let text = read_text(path, TEXT_MOST, Links::Followed).context("the house rules cannot be read")?;
        Ok(read_rules(&shown(path), &text)?)
    }

    /// Writes a whole file: to a temporary one beside it, synced, then renamed, so that a reader
    /// never sees half of it.
    pub fn write_whole(&self, name: &FileName, text: &str) -> Result<PathBuf> {
        self.make()?;
        let path = self.folder.join(name.as_str());
        files::write_whole(&path, text.as_bytes())
            .with_context(|| format!("{}: cannot be written", shown(&path)))?;
        Ok(path)
    }

    /// The text of a file of this folder, when it is there.
    pub fn read(&self, name: &FileName) -> Result<Option<String>, ReadProblem> {
        match read_text(&self.folder.join(name.as_str()), TEXT_MOST, Links::Refused) {
            Ok(text) => Ok(Some(text)),
            Err(problem) if problem.is_missing() => Ok(None),
            Err(problem) => Err(problem),
        }
    }
}
