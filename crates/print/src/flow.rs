//! Blocks one below the other, page after page.

use crate::block::Block;
use crate::paper::HEIGHT;
use std::ops::Range;

/// A long block is broken so that at least so many lines stand on either side.
const FEWEST: usize = 3;

/// What stands on a page.
#[derive(Debug, Default)]
pub(crate) struct Page<'b, 'a> {
    pub(crate) parts: Vec<Part<'b, 'a>>,
    filled: f32,
}

/// A block on a page, or as much of it as is there.
#[derive(Debug)]
pub(crate) struct Part<'b, 'a> {
    pub(crate) block: &'b Block<'a>,
    /// Its number; none for what is only said again.
    pub(crate) index: Option<usize>,
    pub(crate) slices: Range<usize>,
    /// From the upper margin.
    pub(crate) top: f32,
}

impl Part<'_, '_> {
    /// With the padding of its block.
    pub(crate) fn height(&self) -> f32 {
        2.0 * self.block.padding
            + self.block.slices[self.slices.clone()]
                .iter()
                .map(|slice| slice.height)
                .sum::<f32>()
    }
}

/// Lays blocks on pages. None is broken that fits on a page and is not long; no block that leads ends a page.
pub(crate) fn pages<'b, 'a>(blocks: &'b [Block<'a>]) -> Vec<Page<'b, 'a>> {
    let mut pages = vec![Page::default()];
    for (index, block) in blocks.iter().enumerate() {
        let least = least_from(&blocks[index..]);
        if !current(&mut pages).has_room(block.gap + least) {
            turn(&mut pages, block);
        }
        place(&mut pages, block, index);
    }
    pages
}

/// What is left of the last page.
pub(crate) fn room(pages: &[Page<'_, '_>]) -> f32 {
    pages.last().map_or(0.0, |page| HEIGHT - page.filled)
}

/// The room that the first of these blocks needs with those that it leads.
fn least_from(blocks: &[Block<'_>]) -> f32 {
    let mut needed: f32 = 0.0;
    for (nth, block) in blocks.iter().enumerate() {
        let gap = if nth > 0 { block.gap } else { 0.0 };
        needed = needed.max(needed + gap - block.beside + least(block));
        if !block.leads {
            break;
        }
    }
    needed.min(HEIGHT)
}

/// The least of a block that begins on a page.
fn least(block: &Block<'_>) -> f32 {
    if !block.is_long() {
        return block.height();
    }
    let first = block.slices.iter().take(FEWEST);
    2.0 * block.padding + first.map(|slice| slice.height).sum::<f32>()
}

fn place<'b, 'a>(pages: &mut Vec<Page<'b, 'a>>, block: &'b Block<'a>, index: usize) {
    let mut next = 0;
    while next < block.slices.len() {
        let page = current(pages);
        let gap = if page.parts.is_empty() {
            0.0
        } else {
            block.gap
        };
        let top = page.filled + gap - block.beside;
        let room = HEIGHT - top - 2.0 * block.padding;
        let left = block.slices.len() - next;
        let mut fitting = fitting(block, next, room);
        if fitting < left && fitting > FEWEST {
            fitting = fitting.min(left.saturating_sub(FEWEST)).max(FEWEST);
        }
        // A slice that is higher than a page would never fit: it goes where a page has nothing else.
        if fitting == 0 {
            let is_fresh = page.parts.iter().all(|part| part.index.is_none());
            if !is_fresh {
                turn(pages, block);
                continue;
            }
            fitting = 1;
        }
        page.push(Part {
            block,
            index: Some(index),
            slices: next..next + fitting,
            top,
        });
        next += fitting;
        if next < block.slices.len() {
            turn(pages, block);
        }
    }
}

fn fitting(block: &Block<'_>, next: usize, room: f32) -> usize {
    let mut used = 0.0;
    block.slices[next..]
        .iter()
        .take_while(|slice| {
            used += slice.height;
            // Sums of the same heights in another order may differ in their last digits.
            used <= room + 0.01
        })
        .count()
}

/// Begins a page with what is said again above `block`.
fn turn<'b, 'a>(pages: &mut Vec<Page<'b, 'a>>, block: &'b Block<'a>) {
    let mut page = Page::default();
    if let Some(under) = &block.under {
        page.push(Part {
            block: under,
            index: None,
            slices: 0..under.slices.len(),
            top: 0.0,
        });
    }
    pages.push(page);
}

fn current<'p, 'b, 'a>(pages: &'p mut [Page<'b, 'a>]) -> &'p mut Page<'b, 'a> {
    pages.last_mut().expect("there is always a page")
}

impl<'b, 'a> Page<'b, 'a> {
    fn has_room(&self, height: f32) -> bool {
        self.parts.is_empty() || self.filled + height <= HEIGHT + 0.01
    }

    fn push(&mut self, part: Part<'b, 'a>) {
        self.filled = self.filled.max(part.top + part.height());
        self.parts.push(part);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::block::{Role, Slice};

    fn block(lines: usize, height: f32) -> Block<'static> {
        let mut block = Block::new(Role::Paragraph, 100.0);
        block.slices = vec![
            Slice {
                height,
                marks: Vec::new()
            };
            lines
        ];
        block
    }

    /// For each page the blocks on it, with how much of them.
    fn laid(blocks: &[Block<'_>]) -> Vec<Vec<(usize, Range<usize>)>> {
        let pages = pages(blocks);
        for page in &pages {
            assert!(page.filled <= HEIGHT + 0.01);
        }
        pages
            .iter()
            .map(|page| {
                let parts = page.parts.iter();
                parts
                    .filter_map(|part| Some((part.index?, part.slices.clone())))
                    .collect()
            })
            .collect()
    }

    #[test]
    fn a_short_block_moves_whole() {
        let blocks = [block(1, HEIGHT - 20.0), block(3, 10.0)];
        assert_eq!(laid(&blocks), [vec![(0, 0..1)], vec![(1, 0..3)]]);
    }

    #[test]
    fn a_heading_goes_with_what_it_leads() {
        let mut heading = block(1, 15.0);
        heading.leads = true;
        let blocks = [block(1, HEIGHT - 20.0), heading, block(2, 10.0)];
        assert_eq!(laid(&blocks), [vec![(0, 0..1)], vec![(1, 0..1), (2, 0..2)]]);
    }

    #[test]
    fn what_stands_beside_another_takes_no_room_of_its_own() {
        let mut left = block(3, 10.0);
        left.leads = true;
        let mut right = block(5, 10.0);
        right.beside = 30.0;
        let blocks = [block(1, HEIGHT - 50.0), left, right, block(1, 10.0)];
        let laid = laid(&blocks);
        assert_eq!(laid[0], vec![(0, 0..1), (1, 0..3), (2, 0..5)]);
        assert_eq!(laid[1], vec![(3, 0..1)]);
    }

    #[test]
    fn a_long_block_breaks_without_lonely_lines() {
        let lines = (HEIGHT / 10.0) as usize + 1;
        let laid = laid(&[block(lines, 10.0)]);
        assert_eq!(laid, [vec![(0, 0..lines - 3)], vec![(0, lines - 3..lines)]]);
    }

    #[test]
    fn what_is_higher_than_a_page_still_comes_to_an_end() {
        let mut blocks = [block(2, 10.0)];
        blocks[0].padding = HEIGHT;
        let pages = pages(&blocks);
        let slices: usize = pages
            .iter()
            .flat_map(|page| &page.parts)
            .map(|part| part.slices.len())
            .sum();
        assert_eq!(slices, 2);
    }
}
