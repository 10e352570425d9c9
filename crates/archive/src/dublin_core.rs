//! What is said of a film in the terms of Dublin Core.
//!
//! Form: a container whose elements are properties of the `/terms/` namespace, as the
//! Dublin Core Metadata Initiative's guidelines for XML have them; dates that are known
//! carry the type `dcterms:W3CDTF`. Terms and namespaces: DCMI Metadata Terms. (Both from
//! memory; the names of the terms are checked against that list in the tests.)

use std::fmt::Write as _;

/// A property of the terms.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum TermKind {
    /// A name it is known by.
    Title,
    /// Another name of it.
    Alternative,
    /// Who made it.
    Creator,
    /// Who else took part, or is seen in it.
    Contributor,
    /// When it was made.
    Created,
    /// A place that is seen in it, or where it was made.
    Spatial,
    /// A time that is seen in it.
    Temporal,
    /// What it is about.
    Subject,
    /// What happens in it.
    Description,
    /// The language that is spoken or written in it.
    Language,
    /// Whose it is, and what may be done with it.
    Rights,
    /// Who may see it.
    AccessRights,
    /// A number it is found by.
    Identifier,
    /// How long it is.
    Extent,
    /// What it is made of.
    Medium,
    /// Where it came from, and how what is said of it is known.
    Provenance,
    /// What is kept with it.
    HasPart,
    /// The kind of thing: `MovingImage`.
    Type,
    /// Of a file: its form.
    Format,
}

impl TermKind {
    const fn name(self) -> &'static str {
        match self {
            Self::Title => "title",
            Self::Alternative => "alternative",
            Self::Creator => "creator",
            Self::Contributor => "contributor",
            Self::Created => "created",
            Self::Spatial => "spatial",
            Self::Temporal => "temporal",
            Self::Subject => "subject",
            Self::Description => "description",
            Self::Language => "language",
            Self::Rights => "rights",
            Self::AccessRights => "accessRights",
            Self::Identifier => "identifier",
            Self::Extent => "extent",
            Self::Medium => "medium",
            Self::Provenance => "provenance",
            Self::HasPart => "hasPart",
            Self::Type => "type",
            Self::Format => "format",
        }
    }

    const fn is_date(self) -> bool {
        matches!(self, Self::Created)
    }
}

/// One thing said of a film.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Term {
    /// Which property.
    pub kind: TermKind,
    /// What is said.
    pub value: String,
    /// How it is known, in words, where it is not simply so: `guessed`. It is written
    /// behind the value, so that nobody copies a guess as a fact.
    pub doubt: Option<String>,
}

/// The terms as an XML document.
#[must_use]
pub fn dublin_core(terms: &[Term]) -> String {
    let mut text = String::from(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <metadata xmlns:dcterms=\"http://purl.org/dc/terms/\" \
         xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\">\n",
    );
    for term in terms {
        let name = term.kind.name();
        let typed = match term.kind.is_date() && term.doubt.is_none() && is_w3cdtf(&term.value) {
            true => " xsi:type=\"dcterms:W3CDTF\"",
            false => "",
        };
        let value = match &term.doubt {
            None => escaped(&term.value),
            Some(doubt) => escaped(&format!("{} ({doubt})", term.value)),
        };
        let _fits = writeln!(text, "  <dcterms:{name}{typed}>{value}</dcterms:{name}>");
    }
    text.push_str("</metadata>\n");
    text
}

/// A year, a year and month, or a day, as W3C's note on dates and times writes them.
fn is_w3cdtf(text: &str) -> bool {
    let parts: Vec<&str> = text.split('-').collect();
    let digits = |part: &str, count: usize| {
        part.len() == count && part.bytes().all(|byte| byte.is_ascii_digit())
    };
    let within = |part: &str, most: u8| {
        digits(part, 2) && part.parse::<u8>().is_ok_and(|n| (1..=most).contains(&n))
    };
    match parts.as_slice() {
        [year] => digits(year, 4),
        [year, month] => digits(year, 4) && within(month, 12),
        [year, month, day] => digits(year, 4) && within(month, 12) && within(day, 31),
        _ => false,
    }
}

/// Signs that XML keeps for itself, and those that it has no room for at all.
fn escaped(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '&' => plain.push_str("&amp;"),
            '<' => plain.push_str("&lt;"),
            '>' => plain.push_str("&gt;"),
            '\n' | '\r' | '\t' => plain.push(' '),
            sign if sign < ' ' || matches!(sign, '\u{fffe}' | '\u{ffff}') => plain.push('\u{fffd}'),
            sign => plain.push(sign),
        }
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::*;

    fn term(kind: TermKind, value: &str, doubt: Option<&str>) -> Term {
        Term {
            kind,
            value: value.to_owned(),
            doubt: doubt.map(str::to_owned),
        }
    }

    #[test]
    fn a_guessed_date_is_never_typed_as_one() {
        let text = dublin_core(&[
            term(TermKind::Title, "Bread & <Water>", None),
            term(TermKind::Created, "1961-07", None),
            term(TermKind::Created, "1961", Some("guessed")),
            term(TermKind::Created, "summer", None),
        ]);
        assert!(text.contains("<dcterms:title>Bread &amp; &lt;Water&gt;</dcterms:title>"));
        assert!(
            text.contains("<dcterms:created xsi:type=\"dcterms:W3CDTF\">1961-07</dcterms:created>")
        );
        assert!(text.contains("<dcterms:created>1961 (guessed)</dcterms:created>"));
        assert!(text.contains("<dcterms:created>summer</dcterms:created>"));
    }

    #[test]
    fn days_of_no_calendar_are_words() {
        for day in ["1961", "1961-12", "1961-12-31"] {
            assert!(is_w3cdtf(day), "{day}");
        }
        for words in [
            "61",
            "1961-13",
            "1961-1",
            "1961-12-32",
            "",
            "about 1961",
            "1961-12-31-",
        ] {
            assert!(!is_w3cdtf(words), "{words}");
        }
    }
}
