"""Lines that a beam or a pen runs along, read as strictly as its controller would, and held against the design.

A program lights its beam, or lowers its pen, by the words that the design names. HP-GL is read in its four plainest
commands. A stroke is a list of places in the sheet's frame, mm.
"""

import math
import re

from shapely.geometry import LineString, Point, Polygon
from shapely.ops import linemerge

import drawings
import programs

# How far a line may stay from where the design has it, mm: chords, half a plotter's step and a little rounding.
OFF = 0.03
# Chords that stand for an arc stand off it by this, mm.
FACET = 0.002
# Two places nearer than this are one, mm.
JOINED = 0.02
# Most coordinate pairs that a small plotter takes in one command.
PAIRS = 80

COMMAND = re.compile(r"(IN|SP\d?|PU|PD)([-\d,]*);")


class _Beam(programs._Controller):
    """A controller whose beam is lit, or pen down, between two of its own lines."""

    def __init__(self, beam):
        super().__init__(0.0)
        self.beam = beam
        self.on, self.off = self._switches(beam)
        self.down = None
        self.lit = False
        self.strokes = []
        if self.on is None:
            self.down = beam["lift"]["height"][1]
        else:
            self.at = (None, None, 0.0)

    @staticmethod
    def _switches(beam):
        if beam.get("light"):
            return beam["light"]["on"], beam["light"]["off"]
        lift = beam.get("lift") or {}
        return tuple(reversed(lift["words"])) if "words" in lift else (None, None)

    def take(self, number, text):
        if text in self.beam["own_lines"]:
            return
        if self.on is not None and self._switched(text):
            return
        super().take(number, text)

    def _switched(self, text):
        for word, lit in ((self.off, False), (self.on, True)):
            if text == word or re.fullmatch(re.escape(word) + r" S\d+(\.\d+)?", text):
                power = re.search(r"S(\d+(?:\.\d+)?)$", text)
                self.speed = float(power[1]) if power else self.speed
                self.lit = self.turning = lit
                if lit:
                    self.strokes.append((self.speed, []))
                return True
        return False

    def _clear(self, end):
        if self.lit and end[:2] != self.at[:2]:
            raise programs.Fault("a rapid with the beam lit or the pen down")

    def _move(self, number, numbers):
        if self.on is None:
            self.turning = True
        elif "Z" in numbers:
            raise programs.Fault("a height on a machine that has none")
        super()._move(number, numbers)

    def _done(self, move):
        super()._done(move)
        if self.on is None:
            was, self.lit = self.lit, move.end[2] is not None and move.end[2] <= self.down + programs.SAME_PLACE
            if self.lit and not was:
                self.strokes.append((0.0, []))
        if self.lit and move.cuts and move.start[:2] != move.end[:2]:
            points = [place[:2] for place in move.points(FACET)]
            self.strokes[-1][1].extend(points if not self.strokes[-1][1] else points[1:])


def program(data, entry, beam):
    """The strokes of a program, each with its power, and its faults."""
    controller = _Beam(beam)
    faults = []
    number = 0
    for number, text in enumerate(data.decode("latin-1").splitlines(), 1):
        try:
            controller.take(number, text)
        except programs.Fault as fault:
            faults.append(f"line {number}: {fault}")
    if not controller.ended:
        faults.append("no M2 or M30")
    if controller.lit:
        faults.append("the beam is lit, or the pen down, at the end")
    if controller.program.unit != entry["units"]:
        faults.append(f"its unit is {controller.program.unit}, not {entry['units']}")
    light = beam.get("light")
    if light:
        powers = {power for power, _ in controller.strokes}
        faults += [f"a power of {power} that is not the design's" for power in powers - {light["cut"], light["mark"]}]
    dx, dy = entry["origin"]
    return [(power, [(x + dx, y + dy) for x, y in places]) for power, places in controller.strokes], faults


def hpgl(data, entry, beam):
    """The strokes of an HP-GL file and its faults."""
    text = data.decode("ascii", "replace").replace("\n", "")
    if COMMAND.sub("", text):
        return [], [f"this is no command that every plotter takes: {COMMAND.sub('', text)[:20]!r}"]
    faults, strokes, down = [], [], False
    commands = COMMAND.findall(text)
    names = [name for name, _ in commands]
    if names[:2] != ["IN", "SP1"] or names[-2:] != ["PU", "SP0"]:
        faults.append("it does not begin with IN;SP1; and end with PU;SP0;")
    for name, figures in commands:
        numbers = [int(figure) / beam["steps_per_mm"] for figure in figures.split(",") if figure]
        places = list(zip(numbers[::2], numbers[1::2]))
        if len(numbers) % 2 or len(places) > PAIRS:
            faults.append(f"{name} with {len(numbers)} numbers")
        if name == "PU" and places:
            strokes.append((0.0, places))
        elif name == "PD" and strokes:
            strokes[-1][1].extend(places)
    dx, dy = entry["origin"]
    return [(power, [(x + dx, y + dy) for x, y in places]) for power, places in strokes], faults


def line_faults(strokes, plan, kerf, light=None):
    """Every edge of every part, moved into the waste by half of the kerf, is one closed stroke, or one from each of its tabs to
    the next; every mark is one; there is no other; and what marks comes before what cuts."""
    wanted = [("cut", line) for part in plan["parts"] for line in _cuts(part, plan.get("tabs", []), kerf)]
    wanted += [("mark", _line(mark)) for part in plan["parts"] for mark in part["marks"]]
    left = [(power, LineString(places)) for power, places in strokes if len(places) > 1]
    faults = []
    if light and light["cut"] != light["mark"]:
        kinds = [power for power, _ in left]
        if light["mark"] in kinds[kinds.index(light["cut"]) :] if light["cut"] in kinds else False:
            faults.append("a mark after a cut")
    for kind, line in wanted:
        about = line.buffer(OFF)
        best = next((i for i, (_, other) in enumerate(left) if _along(line, about, other)), None)
        if best is None:
            faults.append(f"a line to {kind} near {line.coords[0]} is missing or more than {OFF} mm off")
            continue
        power, found = left.pop(best)
        if kind == "cut" and line.is_ring and math.dist(found.coords[0], found.coords[-1]) > JOINED:
            faults.append(f"a cut near {line.coords[0]} does not close")
        if light and power != light[kind]:
            faults.append(f"a line to {kind} near {line.coords[0]} is run at {power}")
    if left:
        faults.append(f"{len(left)} lines that the design does not have")
    return faults


def _along(line, about, other):
    """Whether each of two lines stays within `OFF` of the other, whose surroundings are `about`."""
    return about.contains(other) and other.buffer(OFF).contains(line)


def _cuts(part, tabs, kerf):
    """The lines that cut a part's edges, broken where its own tabs stand: a tab's width and the beam's own between the ends."""
    own = [tab for tab in tabs if tab["part"] == part["name"]]
    for ring in _edges(part, kerf / 2):
        on = [tab for tab in own if ring.distance(Point(tab["at"])) < kerf / 2 + OFF]
        if not on:
            yield ring
            continue
        line = ring
        for tab in on:
            middle = ring.interpolate(ring.project(Point(tab["at"])))
            line = line.difference(middle.buffer((tab["width"] + kerf) / 2, quad_segs=64))
        yield from getattr(linemerge(line), "geoms", [line])


def _edges(part, half):
    """The closed edges of a part, moved out of its wood by `half`."""
    def moved(chain, outward):
        ring = Polygon(drawings.Chain("outline", True, tuple(map(tuple, chain))).points(FACET))
        found = ring.buffer(outward, quad_segs=256) if outward else ring
        return LineString(found.exterior.coords)

    yield moved(part["outline"], half)
    for opening in part["openings"]:
        yield moved(opening, -half)
    for bore in part["bores"]:
        x, y = bore["centre"]
        circle = drawings.Chain("bore", True, circle=(x, y, bore["diameter"] / 2 - half))
        yield LineString(Polygon(circle.points(FACET)).exterior.coords)


def _line(mark):
    return LineString(drawings.Chain("mark", False, tuple(map(tuple, mark))).points(FACET))
