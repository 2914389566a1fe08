//! How the cavities of a housing lie and are numbered, in files.

use super::mirror::form;
use crate::{
    catalogue::{GroupDraft, LayoutDraft, NumberingDraft, RingNumberingDraft},
    face::{Along, Corner, Path, RowStagger},
};

form! {
    /// A layout with its numbering.
    pub(super) enum LayoutForm of LayoutDraft {
        Grid {
            rows: usize,
            columns: usize,
            #[serde(default, skip_serializing_if = "is_level")]
            staggered: StaggerForm,
            /// Row and column from 1, of places without a cavity.
            #[serde(default, skip_serializing_if = "Vec::is_empty")]
            left_out: Vec<(usize, usize)>,
            /// Distance of columns and rows in mm.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            pitch_mm: Option<(f64, f64)>,
            #[serde(default)]
            numbering: NumberingForm,
        },
        Ring {
            /// Clockwise from twelve o'clock in the drawing, in the order of the labels.
            angles_deg: Vec<f64>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            radius_mm: Option<f64>,
            /// A cavity in the centre; it has the last label.
            #[serde(default)]
            centre: bool,
            #[serde(default)]
            numbering: RingNumberingForm,
        },
        Points {
            /// Label, to the right, downwards.
            at: Vec<(String, f64, f64)>,
            #[serde(default)]
            in_mm: bool,
        },
        Groups {
            groups: Vec<GroupForm>,
        },
    }
}

form! {
    /// Which rows are pushed half a column to the right.
    #[derive(Default)]
    pub(super) enum StaggerForm of RowStagger {
        #[default]
        No,
        OddRows,
        EvenRows,
    }
}

form! {
    /// A group of a housing.
    #[serde(rename = "group")]
    pub(super) struct GroupForm of GroupDraft {
        #[serde(default, skip_serializing_if = "String::is_empty")]
        prefix: String,
        /// Where the group's first cavity (or centre) lies.
        at: (f64, f64),
        layout: LayoutForm,
    }
}

form! {
    /// A corner of the drawing.
    #[derive(Default)]
    pub(super) enum CornerForm of Corner {
        #[default]
        TopLeft,
        TopRight,
        BottomLeft,
        BottomRight,
    }
}

form! {
    /// Along which lines counting runs.
    #[derive(Default)]
    pub(super) enum AlongForm of Along {
        #[default]
        Rows,
        Columns,
    }
}

form! {
    /// How counting goes on.
    #[derive(Default)]
    pub(super) enum PathForm of Path {
        #[default]
        Straight,
        Serpentine,
        Round,
    }
}

form! {
    /// The numbering of a grid; left away, it counts 1, 2, 3 row by row from the top left.
    #[derive(Default)]
    #[serde(rename = "numbering", default)]
    pub(super) struct NumberingForm of NumberingDraft {
        start: CornerForm,
        along: AlongForm,
        path: PathForm,
        /// The first label: a number or a letter; 1 when left away.
        #[serde(skip_serializing_if = "Option::is_none")]
        first: Option<String>,
        /// Labels never given.
        #[serde(skip_serializing_if = "Vec::is_empty")]
        left_out: Vec<String>,
        /// Put before every label.
        #[serde(skip_serializing_if = "Option::is_none")]
        prefix: Option<String>,
        /// A prefix for every row (or column); counting starts anew in each.
        #[serde(skip_serializing_if = "Vec::is_empty")]
        line_prefixes: Vec<String>,
        /// The labels themselves, instead of all that.
        #[serde(skip_serializing_if = "Vec::is_empty")]
        labels: Vec<String>,
    }
}

form! {
    /// The numbering of a ring; left away, it counts 1, 2, 3 in the order of the angles.
    #[derive(Default)]
    #[serde(rename = "numbering", default)]
    pub(super) struct RingNumberingForm of RingNumberingDraft {
        #[serde(skip_serializing_if = "Option::is_none")]
        first: Option<String>,
        #[serde(skip_serializing_if = "Vec::is_empty")]
        left_out: Vec<String>,
        #[serde(skip_serializing_if = "Option::is_none")]
        prefix: Option<String>,
        #[serde(skip_serializing_if = "Vec::is_empty")]
        labels: Vec<String>,
    }
}

fn is_level(stagger: &StaggerForm) -> bool {
    matches!(stagger, StaggerForm::No)
}
