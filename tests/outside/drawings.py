"""A DXF drawing as a fabricator's program finds it, read by ezdxf: its chains in mm, and what is wrong with it."""

import math
from collections import Counter
from dataclasses import dataclass, replace

import ezdxf
from ezdxf import bbox

# Layers whose lines are cut, so that each must close.
CUT = frozenset({"outline", "opening", "bore", "recess"})
LAYERS = CUT | {"mark", "text", "stock"}
# What every program reads; splines and ellipses are passed over by some.
ENTITIES = frozenset({"LINE", "ARC", "CIRCLE", "POLYLINE", "LWPOLYLINE", "TEXT"})
# The header's word for a unit.
UNITS = {"in": 1, "mm": 4}
MM = {"in": 25.4, "mm": 1.0}
# A piece shorter than this is an accident, in the drawing's unit.
TINY = 1e-4
# Decimals to which two chains are the same chain.
SAME_PLACE, SAME_BULGE = 4, 6
# How far the header's extents may lie inside the drawing, and how far outside as a share of it (a margin), mm.
EXTENTS_INSIDE, EXTENTS_MARGIN, EXTENTS_LEAST = 0.01, 0.2, 1.0


@dataclass(frozen=True)
class Chain:
    """Vertices (x, y, bulge), or a whole circle (x, y, radius)."""

    layer: str
    closed: bool
    vertices: tuple = ()
    circle: tuple | None = None

    def pieces(self):
        """(start, end, bulge) of each piece."""
        ends = self.vertices[1:] + self.vertices[:1] if self.closed else self.vertices[1:]
        return [(v[:2], end[:2], v[2]) for v, end in zip(self.vertices, ends)]

    def scaled(self, factor):
        vertices = tuple((x * factor, y * factor, bulge) for x, y, bulge in self.vertices)
        circle = self.circle and tuple(value * factor for value in self.circle)
        return replace(self, vertices=vertices, circle=circle)

    def moved(self, x, y):
        vertices = tuple((v[0] + x, v[1] + y, v[2]) for v in self.vertices)
        circle = self.circle and (self.circle[0] + x, self.circle[1] + y, self.circle[2])
        return replace(self, vertices=vertices, circle=circle)

    def points(self, stand_off):
        """Points along it; chords stand off its arcs by no more than `stand_off`."""
        if self.circle:
            x, y, radius = self.circle
            return _arc_points((x + radius, y), (x, y), radius, math.tau, stand_off)
        points = []
        for start, end, bulge in self.pieces():
            if bulge == 0.0:
                points.append(start)
                continue
            # The centre lies on the chord's bisector, (1 - b²) / 4b of the chord from its middle, to the left for b > 0.
            aside = (1 - bulge * bulge) / (4 * bulge)
            across, up = end[0] - start[0], end[1] - start[1]
            centre = ((start[0] + end[0]) / 2 - up * aside, (start[1] + end[1]) / 2 + across * aside)
            turn = 4 * math.atan(bulge)
            points += _arc_points(start, centre, math.dist(start, centre), turn, stand_off)
        return points if self.closed else points + [self.vertices[-1][:2]]

    def likeness(self):
        """The same for a chain begun anywhere and run either way."""
        if self.circle:
            return (self.layer, tuple(round(value, SAME_PLACE) for value in self.circle))
        return (self.layer, self.closed, min(_run(self.pieces(), self.closed), _run(_turned(self.pieces()), self.closed)))


def _arc_points(start, centre, radius, turn, stand_off):
    """From the start of an arc up to, and without, its end."""
    widest = 2 * math.acos(1 - min(stand_off / radius, 0.5))
    count = max(1, math.ceil(abs(turn) / widest))
    first = math.atan2(start[1] - centre[1], start[0] - centre[0])
    angles = (first + turn * step / count for step in range(1, count))
    return [tuple(start), *((centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles)]


def _turned(pieces):
    return [(end, start, -bulge) for start, end, bulge in reversed(pieces)]


def _run(pieces, closed):
    rounded = [
        tuple(round(value, SAME_PLACE) + 0.0 for value in (*start, *end)) + (round(bulge, SAME_BULGE) + 0.0,)
        for start, end, bulge in pieces
    ]
    if not closed or not rounded:
        return tuple(rounded)
    least = rounded.index(min(rounded))
    return tuple(rounded[least:] + rounded[:least])


def chains(document):
    """Every line of the drawing, in its own unit."""
    found = []
    for entity in document.modelspace():
        layer, kind = entity.dxf.layer.lower(), entity.dxftype()
        if kind == "LWPOLYLINE":
            found.append(Chain(layer, bool(entity.closed), tuple(entity.get_points("xyb"))))
        elif kind == "POLYLINE":
            vertices = tuple((v.dxf.location.x, v.dxf.location.y, v.dxf.bulge) for v in entity.vertices)
            found.append(Chain(layer, bool(entity.is_closed), vertices))
        elif kind == "CIRCLE":
            found.append(Chain(layer, True, circle=(entity.dxf.center.x, entity.dxf.center.y, entity.dxf.radius)))
        elif kind == "LINE":
            start, end = entity.dxf.start, entity.dxf.end
            found.append(Chain(layer, False, ((start.x, start.y, 0.0), (end.x, end.y, 0.0))))
        elif kind == "ARC":
            sweep = (entity.dxf.end_angle - entity.dxf.start_angle) % 360
            start, end = entity.start_point, entity.end_point
            bulge = math.tan(math.radians(sweep) / 4)
            found.append(Chain(layer, False, ((start.x, start.y, bulge), (end.x, end.y, 0.0))))
    return found


def read(path, unit, tabbed=False):
    """The drawing's chains in mm, and what is wrong with it; `tabbed` where outlines may be broken at tabs."""
    try:
        document = ezdxf.readfile(path)
    except (OSError, ezdxf.DXFError, ValueError) as error:
        return [], [f"ezdxf cannot read it: {error}"]
    found = chains(document)
    audit = document.audit()
    faults = [f"audit: {note.message}" for note in (*audit.errors, *audit.fixes)]
    faults += _chain_faults(found, CUT - {"outline"} if tabbed else CUT) + _entity_faults(document) + _header_faults(document, unit)
    return [chain.scaled(MM[unit]) for chain in found], faults


def _chain_faults(found, closing):
    faults = []
    numbers = [value for c in found for v in (*c.vertices, c.circle or ()) for value in v]
    if not all(math.isfinite(number) for number in numbers):
        return ["a number that is not finite"]
    twice = sum(count - 1 for count in Counter(chain.likeness() for chain in found).values())
    lengths = [math.dist(a, b) for c in found if c.layer != "text" for a, b, _ in c.pieces()]
    # A chain that repeats its first point has a closing piece of no length, so it is counted here too.
    tiny = sum(length < TINY for length in lengths)
    tiny += sum(chain.circle is not None and chain.circle[2] < TINY for chain in found)
    open_cuts = sum(chain.layer in closing and not chain.closed for chain in found)
    for count, what in ((twice, "drawn twice"), (tiny, "of no length"), (open_cuts, "to be cut and not closed")):
        if count:
            faults.append(f"{count} lines {what}")
    if not any(chain.layer in CUT for chain in found):
        faults.append("nothing to cut")
    return faults


def _entity_faults(document):
    space = document.modelspace()
    kinds = {entity.dxftype() for entity in space} - ENTITIES
    used = {entity.dxf.layer for entity in space}
    undefined = used - {layer.dxf.name for layer in document.layers}
    strange = {layer for layer in used if layer.lower() not in LAYERS}
    written = {e.dxf.layer for e in space if e.dxftype() == "TEXT" and e.dxf.layer.lower() in CUT}
    sentences = (
        (kinds, "entities that some programs pass over"),
        (undefined, "layers that no table defines"),
        (strange, "layers of no known meaning"),
        (written, "text on a layer that is cut"),
    )
    return [f"{what}: {', '.join(sorted(names))}" for names, what in sentences if names]


def _header_faults(document, unit):
    faults = []
    if document.header.get("$INSUNITS") != UNITS[unit]:
        faults.append(f"$INSUNITS is {document.header.get('$INSUNITS')}, not {UNITS[unit]} ({unit})")
    box = bbox.extents(entity for entity in document.modelspace() if entity.dxftype() != "TEXT")
    low, high = document.header.get("$EXTMIN"), document.header.get("$EXTMAX")
    if not box.has_data:
        return faults
    if low is None or high is None:
        return [*faults, "no extents in the header"]
    past = [box.extmin[i] - low[i] for i in (0, 1)] + [high[i] - box.extmax[i] for i in (0, 1)]
    margin = EXTENTS_MARGIN * max(box.size.x, box.size.y) + EXTENTS_LEAST
    if min(past) < -EXTENTS_INSIDE or max(past) > margin:
        faults.append("the header's extents are not those of the drawing")
    return faults
