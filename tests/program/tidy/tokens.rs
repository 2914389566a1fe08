//! Paths in tokens that no parser reads: inside the calls and rules of macros and inside attributes.

use proc_macro2::{Delimiter, Group, Ident, Span, TokenStream, TokenTree};
use syn::visit::Visit;

use super::reading::{How, Reader, plain};

/// A path among tokens.
struct Written {
    segments: Vec<String>,
    rooted: bool,
    at: Span,
    /// Where the tokens go on.
    next: usize,
}

impl Reader<'_> {
    /// Notes every path among tokens.
    pub(crate) fn scan(&mut self, tokens: TokenStream) {
        let trees: Vec<TokenTree> = tokens.into_iter().collect();
        let mut at = 0;
        while let Some(tree) = trees.get(at) {
            match tree {
                TokenTree::Group(group) => self.scan(group.stream()),
                TokenTree::Literal(literal) if at > 0 && is(&trees, at - 1, '=') => {
                    if let Ok(text) = syn::parse_str::<syn::LitStr>(&literal.to_string()) {
                        self.scan_text(&text.value(), literal.span());
                    }
                }
                TokenTree::Literal(_) | TokenTree::Punct(_) => {}
                TokenTree::Ident(ident) if ident == "use" && self.scan_use(&trees[at..]) => {
                    at += trees[at..].iter().take_while(|tree| !is_punct(tree, ';')).count();
                    continue;
                }
                TokenTree::Ident(ident) => {
                    if ident == "fn" {
                        self.scan_function(&trees[at..]);
                    }
                    at = self.scan_path(&trees, at, &[]);
                    continue;
                }
            }
            at += 1;
        }
    }

    /// Notes the paths of a text in an attribute, where it is one word such as `crate::a::b`.
    pub(crate) fn scan_text(&mut self, text: &str, at: Span) {
        let is_path = text.chars().all(|c| c.is_alphanumeric() || "_:<>, &'".contains(c));
        if let (true, Ok(tokens)) = (is_path && text.contains("::"), text.parse::<TokenStream>()) {
            self.scan(with_span(tokens, at));
        }
    }

    /// A whole `use …;` among tokens; one that holds a part of a rule cannot be read whole.
    fn scan_use(&mut self, trees: &[TokenTree]) -> bool {
        let end = trees.iter().position(|tree| is_punct(tree, ';'));
        let Some(whole) = end.and_then(|end| trees.get(..=end)) else { return false };
        // `$crate` is `crate`.
        let whole: TokenStream = whole.iter().filter(|tree| !is_punct(tree, '$')).cloned().collect();
        let dollars = trees.iter().zip(trees.iter().skip(1));
        let has_part = dollars
            .take(end.unwrap_or_default())
            .any(|(a, b)| is_punct(a, '$') && !matches!(b, TokenTree::Ident(ident) if ident == "crate"));
        match syn::parse2::<syn::Item>(whole) {
            Ok(item) if !has_part => {
                self.visit_item(&item);
                true
            }
            Ok(_) | Err(_) => false,
        }
    }

    /// Notes a function among tokens.
    fn scan_function(&mut self, trees: &[TokenTree]) {
        let body = trees.iter().find_map(|tree| match tree {
            TokenTree::Group(group) if group.delimiter() == Delimiter::Brace => Some(group),
            _ => None,
        });
        if let [TokenTree::Ident(from), TokenTree::Ident(name), ..] = trees
            && let Some(body) = body
        {
            self.function(name, from.span(), body.span_close());
        }
    }

    /// Notes the path that begins at a name; tells where the tokens go on.
    fn scan_path(&mut self, trees: &[TokenTree], at: usize, before: &[String]) -> usize {
        let Some(Written { segments, rooted, at: span, next }) = written(trees, at) else { return at + 1 };
        let mut whole = before.to_vec();
        whole.extend(segments);
        if before.is_empty() && continues(trees, at) {
            return next;
        }
        if !before.is_empty() && whole.last().is_some_and(|last| last == "self") {
            whole.pop();
        }
        let after = is_colons(trees, next).then(|| trees.get(next + 2)).flatten();
        match after {
            Some(TokenTree::Group(group)) if group.delimiter() == Delimiter::Brace => {
                self.scan_group(group, &whole);
                return next + 3;
            }
            Some(tree) if is_punct(tree, '*') => {
                self.saw(whole, rooted, span, How::Glob { public: false });
            }
            _ => {
                let bang = is(trees, next, '!') && !is(trees, next + 1, '=');
                self.saw(whole, rooted, span, if bang { How::Macro } else { How::Plain });
            }
        }
        next
    }

    /// The parts of `before::{ … }`.
    fn scan_group(&mut self, group: &Group, before: &[String]) {
        let trees: Vec<TokenTree> = group.stream().into_iter().collect();
        let mut at = 0;
        while at < trees.len() {
            at = match &trees[at] {
                TokenTree::Ident(_) => self.scan_path(&trees, at, before),
                tree if is_punct(tree, '*') => {
                    self.saw(before.to_vec(), false, tree.span(), How::Glob { public: false });
                    at + 1
                }
                _ => at + 1,
            };
        }
    }
}

/// The path that begins at a name; none where the name stands for a part of a macro's rule.
fn written(trees: &[TokenTree], at: usize) -> Option<Written> {
    let first = ident(trees, at)?;
    if at > 0 && is(trees, at - 1, '$') && first != "crate" {
        return None;
    }
    let rooted = at > 1 && is_colons(trees, at - 2);
    let mut segments = vec![plain(first)];
    let mut next = at + 1;
    while let (true, Some(name)) = (is_colons(trees, next), ident(trees, next + 2)) {
        segments.push(plain(name));
        next += 3;
    }
    Some(Written { segments, rooted, at: first.span(), next })
}

/// Whether a name goes on something before it: a field, a method, what follows `>::`.
fn continues(trees: &[TokenTree], at: usize) -> bool {
    let before = |back: usize| at.checked_sub(back).and_then(|at| trees.get(at));
    match before(1) {
        Some(tree) if is_punct(tree, '.') => !before(2).is_some_and(|tree| is_punct(tree, '.')),
        Some(tree) if is_punct(tree, '\'') => true,
        Some(tree) if is_punct(tree, ':') && is_colons(trees, at.saturating_sub(2)) => {
            before(3).is_some_and(|tree| is_punct(tree, '>') || matches!(tree, TokenTree::Ident(_)))
        }
        _ => false,
    }
}

fn ident(trees: &[TokenTree], at: usize) -> Option<&Ident> {
    match trees.get(at) {
        Some(TokenTree::Ident(ident)) => Some(ident),
        _ => None,
    }
}

fn is_punct(tree: &TokenTree, punct: char) -> bool {
    matches!(tree, TokenTree::Punct(found) if found.as_char() == punct)
}

fn is(trees: &[TokenTree], at: usize, punct: char) -> bool {
    trees.get(at).is_some_and(|tree| is_punct(tree, punct))
}

fn is_colons(trees: &[TokenTree], at: usize) -> bool {
    is(trees, at, ':') && is(trees, at + 1, ':')
}

fn with_span(tokens: TokenStream, span: Span) -> TokenStream {
    tokens
        .into_iter()
        .map(|mut tree| {
            if let TokenTree::Group(group) = &tree {
                tree = Group::new(group.delimiter(), with_span(group.stream(), span)).into();
            }
            tree.set_span(span);
            tree
        })
        .collect()
}
