//! House rules in files: `house-rules.ron`, and the copy every job carries. Each rule is a value
//! with its source.

use anyhow::{Context, Result, bail};
use serde::{Deserialize, Serialize};

use super::{ron_options, values::mirrored};
use crate::house::{HouseRules, Rule, Spares, TestKind, UnusedCavities};

/// A rule as `(value, "source")`.
#[derive(Serialize, Deserialize)]
struct RuleForm<T>(T, String);

impl<T: Clone> From<&Rule<T>> for RuleForm<T> {
    fn from(rule: &Rule<T>) -> Self {
        Self(rule.value.clone(), rule.source.clone())
    }
}

impl<T> From<RuleForm<T>> for Rule<T> {
    fn from(form: RuleForm<T>) -> Self {
        Self { value: form.0, source: form.1 }
    }
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "UnusedCavities")]
enum UnusedCavitiesForm {
    Leave,
    Plug,
    SpareAndPlug,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "TestKind")]
enum TestKindForm {
    Continuity,
    Neighbours,
    Drop,
    Pair,
    Insulation,
    Function,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Spares", deny_unknown_fields)]
struct SparesForm {
    plugs: u32,
    wire_seals: u32,
    terminals_least: u32,
    terminals_percent: u32,
    samples: u32,
}

mirrored!(UnusedCavities as UnusedCavitiesForm, TestKind as TestKindForm, Spares as SparesForm);

/// House rules as a file holds them; a rule that is left out is the one built in.
#[derive(Serialize, Deserialize, Default)]
#[serde(deny_unknown_fields)]
pub struct RulesForm {
    /// The form of the file: 1.
    format: u32,
    #[serde(default)]
    unused_sealed: Option<RuleForm<UnusedCavities>>,
    #[serde(default)]
    unused_unsealed: Option<RuleForm<UnusedCavities>>,
    #[serde(default)]
    spares: Option<RuleForm<Spares>>,
    #[serde(default)]
    pause_h: Option<RuleForm<u32>>,
    #[serde(default)]
    reread_every_moves: Option<RuleForm<u32>>,
    #[serde(default)]
    tests: Option<RuleForm<Vec<TestKind>>>,
    #[serde(default)]
    seal_worn_at: Option<RuleForm<u32>>,
    #[serde(default)]
    lock_worn_at: Option<RuleForm<u32>>,
}

impl From<&HouseRules> for RulesForm {
    fn from(rules: &HouseRules) -> Self {
        Self {
            format: 1,
            unused_sealed: Some((&rules.unused_sealed).into()),
            unused_unsealed: Some((&rules.unused_unsealed).into()),
            spares: Some((&rules.spares).into()),
            pause_h: Some((&rules.pause_h).into()),
            reread_every_moves: Some((&rules.reread_every_moves).into()),
            tests: Some((&rules.tests).into()),
            seal_worn_at: Some((&rules.seal_worn_at).into()),
            lock_worn_at: Some((&rules.lock_worn_at).into()),
        }
    }
}

impl From<RulesForm> for HouseRules {
    fn from(form: RulesForm) -> Self {
        let built_in = HouseRules::default();
        Self {
            unused_sealed: form.unused_sealed.map_or(built_in.unused_sealed, Into::into),
            unused_unsealed: form.unused_unsealed.map_or(built_in.unused_unsealed, Into::into),
            spares: form.spares.map_or(built_in.spares, Into::into),
            pause_h: form.pause_h.map_or(built_in.pause_h, Into::into),
            reread_every_moves: form.reread_every_moves.map_or(built_in.reread_every_moves, Into::into),
            tests: form.tests.map_or(built_in.tests, Into::into),
            seal_worn_at: form.seal_worn_at.map_or(built_in.seal_worn_at, Into::into),
            lock_worn_at: form.lock_worn_at.map_or(built_in.lock_worn_at, Into::into),
        }
    }
}

impl serde::Serialize for HouseRules {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        RulesForm::from(self).serialize(to)
    }
}

impl<'de> serde::Deserialize<'de> for HouseRules {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        RulesForm::deserialize(from).map(Into::into)
    }
}

/// House rules from the text of a file.
pub fn read_rules(file: &str, text: &str) -> Result<HouseRules> {
    let text = text.trim_start_matches('\u{feff}');
    let mut reader = ron::Deserializer::from_str_with_options(text, &ron_options())
        .with_context(|| format!("{file} is not valid RON"))?;
    let form: Result<RulesForm, _> = serde_path_to_error::deserialize(&mut reader);
    match form {
        Ok(form) if form.format == 1 => Ok(form.into()),
        Ok(form) => bail!("{file}: format {} is for a newer repin; this one reads format 1", form.format),
        Err(error) => {
            let path = error.path().to_string();
            let error = reader.span_error(error.into_inner());
            bail!("{file}:{} at {path}: {}", error.span.start, error.code)
        }
    }
}

/// House rules as the text of a file, one rule a line.
pub fn write_rules(rules: &HouseRules) -> Result<String> {
    let pretty = ron::ser::PrettyConfig::new().depth_limit(1);
    ron_options()
        .to_string_pretty(&RulesForm::from(rules), pretty)
        .context("house rules could not be written")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn house_rules_read_back_as_written_and_left_out_rules_are_the_built_in_ones() {
        let rules = HouseRules::default();
        let text = write_rules(&rules).unwrap();
        assert_eq!(read_rules("house-rules.ron", &text).unwrap(), rules);
        let one = read_rules("house-rules.ron", "(format: 1, pause_h: (2, \"shop\"))").unwrap();
        assert_eq!(one.pause_h, Rule::new(2, "shop"));
        assert_eq!(one.spares, rules.spares);
    }

    #[test]
    fn an_unknown_rule_and_a_newer_format_are_refused_with_the_place() {
        let error = read_rules("r.ron", "(format: 1,\n pauze_h: (2, \"x\"))").unwrap_err().to_string();
        assert!(error.starts_with("r.ron:2:"), "{error}");
        assert!(read_rules("r.ron", "(format: 2)").unwrap_err().to_string().contains("newer"));
    }
}
