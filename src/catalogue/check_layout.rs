//! A layout as written, turned into one that can be numbered.

use super::draft::{GroupDraft, LayoutDraft, NumberingDraft, RingNumberingDraft};
use crate::{
    face::{Counter, Grid, Group, Label, Layout, LayoutProblem, Naming, Numbering, Points, Ring},
    quantity::TextProblem,
};

/// What is wrong with the way labels are given.
const ONE_WAY: &str =
    "labels are given in one way only: first, left_out and prefix, or line_prefixes, or labels";

/// Why a layout as written is none.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub(super) enum LayoutFormProblem {
    /// Two ways of giving labels at once.
    #[error("{ONE_WAY}")]
    TwoWays,
    /// It cannot be numbered.
    #[error(transparent)]
    Layout(#[from] LayoutProblem),
}

/// The layout as written.
pub(super) fn layout(draft: &LayoutDraft) -> Result<Layout, LayoutFormProblem> {
    Ok(match draft {
        LayoutDraft::Grid { rows, columns, staggered, left_out, pitch_mm, numbering } => Layout::Grid(Grid {
            rows: *rows,
            columns: *columns,
            staggered: *staggered,
            left_out: left_out.clone(),
            pitch_mm: *pitch_mm,
            numbering: grid_numbering(numbering)?,
        }),
        LayoutDraft::Ring { angles_deg, radius_mm, centre, numbering } => {
            let RingNumberingDraft { first, left_out, prefix, labels } = numbering;
            Layout::Ring(Ring {
                angles_deg: angles_deg.clone(),
                radius_mm: *radius_mm,
                centre: *centre,
                naming: naming(first.as_deref(), left_out, prefix.as_deref(), &[], labels)?,
            })
        }
        LayoutDraft::Points { at, in_mm } => {
            let points = at.iter().map(|(label, x, y)| Ok((label.parse()?, *x, *y)));
            let points = points.collect::<Result<_, TextProblem>>().map_err(LayoutProblem::from)?;
            Layout::Points(Points { points, in_mm: *in_mm })
        }
        LayoutDraft::Groups { groups } => Layout::Groups(groups.iter().map(group).collect::<Result<_, _>>()?),
    })
}

fn group(draft: &GroupDraft) -> Result<Group, LayoutFormProblem> {
    Ok(Group { prefix: draft.prefix.clone(), at: draft.at, layout: layout(&draft.layout)? })
}

fn grid_numbering(draft: &NumberingDraft) -> Result<Numbering, LayoutFormProblem> {
    let NumberingDraft { start, along, path, first, left_out, prefix, line_prefixes, labels } = draft;
    Ok(Numbering {
        start: *start,
        along: *along,
        path: *path,
        naming: naming(first.as_deref(), left_out, prefix.as_deref(), line_prefixes, labels)?,
    })
}

fn naming(
    first: Option<&str>,
    left_out: &[String],
    prefix: Option<&str>,
    line_prefixes: &[String],
    labels: &[String],
) -> Result<Naming, LayoutFormProblem> {
    let counted = first.is_some() || !left_out.is_empty();
    if !labels.is_empty() {
        if counted || prefix.is_some() || !line_prefixes.is_empty() {
            return Err(LayoutFormProblem::TwoWays);
        }
        let labels = labels.iter().map(|text| text.parse::<Label>()).collect::<Result<_, _>>();
        return Ok(Naming::List(labels.map_err(LayoutProblem::from)?));
    }
    let counter = Counter::new(first.unwrap_or("1"), left_out.to_vec())?;
    match (prefix, line_prefixes) {
        (Some(_), [_, ..]) => Err(LayoutFormProblem::TwoWays),
        (None, [_, ..]) => Ok(Naming::PerLine { prefixes: line_prefixes.to_vec(), counter }),
        (prefix, []) => Ok(Naming::Count { prefix: prefix.unwrap_or("").to_owned(), counter }),
    }
}
