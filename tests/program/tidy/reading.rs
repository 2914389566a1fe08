//! Source texts read with a parser: which modules there are, what each defines, and every path it
//! names, wherever it stands. What is compiled for tests alone is left out.

use std::collections::{BTreeMap, BTreeSet};

use proc_macro2::Span;
use syn::{
    Attribute, Expr, ExprLit, Ident, Item, ItemMod, ItemUse, Lit, Meta, Path, QSelf, Type, UseTree,
    Visibility,
    spanned::Spanned,
    visit::{self, Visit},
};

/// A module as segments, the first of them `crate`.
pub type ModulePath = Vec<String>;

/// How a path is named.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum How {
    /// By `use`, under this name.
    Import { name: String, public: bool },
    /// By `use … ::*`.
    Glob { public: bool },
    /// As what a `type` stands for.
    TypeAlias { name: String },
    /// As a macro that is called.
    Macro,
    /// In an expression, a type, a pattern, an attribute or the tokens of a macro.
    Plain,
}

/// One path as it is written.
#[derive(Debug, Clone)]
pub struct Seen {
    pub path: Vec<String>,
    /// Written with `::` before it: the name of a crate comes first.
    pub rooted: bool,
    pub line: usize,
    pub how: How,
}

/// A function with a body.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Function {
    pub name: String,
    pub lines: usize,
}

#[derive(Debug, Default)]
pub struct Module {
    /// The file it stands in; a module written inside a file stands in that file.
    pub file: String,
    pub defines: BTreeSet<String>,
    pub seen: Vec<Seen>,
    pub functions: Vec<Function>,
}

/// All modules of the crate.
#[derive(Debug, Default)]
pub struct House {
    pub modules: BTreeMap<ModulePath, Module>,
    tests_alone: Vec<ModulePath>,
}

impl House {
    /// Reads files, each a path below `src` with its text.
    pub fn read<'a>(files: impl IntoIterator<Item = (&'a str, &'a str)>) -> Self {
        let mut house = Self::default();
        for (file, text) in files {
            let parsed = syn::parse_file(text).unwrap_or_else(|error| panic!("{file}: {error}"));
            let mut reader = Reader { file, here: module_path(file), house: &mut house };
            reader.open();
            reader.visit_file(&parsed);
        }
        let House { modules, tests_alone } = &mut house;
        modules.retain(|path, _| !tests_alone.iter().any(|alone| path.starts_with(alone)));
        house
    }

    /// Whether a file holds tests and nothing else.
    pub fn is_of_tests_alone(&self, file: &str) -> bool {
        self.tests_alone.iter().any(|alone| module_path(file).starts_with(alone))
    }
}

/// The module a file is.
pub fn module_path(file: &str) -> ModulePath {
    let mut path = vec!["crate".to_owned()];
    path.extend(file.trim_end_matches(".rs").split('/').map(str::to_owned));
    let ends_as_folder = path.last().is_some_and(|last| last == "mod");
    if ends_as_folder || file == "lib.rs" {
        path.pop();
    }
    path
}

pub(crate) struct Reader<'a> {
    file: &'a str,
    here: ModulePath,
    house: &'a mut House,
}

impl Reader<'_> {
    fn open(&mut self) -> &mut Module {
        let module = self.house.modules.entry(self.here.clone()).or_default();
        self.file.clone_into(&mut module.file);
        module
    }

    pub(crate) fn saw(&mut self, path: Vec<String>, rooted: bool, at: Span, how: How) {
        let seen = Seen { path, rooted, line: at.start().line, how };
        self.open().seen.push(seen);
    }

    pub(crate) fn function(&mut self, name: &Ident, from: Span, to: Span) {
        let lines = to.end().line + 1 - from.start().line;
        self.open().functions.push(Function { name: plain(name), lines });
    }

    fn saw_path(&mut self, path: &Path, how: How) {
        self.saw(segments(path), path.leading_colon.is_some(), path.span(), how);
    }

    /// `<Type>::name`, where the type is a path: the two are one path.
    fn saw_of_type(&mut self, of: Option<&QSelf>, path: &Path) {
        if let Some(QSelf { ty, position: 0, .. }) = of
            && let Type::Path(ty) = &**ty
        {
            let whole = segments(&ty.path).into_iter().chain(segments(path)).collect();
            self.saw(whole, ty.path.leading_colon.is_some(), path.span(), How::Plain);
        }
    }

    fn use_tree(&mut self, before: &[String], tree: &UseTree, item: &ItemUse) {
        let public = !matches!(item.vis, Visibility::Inherited);
        let rooted = item.leading_colon.is_some();
        let with = |ident: &Ident| {
            let own = (ident != "self" || before.is_empty()).then(|| plain(ident));
            before.iter().cloned().chain(own).collect::<Vec<_>>()
        };
        match tree {
            UseTree::Path(part) => self.use_tree(&with(&part.ident), &part.tree, item),
            UseTree::Group(group) => group.items.iter().for_each(|tree| self.use_tree(before, tree, item)),
            UseTree::Glob(glob) => self.saw(before.to_vec(), rooted, glob.span(), How::Glob { public }),
            UseTree::Name(part) => {
                let path = with(&part.ident);
                let name = path.last().cloned().unwrap_or_default();
                self.saw(path, rooted, part.span(), How::Import { name, public });
            }
            UseTree::Rename(part) => {
                let how = How::Import { name: plain(&part.rename), public };
                self.saw(with(&part.ident), rooted, part.span(), how);
            }
        }
    }

    fn inline_module(&mut self, item: &ItemMod) {
        self.here.push(plain(&item.ident));
        if item.content.is_some() {
            self.open();
            visit::visit_item_mod(self, item);
        }
        self.here.pop();
    }
}

fn segments(path: &Path) -> Vec<String> {
    path.segments.iter().map(|segment| plain(&segment.ident)).collect()
}

/// A name without the mark of a raw one.
pub(crate) fn plain(ident: &Ident) -> String {
    ident.to_string().trim_start_matches("r#").to_owned()
}

/// Whether something is compiled for tests alone.
fn is_test(attributes: &[Attribute]) -> bool {
    fn asks_for_test(meta: &Meta) -> bool {
        let Meta::List(list) = meta else { return meta.path().is_ident("test") };
        let parts =
            list.parse_args_with(syn::punctuated::Punctuated::<Meta, syn::Token![,]>::parse_terminated);
        list.path.is_ident("all") && parts.is_ok_and(|parts| parts.iter().any(asks_for_test))
    }
    attributes.iter().any(|attribute| match &attribute.meta {
        Meta::Path(path) => path.is_ident("test"),
        Meta::List(list) if list.path.is_ident("cfg") => {
            list.parse_args::<Meta>().is_ok_and(|meta| asks_for_test(&meta))
        }
        Meta::List(_) | Meta::NameValue(_) => false,
    })
}

/// The name an item gives and its attributes.
fn named(item: &Item) -> (Option<&Ident>, &[Attribute]) {
    match item {
        Item::Const(item) => (Some(&item.ident), &item.attrs),
        Item::Enum(item) => (Some(&item.ident), &item.attrs),
        Item::ExternCrate(item) => (None, &item.attrs),
        Item::Fn(item) => (Some(&item.sig.ident), &item.attrs),
        Item::ForeignMod(item) => (None, &item.attrs),
        Item::Impl(item) => (None, &item.attrs),
        Item::Macro(item) => (item.ident.as_ref(), &item.attrs),
        Item::Mod(item) => (None, &item.attrs),
        Item::Static(item) => (Some(&item.ident), &item.attrs),
        Item::Struct(item) => (Some(&item.ident), &item.attrs),
        Item::Trait(item) => (Some(&item.ident), &item.attrs),
        Item::TraitAlias(item) => (Some(&item.ident), &item.attrs),
        Item::Type(item) => (Some(&item.ident), &item.attrs),
        Item::Union(item) => (Some(&item.ident), &item.attrs),
        Item::Use(item) => (None, &item.attrs),
        other => panic!("line {}: an item this reader does not know", other.span().start().line),
    }
}

/// Passes over what is compiled for tests alone.
macro_rules! unless_for_tests {
    ($($visit:ident($node:ident))*) => {$(
        fn $visit(&mut self, node: &'ast syn::$node) {
            if !is_test(&node.attrs) {
                visit::$visit(self, node);
            }
        }
    )*};
}

impl<'ast> Visit<'ast> for Reader<'_> {
    unless_for_tests! {
        visit_arm(Arm) visit_expr_block(ExprBlock) visit_expr_call(ExprCall) visit_expr_macro(ExprMacro)
        visit_expr_method_call(ExprMethodCall) visit_field(Field) visit_field_value(FieldValue)
        visit_impl_item_const(ImplItemConst) visit_impl_item_type(ImplItemType) visit_local(Local)
        visit_stmt_macro(StmtMacro) visit_trait_item_const(TraitItemConst)
        visit_trait_item_type(TraitItemType) visit_variant(Variant)
    }

    fn visit_item(&mut self, item: &'ast Item) {
        let (name, attributes) = named(item);
        if is_test(attributes) {
            if let Item::Mod(module) = item {
                let path = self.here.iter().cloned().chain([plain(&module.ident)]).collect();
                self.house.tests_alone.push(path);
            }
            return;
        }
        if let Some(name) = name {
            self.open().defines.insert(plain(name));
        }
        match item {
            Item::Mod(module) => self.inline_module(module),
            Item::Use(item) => self.use_tree(&[], &item.tree, item),
            _ => visit::visit_item(self, item),
        }
    }

    fn visit_item_extern_crate(&mut self, item: &'ast syn::ItemExternCrate) {
        let name = item.rename.as_ref().map_or(&item.ident, |(_, name)| name);
        let how = How::Import { name: plain(name), public: false };
        self.saw(vec![plain(&item.ident)], item.ident != "self", item.span(), how);
    }

    fn visit_item_type(&mut self, item: &'ast syn::ItemType) {
        if let Type::Path(of) = &*item.ty {
            self.saw_path(&of.path, How::TypeAlias { name: plain(&item.ident) });
        }
        visit::visit_item_type(self, item);
    }

    fn visit_item_fn(&mut self, item: &'ast syn::ItemFn) {
        self.function(&item.sig.ident, item.sig.span(), item.block.brace_token.span.close());
        visit::visit_item_fn(self, item);
    }

    fn visit_impl_item_fn(&mut self, item: &'ast syn::ImplItemFn) {
        if !is_test(&item.attrs) {
            self.function(&item.sig.ident, item.sig.span(), item.block.brace_token.span.close());
            visit::visit_impl_item_fn(self, item);
        }
    }

    fn visit_trait_item_fn(&mut self, item: &'ast syn::TraitItemFn) {
        if is_test(&item.attrs) {
            return;
        }
        if let Some(block) = &item.default {
            self.function(&item.sig.ident, item.sig.span(), block.brace_token.span.close());
        }
        visit::visit_trait_item_fn(self, item);
    }

    /// Who may see something is not a use of it.
    fn visit_vis_restricted(&mut self, _: &'ast syn::VisRestricted) {}

    fn visit_path(&mut self, path: &'ast Path) {
        self.saw_path(path, How::Plain);
        visit::visit_path(self, path);
    }

    fn visit_expr_path(&mut self, path: &'ast syn::ExprPath) {
        self.saw_of_type(path.qself.as_ref(), &path.path);
        visit::visit_expr_path(self, path);
    }

    fn visit_type_path(&mut self, path: &'ast syn::TypePath) {
        self.saw_of_type(path.qself.as_ref(), &path.path);
        visit::visit_type_path(self, path);
    }

    fn visit_macro(&mut self, call: &'ast syn::Macro) {
        self.saw_path(&call.path, How::Macro);
        self.scan(call.tokens.clone());
    }

    fn visit_attribute(&mut self, attribute: &'ast Attribute) {
        match &attribute.meta {
            Meta::Path(path) => self.saw_path(path, How::Plain),
            Meta::List(list) => {
                self.saw_path(&list.path, How::Plain);
                self.scan(list.tokens.clone());
            }
            // What a comment links to is not a use of it.
            Meta::NameValue(pair) if pair.path.is_ident("doc") => {}
            Meta::NameValue(pair) => match &pair.value {
                Expr::Lit(ExprLit { lit: Lit::Str(text), .. }) => self.scan_text(&text.value(), text.span()),
                value => self.visit_expr(value),
            },
        }
    }
}
