//! JSON that knows on which line it stands.

use std::collections::BTreeMap;

use serde_json::value::RawValue;

/// A whole file, with the ends of its lines.
#[derive(Debug)]
pub(crate) struct FileText<'a> {
    text: &'a str,
    line_ends: Vec<usize>,
}

/// A value in it, not looked into yet.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Node<'a> {
    file: &'a FileText<'a>,
    raw: &'a RawValue,
}

/// An object in it, one level deep.
#[derive(Debug)]
pub(crate) struct Object<'a> {
    file: &'a FileText<'a>,
    at: Node<'a>,
    fields: BTreeMap<String, &'a RawValue>,
}

impl<'a> FileText<'a> {
    pub(crate) fn new(text: &'a str) -> Self {
        let ends = text.bytes().enumerate().filter(|(_, b)| *b == b'\n');
        let line_ends = ends.map(|(at, _)| at).collect();
        Self { text, line_ends }
    }

    /// The outermost value; otherwise the line and what is wrong there.
    pub(crate) fn outermost(&'a self) -> Result<Node<'a>, (u64, String)> {
        match serde_json::from_str(self.text) {
            Ok(raw) => Ok(Node { file: self, raw }),
            Err(found) => Err((found.line().max(1) as u64, found.to_string())),
        }
    }
}

impl<'a> Node<'a> {
    /// The line it begins on.
    pub(crate) fn line(self) -> u64 {
        // The value is a piece of the text it was read from, so the difference
        // of their places in memory is its place in the text.
        let begin = self.file.text.as_ptr() as usize;
        let at = (self.raw.get().as_ptr() as usize).saturating_sub(begin);
        let before = self.file.line_ends.partition_point(|end| *end < at);
        before as u64 + 1
    }

    pub(crate) fn is_null(self) -> bool {
        self.raw.get() == "null"
    }

    /// Its fields, if it is an object. Of fields of one name the last counts, as
    /// for every reader of JSON.
    pub(crate) fn object(self) -> Option<Object<'a>> {
        let fields = serde_json::from_str(self.raw.get()).ok()?;
        let (file, at) = (self.file, self);
        Some(Object { file, at, fields })
    }

    /// What it lists, if it is a list.
    pub(crate) fn items(self) -> Option<Vec<Node<'a>>> {
        let items: Vec<&RawValue> = serde_json::from_str(self.raw.get()).ok()?;
        let file = self.file;
        Some(items.into_iter().map(|raw| Node { file, raw }).collect())
    }

    pub(crate) fn text(self) -> Option<String> {
        serde_json::from_str(self.raw.get()).ok()
    }

    pub(crate) fn number(self) -> Option<f64> {
        serde_json::from_str(self.raw.get()).ok()
    }

    pub(crate) fn truth(self) -> Option<bool> {
        serde_json::from_str(self.raw.get()).ok()
    }
}

impl<'a> Object<'a> {
    pub(crate) fn line(&self) -> u64 {
        self.at.line()
    }

    /// A field that is there and says something.
    pub(crate) fn field(&self, name: &str) -> Option<Node<'a>> {
        let raw = self.fields.get(name)?;
        let node = Node {
            file: self.file,
            raw,
        };
        (!node.is_null()).then_some(node)
    }

    pub(crate) fn text(&self, name: &str) -> Option<String> {
        self.field(name)?.text()
    }

    pub(crate) fn object(&self, name: &str) -> Option<Object<'a>> {
        self.field(name)?.object()
    }

    /// What a field lists; nothing when it is not there or is no list.
    pub(crate) fn items(&self, name: &str) -> Vec<Node<'a>> {
        self.field(name).and_then(Node::items).unwrap_or_default()
    }

    /// What the standard calls it, without its version; empty when it does not say.
    pub(crate) fn kind(&self) -> String {
        let schema = self.text(crate::schema::SCHEMA).unwrap_or_default();
        crate::schema::kind(&schema).to_owned()
    }

    /// Our own words in its metadata.
    pub(crate) fn ours(&self) -> Option<Object<'a>> {
        self.object("metadata")?.object(crate::schema::OURS)
    }
}
