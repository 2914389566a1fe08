//! Where a path leads: through imports, renames, globs and re-exports to the file that defines what
//! it names.

use super::reading::{House, How, Module, ModulePath, Seen};

/// Where a path leads.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Target {
    /// To something a file of the crate defines.
    File(String),
    /// To a module itself.
    Module(ModulePath),
    /// Out of the crate.
    Outside(Vec<String>),
}

/// No chain of re-exports is longer.
const DEEPEST: usize = 12;

impl House {
    /// Every path the modules name, with where it leads from the root of the crate or of another.
    pub fn paths(&self) -> impl Iterator<Item = (&ModulePath, &Module, &Seen, Vec<Vec<String>>)> {
        self.modules.iter().flat_map(move |(here, module)| {
            module.seen.iter().map(move |seen| (here, module, seen, self.roots_of(here, seen)))
        })
    }

    /// A path as written from the root: more than one where a name stands for two things.
    pub fn roots_of(&self, here: &ModulePath, seen: &Seen) -> Vec<Vec<String>> {
        if seen.rooted { vec![seen.path.clone()] } else { self.absolute(here, &seen.path, 0) }
    }

    fn absolute(&self, here: &ModulePath, path: &[String], depth: usize) -> Vec<Vec<String>> {
        let Some((first, rest)) = path.split_first() else { return vec![here.clone()] };
        match first.as_str() {
            "crate" => vec![path.to_vec()],
            "self" => vec![up(here, rest)],
            "super" => vec![up(&here[..here.len().saturating_sub(1)], rest)],
            _ => self.of_name(here, path, depth),
        }
    }

    /// What a path means that begins with a name.
    fn of_name(&self, here: &ModulePath, path: &[String], depth: usize) -> Vec<Vec<String>> {
        let Some((first, rest)) = path.split_first() else { return Vec::new() };
        let child = joined(here, std::slice::from_ref(first));
        if !rest.is_empty() && self.modules.contains_key(&child) {
            return vec![joined(here, path)];
        }
        let Some(module) = self.modules.get(here) else { return vec![path.to_vec()] };
        let mut found = Vec::new();
        if depth < DEEPEST {
            for import in module.imports_of(first).filter(|import| import.path != [first.as_str()]) {
                let roots = match import.rooted {
                    true => vec![import.path.clone()],
                    false => self.absolute(here, &import.path, depth + 1),
                };
                found.extend(roots.iter().map(|root| joined(root, rest)));
            }
        }
        if module.defines.contains(first) || self.modules.contains_key(&child) {
            found.push(joined(here, path));
        }
        if found.is_empty() && depth < DEEPEST {
            let bases = module.globs().flat_map(|glob| self.absolute(here, &glob.path, depth + 1));
            found.extend(bases.filter(|base| self.holds(base, first)).map(|base| joined(&base, path)));
        }
        if found.is_empty() { vec![path.to_vec()] } else { found }
    }

    fn holds(&self, module: &ModulePath, name: &str) -> bool {
        self.modules.contains_key(&joined(module, &[name.to_owned()]))
            || self.modules.get(module).is_some_and(|module| {
                module.defines.contains(name) || module.imports_of(name).next().is_some()
            })
    }

    /// Where a path from the root leads.
    pub fn follow(&self, path: &[String]) -> Vec<Target> {
        self.follow_to(path, 0)
    }

    fn follow_to(&self, path: &[String], depth: usize) -> Vec<Target> {
        if path.first().is_none_or(|first| first != "crate") {
            return vec![Target::Outside(path.to_vec())];
        }
        let mut here = vec!["crate".to_owned()];
        for (n, name) in path.iter().enumerate().skip(1) {
            let module = self.modules.get(&here);
            let is_last = n + 1 == path.len();
            let is_imported = module.is_some_and(|module| module.imports_of(name).next().is_some());
            let child = joined(&here, std::slice::from_ref(name));
            if self.modules.contains_key(&child) && !(is_last && is_imported) {
                here = child;
                continue;
            }
            let Some(module) = module else { return Vec::new() };
            return self.follow_name(&here, module, &path[n..], depth);
        }
        vec![Target::Module(here)]
    }

    /// Where a path leads that begins with a name in a module that is no module itself.
    fn follow_name(&self, here: &ModulePath, module: &Module, path: &[String], depth: usize) -> Vec<Target> {
        let Some(name) = path.first() else { return Vec::new() };
        let own = Target::File(module.file.clone());
        let is_own = module.defines.contains(name);
        let mut found: Vec<Target> = is_own.then(|| own.clone()).into_iter().collect();
        if depth < DEEPEST {
            let elsewhere = self
                .of_name(here, path, 0)
                .into_iter()
                .filter(|there| *there != joined(here, path) && there.as_slice() != path);
            found.extend(elsewhere.flat_map(|there| self.follow_to(&there, depth + 1)));
        }
        // A macro may define names that no parser sees.
        if found.is_empty() { vec![own] } else { found }
    }
}

impl Module {
    fn imports_of(&self, wanted: &str) -> impl Iterator<Item = &Seen> {
        self.seen.iter().filter(move |seen| match &seen.how {
            How::Import { name, .. } | How::TypeAlias { name } => name == wanted,
            How::Glob { .. } | How::Macro | How::Plain => false,
        })
    }

    fn globs(&self) -> impl Iterator<Item = &Seen> {
        self.seen.iter().filter(|seen| matches!(seen.how, How::Glob { .. }))
    }
}

fn joined(before: &[String], after: &[String]) -> Vec<String> {
    before.iter().chain(after).cloned().collect()
}

/// What `super` and `self` at the start of a path mean.
fn up(here: &[String], path: &[String]) -> Vec<String> {
    match path.split_first() {
        Some((first, rest)) if first == "super" => up(&here[..here.len().saturating_sub(1)], rest),
        Some((first, rest)) if first == "self" => up(here, rest),
        Some(_) | None => joined(here, path),
    }
}
