//! The one table of cautions.

/// A kind of work that can hurt someone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// An opening that stands already, and was measured.
    Measured,
    /// Masonry turned on a form.
    Centering,
    /// A centering of more than common size.
    LargeCentering,
    /// Strips bent over a form and clamped.
    Bending,
    /// Wood bent out of the steam.
    Steam,
    /// A model of an arch and its centre.
    Model,
    /// Heads and casings glued up from sawn segments, and shaped by hand.
    Heads,
    /// A router cutting sheet stock.
    Router,
    /// A router held by hand, along a template or on a trammel.
    HandRouter,
    /// A laser cutting or marking a sheet.
    Laser,
    /// A pen drawing on a sheet.
    Pen,
    /// A drawing that someone else will cut, by saw or machine.
    Drawing,
    /// A pattern on paper, to saw by.
    Saws,
}

impl Caution {
    /// Its sentences, in plain words.
    pub const fn sentences(self) -> &'static [&'static str] {
        match self {
            Self::Measured => &[
                "Measured on site: an arch that has gone out of shape or cracked may be moving. Prop it, and ask someone who can judge it, before anything is taken out from under it.",
            ],
            Self::Centering => &[
                "Centering: this is geometry only. Strength, props, thrust and the time to strike belong to local code and a licensed engineer.",
                "Nobody stands under it while it is loaded, eased or struck. Brace it before loading; two people for the weight; never knock it out sideways.",
                "A cracked or distorted arch may be moving: prop it and ask before touching it.",
            ],
            Self::LargeCentering => &[
                "Large centering: its span is over 2 m, or its ring is heavier than the limit stated. Have an engineer design its strength, its props and its striking before anything is laid on it.",
            ],
            Self::Bending => &[
                "Bending: clamps and bent strips store force. Stand aside of the curve, bend once dry, and release the clamps evenly, a little each, from the ends.",
                "A strip that cracks throws splinters: eyes covered, faces out of its line. A form that is not held down turns over: fix it to a bench first.",
                "Glue: follow its maker's sheet for skin, vapour and dust; gloves, air, and no flame near a solvent.",
            ],
            Self::Steam => &[
                "Steam: it scalds. Never a sealed box; open it from behind its door, in long gloves. A strap, its stops and its lever store force and can let go: check them before every bend, and nobody in their line.",
            ],
            Self::Model => &[
                "Model: it shows shape and the order of the work, and nothing of strength. A model that stands is no proof that the arch or its centre will: that belongs to local code and a licensed engineer.",
            ],
            Self::Heads => &[
                "Saws and hand-held routers: isolate before changing a blade, a bit or a bush. Guards on, eyes and ears covered, dust drawn off (hardwood dust harms the lungs); short segments are sawn in a holder against a stop, never in the hand.",
                "Along a built-up edge the grain turns at every joint and short grain breaks out: saw near the line first, then light passes against the bit's rotation, no climb cut by hand, the work fixed to the bench.",
                "Glue: gloves and fresh air, as its maker says, and its maker says how long it stays in clamps. Clamps and wedges store force: ease them evenly and stand aside.",
                "A head that bears a load, or holds glass, is for local code and a licensed engineer to judge; how machines are used, for their makers.",
            ],
            Self::Router => &[
                "Router: isolate the machine before changing a bit or a bush. Check collet and stick-out, and never run a bit above its marked speed.",
                "Guards on, eyes and ears covered, dust drawn off (MDF and hardwood dust harm the lungs). Hold the work down; small work in a holder.",
                "Tabs and webs can let go and throw a part: stay clear while it runs.",
                "Run the program above the work first, hand on the stop. The proof speaks of shape only; the person at the machine decides.",
            ],
            Self::HandRouter => &[
                "Hand-held router: isolate it before changing a bit, a bush or a bearing. Check collet and stick-out, and never run a bit above its marked speed.",
                "Guards on, eyes and ears covered, dust drawn off (MDF and hardwood dust harm the lungs). Both hands on the router; let it stop before it is lifted off or laid down.",
                "Template, pivot and work are fixed, each by itself, before the router is switched on; small work in a holder.",
                "No climb cut: feed against the turning of the bit, anticlockwise round an outside, clockwise round an inside, in shallow passes.",
                "The last bridge of a disc or a ring breaks loose: tape it, or leave a web, and stay clear of what is cut free. Follow the router maker's rules and local code.",
            ],
            Self::Laser => &[
                "Laser: never unattended while it runs; an extinguisher at hand, the enclosure shut, the eyewear that its maker asks for, the fumes drawn off and out.",
                "No PVC and no plastic that you do not know: its fumes poison and corrode. Glue lines and knots burn otherwise than clear wood: try a scrap first.",
                "Make sure on the machine itself, with the beam at low power or off, that no travel is made with the beam lit. The proof speaks of shape only; the person at the machine decides.",
            ],
            Self::Pen => &[
                "Pen: keep hands, hair and sleeves off the carriage while it moves. Check a known length both ways before anything is cut to its lines.",
            ],
            Self::Drawing => &[
                "Drawing: where no width of a cut is stated with it, lines stand on the finished edge, and bit, beam or blade is to be allowed for.",
                "Whoever cuts it follows the machine maker's rules and local code; check a known length on it before cutting.",
            ],
            Self::Saws => &[
                "Saws: isolate before changing a blade. Guards on, eyes and ears covered, hands out of the blade's line; small work in a holder.",
                "Check the bars on the paper before cutting: 100 mm and 4 in, both ways, on every page. A printer left to scale makes every part wrong.",
            ],
        }
    }
}

/// The sentences of several cautions, each kind once, in the table's order.
pub fn cautions(kinds: &[Caution]) -> Vec<String> {
    let mut kinds = kinds.to_vec();
    kinds.sort_unstable();
    kinds.dedup();
    kinds
        .iter()
        .flat_map(|kind| kind.sentences())
        .map(|&sentence| sentence.to_owned())
        .collect()
}
