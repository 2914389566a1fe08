//! The built program, run in a folder of its own.

use std::{
    path::{Path, PathBuf},
    process::{Command, Stdio},
};

use tempfile::TempDir;

/// A store in a temporary folder.
pub struct Shop {
    pub folder: TempDir,
}

/// What a run gave.
#[derive(Debug)]
pub struct Run {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Shop {
    pub fn new() -> Self {
        Self { folder: TempDir::new().unwrap() }
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Runs the program as "kt" in this store.
    pub fn run(&self, args: &[&str]) -> Run {
        self.run_with(args, "", &[])
    }

    pub fn run_with(&self, args: &[&str], input: &str, env: &[(&str, &str)]) -> Run {
        use std::io::Write;
        let mut command = Command::new(env!("CARGO_BIN_EXE_repin"));
        command.args(args).env("REPIN_STORE", self.folder.path()).env("REPIN_BY", "kt");
        command.envs(env.iter().copied());
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().unwrap();
        // A program that refuses early may not read its input.
        let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
        let output = child.wait_with_output().unwrap();
        Run {
            code: output.status.code().unwrap_or(-1),
            out: String::from_utf8_lossy(&output.stdout).into_owned(),
            err: String::from_utf8_lossy(&output.stderr).into_owned(),
        }
    }

    /// A job on two housings of one kind.
    #[track_caller]
    pub fn new_job(&self, id: &str, old: &str, new: &str, more: &[&str]) {
        let mut args = vec!["new", id, "--old", old, "--new", new];
        args.extend(more);
        let run = self.run(&args);
        assert_eq!(run.code, 0, "{run:?}");
    }

    /// Enters a demo file of acts.
    pub fn enter_demo(&self, id: &str, file: &str) -> Run {
        let path = demo(file);
        self.run(&["enter", id, path.to_str().unwrap()])
    }

    /// Puts the demo's tool book beside the jobs, with one more position that was proved on samples.
    pub fn proves(&self) {
        let tools = self.path("tools");
        std::fs::create_dir(&tools).unwrap();
        std::fs::copy(demo("tools.ron"), tools.join("bench-1.ron")).unwrap();
        std::fs::write(tools.join("kt.ron"), PROVED).unwrap();
    }

    /// One JSON document of a command.
    #[track_caller]
    pub fn json(&self, args: &[&str]) -> serde_json::Value {
        let mut args = args.to_vec();
        args.push("--json");
        let run = self.run(&args);
        serde_json::from_str(&run.out).unwrap_or_else(|e| panic!("{e}: {run:?}"))
    }

    pub fn files(&self) -> Vec<String> {
        let mut names: Vec<String> = std::fs::read_dir(self.folder.path())
            .unwrap()
            .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }
}

/// What the samples of the boom tip's request were for.
const PROVED: &str = r#"(format: 1, positions: [(
    tool: "hand tool 0113", position: "B", terminal: "FW-TRM-F15", wire: "0.5",
    heights_mm: [1.11, 1.12, 1.13], pulls_n: [71, 68, 74, 70, 66], minimum_n: (60, "invented"),
    sheet_mm: (1.12, 0.05), until: "2099-03-31", by: "kt", at: "2026-11-20T08:00:00Z",
)])"#;

/// A file of `demo-data`.
pub fn demo(file: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data").join(file)
}
