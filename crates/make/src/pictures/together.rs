//! How a form goes together, drawn.

use super::{Picture, dimensions, extrados, file_name};
use crate::Plan;
use crate::arches::NamedArch;
use crate::figures::form_heading;
use crate::kit_picture;
use cintre_forms::bending::Bending;
use cintre_forms::centering::{Assembly, Half, Layer, Member};
use cintre_forms::{Assembled, Form};
use cintre_picture::{AssemblyDrawing, BendingDrawing, CentreDrawing, Lengths};

impl Plan {
    /// How a form goes together; none for one whose parts show it.
    pub(super) fn together(&self, number: usize, form: &Form, lengths: Lengths<'_>) -> Option<Picture> {
        let assembly = form.assembly.as_ref()?;
        let named = self.arches.iter().find(|arch| arch.name == form.arch)?;
        let svg = match assembly {
            Assembled::Centre(centre) => self.centre(centre, form, named, lengths),
            Assembled::Bending(bending) => self.bending(bending, form, named, lengths),
            Assembled::Model(standing) => kit_picture::kit(&self.title, form, standing, lengths),
        };
        let name = format!("form-{}-{}-assembly", number + 1, file_name(&form.arch));
        Some(Picture { name, svg })
    }

    fn bending(&self, bending: &Bending, form: &Form, named: &NamedArch, lengths: Lengths<'_>) -> String {
        cintre_picture::bending(&BendingDrawing {
            title: &cintre_lettering::spell(&self.title),
            name: &cintre_lettering::spell(&form_heading(form)),
            pieces: bending.pieces.clone(),
            over: bending.over.clone(),
            strips: bending.strips.clone(),
            caul: bending.caul.clone(),
            finished: bending.finished.clone(),
            open: bending.open.clone(),
            clamps: bending.clamps.clone(),
            dimensions: dimensions(named, lengths),
            notes: &[],
            lengths,
        })
    }

    fn centre(&self, assembly: &Assembly, form: &Form, named: &NamedArch, lengths: Lengths<'_>) -> String {
        let drawing = AssemblyDrawing {
            title: &cintre_lettering::spell(&self.title),
            name: &cintre_lettering::spell(&form_heading(form)),
            soffit: named.fit.path.clone(),
            extrados: extrados(named),
            joints: named
                .voussoirs
                .iter()
                .flat_map(|v| v.joints.iter().cloned())
                .collect(),
            halves: assembly.halves.iter().map(half).collect(),
            wall: assembly.wall,
            inside_faces: assembly.inside_faces,
            dimensions: dimensions(named, lengths),
            notes: &[],
            lengths,
        };
        cintre_picture::assembly(&drawing)
    }
}

fn half(half: &Half) -> CentreDrawing {
    let layer = |wanted: &[Layer]| {
        let members = half
            .members
            .iter()
            .filter(|member| wanted.contains(&member.layer));
        members.map(Member::standing).collect::<Vec<_>>()
    };
    CentreDrawing {
        layers: [
            layer(&[Layer::A]),
            layer(&[Layer::B]),
            layer(&[Layer::OnInner, Layer::OnBoth]),
        ],
        boards: half.boards.clone(),
        back: half.back.clone(),
        lagging: half.lagging,
        ribs: half.ribs.clone(),
        level: half.bottom,
        wedges: half.wedges,
    }
}
