//! House rules in files: `house-rules.ron`, and the copy every job carries. Each rule is a value
//! with its source.

use serde::{Deserialize, Serialize};

use super::{
    mirror::{FormOf, form, read_field},
    problem::Problem,
    reader::{Source, expect_format, ron_options},
};
use crate::{
    catalogue::{FieldFinding, PathStep},
    shop_rules::{PullStandard, Rule, ShopRules, Solder, Spares, TestKind, UnusedCavities},
};

/// A rule as `(value, "source")`.
#[derive(Serialize, Deserialize)]
struct RuleForm<F>(F, String);

impl<T, F: FormOf<T>> FormOf<Rule<T>> for RuleForm<F> {
    fn write(rule: &Rule<T>) -> Self {
        Self(F::write(&rule.value), rule.source.clone())
    }

    fn read(self) -> Result<Rule<T>, FieldFinding> {
        let value = self.0.read().map_err(|found| found.under(PathStep::Index(0)))?;
        Ok(Rule { value, source: self.1 })
    }
}

form! {
    pub(super) enum UnusedCavitiesForm of UnusedCavities {
        Leave,
        Plug,
        SpareAndPlug,
    }
}

form! {
    pub(super) enum TestKindForm of TestKind {
        Continuity,
        Neighbours,
        Drop,
        Pair,
        Insulation,
        Function,
    }
}

form! {
    pub(super) struct SparesForm of Spares {
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
}

fn one() -> u32 {
    1
}

form! {
    pub(super) enum SolderForm of Solder {
        Never,
        WithReason,
    }
}

form! {
    pub(super) enum PullStandardForm of PullStandard {
        SaeAs7928,
        Iec60352,
        Ul486c,
    }
}

/// Makes the form of a file and the two ways between it and the rules from one table.
macro_rules! rules_form {
    ($($rule:ident: $form:ty,)*) => {
        /// House rules as a file holds them; a rule that is left out is the one built in.
        #[derive(Serialize, Deserialize)]
        #[serde(rename = "set_of_house_rules", deny_unknown_fields)]
        pub(super) struct RulesForm {
            /// The form of the file: 1.
            format: u32,
            $(#[serde(default)] $rule: Option<RuleForm<$form>>,)*
        }

        impl FormOf<ShopRules> for RulesForm {
            fn write(rules: &ShopRules) -> Self {
                let ShopRules { $($rule,)* } = rules;
                Self { format: 1, $($rule: Some(FormOf::write($rule)),)* }
            }

            fn read(self) -> Result<ShopRules, FieldFinding> {
                expect_format(self.format)?;
                let built_in = ShopRules::default();
                Ok(ShopRules {
                    $($rule: read_field(stringify!($rule), self.$rule)?.unwrap_or(built_in.$rule),)*
                })
            }
        }
    };
}

rules_form! {
    unused_sealed: UnusedCavitiesForm,
    unused_unsealed: UnusedCavitiesForm,
    spares: SparesForm,
    pause_h: u32,
    reread_every_moves: u32,
    tests: Vec<TestKindForm>,
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
    approved_pairs: Vec<(String, String)>,
    untwisted_mm: f64,
    solder: SolderForm,
    drop_percent: f64,
    drop_critical_percent: f64,
    pull_standard: PullStandardForm,
}

/// House rules from the text of a file.
pub fn read_rules(file: &str, text: &str) -> Result<ShopRules, Box<Problem>> {
    Source::file(file, text).read::<RulesForm, _>()
}

/// House rules as the text of a file, one rule a line.
pub fn write_rules(rules: &ShopRules) -> Result<String, ron::Error> {
    let pretty = ron::ser::PrettyConfig::new().depth_limit(1);
    ron_options().to_string_pretty(&RulesForm::write(rules), pretty)
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
        assert!(error.starts_with("--> r.ron:2:2 at pauze_h\n"), "{error}");
        assert!(read_rules("r.ron", "(format: 2)").unwrap_err().to_string().contains("newer"));
    }
}
