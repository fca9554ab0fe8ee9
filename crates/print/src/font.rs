//! The fonts that the program carries, and the length of their glyphs.

use crate::PrintError;
use krilla::text::Font;
use skrifa::charmap::Charmap;
use skrifa::instance::{LocationRef, Size};
use skrifa::metrics::GlyphMetrics;
use skrifa::{FontRef, MetadataProvider};

/// How heavy letters are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Weight {
    Regular,
    Bold,
}

/// Noto Sans in two weights, and Noto Sans Math for the signs that it lacks.
pub(crate) struct Fonts {
    regular: Face,
    bold: Face,
    signs: Face,
}

/// Which of the fonts a glyph is from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Source {
    Regular,
    Bold,
    Signs,
}

/// One character as a font shows it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Glyph {
    pub(crate) source: Source,
    pub(crate) id: u32,
    /// In ems.
    pub(crate) advance: f32,
}

struct Face {
    font: Font,
    characters: Charmap<'static>,
    metrics: GlyphMetrics<'static>,
    units_per_em: f32,
}

impl Fonts {
    /// Reads the built-in fonts.
    pub(crate) fn new() -> Result<Self, PrintError> {
        Ok(Self {
            regular: Face::new(
                "NotoSans-Regular",
                include_bytes!("../fonts/NotoSans-Regular.ttf"),
            )?,
            bold: Face::new(
                "NotoSans-Bold",
                include_bytes!("../fonts/NotoSans-Bold.ttf"),
            )?,
            signs: Face::new(
                "NotoSansMath-Regular",
                include_bytes!("../fonts/NotoSansMath-Regular.ttf"),
            )?,
        })
    }

    /// The glyph of a character; none where no font has it.
    pub(crate) fn glyph(&self, character: char, weight: Weight) -> Option<Glyph> {
        let own = match weight {
            Weight::Regular => Source::Regular,
            Weight::Bold => Source::Bold,
        };
        [own, Source::Signs]
            .into_iter()
            .find_map(|source| self.face(source).glyph(character, source))
    }

    pub(crate) fn font(&self, source: Source) -> Font {
        self.face(source).font.clone()
    }

    fn face(&self, source: Source) -> &Face {
        match source {
            Source::Regular => &self.regular,
            Source::Bold => &self.bold,
            Source::Signs => &self.signs,
        }
    }
}

impl Face {
    fn new(name: &'static str, bytes: &'static [u8]) -> Result<Self, PrintError> {
        let broken = || PrintError::Font(name);
        let font = Font::new(bytes.into(), 0).ok_or_else(broken)?;
        let read = FontRef::new(bytes).map_err(|_| broken())?;
        Ok(Self {
            units_per_em: font.units_per_em(),
            font,
            characters: read.charmap(),
            metrics: read.glyph_metrics(Size::unscaled(), LocationRef::default()),
        })
    }

    fn glyph(&self, character: char, source: Source) -> Option<Glyph> {
        let id = self.characters.map(character)?;
        Some(Glyph {
            source,
            id: id.to_u32(),
            advance: self.metrics.advance_width(id)? / self.units_per_em,
        })
    }
}
