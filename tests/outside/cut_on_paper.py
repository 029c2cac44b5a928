"""Cuts a sheet on paper: sweeps each bit along the programs of a sheet and holds the swept area against the drawing of
the same sheet that has no allowance. Everything in mm, in the sheet's frame."""
import math
from dataclasses import dataclass, field

from shapely import STRtree
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

import drawings
import programs

GOUGE = 0.005       # the deepest a cut may bite into a part
LEFTOVER = 0.02     # the most that may stay on an edge
Z_STEP = 0.002      # a height this near the floor is at it: inch programs have four decimals
NEAR = 0.01         # a cut this near a scribed line or inside a recess belongs to it
SPACING = 0.5       # between the points where an edge is tried


@dataclass
class Run:
    """One program: its file, its bit's diameter, Z of the stock's face and underside in it, its zero in the sheet."""
    path: str
    bit: float
    top: float
    floor: float
    origin: tuple


@dataclass
class Sheet:
    """What the drawing asks for. Wood may be cut above the underside in `free` and along `marks`."""
    parts: list = field(default_factory=list)
    free: object = None
    marks: object = None


@dataclass
class Cut:
    gouge: float = 0.0
    gouge_at: tuple | None = None
    leftover: float = 0.0
    leftover_at: tuple | None = None
    outside: float = 0.0

    def faults(self):
        found = []
        if self.gouge > GOUGE:
            found.append(f"bites {self.gouge:.4f} mm into a part at {self.gouge_at}")
        if self.leftover > LEFTOVER:
            found.append(f"leaves {self.leftover:.4f} mm on an edge at {self.leftover_at}")
        if self.outside > 0:
            found.append(f"cuts {self.outside:.4f} mm outside the stock")
        return found


def sheet(path, blind=()):
    """The sheet in a drawing. blind: centres (x, y) of the bores that do not go through."""
    areas = {"OUTLINE": [], "OPENING": [], "BORE": [], "RECESS": []}
    scribed = []
    for chain in drawings.load(path):
        points = chain.flat()
        if chain.layer in areas and chain.closed:
            areas[chain.layer].append(Polygon(points))
        elif chain.layer in ("MARK", "TEXT") and len(points) > 1:
            scribed.append(LineString(points))
    shallow = [b for b in areas["BORE"] if any(math.dist(b.centroid.coords[0], c) < NEAR for c in blind)]
    holes = areas["OPENING"] + [b for b in areas["BORE"] if b not in shallow]
    parts = [o.difference(unary_union([h for h in holes if o.contains(h.representative_point())])) for o in areas["OUTLINE"]]
    recessed = Polygon()
    for area in areas["RECESS"]:
        recessed = recessed.symmetric_difference(area)      # one inside another is an island
    free = unary_union([recessed, *shallow]).buffer(NEAR)
    return Sheet(parts, free, unary_union(scribed).buffer(NEAR))


def span(a, b):
    return LineString((a, b)) if math.dist(a, b) > 1e-9 else Point(a)


def sweep(run):
    """(in the wood, through the wood): [(line of the bit's middle, its radius, whether at the floor)], [(line, radius)]"""
    inside, through, radius = [], [], run.bit / 2
    program = programs.read(run.path, safe=run.top)
    for move in program.moves:
        if move.kind == "rapid":
            continue
        points = [(x + run.origin[0], y + run.origin[1], z) for x, y, z in move.points()]
        for a, b in zip(points, points[1:]):
            low = [p[:2] for p in (a, b) if p[2] <= run.floor + Z_STEP]
            if min(a[2], b[2]) < run.top - Z_STEP:
                inside.append((span(a[:2], b[:2]), radius, bool(low)))
            if low:
                through.append((span(low[0], low[-1]), radius))
    return inside, through


def cut(sheet, runs, tabs=(), size=None):
    """Runs the programs over the sheet. tabs: (x, y, width) of the wood left to hold the parts."""
    inside, through = [], []
    for run in runs:
        more, deep = sweep(run)
        inside += more
        through += deep
    result = Cut()
    if inside:
        gouges(sheet, inside, result)
    leftovers(sheet, through, min(run.bit for run in runs) / 2, tabs, result)
    if size:
        result.outside = max((beyond(line.bounds, radius, size) for line, radius, _ in inside), default=0.0)
    return result


def beyond(box, radius, size):
    return max(0.0, radius - box[0], radius - box[1], box[2] + radius - size[0], box[3] + radius - size[1])


def gouges(sheet, inside, result):
    tree, widest = STRtree([line for line, _, _ in inside]), max(radius for _, radius, _ in inside)
    for part in sheet.parts:
        for i in tree.query(part.buffer(widest)):
            line, radius, deep = inside[i]
            allowed = not deep and (sheet.marks.contains(line) or sheet.free.contains(line.buffer(radius - GOUGE)))
            if allowed:
                continue
            bite = radius + part.boundary.distance(line) if part.intersects(line) else radius - part.distance(line)
            if bite > result.gouge:
                result.gouge, result.gouge_at = bite, rounded(line.coords[0])


def leftovers(sheet, through, least, tabs, result):
    """Tries points along every edge; tabs and corners that the smallest bit cannot enter are let be."""
    trees = {r: STRtree([line for line, q in through if q == r]) for r in {r for _, r in through}}
    for part in sheet.parts:
        reached = part.buffer(least, quad_segs=96).buffer(-least, quad_segs=96).boundary
        for ring in (part.exterior, *part.interiors):
            count = max(64, int(ring.length / SPACING))
            for i in range(count):
                point = ring.interpolate(i / count, normalized=True)
                left = min((point.distance(t.geometries[t.nearest(point)]) - r for r, t in trees.items()), default=math.inf)
                if left <= result.leftover or (left > LEFTOVER and excused(point, reached, least, tabs)):
                    continue
                result.leftover, result.leftover_at = left, rounded(point.coords[0])


def excused(point, reached, radius, tabs):
    held = any(math.dist((point.x, point.y), tab[:2]) <= tab[2] / 2 + radius + 1 for tab in tabs)
    return held or reached.distance(point) > LEFTOVER / 2


def rounded(place):
    return tuple(round(n, 3) for n in place[:2])
