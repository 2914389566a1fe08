//! The file as a tree: decoded by what it declares, without document types, within bounds; elements
//! found by their id, references followed, lines counted.

use std::collections::HashMap;

use encoding_rs::{Encoding, UTF_8};
use roxmltree::{Document, Node, ParsingOptions};

use crate::quantity::{brief, list_of, quoted};

/// The most elements and texts that are read.
const NODES_MOST: u32 = 4_000_000;

/// How deep elements may stand inside each other; the format needs ten.
const DEPTH_MOST: usize = 64;

/// How many attributes an element may have; the format needs five. Each is held against all others.
const ATTRIBUTES_MOST: usize = 200;

/// Names shown of those a file has.
const NAMES_SHOWN: usize = 40;

/// Why a file is not read at all.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum KblProblem {
    /// The bytes are not in the encoding named.
    #[error("the file says it is {encoding} and is not: ask for it in UTF-8")]
    Encoding {
        /// The encoding it names.
        encoding: String,
    },
    /// A document type, with or without entities.
    #[error("the file has a document type, which a harness list does not need: it is not read")]
    DocumentType,
    /// Elements inside elements without end.
    #[error("line {line}: elements stand more than {DEPTH_MOST} deep in each other")]
    Deep {
        /// Where.
        line: u32,
    },
    /// An element with more attributes than any harness file needs.
    #[error("line {line}: an element has more than {ATTRIBUTES_MOST} attributes: this is not a harness file")]
    Attributes {
        /// Where.
        line: u32,
    },
    /// Not well-formed.
    #[error("{}", brief(.0))]
    Xml(String),
    /// Something else in XML.
    #[error("the file is XML and no KBL: its outermost element is {}", quoted(.root))]
    NotKbl {
        /// The outermost element.
        root: String,
    },
    /// No such connector.
    #[error("the file has no connector {}: there are {}", quoted(.wanted), quoted_list(.there))]
    NoConnector {
        /// What was asked for.
        wanted: String,
        /// What there is.
        there: Vec<String>,
    },
    /// No such configuration.
    #[error("the file has no configuration {}: there are {}", quoted(.wanted), quoted_list(.there))]
    NoConfiguration {
        /// What was asked for.
        wanted: String,
        /// What there is.
        there: Vec<String>,
    },
}

/// Whether bytes are the start of an XML file.
pub fn is_xml(bytes: &[u8]) -> bool {
    let head = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let utf16 = [&b"\xff\xfe<\0"[..], &b"\xfe\xff\0<"[..]];
    utf16.iter().any(|mark| bytes.starts_with(mark)) || head.trim_ascii_start().starts_with(b"<")
}

/// The text of a file, by its mark or by the encoding it declares.
pub(super) fn text_of(bytes: &[u8]) -> Result<String, KblProblem> {
    let (encoding, rest) = match Encoding::for_bom(bytes) {
        Some((encoding, mark)) => (encoding, bytes.get(mark..).unwrap_or_default()),
        None => (declared(bytes)?, bytes),
    };
    let text = encoding.decode_without_bom_handling_and_without_replacement(rest);
    text.map(std::borrow::Cow::into_owned)
        .ok_or_else(|| KblProblem::Encoding { encoding: encoding.name().to_owned() })
}

/// The encoding named in the first line; UTF-8 where none is.
fn declared(bytes: &[u8]) -> Result<&'static Encoding, KblProblem> {
    let head = bytes.get(..200).unwrap_or(bytes);
    let head: String = head.iter().take_while(|b| **b != b'>').map(|b| char::from(*b)).collect();
    let Some((_, after)) = head.split_once("encoding") else { return Ok(UTF_8) };
    let named = after.trim_start_matches([' ', '=', '"', '\'']);
    let named: String = named.chars().take_while(|c| !matches!(c, '"' | '\'' | '?' | ' ')).collect();
    Encoding::for_label(named.as_bytes()).ok_or(KblProblem::Encoding { encoding: named })
}

/// The first names of a list, and how many more there are.
fn quoted_list(names: &[String]) -> String {
    let mut shown: Vec<String> = names.iter().take(NAMES_SHOWN).map(|name| quoted(name)).collect();
    if let Some(more @ 1..) = names.len().checked_sub(NAMES_SHOWN) {
        shown.push(format!("{more} more"));
    }
    list_of(&shown)
}

/// Refuses an element with attributes without end, before they are read.
fn check_attributes(text: &str) -> Result<(), KblProblem> {
    // What is written between these holds no elements.
    const ASIDE: [(&str, &str); 3] = [("<!--", "-->"), ("<![CDATA[", "]]>"), ("<?", "?>")];
    let mut at = 0;
    while let Some(start) = text.get(at..).and_then(|rest| rest.find('<')).map(|found| at + found) {
        let rest = text.get(start..).unwrap_or_default();
        if let Some((_, end)) = ASIDE.iter().find(|(open, _)| rest.starts_with(open)) {
            let Some(length) = rest.find(end) else { return Ok(()) };
            at = start + length + end.len();
            continue;
        }
        let (mut quote, mut values, mut length) = (None, 0, rest.len());
        for (n, byte) in rest.bytes().enumerate().skip(1) {
            match (quote, byte) {
                (None, b'>') => {
                    length = n;
                    break;
                }
                (None, b'"' | b'\'') => quote = Some(byte),
                (Some(open), byte) if open == byte => {
                    quote = None;
                    values += 1;
                }
                _ => {}
            }
        }
        if values > ATTRIBUTES_MOST {
            let breaks = text.get(..start).map_or(0, |before| before.matches('\n').count());
            return Err(KblProblem::Attributes { line: u32::try_from(breaks + 1).unwrap_or(u32::MAX) });
        }
        at = start + length;
    }
    Ok(())
}

/// The tree of a text.
pub(super) fn tree(text: &str) -> Result<Document<'_>, KblProblem> {
    check_attributes(text)?;
    let options = ParsingOptions { allow_dtd: false, nodes_limit: NODES_MOST, ..ParsingOptions::default() };
    let doc = Document::parse_with_options(text, options).map_err(|error| match error {
        roxmltree::Error::DtdDetected => KblProblem::DocumentType,
        roxmltree::Error::NodesLimitReached => {
            KblProblem::Xml(format!("the file has more than {NODES_MOST} elements and texts"))
        }
        error => {
            let at = error.pos();
            KblProblem::Xml(format!("line {}, column {}: {error}", at.row, at.col))
        }
    })?;
    check_depth(&doc)?;
    Ok(doc)
}

/// Refuses elements nested without end. Nodes come after their parents, so one pass is enough.
fn check_depth(doc: &Document<'_>) -> Result<(), KblProblem> {
    let mut depths: Vec<usize> = Vec::new();
    for node in doc.descendants() {
        let depth = node.parent().and_then(|p| depths.get(p.id().get_usize())).map_or(0, |depth| depth + 1);
        if depth > DEPTH_MOST {
            return Err(KblProblem::Deep { line: doc.text_pos_at(node.range().start).row });
        }
        depths.resize(node.id().get_usize() + 1, 0);
        if let Some(own) = depths.last_mut() {
            *own = depth;
        }
    }
    Ok(())
}

/// A tree with its ids and lines.
pub(super) struct Tree<'a> {
    pub doc: &'a Document<'a>,
    ids: HashMap<&'a str, Node<'a, 'a>>,
    line_starts: Vec<usize>,
}

impl<'a> Tree<'a> {
    pub fn of(doc: &'a Document<'a>) -> Self {
        let with_id = doc.descendants().filter_map(|node| Some((node.attribute("id")?, node)));
        let breaks = doc.input_text().bytes().enumerate().filter(|(_, b)| *b == b'\n').map(|(at, _)| at + 1);
        Self { doc, ids: with_id.collect(), line_starts: std::iter::once(0).chain(breaks).collect() }
    }

    /// The element of this id, whatever it is.
    pub fn by_id(&self, id: &str) -> Option<Node<'a, 'a>> {
        self.ids.get(id).copied()
    }

    /// The elements a child refers to: one id, or several with blanks between them.
    pub fn referred(&self, node: Node<'a, 'a>, name: &str) -> Vec<Node<'a, 'a>> {
        refs(node, name).filter_map(|id| self.by_id(id)).collect()
    }

    /// The line an element starts on, from 1.
    pub fn line(&self, node: Node<'a, 'a>) -> u32 {
        let at = node.range().start;
        u32::try_from(self.line_starts.partition_point(|start| *start <= at)).unwrap_or(u32::MAX)
    }
}

/// The child elements of this name.
pub(super) fn children<'a>(node: Node<'a, 'a>, name: &str) -> impl Iterator<Item = Node<'a, 'a>> {
    node.children().filter(move |child| child.has_tag_name(name))
}

/// The text of a child; none where it is missing, empty or said to be held back.
pub(super) fn text<'a>(node: Node<'a, 'a>, name: &str) -> Option<&'a str> {
    let text = children(node, name).next()?.text()?.trim();
    (!text.is_empty() && text != "/NULL").then_some(text)
}

/// The ids a child names.
pub(super) fn refs<'a>(node: Node<'a, 'a>, name: &str) -> impl Iterator<Item = &'a str> {
    children(node, name).filter_map(|child| child.text()).flat_map(str::split_whitespace)
}

/// What an occurrence is: its own name, or the type said for an abstract element, whatever prefix
/// stands before it; `Specified_` ones are the same thing within an assembly.
pub(super) fn kind<'a>(node: Node<'a, 'a>) -> &'a str {
    let said = node.attributes().find(|a| a.name() == "type").map(|a| a.value());
    let name = said.map_or(node.tag_name().name(), |said| said.rsplit(':').next().unwrap_or(said));
    name.strip_prefix("Specified_").unwrap_or(name)
}
