//! A picture as its reader sees it: read back from the SVG, knowing nothing of how it was made.

use roxmltree::{Document, Node};

/// A rectangle along the axes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

impl Frame {
    pub(super) fn around(points: &[(f64, f64)]) -> Self {
        let mut frame = Self {
            left: f64::INFINITY,
            top: f64::INFINITY,
            right: f64::NEG_INFINITY,
            bottom: f64::NEG_INFINITY,
        };
        for (x, y) in points {
            frame.left = frame.left.min(*x);
            frame.right = frame.right.max(*x);
            frame.top = frame.top.min(*y);
            frame.bottom = frame.bottom.max(*y);
        }
        frame
    }

    /// Whether both share an area, edges that touch left out.
    pub(super) fn overlaps(&self, other: &Self) -> bool {
        const TOUCH: f64 = 0.05;
        self.left + TOUCH < other.right
            && other.left + TOUCH < self.right
            && self.top + TOUCH < other.bottom
            && other.top + TOUCH < self.bottom
    }
}

/// Something with a name: the kind and the name of the innermost group that has one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Owner {
    pub(super) kind: String,
    pub(super) name: String,
    /// The part that it is drawn on, for screws.
    pub(super) part: Option<String>,
}

#[derive(Debug)]
pub(super) struct Label {
    pub(super) owner: Owner,
    pub(super) text: String,
    pub(super) size: f64,
    pub(super) frame: Frame,
}

#[derive(Debug)]
pub(super) struct Shape {
    pub(super) part: String,
    pub(super) frame: Frame,
}

#[derive(Debug)]
pub(super) struct Stretch {
    pub(super) line: String,
    pub(super) from: (f64, f64),
    pub(super) to: (f64, f64),
    /// Whether a bend or an end of the line is at its beginning and at its end.
    pub(super) is_curved: bool,
}

#[derive(Debug, Default)]
pub(super) struct Seen {
    pub(super) width: f64,
    pub(super) height: f64,
    pub(super) labels: Vec<Label>,
    pub(super) shapes: Vec<Shape>,
    pub(super) stretches: Vec<Stretch>,
    /// Whatever else has a place.
    pub(super) frames: Vec<Frame>,
}

/// Reads a picture; panics where it is not what an SVG file has to be.
pub(super) fn see(svg: &str) -> Seen {
    let document = Document::parse(svg).expect("the picture is well-formed XML");
    let root = document.root_element();
    assert_eq!(root.tag_name().name(), "svg");
    assert_eq!(root.attribute("role"), Some("img"));
    let view: Vec<f64> = attribute(root, "viewBox").split(' ').map(number).collect();
    let mut seen = Seen {
        width: view[2],
        height: view[3],
        ..Seen::default()
    };
    for node in root.descendants().filter(Node::is_element) {
        assert!(node.attribute("style").is_none() && node.attribute("id").is_none());
        let is_paper = owner(node).is_some_and(|owner| owner.kind == "paper");
        match node.tag_name().name() {
            "svg" | "title" | "desc" | "g" => {}
            _ if is_paper => {}
            "text" => seen.labels.push(label(node)),
            "path" => see_path(node, &mut seen),
            "circle" => {
                let [x, y, r] = ["cx", "cy", "r"].map(|name| number(attribute(node, name)));
                seen.add(node, Frame::around(&[(x - r, y - r), (x + r, y + r)]));
            }
            other => panic!("a picture has no `{other}`"),
        }
    }
    seen
}

impl Seen {
    fn add(&mut self, node: Node<'_, '_>, frame: Frame) {
        self.frames.push(frame);
        if let Some(Owner {
            part: Some(part), ..
        }) = owner(node)
        {
            self.shapes.push(Shape { part, frame });
        }
    }
}

fn see_path(node: Node<'_, '_>, seen: &mut Seen) {
    let pieces = pieces(attribute(node, "d"));
    let points: Vec<(f64, f64)> = pieces.iter().flat_map(|piece| [piece.0, piece.1]).collect();
    let owner = owner(node);
    if let Some(owner) = owner.filter(|owner| owner.kind == "line") {
        seen.frames.push(Frame::around(&points));
        for (from, to, is_curved) in pieces {
            seen.stretches.push(Stretch {
                line: owner.name.clone(),
                from,
                to,
                is_curved,
            });
        }
    } else {
        seen.add(node, Frame::around(&points));
    }
}

type Place = (f64, f64);

/// A path as straight pieces; a curve becomes eight of them.
fn pieces(d: &str) -> Vec<(Place, Place, bool)> {
    let mut pieces = Vec::new();
    let (mut start, mut here) = ((0.0, 0.0), (0.0, 0.0));
    for command in d
        .split_inclusive(['M', 'L', 'C', 'Z'])
        .collect::<Vec<_>>()
        .windows(2)
        .map(|pair| {
            let letter = pair[0].chars().last().expect("no piece is empty");
            (letter, pair[1].trim_end_matches(['M', 'L', 'C', 'Z']))
        })
        .chain(d.ends_with('Z').then_some(('Z', "")))
    {
        let numbers: Vec<f64> = command
            .1
            .split(' ')
            .filter(|text| !text.is_empty())
            .map(number)
            .collect();
        match (command.0, &numbers[..]) {
            ('M', [x, y]) => {
                start = (*x, *y);
                here = start;
            }
            ('L', [x, y]) => {
                pieces.push((here, (*x, *y), false));
                here = (*x, *y);
            }
            ('C', [ax, ay, bx, by, x, y]) => {
                let from = here;
                for nth in 1..=8_u32 {
                    let t = f64::from(nth) / 8.0;
                    let at = |p: f64, a: f64, b: f64, q: f64| {
                        (1.0 - t).powi(3) * p
                            + 3.0 * (1.0 - t).powi(2) * t * a
                            + 3.0 * (1.0 - t) * t * t * b
                            + t.powi(3) * q
                    };
                    let to = (at(from.0, *ax, *bx, *x), at(from.1, *ay, *by, *y));
                    pieces.push((here, to, true));
                    here = to;
                }
            }
            ('Z', []) => pieces.push((here, start, false)),
            other => panic!("a path has no {other:?}: {d}"),
        }
    }
    pieces
}

/// What the reader sees of a text: its length as given, letters from their tops to their lowest strokes.
fn label(node: Node<'_, '_>) -> Label {
    let [x, y, size, length] =
        ["x", "y", "font-size", "textLength"].map(|name| number(attribute(node, name)));
    let is_turned = node.attribute("direction") == Some("rtl");
    let left = match (attribute(node, "text-anchor"), is_turned) {
        ("start", false) | ("end", true) => x,
        ("middle", _) => x - length / 2.0,
        _ => x - length,
    };
    let text = node
        .children()
        .filter(Node::is_text)
        .filter_map(|text| text.text())
        .collect();
    Label {
        owner: owner(node).unwrap_or(Owner {
            kind: String::new(),
            name: String::new(),
            part: None,
        }),
        text,
        size,
        frame: Frame {
            left,
            top: y - 0.78 * size,
            right: left + length,
            bottom: y + 0.24 * size,
        },
    }
}

fn owner(node: Node<'_, '_>) -> Option<Owner> {
    let groups = || {
        node.ancestors()
            .filter(|node| node.has_tag_name("g") || node.attribute("data-kind").is_some())
    };
    let own = groups().next()?;
    let part = groups().find(|group| group.attribute("data-kind") == Some("part"));
    Some(Owner {
        kind: own.attribute("data-kind")?.to_owned(),
        name: own.attribute("data-name").unwrap_or_default().to_owned(),
        part: part.map(|part| attribute(part, "data-name").to_owned()),
    })
}

fn attribute<'n>(node: Node<'n, '_>, name: &str) -> &'n str {
    node.attribute(name)
        .unwrap_or_else(|| panic!("`{}` has no `{name}`", node.tag_name().name()))
}

fn number(text: &str) -> f64 {
    text.parse()
        .unwrap_or_else(|_| panic!("`{text}` is no number"))
}
