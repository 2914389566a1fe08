//! The folder of a bench: jobs, house rules, requests.

use std::{
    fs,
    io::Write,
    path::{Path, PathBuf},
    time::SystemTime,
};

use anyhow::{Context, Result, bail};

use super::{form::read_rules, names::JobId, open::OpenJob};
use crate::house::HouseRules;

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
            .with_context(|| format!("{}: the folder for jobs cannot be made", self.folder.display()))
    }

    /// Every job, the last touched first.
    pub fn jobs(&self) -> Result<Vec<Listed>> {
        if !self.folder.exists() {
            return Ok(Vec::new());
        }
        let entries = fs::read_dir(&self.folder)
            .with_context(|| format!("{}: not a folder that can be read", self.folder.display()))?;
        let mut jobs = Vec::new();
        for entry in entries {
            let entry = entry.with_context(|| format!("{}: cannot be listed", self.folder.display()))?;
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
    pub fn rules(&self, named: Option<&Path>) -> Result<HouseRules> {
        let own = self.folder.join("house-rules.ron");
        let path = match named {
            Some(path) => path,
            None if own.exists() => &own,
            None => return Ok(HouseRules::default()),
        };
        let text = fs::read_to_string(path)
            .with_context(|| format!("{}: the house rules cannot be read", path.display()))?;
        read_rules(&path.display().to_string(), &text)
    }

    /// Writes a whole file: to a temporary one beside it, synced, then renamed, so that a reader
    /// never sees half of it.
    pub fn write_whole(&self, name: &str, text: &str) -> Result<PathBuf> {
        if name.contains(['/', '\\']) || name.starts_with('.') {
            bail!("\"{}\" is not a file name for this folder", crate::quantity::harmless(name));
        }
        self.make()?;
        let path = self.folder.join(name);
        let temporary = self.folder.join(format!(".{name}.new"));
        let mut file = fs::File::create(&temporary)
            .with_context(|| format!("{}: cannot be written", temporary.display()))?;
        file.write_all(text.as_bytes())
            .and_then(|()| file.sync_all())
            .and_then(|()| fs::rename(&temporary, &path))
            .with_context(|| format!("{}: cannot be written", path.display()))?;
        Ok(path)
    }

    /// The text of a file of this folder, when it is there.
    pub fn read(&self, name: &str) -> Result<Option<String>> {
        let path = self.folder.join(name);
        match fs::read_to_string(&path) {
            Ok(text) => Ok(Some(text)),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(error).with_context(|| format!("{}: cannot be read", path.display())),
        }
    }
}
