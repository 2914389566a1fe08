//! The housings a job needs, and what is forgotten beside them.

use super::{looks::looks_of, need::Need};
use crate::{
    catalogue::{LockState, PartNumber, SmallPart, Supplied},
    job::{Assessment, Destination, JobHousing, Lead, State},
    supply::{Article, Companion, Line, ShutOut, Substitute, Wanted},
};

/// The housing and what is forgotten beside it.
pub(super) fn housing_lines(state: &State, assessment: &Assessment, new: &JobHousing, needs: &mut Vec<Need>) {
    let housing = new.housing();
    if is_in_use(state, new) {
        parts_still_missing(new, needs);
        return;
    }
    let shut_out = shut_out(state, assessment, new);
    let substitute = if shut_out.is_empty() { Substitute::None } else { Substitute::AskFirst };
    let article = Article::Housing {
        name: new.name.clone(),
        title: housing.title.clone(),
        revision: housing.revision.clone(),
        shut_out,
    };
    let family = &new.definition.family().id;
    let wanted = Wanted::of(article, Some(housing.part.clone()), family, || looks_of(new, None, None));
    needs.push(Need::of(Line { substitute, ..Line::new(wanted, 1) }));
    if let Some(lock) = &housing.lock {
        let article = Article::SecondaryLock(companion(&lock.kind, new));
        needs.push(Need::of(companion_line(article, lock.part.as_ref(), lock.supplied, new)));
    }
    if let Some(clip) = &housing.assurance {
        needs.push(Need::of(small_part(Article::Assurance, clip, new)));
    }
    for part in &housing.small_parts {
        needs.push(Need::of(small_part(Article::SmallPart, part, new)));
    }
}

/// Whether something was put into a housing: it is here, and nobody orders it again.
fn is_in_use(state: &State, new: &JobHousing) -> bool {
    state.items.insertions.keys().any(|at| at.housing == new.name)
}

/// What a housing in use still lacks: a lock that broke, parts that come separately and are not on.
fn parts_still_missing(new: &JobHousing, needs: &mut Vec<Need>) {
    let housing = new.housing();
    if let Some(lock) = housing.lock.as_ref().filter(|_| new.lock == Some(LockState::Broken)) {
        let article = Article::SecondaryLock(companion(&lock.kind, new));
        let broken = companion_line(article, lock.part.as_ref(), Supplied::Separate, new);
        needs.push(Need::of(broken));
    }
    let clip = housing.assurance.iter().filter(|_| new.assurance != Some(true));
    let clip = clip.map(|part| (Article::Assurance as fn(Companion) -> Article, part));
    let parts = housing.small_parts.iter().filter(|part| !new.parts_on.contains(&part.name));
    let parts = parts.map(|part| (Article::SmallPart as fn(Companion) -> Article, part));
    for (article, part) in clip.chain(parts).filter(|(_, part)| part.supplied == Supplied::Separate) {
        needs.push(Need::of(small_part(article, part, new)));
    }
}

/// The leads that have no place because their cavity is moulded shut.
fn shut_out(state: &State, assessment: &Assessment, new: &JobHousing) -> Vec<ShutOut> {
    let at = |lead: &Lead| match assessment.target.leads.get(&lead.id) {
        Some(Destination::Blocked(at)) if at.housing == new.name => Some(at.label.clone()),
        _ => None,
    };
    let leads = state.items.leads.iter();
    leads.filter_map(|lead| Some(ShutOut { lead: lead.call(), cavity: at(lead)? })).collect()
}

fn small_part(article: fn(Companion) -> Article, part: &SmallPart, new: &JobHousing) -> Line {
    companion_line(article(companion(&part.name, new)), part.part.as_ref(), part.supplied, new)
}

fn companion(name: &str, new: &JobHousing) -> Companion {
    Companion { housing: new.name.clone(), of: new.housing().part.clone(), name: name.to_owned() }
}

fn companion_line(article: Article, part: Option<&PartNumber>, supplied: Supplied, new: &JobHousing) -> Line {
    let family = &new.definition.family().id;
    let wanted = Wanted::of(article, part.cloned(), family, || looks_of(new, None, None));
    let supplied_with = (supplied == Supplied::With).then(|| new.housing().part.clone());
    Line { supplied_with, ..Line::new(wanted, 1) }
}
