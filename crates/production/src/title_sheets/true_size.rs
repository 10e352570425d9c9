//! The field chart and the cels, true to size.

use onestrand_sheets::{TitleCel, TitleFieldChart, TrueSizeHead, field_chart_svg, title_cel_svg};

use super::{TitleSheetsToPrint, TitleToPrint};
use crate::ProductionError;
use crate::error::unfit;

fn head(all: &TitleSheetsToPrint, of: &str) -> Result<TrueSizeHead, ProductionError> {
    let field = all.field()?;
    Ok(TrueSizeHead {
        title: all.head.title.clone(),
        of: of.to_owned(),
        field_mm: field.field_mm,
        shown_mm: field.shown_mm,
        safe_mm: field.safe_mm,
        paper: all.head.paper,
    })
}

pub(super) fn chart(all: &TitleSheetsToPrint) -> Result<TitleFieldChart, ProductionError> {
    Ok(TitleFieldChart {
        head: head(all, "")?,
        set_up: all.set_up(),
    })
}

pub(super) fn cel(
    all: &TitleSheetsToPrint,
    one: &TitleToPrint,
) -> Result<TitleCel, ProductionError> {
    let outlines = one.outlines.as_ref().ok_or_else(|| {
        let why = one.card.problems.iter().find(|problem| problem.refused);
        let what = why.map_or("there is no lettering to put on a cel", |why| &why.what);
        let next = why.map_or("write what the title says", |why| &why.next);
        unfit(what.to_owned(), next)
    })?;
    Ok(TitleCel {
        head: head(all, &one.title.title.name)?,
        outlines: outlines.path.clone(),
        pen_mm: outlines.pen_mm,
        high_mm: outlines.high_mm,
        reversed: all.reversed(one),
        mirrored: all.asked.mirrored,
    })
}

impl TitleSheetsToPrint {
    /// The cel of the first title that was gathered as an SVG of true size, with the
    /// crosses and holes of the printed one, and the name of its file.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] where there is no title, or it cannot be lettered.
    pub fn cel_svg(&self) -> Result<(String, String), ProductionError> {
        let one = self.titles.first().ok_or_else(|| {
            unfit(
                "there is no lettering to put on a cel".to_owned(),
                "write what the title says",
            )
        })?;
        let name = format!("cel-{}.svg", one.title.title.name);
        Ok((name, title_cel_svg(&cel(self, one)?)))
    }

    /// The field chart as one SVG of true size, with the name of its file.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] where the stand is not set up, [`ProductionError::Sheets`].
    pub fn chart_svg(&self) -> Result<(String, String), ProductionError> {
        Ok((
            "field-chart.svg".to_owned(),
            field_chart_svg(&chart(self)?)?,
        ))
    }

    fn reversed(&self, one: &TitleToPrint) -> bool {
        let as_shot = one.title.title.shooting.exposed_twice;
        self.asked.reversed.unwrap_or(as_shot)
    }
}
