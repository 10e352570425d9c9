//! The typefaces that come with the program.

/// A typeface that is part of the program; the licence text lies beside its file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ShippedFace {
    /// Family and weight.
    pub name: &'static str,
    /// Who drew it.
    pub author: &'static str,
    /// Its licence.
    pub licence: &'static str,
    /// What it is used for.
    pub used_for: &'static str,
    /// Its file in the crate's folder `faces`.
    pub file: &'static str,
    pub(crate) bytes: &'static [u8],
}

/// The SIL Open Font License, which all of them are under.
const OFL: &str = "SIL Open Font License 1.1";

macro_rules! face {
    ($constant:ident, $file:literal, $name:literal, $author:literal, $used:literal) => {
        pub(crate) const $constant: ShippedFace = ShippedFace {
            name: $name,
            author: $author,
            licence: OFL,
            used_for: $used,
            file: $file,
            bytes: include_bytes!(concat!("../faces/", $file)),
        };
    };
}

face!(
    MERIENDA,
    "Merienda-Bold.ttf",
    "Merienda Bold",
    "Eduardo Rodríguez Tunni",
    "brush lettering"
);
face!(
    PATRICK_HAND,
    "PatrickHand-Regular.ttf",
    "Patrick Hand",
    "Patrick Wagesreiter",
    "pen lettering"
);
face!(
    ARCHIVO,
    "Archivo-SemiBold.ttf",
    "Archivo SemiBold",
    "Héctor Gatti",
    "transfer lettering"
);
face!(
    CAVEAT_BRUSH,
    "CaveatBrush-Regular.ttf",
    "Caveat Brush",
    "Pablo Impallari",
    "chalk"
);
face!(
    GRANDSTANDER,
    "Grandstander-ExtraBold.ttf",
    "Grandstander ExtraBold",
    "Tyler Finck",
    "cut paper"
);
face!(
    COURIER_PRIME,
    "CourierPrime-Bold.ttf",
    "Courier Prime Bold",
    "Alan Dague-Greene",
    "typewriter"
);
face!(
    MILONGA,
    "Milonga-Regular.ttf",
    "Milonga",
    "Pablo Impallari, Brenda Gallo, Rodrigo Fuenzalida",
    "silent-film card"
);
face!(
    CINZEL,
    "Cinzel-Bold.ttf",
    "Cinzel Bold",
    "Natanael Gama",
    "engraved capitals"
);
face!(
    SAIRA_STENCIL,
    "SairaStencilOne-Regular.ttf",
    "Saira Stencil One",
    "Héctor Gatti",
    "stencil"
);
face!(
    ALFA_SLAB,
    "AlfaSlabOne-Regular.ttf",
    "Alfa Slab One",
    "JM Sole",
    "wooden type"
);
face!(
    JOST,
    "Jost-SemiBold.ttf",
    "Jost SemiBold",
    "Owen Earl",
    "plain letters"
);
face!(
    VOLLKORN,
    "Vollkorn-SemiBold.ttf",
    "Vollkorn SemiBold",
    "Friedrich Althausen",
    "Greek and Cyrillic beside faces with serifs"
);
face!(
    OPEN_SANS,
    "OpenSans-Bold.ttf",
    "Open Sans Bold",
    "Steve Matteson",
    "Greek, Cyrillic and Hebrew"
);
face!(
    NASKH,
    "NotoNaskhArabic-Bold.ttf",
    "Noto Naskh Arabic Bold",
    "David Williams, Mohamad Dakak, Nizar Qandah",
    "Arabic"
);

/// Every typeface of the crate; `faces/README.md` lists them too.
pub const FACES: [ShippedFace; 14] = [
    MERIENDA,
    PATRICK_HAND,
    ARCHIVO,
    CAVEAT_BRUSH,
    GRANDSTANDER,
    COURIER_PRIME,
    MILONGA,
    CINZEL,
    SAIRA_STENCIL,
    ALFA_SLAB,
    JOST,
    VOLLKORN,
    OPEN_SANS,
    NASKH,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_list_beside_the_files_names_each_of_them() {
        let list = include_str!("../faces/README.md");
        let rows = FACES.map(|face| {
            format!(
                "| {} | {} | {} | `{}` |",
                face.name, face.author, face.used_for, face.file
            )
        });
        let listed: Vec<&str> = list.lines().filter(|l| l.contains(".ttf`")).collect();
        assert_eq!(listed, rows);
    }

    #[test]
    fn together_they_stay_small() {
        let bytes: usize = FACES.iter().map(|face| face.bytes.len()).sum();
        assert!(bytes < 3_000_000, "{bytes}");
    }
}
