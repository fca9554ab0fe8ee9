//! Pages as a file: what is drawn, what it means to a screen reader, and where bookmarks lead.

use crate::PrintError;
use crate::block::{Block, Frame, Role, Share};
use crate::flow::{Page, Part};
use crate::font::Fonts;
use crate::mark::{Ink, Mark};
use crate::paint::paint;
use crate::paper::{HEIGHT, MARGIN, PAGE_HEIGHT, PAGE_WIDTH};
use crate::sheet::{CAUTION, Foot};
use krilla::configure::{Accessibility, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::error::KrillaError;
use krilla::geom::Point;
use krilla::metadata::{Metadata, PageLayout};
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, ContentTag, Identifier, ListNumbering, Node, SpanTag, Tag, TagGroup,
    TagTree,
};
use krilla::{Document, SerializeSettings};
use std::num::NonZeroU16;

/// Writes pages into a file.
pub(crate) fn write(
    blocks: &[Block<'_>],
    pages: &[Page<'_, '_>],
    foot: &Foot,
    fonts: &Fonts,
) -> Result<Vec<u8>, PrintError> {
    let configuration = ConfigurationBuilder::new()
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .map_err(|error| PrintError::Writing(format!("{error:?}")))?;
    let mut document = Document::new_with(SerializeSettings {
        configuration,
        enable_tagging: true,
        ..SerializeSettings::default()
    });
    document.set_metadata(
        Metadata::new()
            .title(foot.title().to_owned())
            .creator(format!("Bleedwright {}", env!("CARGO_PKG_VERSION")))
            .language("en".to_owned())
            .page_layout(PageLayout::OneColumn),
    );
    let mut said: Vec<Said> = blocks.iter().map(|_| Said::default()).collect();
    let cautions = page_of_cautions(pages);
    for (number, page) in pages.iter().enumerate() {
        let settings = PageSettings::from_wh(PAGE_WIDTH, PAGE_HEIGHT)
            .ok_or_else(|| PrintError::Writing("the size of the paper".to_owned()))?;
        let mut sheet = document.start_page_with(settings);
        let mut surface = sheet.surface();
        for part in &page.parts {
            draw_part(&mut surface, part, &mut said, fonts);
        }
        let marks = foot.marks(number + 1, pages.len(), cautions, fonts);
        draw_foot(&mut surface, &marks, fonts);
        surface.finish();
        sheet.finish();
    }
    document.set_tag_tree(tree(blocks, said));
    document.set_outline(outline(pages));
    document.finish().map_err(|error| refused(&error))
}

/// The lines of a row.
const RULE: f32 = 0.7;

/// What was marked on the pages as said by a block.
#[derive(Default)]
struct Said {
    label: Vec<Identifier>,
    body: Vec<Identifier>,
}

fn draw_part(surface: &mut Surface<'_>, part: &Part<'_, '_>, said: &mut [Said], fonts: &Fonts) {
    let block = part.block;
    let corner = (MARGIN + block.left, MARGIN + part.top);
    draw_frame(surface, part, corner, fonts);
    let mut top = corner.1 + block.padding;
    for slice in &block.slices[part.slices.clone()] {
        for (share, mark) in &slice.marks {
            let is_decoration = block.role == Role::Decoration || *share == Share::Decoration;
            let is_said = part.index.filter(|_| !is_decoration);
            let identifier = surface.start_tagged(match is_said {
                None => ContentTag::Artifact(Artifact::with_kind(ArtifactType::Layout)),
                Some(_) if matches!(mark, Mark::Text { .. }) => ContentTag::Span(SpanTag::empty()),
                Some(_) => ContentTag::Other,
            });
            paint(surface, mark, (corner.0, top), fonts);
            surface.end_tagged();
            if let Some(index) = is_said {
                match share {
                    Share::Label => said[index].label.push(identifier),
                    Share::Body | Share::Decoration => said[index].body.push(identifier),
                }
            }
        }
        top += slice.height;
    }
}

fn draw_frame(surface: &mut Surface<'_>, part: &Part<'_, '_>, corner: (f32, f32), fonts: &Fonts) {
    let size = (part.block.width, part.height());
    let around = |width: f32, fill: Option<Ink>| Mark::Area {
        corner: (width / 2.0, width / 2.0),
        size: (size.0 - width, size.1 - width),
        outline: (width > 0.0).then_some(width),
        fill,
    };
    let marks = match &part.block.frame {
        Frame::None => return,
        Frame::Box { width, fill } => vec![around(*width, *fill)],
        Frame::Columns(places) => {
            let (right, bottom) = (size.0 - RULE / 2.0, size.1 - RULE / 2.0);
            let upright = |x: f32| ((x, 0.0), (x, size.1));
            let foot = ((0.0, bottom), (size.0, bottom));
            places
                .iter()
                .map(|x| upright(*x))
                .chain([upright(RULE / 2.0), upright(right), foot])
                .map(|(from, to)| Mark::Rule {
                    from,
                    to,
                    width: RULE,
                })
                .collect()
        }
    };
    surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(
        ArtifactType::Layout,
    )));
    for mark in &marks {
        paint(surface, mark, corner, fonts);
    }
    surface.end_tagged();
}

fn draw_foot(surface: &mut Surface<'_>, marks: &[Mark<'_>], fonts: &Fonts) {
    surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(
        ArtifactType::Footer,
    )));
    for mark in marks {
        paint(surface, mark, (MARGIN, MARGIN + HEIGHT), fonts);
    }
    surface.end_tagged();
}

/// The number of the page on which the cautions begin.
fn page_of_cautions(pages: &[Page<'_, '_>]) -> usize {
    let is_there = |page: &Page<'_, '_>| {
        let mut parts = page.parts.iter();
        parts.any(|part| part.block.bookmark.as_deref() == Some(CAUTION))
    };
    let nth = pages.iter().position(is_there);
    nth.expect("every sheet has its cautions") + 1
}

/// The structure that a screen reader follows.
fn tree(blocks: &[Block<'_>], said: Vec<Said>) -> TagTree {
    let mut tree = TagTree::new().with_lang(Some("en".to_owned()));
    let mut list: Option<(Role, TagGroup)> = None;
    for (block, said) in blocks.iter().zip(said) {
        let is_listed = matches!(block.role, Role::Item | Role::Step);
        if let Some((role, group)) = list.take() {
            if is_listed && role == block.role {
                list = Some((role, group));
            } else {
                tree.push(group);
            }
        }
        let heading = |level, said: Said| {
            let level = NonZeroU16::new(level).unwrap_or(NonZeroU16::MIN);
            TagGroup::with_children(Tag::Hn(level, block.bookmark.clone()), nodes(said.body))
        };
        let group = match &block.role {
            Role::Title => heading(1, said),
            Role::Heading => heading(2, said),
            Role::Paragraph => TagGroup::with_children(Tag::P, nodes(said.body)),
            Role::Figure(shown) => {
                TagGroup::with_children(Tag::Figure(Some(shown.clone())), nodes(said.body))
            }
            Role::Item | Role::Step => {
                let numbering = match block.role {
                    Role::Step => ListNumbering::Decimal,
                    _ => ListNumbering::None,
                };
                let mut item = TagGroup::new(Tag::LI);
                if !said.label.is_empty() {
                    item.push(TagGroup::with_children(Tag::Lbl, nodes(said.label)));
                }
                item.push(TagGroup::with_children(Tag::LBody, nodes(said.body)));
                let (_, group) = list
                    .get_or_insert_with(|| (block.role.clone(), TagGroup::new(Tag::L(numbering))));
                group.push(item);
                continue;
            }
            Role::Decoration => continue,
        };
        tree.push(group);
    }
    if let Some((_, group)) = list {
        tree.push(group);
    }
    tree
}

fn nodes(identifiers: Vec<Identifier>) -> Vec<Node> {
    identifiers.into_iter().map(Node::from).collect()
}

/// Bookmarks: the sections, and below them the steps.
fn outline(pages: &[Page<'_, '_>]) -> Outline {
    let mut outline = Outline::new();
    let mut section: Option<OutlineNode> = None;
    for (number, page) in pages.iter().enumerate() {
        for part in &page.parts {
            let is_first = part.index.is_some() && part.slices.start == 0;
            let Some(text) = part.block.bookmark.as_ref().filter(|_| is_first) else {
                continue;
            };
            let top = Point::from_xy(MARGIN, MARGIN + part.top);
            let node = OutlineNode::new(text.clone(), XyzDestination::new(number, top));
            match (&part.block.role, &mut section) {
                (Role::Step, Some(section)) => section.push_child(node),
                _ => {
                    if let Some(complete) = section.replace(node) {
                        outline.push_child(complete);
                    }
                }
            }
        }
    }
    if let Some(complete) = section {
        outline.push_child(complete);
    }
    outline
}

/// What the writer said, without what it holds.
fn refused(error: &KrillaError) -> PrintError {
    PrintError::Writing(match error {
        KrillaError::Font(_, why) => format!("a font: {why}"),
        KrillaError::Validation(rules) => format!("rules of PDF/UA: {rules:?}"),
        KrillaError::Limit(limit) => format!("{limit:?}"),
        _ => "its structure".to_owned(),
    })
}
