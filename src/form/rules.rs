//! House rules in files: `house-rules.ron`, and the copy every job carries. Each rule is a value
//! with its source.

use anyhow::{Context, Result, bail};
use serde::{Deserialize, Serialize};

use super::{ron_options, values::mirrored};
use crate::{
    quantity::{Gauge, brief},
    shop_rules::{PullStandard, Rule, ShopRules, Solder, Spares, TestKind, UnusedCavities},
};

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
    #[serde(default = "one")]
    terminals_large: u32,
    #[serde(default = "one")]
    splices: u32,
    samples: u32,
}

fn one() -> u32 {
    1
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Solder")]
enum SolderForm {
    Never,
    WithReason,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "PullStandard")]
enum PullStandardForm {
    SaeAs7928,
    Iec60352,
    Ul486c,
}

mirrored!(
    UnusedCavities as UnusedCavitiesForm,
    TestKind as TestKindForm,
    Spares as SparesForm,
    Solder as SolderForm,
    PullStandard as PullStandardForm,
);

/// Makes the form of a file and the two ways between it and the rules from one table.
macro_rules! rules_form {
    ($($rule:ident: $value:ty,)*) => {
        /// House rules as a file holds them; a rule that is left out is the one built in.
        #[derive(Serialize, Deserialize, Default)]
        #[serde(deny_unknown_fields)]
        pub struct RulesForm {
            /// The form of the file: 1.
            format: u32,
            $(#[serde(default)] $rule: Option<RuleForm<$value>>,)*
        }

        impl From<&ShopRules> for RulesForm {
            fn from(rules: &ShopRules) -> Self {
                Self { format: 1, $($rule: Some((&rules.$rule).into()),)* }
            }
        }

        impl From<RulesForm> for ShopRules {
            fn from(form: RulesForm) -> Self {
                let built_in = ShopRules::default();
                Self { $($rule: form.$rule.map_or(built_in.$rule, Into::into),)* }
            }
        }
    };
}

rules_form! {
    unused_sealed: UnusedCavities,
    unused_unsealed: UnusedCavities,
    spares: Spares,
    pause_h: u32,
    reread_every_moves: u32,
    tests: Vec<TestKind>,
    seal_worn_at: u32,
    lock_worn_at: u32,
    clearance_mm: f64,
    branch_clearance_mm: f64,
    splice_gap_mm: f64,
    splice_gap_twisted_mm: f64,
    damage_margin_mm: f64,
    most_splices: u32,
    leads_one_in: u32,
    least_gauge_percent: f64,
    approved_pairs: Vec<(Gauge, Gauge)>,
    untwisted_mm: f64,
    solder: Solder,
    drop_percent: f64,
    drop_critical_percent: f64,
    pull_standard: PullStandard,
}

impl serde::Serialize for ShopRules {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        RulesForm::from(self).serialize(to)
    }
}

impl<'de> serde::Deserialize<'de> for ShopRules {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        RulesForm::deserialize(from).map(Into::into)
    }
}

/// House rules from the text of a file.
pub fn read_rules(file: &str, text: &str) -> Result<ShopRules> {
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
            bail!("{file}:{} at {path}: {}", error.span.start, brief(&error.code.to_string()))
        }
    }
}

/// House rules as the text of a file, one rule a line.
pub fn write_rules(rules: &ShopRules) -> Result<String> {
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
        let rules = ShopRules::default();
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
