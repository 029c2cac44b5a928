"""A router's program, read as strictly as the most modest controller would.

What is taken is the part of RS-274/NGC that every controller knows: straight moves and arcs by their centre in the plane of
X and Y, absolute distances, one unit from start to end. Nothing is repaired; what is wrong is listed with its line.
"""

import math
import re
from dataclasses import dataclass, field, replace

MM_PER_INCH = 25.4
# RS-274/NGC, arcs by their centre: the radii at both ends may differ by this much, mm.
RADIUS_ERROR = 0.002
# RS-274/NGC: the longest line that a reader must take, characters.
LONGEST_LINE = 256
# Two places nearer than this are one, mm: below half a step of the finest output.
SAME_PLACE = 1e-6
# Half a step of the coarsest output that is taken (inches, four decimals), rounded up, mm.
HALF_STEP = 0.002

WORD = re.compile(r"\s*([A-Z])\s*([+-]?(?:\d+\.?\d*|\.\d+))\s*", re.IGNORECASE)
NUMBERED = frozenset("FIJNPSTXYZ")

# Words of one group exclude each other on a line. What is in no group is refused: it would need a controller that has it.
GROUPS = {
    code: group
    for group, codes in {
        "motion": "G0 G1 G2 G3 G80",
        "plane": "G17",
        "unit": "G20 G21",
        "bit radius": "G40",
        "bit length": "G49",
        "zero": "G54 G55 G56 G57 G58 G59",
        "distance": "G90 G91",
        "feed mode": "G94",
        "dwell": "G4",
        "stop": "M0 M1 M2 M30",
        "bit change": "M6",
        "spindle": "M3 M4 M5",
        "coolant": "M7 M8 M9",
    }.items()
    for code in codes.split()
}


class Fault(Exception):
    """Why a line cannot be run."""


@dataclass(frozen=True)
class Move:
    """One move in mm; `kind` is rapid, line, cw or ccw. A coordinate that nothing has said yet is None.

    `bit` counts the changes of bit since the first cut, by M6 or at a pause.
    """

    line: int
    kind: str
    start: tuple
    end: tuple
    centre: tuple | None = None
    feed: float | None = None
    bit: int = 0

    @property
    def cuts(self):
        return self.kind != "rapid"

    def turn(self):
        """The angle an arc runs through, radians, counter-clockwise positive."""
        angle = [math.atan2(p[1] - self.centre[1], p[0] - self.centre[0]) for p in (self.start, self.end)]
        ahead = (angle[1] - angle[0]) % math.tau
        return ahead if self.kind == "ccw" else ahead - math.tau

    def points(self, stand_off):
        """Its way as points; chords stand off an arc by no more than `stand_off`, mm."""
        if self.centre is None:
            return [self.start, self.end]
        turn = self.turn()
        radius = math.dist(self.start[:2], self.centre)
        first = math.atan2(self.start[1] - self.centre[1], self.start[0] - self.centre[0])
        widest = 2 * math.acos(1 - min(stand_off / radius, 0.5))
        count = max(1, math.ceil(abs(turn) / widest))
        inner = []
        for step in range(1, count):
            share = step / count
            angle = first + turn * share
            height = self.start[2] + (self.end[2] - self.start[2]) * share
            inner.append((self.centre[0] + radius * math.cos(angle), self.centre[1] + radius * math.sin(angle), height))
        return [self.start, *inner, self.end]


@dataclass
class Program:
    """What was read, and what is wrong with it: `faults` holds (line, sentence)."""

    moves: list = field(default_factory=list)
    comments: list = field(default_factory=list)
    faults: list = field(default_factory=list)
    unit: str | None = None


def read(data, safe):
    """Reads a program's bytes. No rapid may cross below Z `safe`, mm."""
    controller = _Controller(safe)
    program = controller.program
    if any(byte not in b"\t\n\r" and not 32 <= byte <= 126 for byte in data):
        program.faults.append((0, "a byte that is not printable ASCII"))
    number = 0
    for number, text in enumerate(data.decode("latin-1").splitlines(), 1):
        try:
            controller.take(number, text)
        except Fault as fault:
            program.faults.append((number, str(fault)))
    for wrong, sentence in (
        (not controller.ended, "no M2 or M30"),
        (program.unit is None, "no unit"),
        (controller.marks not in (0, 2), "a % without its fellow"),
        (not any(move.cuts for move in program.moves), "nothing is cut"),
    ):
        if wrong:
            program.faults.append((number, sentence))
    return program


def _without_comments(text):
    """The line without its comments, and the comments."""
    parts = re.split(r"\(([^()]*)\)", text)
    code, comments = " ".join(parts[::2]), parts[1::2]
    if "(" in code or ")" in code:
        raise Fault("a comment that does not close, or one inside another")
    return code.strip(), comments


def _words(code):
    """The G and M words in order, and the number of every other letter."""
    codes, numbers, at = [], {}, 0
    while at < len(code):
        word = WORD.match(code, at)
        if not word:
            raise Fault(f"this is no word: {code[at:]!r}")
        letter, value = word[1].upper(), float(word[2])
        at = word.end()
        if letter in "GM":
            codes.append(f"{letter}{value:g}")
        elif letter not in NUMBERED:
            raise Fault(f"{letter} is not a word that every controller takes")
        elif letter in numbers:
            raise Fault(f"{letter} stands twice")
        else:
            numbers[letter] = value
    return codes, numbers


def _by_group(codes):
    found = {}
    for code in codes:
        group = GROUPS.get(code)
        if group is None:
            raise Fault(f"{code} is not a word that every controller takes")
        if group in found:
            raise Fault(f"{found[group]} and {code} exclude each other")
        found[group] = code
    return found


class _Controller:
    """What a controller remembers from line to line."""

    def __init__(self, safe):
        self.program = Program()
        self.safe = safe
        self.scale = None
        self.motion = None
        self.flat = False
        self.absolute = False
        self.feed = None
        self.speed = 0.0
        self.turning = False
        self.ended = False
        self.marks = 0
        self.at = (None, None, None)
        self.bit = 0
        self.cut_since_change = False

    def take(self, number, text):
        if len(text) > LONGEST_LINE:
            raise Fault(f"{len(text)} characters, over {LONGEST_LINE}")
        if text.strip() == "%":
            self.marks += 1
            return
        if self.ended and text.strip():
            raise Fault("something after the end")
        code, comments = _without_comments(text)
        self.program.comments += comments
        codes, numbers = _words(code)
        groups = _by_group(codes)
        self._modes(groups)
        self._spindle(groups, numbers)
        if "bit change" in groups or groups.get("stop") == "M0":
            self._changed()
        self._feed(numbers)
        axes = [axis for axis in "XYZ" if axis in numbers]
        if "dwell" in groups:
            if axes or numbers.get("P", -1) < 0:
                raise Fault("a dwell takes P and no place")
        elif axes:
            self._move(number, numbers)
        elif groups.get("motion") in ("G1", "G2", "G3") or {"I", "J"} & numbers.keys():
            raise Fault("a move to nowhere")
        if groups.get("stop") in ("M2", "M30"):
            self.ended, self.turning = True, False

    def _modes(self, groups):
        if "unit" in groups:
            unit = "in" if groups["unit"] == "G20" else "mm"
            if self.program.unit not in (None, unit):
                raise Fault("the unit changes")
            self.program.unit = unit
            self.scale = MM_PER_INCH if unit == "in" else 1.0
        if "distance" in groups:
            self.absolute = groups["distance"] == "G90"
        self.flat = self.flat or "plane" in groups
        self.motion = groups.get("motion", self.motion)

    def _spindle(self, groups, numbers):
        self.speed = numbers.get("S", self.speed)
        if self.speed < 0:
            raise Fault("a speed below nothing")
        if "spindle" in groups:
            self.turning = groups["spindle"] != "M5"
            if self.turning and self.speed == 0:
                raise Fault("the spindle starts without a speed")

    def _changed(self):
        if self.turning:
            raise Fault("a bit is changed while the spindle turns")
        self.bit += self.cut_since_change
        self.cut_since_change = False

    def _feed(self, numbers):
        if "F" not in numbers:
            return
        if self.scale is None:
            raise Fault("a feed before its unit")
        if numbers["F"] <= 0:
            raise Fault("a feed of nothing or less")
        self.feed = numbers["F"] * self.scale

    def _move(self, number, numbers):
        if self.motion in (None, "G80"):
            raise Fault("a place without a motion")
        if self.scale is None:
            raise Fault("a place before its unit")
        if not self.absolute:
            raise Fault("a distance that is not absolute: an error would be carried along")
        end = tuple(
            numbers[axis] * self.scale if axis in numbers else old for axis, old in zip("XYZ", self.at)
        )
        start = tuple(new if old is None else old for old, new in zip(self.at, end))
        if self.motion == "G0":
            self._clear(end)
            self._done(Move(number, "rapid", start, end))
            return
        if None in self.at:
            raise Fault("a cut from a place that is not known")
        if self.feed is None:
            raise Fault("a cut without a feed")
        if not self.turning:
            raise Fault("a cut while the spindle stands")
        if self.motion == "G1":
            if {"I", "J"} & numbers.keys():
                raise Fault("a straight move with a centre")
            self._done(Move(number, "line", start, end, None, self.feed))
        else:
            self._done(self._arc(number, numbers, end))

    def _clear(self, end):
        if end[:2] == self.at[:2]:
            return
        if self.at[2] is None:
            raise Fault("a rapid across at a height that is not known")
        lowest = min(self.at[2], end[2])
        if lowest < self.safe - SAME_PLACE:
            raise Fault(f"a rapid across at Z {lowest:.3f}, below {self.safe:.3f}")

    def _arc(self, number, numbers, end):
        if not self.flat:
            raise Fault("an arc before its plane")
        if not {"I", "J"} & numbers.keys():
            raise Fault("an arc without a centre")
        centre = tuple(at + numbers.get(word, 0.0) * self.scale for at, word in zip(self.at, "IJ"))
        radii = [math.dist(place[:2], centre) for place in (self.at, end)]
        if min(radii) < SAME_PLACE:
            raise Fault("an arc of no radius")
        if abs(radii[0] - radii[1]) > RADIUS_ERROR:
            raise Fault(f"an arc whose radii differ by {abs(radii[0] - radii[1]):.5f} mm")
        if math.dist(self.at[:2], end[:2]) < SAME_PLACE:
            raise Fault("a whole circle in one block, which some controllers skip")
        return Move(number, "cw" if self.motion == "G2" else "ccw", self.at, end, centre, self.feed)

    def _done(self, move):
        self.at = move.end
        self.program.moves.append(replace(move, bit=self.bit))
        self.cut_since_change = self.cut_since_change or move.cuts
