"""A strict reader of RS-274/NGC programs.

It takes the words that every simple controller knows, by the rules of the NIST report, and the habits that keep a cut
safe: absolute distances, level rapids only above the safe height, no cutting move without a turning spindle. It mends
nothing: each fault is kept with its line. Lengths are handed on in mm whatever the program's unit.
"""
import math
import re
from dataclasses import dataclass, field

from chains import turn

WORD = re.compile(r"([A-Za-z])\s*([+-]?(?:\d+\.?\d*|\.\d+))")
LONGEST_LINE = 256          # characters, NIST report
RADII_APART = 0.002         # mm by which an arc's two radii may differ, NIST report
GROUPS = {"G": {"motion": "0 1 2 3 80", "plane": "17", "distance": "90 91", "feed": "94", "unit": "20 21", "radius": "40",
                "length": "49", "zero": "54 55 56 57 58 59", "dwell": "4"},
          "M": {"stop": "0 1 2 30", "change": "6", "spindle": "3 4 5", "coolant": "7 8 9"}}
GROUP = {l + n: name for l, groups in GROUPS.items() for name, numbers in groups.items() for n in numbers.split()}
VALUES = set("NXYZIJKRFSTP")
KINDS = {"G0": "rapid", "G1": "line", "G2": "clockwise", "G3": "anticlockwise"}


class Fault(Exception):
    """A line that a strict controller would not run."""


@dataclass
class Move:
    line: int
    kind: str
    start: tuple
    end: tuple
    centre: tuple | None = None
    feed: float | None = None

    def points(self, chord_error=0.0005):
        if not self.centre:
            return [self.start, self.end]
        first, last = (math.atan2(p[1] - self.centre[1], p[0] - self.centre[0]) for p in (self.start, self.end))
        sweep = (last - first) % (2 * math.pi)
        if self.kind == "clockwise":
            sweep -= 2 * math.pi
        level = turn(self.centre, math.dist(self.centre, self.start[:2]), first, sweep, chord_error)
        fall, count = self.end[2] - self.start[2], len(level) - 1
        return [(x, y, self.start[2] + fall * i / count) for i, (x, y) in enumerate(level)]


@dataclass
class Program:
    moves: list = field(default_factory=list)
    comments: list = field(default_factory=list)
    faults: list = field(default_factory=list)
    unit: str | None = None


def read(path, safe=0.0, tool="router"):
    """Reads a file. safe: the least height of a level rapid, mm. tool: router, laser or pen."""
    with open(path, "rb") as file:
        return parse(file.read(), safe, tool)


def parse(raw, safe=0.0, tool="router"):
    return Reader(safe, tool).run(raw)


class Reader:
    def __init__(self, safe, tool):
        self.safe, self.tool, self.out = safe, tool, Program()
        self.scale = self.motion = self.feed = None
        self.absolute, self.level_plane, self.ended, self.turning = True, False, False, False
        self.speed, self.at = 0.0, [None, None, 0.0 if tool == "laser" else None]

    def run(self, raw):
        if any(b not in (9, 10, 13) and not 32 <= b <= 126 for b in raw):
            self.fault(0, "a byte that is not printable ASCII")
        lines = raw.decode("latin-1").splitlines()
        for number, text in enumerate(lines, 1):
            try:
                self.line(number, text)
            except Fault as fault:
                self.fault(number, str(fault))
        if not self.ended:
            self.fault(len(lines), "the program has no end (M2 or M30)")
        if self.scale is None:
            self.fault(0, "the program names no unit")
        if sum(text.strip() == "%" for text in lines) not in (0, 2):
            self.fault(0, "per cent signs come in a pair or not at all")
        if not self.out.moves:
            self.fault(0, "nothing moves")
        return self.out

    def fault(self, line, what):
        self.out.faults.append(f"line {line}: {what}")

    def line(self, number, text):
        if len(text) > LONGEST_LINE:
            raise Fault(f"longer than {LONGEST_LINE} characters")
        if text.strip() == "%":
            return
        if self.ended and text.strip():
            raise Fault("something follows the end")
        codes, values = self.words(self.without_comments(text))
        self.modes(codes, values)
        self.machine(codes, values)
        axes = {a: values[a] for a in "XYZ" if a in values}
        if "G4" in codes:
            if axes:
                raise Fault("a dwell does not move")
        elif axes:
            self.move(number, axes, values)
        elif set(codes) & {"G1", "G2", "G3"}:
            raise Fault("a cutting motion that goes nowhere")

    def without_comments(self, text):
        body, inside = "", None
        for letter in text:
            if letter == "(":
                if inside is not None:
                    raise Fault("a bracket within a comment")
                inside = ""
            elif letter == ")":
                if inside is None:
                    raise Fault("a closing bracket alone")
                self.out.comments.append(inside)
                inside = None
            elif inside is not None:
                inside += letter
            else:
                body += letter
        if inside is not None:
            raise Fault("a comment does not close")
        return body.strip()

    def words(self, body):
        if WORD.sub("", body).strip():
            raise Fault(f"cannot be read as words: {body!r}")
        codes, values, taken = [], {}, set()
        for letter, digits in WORD.findall(body):
            letter = letter.upper()
            if letter in "GM":
                code = f"{letter}{float(digits):g}"
                if code not in GROUP:
                    raise Fault(f"{code} is not for a simple controller")
                if GROUP[code] in taken:
                    raise Fault(f"two words of the group {GROUP[code]}")
                taken.add(GROUP[code])
                codes.append(code)
            elif letter not in VALUES:
                raise Fault(f"the letter {letter} has no meaning here")
            elif letter in values:
                raise Fault(f"{letter} stands twice")
            else:
                values[letter] = float(digits)
        return codes, values

    def modes(self, codes, values):
        for code in codes:
            if code in ("G20", "G21"):
                if self.out.unit and self.out.moves:
                    raise Fault("the unit changes after a move")
                self.out.unit, self.scale = ("in", 25.4) if code == "G20" else ("mm", 1.0)
            elif code in ("G90", "G91"):
                self.absolute = code == "G90"
            elif code == "G17":
                self.level_plane = True
            elif GROUP[code] == "motion":
                self.motion = KINDS.get(code)
        if "F" in values:
            if values["F"] <= 0 or self.scale is None:
                raise Fault("a feed must be above nought and follow the unit")
            self.feed = values["F"] * self.scale

    def machine(self, codes, values):
        self.speed = values.get("S", self.speed)
        if self.speed < 0:
            raise Fault("a speed below nought")
        if "M6" in codes and self.turning:
            raise Fault("the bit is changed while the spindle turns")
        if "M3" in codes or "M4" in codes:
            self.turning = True
            if self.tool == "router" and self.speed == 0:
                raise Fault("the spindle starts at no speed")
        if "M5" in codes:
            self.turning = False
        if "M2" in codes or "M30" in codes:
            self.ended, self.turning = True, False

    def move(self, number, axes, values):
        if self.motion is None or self.scale is None or not self.absolute:
            raise Fault("a move needs a motion, a unit and absolute distances")
        to = [axes[a] * self.scale if a in axes else old for a, old in zip("XYZ", self.at)]
        start = tuple(new if old is None else old for old, new in zip(self.at, to))
        centre = None
        if self.motion == "rapid":
            self.rapid(start, to)
        else:
            self.cutting(to)
        if self.motion in ("clockwise", "anticlockwise"):
            centre = self.arc(to, values)
        self.at = to
        self.out.moves.append(Move(number, self.motion, start, tuple(to), centre, self.feed))

    def rapid(self, start, to):
        if self.tool == "laser":
            if self.turning and self.speed > 0:
                raise Fault("the beam is on in a rapid")
        elif self.at[:2] != to[:2]:
            if to[2] is None:
                raise Fault("a level rapid at an unknown height")
            lowest = min(start[2], to[2])
            if lowest < self.safe - 1e-6:
                raise Fault(f"a level rapid at Z {lowest:.3f}, below {self.safe:g}")

    def cutting(self, to):
        if self.feed is None:
            raise Fault("a cut without a feed")
        if self.tool == "router" and not (self.turning and self.speed > 0):
            raise Fault("a cut with the spindle still")
        if None in to or None in self.at:
            raise Fault("a cut from or to an unknown place")

    def arc(self, to, values):
        if not self.level_plane:
            raise Fault("an arc before its plane (G17)")
        if "R" in values or not {"I", "J"} & set(values):
            raise Fault("an arc must give its centre by I and J")
        centre = tuple(self.at[i] + values.get(w, 0.0) * self.scale for i, w in enumerate("IJ"))
        first, last = math.dist(self.at[:2], centre), math.dist(to[:2], centre)
        if abs(first - last) > RADII_APART:
            raise Fault(f"an arc's radii are {abs(first - last):.5f} mm apart")
        if first < 1e-9 or math.dist(self.at[:2], to[:2]) < 1e-6:
            raise Fault("an arc of no radius, or a whole circle in one line")
        return centre
