//! One rib built up: as a plate, or as a frame in pieces, with its bolts and holes.

use super::bolting::Bolting;
use super::bolts::{self, edge_distance};
use super::frame::Frame;
use super::joints::{Divided, Division};
use super::member::{Layer, Member};
use super::notch::Notches;
use super::opening;
use super::rib::Rib;
use super::spacing::Spacing;
use super::stiffening::{Plates, truss};
use super::striking::Striking;
use super::{BOLT, Build, Input, TIE};
use crate::Error;
use cintre_work::{Bore, Depth};

/// A band is as deep as a tenth of the span, but no less and no more than this, mm: more is heavy, less splits at its bolts.
const BAND: (f64, f64) = (120.0, 300.0);

/// A band that its curve makes shallower than it should be is this much shallower still, so that nothing folds to a point.
const EASED: f64 = 0.95;

/// The usual least lap, mm, and in thicknesses of the stock.
const LAP: f64 = 150.0;
const LAP_THICKNESSES: f64 = 8.0;

/// Ribs over wider openings than this have holes to be lifted by, mm.
const LIFTED: f64 = 1500.0;

/// Posts on two ribs' inner faces leave this much between them, mm.
const BETWEEN_POSTS: f64 = 10.0;

/// A rib built up.
pub(crate) struct Built {
    pub(crate) build: Build,
    /// How many thicknesses of the stock it takes across the wall.
    pub(crate) layers: u32,
    pub(crate) rib: Rib,
    /// The depth of its band; none where it has none.
    pub(crate) depth: Option<f64>,
    /// By how much joints lap.
    pub(crate) lap: Option<f64>,
    pub(crate) members: Vec<Member>,
    pub(crate) bolts: usize,
    pub(crate) notes: Vec<String>,
}

/// What a rib is built from.
pub(crate) struct Builder<'a> {
    pub(crate) input: &'a Input,
    pub(crate) striking: &'a Striking,
    /// How far the level bottom lies over the ends of half a closed soffit; none for an open one.
    pub(crate) raised: Option<f64>,
}

impl Builder<'_> {
    pub(crate) fn built(&self) -> Result<Built, Error> {
        let input = self.input;
        let plate = self.rib(input.tie.unwrap_or(TIE))?;
        let build = input.build.unwrap_or_else(|| self.by_size(&plate));
        match build {
            Build::TurningPiece | Build::Single if !input.split => self.plate(plate, build),
            _ => self.framed(build, plate),
        }
    }

    fn rib(&self, tie: f64) -> Result<Rib, Error> {
        match self.raised {
            Some(raised) => Rib::half(self.input, tie, raised),
            None => Rib::new(self.input, tie),
        }
    }

    /// The build-up that the sizes ask for.
    fn by_size(&self, plate: &Rib) -> Build {
        let input = self.input;
        let (span, rise) = (input.soffit.bounds().width(), input.soffit.bounds().height());
        let small = rise <= 75.0 && input.wall <= 110.0 || span <= 1000.0 && rise <= 125.0;
        let bounds = plate.outline.bounds();
        let whole = input
            .sheet
            .is_none_or(|sheet| sheet.takes(bounds.width(), bounds.height()));
        if input.lagging.thickness <= 0.0 && small && whole && self.raised.is_none() && !input.split {
            Build::TurningPiece
        } else if whole {
            Build::Single
        } else if Spacing::new(input, Build::TwoLayers, 2).is_ok() {
            Build::TwoLayers
        } else {
            Build::Gusseted
        }
    }

    fn plate(&self, rib: Rib, build: Build) -> Result<Built, Error> {
        let input = self.input;
        let openings = input
            .rib_depth
            .map_or_else(|| Ok(Vec::new()), |depth| opening::openings(&rib, input, depth))?;
        let name = if build == Build::Single {
            "rib"
        } else {
            "turning piece"
        };
        let mut member = Member::new(name.to_owned(), Layer::A, rib.outline.clone(), 0.0);
        member.openings = openings;
        let mut notes = Vec::new();
        let notched = self.notch(std::slice::from_mut(&mut member), &rib, &mut notes)?;
        let holes = input.bolt.map_or_else(
            || Ok(Vec::new()),
            |bolt| bolts::bolts(&rib, input, bolt, &member, &notched),
        )?;
        member.bores = holes
            .iter()
            .map(|&centre| Bore {
                centre,
                diameter: input.bolt.unwrap_or(BOLT),
                depth: Depth::Through,
            })
            .collect();
        if self.lifted() && !bolts::lifting_holes(&rib, &mut member, self.bolt()) {
            notes.push(NO_LIFTING.to_owned());
        }
        Ok(Built {
            build,
            layers: 1,
            depth: input.rib_depth,
            lap: None,
            bolts: holes.len(),
            members: vec![member],
            rib,
            notes,
        })
    }

    fn bolt(&self) -> f64 {
        self.input.bolt.unwrap_or(BOLT)
    }

    fn lifted(&self) -> bool {
        let wide = self.input.soffit.bounds().width() > LIFTED;
        self.input.lifting_holes.unwrap_or(wide)
    }

    fn notch(&self, members: &mut [Member], rib: &Rib, notes: &mut Vec<String>) -> Result<Vec<f64>, Error> {
        let Some((width, depth)) = self.input.notch else {
            return Ok(Vec::new());
        };
        let bounds = rib.outline.bounds();
        let sides = if self.raised.is_some() {
            (rib.back.start().x, rib.back.end().x)
        } else {
            (bounds.x0, bounds.x1)
        };
        let places = Notches {
            width,
            depth,
            bottom: rib.bottom,
            tie: rib.tie_top - rib.bottom,
            sides,
            bolt: self.bolt(),
        }
        .cut(members)?;
        notes.push(format!(
            "notches {width} × {depth} mm in the ribs' level bottom at x = {:.1} and {:.1} mm from the centre line, for timbers under all ribs",
            places[0], places[1]
        ));
        Ok(places)
    }

    /// The first frame that can be had: an open one, of the depth asked for or the usual, else a shallower, else a plate.
    fn framed(&self, build: Build, plate: Rib) -> Result<Built, Error> {
        let edge = edge_distance(self.bolt());
        let span = self.input.soffit.bounds().width();
        let usual = (span / 10.0).clamp(BAND.0, BAND.1);
        let depth = self.input.rib_depth.unwrap_or(usual);
        crate::error::at_least("rib-depth", depth, 2.0 * edge)?;
        let rib = self.rib(self.input.tie.unwrap_or_else(|| depth.max(TIE)))?;
        if self.input.split && build == Build::Single {
            return self.in_pieces(build, Frame::solid(&plate), plate);
        }
        let asked = Frame::open(&rib, depth);
        if let Some(given) = self.input.rib_depth
            && asked.is_none()
        {
            return Err(Error::Opening {
                given,
                corner: edge,
                limit: Frame::deepest(&rib, 2.0 * edge, given),
            });
        }
        let shallower = || {
            let deepest = Frame::deepest(&rib, 2.0 * edge, depth)? * EASED;
            Frame::open(&rib, deepest.max(2.0 * edge))
        };
        let open = asked.or_else(shallower);
        let opened = open.map(|frame| self.in_pieces(build, frame, rib));
        match opened {
            Some(Ok(built)) => Ok(built),
            // Where a lap or a depth was asked for, a plate would be no answer.
            Some(Err(error)) if self.input.rib_depth.is_some() => Err(error),
            Some(Err(error)) => self.in_pieces(build, Frame::solid(&plate), plate).or(Err(error)),
            None => self.in_pieces(build, Frame::solid(&plate), plate),
        }
    }

    fn in_pieces(&self, build: Build, frame: Frame, rib: Rib) -> Result<Built, Error> {
        let input = self.input;
        let edge = edge_distance(self.bolt());
        let lap = input
            .lap
            .unwrap_or_else(|| LAP.max(LAP_THICKNESSES * input.thickness))
            .max(4.0 * edge);
        let key = self.striking.key.map(|key| (rib.centre(), key / 2.0));
        let division = Division {
            sheet: input.sheet,
            lap,
            layers: if build == Build::TwoLayers { 2 } else { 1 },
            key,
        };
        let divided = division.divide(&frame)?;
        let plates = Plates {
            frame: &frame,
            divided: &divided,
            key,
            every_joint: build != Build::TwoLayers,
        }
        .members()?;
        let layers = division.layers + if plates.is_empty() { 0 } else { 2 };
        let mut notes = Vec::new();
        let posts = self.posts(&frame, &divided, layers, &mut notes);
        if !posts.is_empty() && !plates.is_empty() {
            notes.push(
                "king posts and struts lie over the plates: where none is under them, pack them out by its thickness".to_owned(),
            );
        }
        self.put_together(build, layers, frame, rib, divided, plates, posts, notes)
    }

    /// The king post and struts, where there is room for them between the ribs and nothing comes apart in the middle.
    fn posts(
        &self,
        frame: &Frame,
        divided: &Divided,
        layers: u32,
        notes: &mut Vec<String>,
    ) -> Vec<super::stiffening::Bolted> {
        if self.striking.key.is_some() {
            return Vec::new();
        }
        let posts = truss(frame, divided, edge_distance(self.bolt()));
        let clear = Spacing::new(self.input, Build::TwoLayers, layers).map_or(0.0, |spacing| spacing.clear);
        if !posts.is_empty() && clear < 2.0 * self.input.thickness + BETWEEN_POSTS {
            notes.push(
                "there is no room between the ribs for king posts and struts on their inner faces".to_owned(),
            );
            return Vec::new();
        }
        posts
    }

    #[expect(
        clippy::too_many_arguments,
        reason = "everything that one rib is made of, once"
    )]
    fn put_together(
        &self,
        build: Build,
        layers: u32,
        frame: Frame,
        rib: Rib,
        divided: Divided,
        plates: Vec<Member>,
        posts: Vec<super::stiffening::Bolted>,
        mut notes: Vec<String>,
    ) -> Result<Built, Error> {
        let mut members = divided.members.clone();
        members.extend(plates);
        let mut wanted = Vec::new();
        for (post, bolts) in posts {
            members.push(post);
            wanted.extend(bolts);
        }
        self.notch(&mut members, &rib, &mut notes)?;
        let mut bolting = Bolting {
            frame: &frame,
            divided: &divided,
            members: &mut members,
            bolt: self.bolt(),
        };
        let bolts = bolting.bore(wanted);
        if self.lifted() && !bolting.lifting_holes(&bolts) {
            notes.push(NO_LIFTING.to_owned());
        }
        if build == Build::TwoLayers {
            notes.push(
                "lay layer B down with its marks up and layer A on it, every joint of one covered by the other, then bolt; layer \
                 A is the near face, and its left is the arch's left"
                    .to_owned(),
            );
        }
        Ok(Built {
            build,
            layers,
            depth: frame.depth,
            lap: divided.lap,
            bolts: bolts.len(),
            members,
            rib,
            notes,
        })
    }
}

const NO_LIFTING: &str = "lifting holes find no room clear of edges and bolts: sling it round its back";
