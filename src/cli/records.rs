//! What a new job takes from files: records of what is found and of what should be, and the map.
//! Every act keeps the place it was written at, so that a refusal can name it.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, anyhow, bail};

use super::{common::Common, print};
use crate::{
    exchange::{KblFile, WiringList, is_xml, read_table},
    face::Label,
    form::{MapFile, read_map, read_record},
    job::{Act, RecordSide},
    quantity::{count_of, harmless, list_of},
    record::{Address, CavityContent, HousingName},
    store::{LIST_MOST, Links, TEXT_MOST, read_bytes, read_text},
};

/// An act, and the file and place it comes from.
pub(super) struct KeyedIn {
    pub act: Act,
    pub place: Option<String>,
}

impl From<Act> for KeyedIn {
    fn from(act: Act) -> Self {
        Self { act, place: None }
    }
}

/// A record that a new job is to take in.
pub(super) struct ListSource<'a> {
    /// `[NAME=]FILE`, or a job.
    pub word: &'a str,
    pub side: RecordSide,
    /// The housings whose labels it is written in.
    pub housings: &'a [HousingName],
    /// Which connector of a list, and in which variant.
    pub choice: Choice<'a>,
}

/// Which part of a list is wanted.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Choice<'a> {
    /// The connector, where the list has several.
    pub connector: Option<&'a str>,
    /// The configuration, where a harness file holds variants.
    pub configuration: Option<&'a str>,
}

/// What was read, and what is to be said about it.
pub(super) struct Taken {
    pub acts: Vec<KeyedIn>,
    pub said: Vec<String>,
}

/// A record from a file, or what another job left.
pub(super) fn record(common: &Common, source: &ListSource<'_>) -> Result<Taken> {
    let (name, word) = match source.word.split_once('=') {
        Some((name, word)) => (name.parse()?, word),
        None => match source.housings {
            [only] => (only.clone(), source.word),
            _ => {
                bail!("there are several housings: name the one the record is of, as in NAME={}", source.word)
            }
        },
    };
    let path = PathBuf::from(word);
    let is_job = word.ends_with(".job.ron") || (source.side == RecordSide::Found && !path.exists());
    let (keyed, said) = if is_job && source.side == RecordSide::Found {
        (left_of(common, word)?, Vec::new())
    } else if path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("ron")) {
        (record_file(&path)?, Vec::new())
    } else {
        listed(&path, source.choice)?
    };
    let act = |(label, holds, from): (Label, CavityContent, Option<(String, u32)>)| KeyedIn {
        place: from.as_ref().map(|(file, line)| format!("{file}:{line}")),
        act: Act::Recorded { side: source.side, at: Address::new(name.clone(), label), holds, from },
    };
    Ok(Taken { acts: keyed.into_iter().map(act).collect(), said })
}

/// A cavity of a record with where it was written.
type Keyed = (Label, CavityContent, Option<(String, u32)>);

fn left_of(common: &Common, job: &str) -> Result<Vec<Keyed>> {
    let open = print::look(common, job)?;
    Ok(open.job().left_as_record().into_iter().map(|(_, label, holds)| (label, holds, None)).collect())
}

fn record_file(path: &Path) -> Result<Vec<Keyed>> {
    let shown = shown(path);
    let cavities = read_record(&shown, &read_text(path, TEXT_MOST, Links::Followed)?)?;
    let mut keyed: Vec<Keyed> = Vec::new();
    for (n, (label, holds)) in (1..).zip(cavities) {
        if keyed.iter().any(|(known, ..)| *known == label) {
            bail!("{shown}: cavity {label} stands twice, the second time as entry {n}");
        }
        keyed.push((label, holds, Some((shown.clone(), n))));
    }
    Ok(keyed)
}

/// A wiring list as a record: only one in which every line was understood.
fn listed(path: &Path, choice: Choice<'_>) -> Result<(Vec<Keyed>, Vec<String>)> {
    let shown = shown(path);
    let list = read_list(path, choice)?;
    let record = list.record().map_err(|problems| {
        let lines: Vec<String> =
            problems.iter().map(|p| format!("{shown}:{}: {}", p.line, harmless(&p.say))).collect();
        anyhow!("{}\n{}", count_of(lines.len(), "problem"), lines.join("\n"))
    })?;
    let mut said = vec![format!("{shown}: {}", count_of(record.len(), "cavity"))];
    said.extend(list.assumed.iter().map(|assumed| format!("{shown}: assumed: {}", harmless(assumed))));
    said.extend(
        list.skipped.iter().map(|(what, n)| format!("{shown}: left aside: {n} x {}", harmless(what))),
    );
    let keyed = record.into_iter().map(|(label, holds, line)| (label, holds, Some((shown.clone(), line))));
    Ok((keyed.collect(), said))
}

/// A wiring list from a file, of whichever form.
fn read_list(path: &Path, choice: Choice<'_>) -> Result<WiringList> {
    let shown = shown(path);
    match open_list(path)? {
        ListFile::Table(bytes) => Ok(read_table(&bytes, choice.connector)),
        ListFile::Harness(file) => {
            let Some(connector) = choice.connector else {
                let there: Vec<String> = file.connectors()?.into_iter().map(|c| c.id).collect();
                bail!("{shown}: say which of its connectors with --connector: {}", list_of(&there));
            };
            harness_list(&shown, &file, connector, choice.configuration)
        }
    }
}

/// A list as a file: a spreadsheet's export, or an open harness file.
pub(super) enum ListFile {
    /// Bytes of a table.
    Table(Vec<u8>),
    /// A harness, of which one connector is read.
    Harness(KblFile),
}

/// Reads a file, within bounds, and tells what it is.
pub(super) fn open_list(path: &Path) -> Result<ListFile> {
    let shown = shown(path);
    let bytes = read_bytes(path, LIST_MOST, Links::Followed)?;
    if is_xml(&bytes) {
        return Ok(ListFile::Harness(KblFile::of(&bytes).with_context(|| shown.clone())?));
    }
    if bytes.contains(&0) && !bytes.starts_with(b"\xff\xfe") && !bytes.starts_with(b"\xfe\xff") {
        bail!("{shown}: this is not a text file: export the spreadsheet as CSV");
    }
    Ok(ListFile::Table(bytes))
}

/// One connector of a harness, with a bar for files that take their time.
pub(super) fn harness_list(
    shown: &str,
    file: &KblFile,
    connector: &str,
    configuration: Option<&str>,
) -> Result<WiringList> {
    let mut bar = print::Bar::new();
    let list = file.list(connector, configuration, &mut |done, all| bar.show(done, all));
    bar.clear();
    list.with_context(|| shown.to_owned())
}

/// The map from a file, as acts.
pub(super) fn map(path: &Path) -> Result<Vec<KeyedIn>> {
    let shown = shown(path);
    let MapFile { document, map } = read_map(&shown, &read_text(path, TEXT_MOST, Links::Followed)?)?;
    let placed = (1..).zip(map).map(|(n, (from, to))| KeyedIn {
        place: Some(format!("{shown}: entry {n}")),
        act: Act::Mapped { from, to, document: document.clone() },
    });
    Ok(placed.collect())
}

pub(super) fn shown(path: &Path) -> String {
    harmless(&path.to_string_lossy()).into_owned()
}
