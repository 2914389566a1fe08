//! What a column is, from its heading, in English, German, French and Spanish.

use crate::quantity::plain_words;

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Column {
    Connector,
    Cavity,
    Content,
    Wire,
    Circuit,
    Colour,
    BaseColour,
    Stripe,
    Gauge(GaugeUnit),
    OutsideDiameter,
    Pair,
    Terminal,
    Seal,
    Plug,
    FarEnd,
    Note,
}

/// The unit a gauge column names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum GaugeUnit {
    Mm2,
    Awg,
    NotSaid,
}

impl Column {
    /// What it holds, in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Connector => "connector",
            Self::Cavity => "cavity",
            Self::Content => "content",
            Self::Wire => "wire number",
            Self::Circuit => "circuit",
            Self::Colour => "colour",
            Self::BaseColour => "base colour",
            Self::Stripe => "stripe",
            Self::Gauge(_) => "size",
            Self::OutsideDiameter => "outside diameter",
            Self::Pair => "pair",
            Self::Terminal => "terminal",
            Self::Seal => "seal",
            Self::Plug => "plug",
            Self::FarEnd => "far end",
            Self::Note => "note",
        }
    }
}

/// Words, accents left out, that make a heading one of a kind; the first kind that fits counts.
const KINDS: [(ColumnKind, &[&str]); 14] = [
    (
        ColumnKind::FarEnd,
        &["to", "far", "destination", "ziel", "nach", "vers", "destino", "target", "gegenseite"],
    ),
    (
        ColumnKind::Colour,
        &[
            "colour",
            "color",
            "colours",
            "colors",
            "farbe",
            "farben",
            "aderfarbe",
            "leitungsfarbe",
            "drahtfarbe",
            "kabelfarbe",
            "grundfarbe",
            "kennfarbe",
            "zweitfarbe",
            "couleur",
            "couleurs",
            "colores",
            "stripe",
            "tracer",
            "lisere",
            "franja",
        ],
    ),
    (ColumnKind::Diameter, &["od", "diameter", "durchmesser", "aussendurchmesser", "diametre", "diametro"]),
    (
        ColumnKind::Gauge,
        &[
            "gauge",
            "size",
            "area",
            "section",
            "csa",
            "mm2",
            "awg",
            "sqmm",
            "qmm",
            "querschnitt",
            "leiterquerschnitt",
            "seccion",
            "calibre",
            "ga",
        ],
    ),
    (
        ColumnKind::Pair,
        &[
            "twisted",
            "twist",
            "pair",
            "pairs",
            "paar",
            "verdrillt",
            "paire",
            "torsade",
            "torsadee",
            "par",
            "trenzado",
        ],
    ),
    (ColumnKind::Seal, &["seal", "dichtung", "einzeladerabdichtung", "joint", "sello", "junta"]),
    (ColumnKind::Plug, &["plug", "stopfen", "blindstopfen", "bouchon", "tapon", "obturateur"]),
    (
        ColumnKind::Connector,
        &[
            "connector",
            "stecker",
            "steckverbinder",
            "connecteur",
            "conector",
            "housing",
            "gehause",
            "gehaeuse",
        ],
    ),
    (ColumnKind::Terminal, &["terminal", "crimp", "crimpkontakt", "kontaktteil", "cosse", "terminales"]),
    (
        ColumnKind::Cavity,
        &[
            "cavity", "cavities", "cav", "pin", "pinnr", "pins", "position", "pos", "contact", "way", "hole",
            "kammer", "kammernr", "kavitat", "kavitaet", "kontakt", "broche", "alveole", "voie", "cavidad",
            "contacto", "posicion", "via", "alveolo",
        ],
    ),
    (
        ColumnKind::Circuit,
        &[
            "circuit",
            "circuits",
            "signal",
            "signals",
            "function",
            "net",
            "funktion",
            "stromkreis",
            "signalname",
            "potential",
            "fonction",
            "funcion",
            "circuito",
            "senal",
        ],
    ),
    (
        ColumnKind::Content,
        &[
            "content",
            "contents",
            "holds",
            "status",
            "inhalt",
            "belegung",
            "contenu",
            "contenido",
            "estado",
            "etat",
        ],
    ),
    (
        ColumnKind::Note,
        &[
            "note",
            "notes",
            "remark",
            "remarks",
            "comment",
            "comments",
            "bemerkung",
            "bemerkungen",
            "kommentar",
            "remarque",
            "remarques",
            "nota",
            "notas",
            "observaciones",
        ],
    ),
    (
        ColumnKind::Wire,
        &[
            "wire",
            "leitungs",
            "wires",
            "lead",
            "cable",
            "conductor",
            "leitung",
            "leitungsnr",
            "leitungsnummer",
            "ader",
            "adernr",
            "adernummer",
            "draht",
            "kabel",
            "fil",
            "hilo",
            "conducteur",
        ],
    ),
];

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum ColumnKind {
    FarEnd,
    Colour,
    Diameter,
    Gauge,
    Pair,
    Seal,
    Plug,
    Connector,
    Terminal,
    Cavity,
    Circuit,
    Content,
    Note,
    Wire,
}

/// Words that make a colour a base or a stripe.
const BASE: [&str; 6] = ["base", "main", "body", "grundfarbe", "grund", "principal"];
const STRIPE: [&str; 9] =
    ["stripe", "tracer", "second", "secondary", "kennfarbe", "zweitfarbe", "lisere", "franja", "streifen"];

const LENGTH: [&str; 5] = ["length", "lange", "laenge", "longueur", "longitud"];

/// The column a heading names, if it names one.
pub(super) fn column_of(heading: &str) -> Option<Column> {
    let plain = plain_words(heading);
    let words: Vec<&str> = plain.split(' ').filter(|word| !word.is_empty()).collect();
    // A heading is a few words; a sentence is something else.
    if words.is_empty() || words.len() > 6 {
        return None;
    }
    let has = |list: &[&str]| words.iter().any(|word| list.contains(word));
    let kinds = |kind: ColumnKind| KINDS.iter().any(|(k, list)| *k == kind && has(list));
    // How long a wire is says nothing of where it sits.
    if has(&LENGTH) {
        return None;
    }
    let kind = KINDS.iter().find(|(_, list)| has(list)).map(|(kind, _)| *kind)?;
    Some(match kind {
        ColumnKind::FarEnd => Column::FarEnd,
        // The colour or size of a seal or plug is not that of the wire.
        ColumnKind::Colour | ColumnKind::Gauge if kinds(ColumnKind::Seal) || kinds(ColumnKind::Plug) => {
            return None;
        }
        ColumnKind::Colour if has(&BASE) => Column::BaseColour,
        ColumnKind::Colour if has(&STRIPE) => Column::Stripe,
        ColumnKind::Colour => Column::Colour,
        ColumnKind::Diameter => Column::OutsideDiameter,
        ColumnKind::Gauge if has(&["awg", "ga"]) && !has(&["mm2", "sqmm", "qmm"]) => {
            Column::Gauge(GaugeUnit::Awg)
        }
        ColumnKind::Gauge if has(&["mm2", "sqmm", "qmm"]) => Column::Gauge(GaugeUnit::Mm2),
        ColumnKind::Gauge => Column::Gauge(GaugeUnit::NotSaid),
        ColumnKind::Pair => Column::Pair,
        ColumnKind::Seal => Column::Seal,
        ColumnKind::Plug => Column::Plug,
        ColumnKind::Connector => Column::Connector,
        ColumnKind::Terminal => Column::Terminal,
        ColumnKind::Cavity => Column::Cavity,
        ColumnKind::Circuit => Column::Circuit,
        ColumnKind::Content => Column::Content,
        ColumnKind::Note => Column::Note,
        ColumnKind::Wire => Column::Wire,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings_in_four_languages_and_several_words_name_their_column() {
        use Column as C;
        for (heading, column) in [
            ("Cavity no.", C::Cavity),
            ("Pin", C::Cavity),
            ("Kammer-Nr.", C::Cavity),
            ("Kavität", C::Cavity),
            ("Alvéole", C::Cavity),
            ("Posición", C::Cavity),
            ("Wire number", C::Wire),
            ("Leitungs-Nr.", C::Wire),
            ("N° de fil", C::Wire),
            ("wire colour", C::Colour),
            ("Aderfarbe", C::Colour),
            ("Couleur du fil", C::Colour),
            ("Base color", C::BaseColour),
            ("Grundfarbe", C::BaseColour),
            ("Stripe", C::Stripe),
            ("Wire size (mm²)", C::Gauge(GaugeUnit::Mm2)),
            ("AWG", C::Gauge(GaugeUnit::Awg)),
            ("Cross section", C::Gauge(GaugeUnit::NotSaid)),
            ("Querschnitt", C::Gauge(GaugeUnit::NotSaid)),
            ("Signal name", C::Circuit),
            ("Twisted with", C::Pair),
            ("To pin", C::FarEnd),
            ("Bemerkung", C::Note),
            ("Insulation OD", C::OutsideDiameter),
        ] {
            assert_eq!(column_of(heading), Some(column), "{heading}");
        }
        for other in ["", "7", "Seal colour", "drawn by K. Tanner on the twelfth of March", "RD"] {
            assert_eq!(column_of(other), None, "{other}");
        }
    }
}
