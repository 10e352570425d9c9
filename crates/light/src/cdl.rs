//! Points out and in as an ASC colour decision list.
//!
//! Names, namespace and formula are those that the American Society of Cinematographers
//! published as ASC CDL v1.2: out = (in · slope + offset)^power, then saturation. A light
//! printed is a slope alone, on linear light.

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesText, Event};
use roxmltree::{Document, Node};

use crate::points::LOG_EXPOSURE_PER_POINT;
use crate::{LightError, Points};

/// The namespace of what is written. Read is any.
const NAMESPACE: &str = "urn:ASC:CDL:v1.2";

/// One correction with its name.
#[derive(Debug, Clone, PartialEq)]
pub struct Correction {
    /// Its name, one of a kind in its collection.
    pub id: String,
    /// Words for a person; may be empty.
    pub description: String,
    /// What linear light is multiplied by: red, green, blue.
    pub slope: [f64; 3],
    /// What is added.
    pub offset: [f64; 3],
    /// What the sum is raised to.
    pub power: [f64; 3],
    /// 1 leaves the colours as they are.
    pub saturation: f64,
}

impl Correction {
    /// The correction of a shot's points.
    #[must_use]
    pub fn of_points(id: &str, description: &str, points: Points) -> Self {
        Self {
            id: id.to_owned(),
            description: description.to_owned(),
            slope: points.slopes(),
            offset: [0.0; 3],
            power: [1.0; 3],
            saturation: 1.0,
        }
    }

    /// The nearest points, and whether they are all there is to it: a correction with an
    /// offset, a power or a saturation is more than a light.
    ///
    /// # Errors
    /// [`LightError::OutOfRange`] for a slope beyond the most points.
    pub fn points(&self) -> Result<(Points, bool), LightError> {
        let points = Points::nearest(self.slope.map(|s| s.log10() / LOG_EXPOSURE_PER_POINT))?;
        let near = |found: f64, plain: f64| (found - plain).abs() < 1e-4;
        let plain = self.offset.iter().all(|o| near(*o, 0.0))
            && self.power.iter().all(|p| near(*p, 1.0))
            && near(self.saturation, 1.0);
        let slopes = points.slopes();
        let exact = self
            .slope
            .iter()
            .zip(slopes)
            .all(|(s, p)| (s / p - 1.0).abs() < 1e-3);
        Ok((points, plain && exact))
    }
}

/// Writes corrections as a collection, the form of a `.ccc` file. `about` says what picture
/// they are for: it becomes the description of the input.
#[must_use]
pub fn write_corrections(about: &str, corrections: &[Correction]) -> String {
    let mut writer = Writer::new_with_indent(Vec::new(), b' ', 2);
    // Writing into memory does not fail.
    let _written = write_all(&mut writer, about, corrections);
    let mut text = String::from_utf8(writer.into_inner()).unwrap_or_default();
    text.push('\n');
    text
}

type Xml = Writer<Vec<u8>>;

fn write_all(xml: &mut Xml, about: &str, corrections: &[Correction]) -> std::io::Result<()> {
    xml.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
    xml.create_element("ColorCorrectionCollection")
        .with_attribute(("xmlns", NAMESPACE))
        .write_inner_content(|xml| {
            element(xml, "InputDescription", about)?;
            corrections.iter().try_for_each(|one| write_one(xml, one))
        })?;
    Ok(())
}

fn write_one(xml: &mut Xml, one: &Correction) -> std::io::Result<()> {
    xml.create_element("ColorCorrection")
        .with_attribute(("id", one.id.as_str()))
        .write_inner_content(|xml| {
            xml.create_element("SOPNode").write_inner_content(|xml| {
                if !one.description.is_empty() {
                    element(xml, "Description", &one.description)?;
                }
                element(xml, "Slope", &three(one.slope))?;
                element(xml, "Offset", &three(one.offset))?;
                element(xml, "Power", &three(one.power))
            })?;
            xml.create_element("SatNode")
                .write_inner_content(|xml| element(xml, "Saturation", &number(one.saturation)))?;
            Ok(())
        })?;
    Ok(())
}

fn element(xml: &mut Xml, name: &str, text: &str) -> std::io::Result<()> {
    xml.create_element(name)
        .write_text_content(BytesText::new(text))?;
    Ok(())
}

fn number(value: f64) -> String {
    format!("{value:.6}")
}

fn three(values: [f64; 3]) -> String {
    values.map(number).join(" ")
}

/// Reads corrections out of a collection (`.ccc`), a decision list (`.cdl`) or a single
/// correction (`.cc`).
///
/// # Errors
/// [`LightError::Cdl`] with the line of the first thing that is wrong.
pub fn read_corrections(text: &str) -> Result<Vec<Correction>, LightError> {
    let document = Document::parse(text).map_err(|problem| LightError::Cdl {
        line: problem.pos().row,
        problem: format!("no XML: {problem}"),
    })?;
    let root = document.root_element();
    let known = [
        "ColorCorrectionCollection",
        "ColorDecisionList",
        "ColorCorrection",
    ];
    if !known.contains(&root.tag_name().name()) {
        let name = root.tag_name().name();
        return Err(at(
            root,
            format!("<{name}> is no list of colour corrections"),
        ));
    }
    let corrections = root
        .descendants()
        .filter(|node| node.tag_name().name() == "ColorCorrection")
        .enumerate()
        .map(|(place, node)| read_one(place, node));
    corrections.collect()
}

fn at(node: Node<'_, '_>, problem: String) -> LightError {
    let line = node.document().text_pos_at(node.range().start).row;
    LightError::Cdl { line, problem }
}

fn read_one(place: usize, node: Node<'_, '_>) -> Result<Correction, LightError> {
    let id = node
        .attribute("id")
        .map_or_else(|| format!("{}", place + 1), str::to_owned);
    let within = |name: &str| {
        let mut all = node.descendants();
        all.find(|child| child.tag_name().name().eq_ignore_ascii_case(name))
    };
    let numbers = |name: &str, usual: f64| within(name).map_or(Ok([usual; 3]), read_three);
    let slope = numbers("Slope", 1.0)?;
    if let Some(node) = within("Slope").filter(|_| slope.iter().any(|s| *s <= 0.0)) {
        return Err(at(node, "a slope must be above 0".to_owned()));
    }
    let saturation = within("Saturation").map_or(Ok(1.0), |node| {
        read_numbers(node)?
            .first()
            .copied()
            .ok_or_else(|| at(node, "no number".to_owned()))
    })?;
    let description = within("Description")
        .and_then(|d| d.text())
        .unwrap_or_default();
    Ok(Correction {
        id,
        description: description.trim().to_owned(),
        slope,
        offset: numbers("Offset", 0.0)?,
        power: numbers("Power", 1.0)?,
        saturation,
    })
}

fn read_three(node: Node<'_, '_>) -> Result<[f64; 3], LightError> {
    let numbers = read_numbers(node)?;
    let found = numbers.len();
    <[f64; 3]>::try_from(numbers).map_err(|_| at(node, format!("{found} numbers, 3 are needed")))
}

fn read_numbers(node: Node<'_, '_>) -> Result<Vec<f64>, LightError> {
    let words = node.text().unwrap_or_default().split_whitespace();
    words
        .map(|word| match word.parse::<f64>() {
            Ok(number) if number.is_finite() => Ok(number),
            _ => Err(at(node, format!("“{word}” is no number"))),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cap() -> Correction {
        let points = Points::new(5, 5, 7).expect("in range");
        Correction::of_points("14", "cap < crate & rope", points)
    }

    #[test]
    fn what_is_written_is_read_back() {
        let text = write_corrections("The Ten-Past Boat, v2", &[cap()]);
        let read = read_corrections(&text).expect("well formed");
        assert_eq!(read.len(), 1);
        assert_eq!(read[0].id, "14");
        assert_eq!(read[0].description, "cap < crate & rope");
        assert!((read[0].slope[2] - 1.496_236).abs() < 1e-6, "{text}");
        let (points, is_all) = read[0].points().expect("in range");
        assert_eq!(points.rgb(), [5, 5, 7]);
        assert!(is_all);
    }

    /// The sample of the published form, as open libraries carry it in their help.
    #[test]
    fn the_published_sample_is_read() {
        let text = r#"<ColorCorrectionCollection xmlns="urn:ASC:CDL:v1.2">
            <ColorCorrection id="cc03345">
              <SOPNode>
                <Slope> 0.9 1.2 0.5 </Slope>
                <Offset> 0.4 -0.5 0.6 </Offset>
                <Power> 1.0 0.8 1.5 </Power>
              </SOPNode>
              <SATNode><Saturation> 0.85 </Saturation></SATNode>
            </ColorCorrection>
          </ColorCorrectionCollection>"#;
        let read = read_corrections(text).expect("well formed");
        let close = |found: [f64; 3], said: [f64; 3]| {
            found.iter().zip(said).all(|(f, s)| (f - s).abs() < 1e-12)
        };
        assert!(close(read[0].slope, [0.9, 1.2, 0.5]));
        assert!(close(read[0].offset, [0.4, -0.5, 0.6]));
        assert!(close(read[0].power, [1.0, 0.8, 1.5]));
        assert!((read[0].saturation - 0.85).abs() < 1e-12);
        assert!(!read[0].points().expect("in range").1, "more than a light");
    }

    #[test]
    fn what_is_wrong_is_told_with_its_line() {
        let line = |text: &str| match read_corrections(text) {
            Err(LightError::Cdl { line, .. }) => line,
            other => panic!("{other:?}"),
        };
        assert_eq!(line("<x/>"), 1);
        assert_eq!(line("<ColorCorrection>\n</SOPNode>"), 2);
        assert_eq!(
            line("<ColorCorrection>\n<Slope>1 b 2</Slope></ColorCorrection>"),
            2
        );
        assert_eq!(
            line("<ColorCorrection>\n\n<Slope>1 2</Slope></ColorCorrection>"),
            3
        );
        assert_eq!(
            line("<ColorCorrection>\n<Slope>1 2 -1</Slope></ColorCorrection>"),
            2
        );
    }
}
