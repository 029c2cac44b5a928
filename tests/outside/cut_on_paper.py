"""Cuts a sheet on paper: each bit swept along its program, and what is left held against the plain drawing of the sheet.

All in the sheet's own frame, mm. The drawing is the DXF without allowance; what it cannot say (depths, tabs, bits) comes
from the design. Arcs are faceted finely enough that the facets stay far below the limits.
"""

import math
from dataclasses import dataclass

import numpy
import shapely
from shapely.geometry import LineString, Point, Polygon, box
from shapely.ops import unary_union

from programs import HALF_STEP

# How deep a cut may bite into a part, and how far an edge may stay from what was cut, mm.
GOUGE, LEFTOVER = 0.005, 0.02
# How far the chords of a facet stand off its arc, mm.
FACET = 0.0005
# How far apart the places of an edge are that are looked at, mm.
STRIDE = 0.5
# How far a cut may stray past an edge of the stock, the bed or a keep-out, mm.
ASTRAY = 0.01
# How much deeper than planned a cut may go, mm.
DEPTH = 0.02
# Besides the bit's own width, how far a tab's ends may reach along the edge, mm.
TAB_SLACK = 1.0
# A line scribed on the face goes no deeper than this, mm, and a bit follows it this closely.
MARK_DEPTH, MARK_ASIDE = 2.0, 0.02
# What counts as inside a recess although it touches its edge, mm.
RECESS_SLACK = 0.005
# A rapid may come this near to the face, mm: the printed step.
FACE = HALF_STEP


@dataclass(frozen=True)
class Cut:
    """A straight stretch of one program, in the sheet's frame with Z 0 on the face."""

    line: shapely.Geometry
    radius: float
    lowest: float
    highest: float
    deep_at: shapely.Geometry | None


@dataclass(frozen=True)
class Wood:
    """The parts of a sheet as polygons with their holes, and where less than the whole thickness is cut."""

    parts: tuple
    recesses: shapely.Geometry
    marks: shapely.Geometry
    # Ways of a bit's middle into a corner that is relieved, each with its bit's radius.
    reliefs: tuple = ()
    # Arrises that a pointed bit takes off, each with how deep its point goes.
    arrises: tuple = ()


def cuts(moves, radius, top, floor, origin):
    """The cutting stretches of one bit's moves."""
    found = []
    for move in moves:
        if not move.cuts:
            continue
        places = [(x + origin[0], y + origin[1], z - top) for x, y, z in move.points(FACET)]
        for start, end in zip(places, places[1:]):
            deep = [place[:2] for place in (start, end) if place[2] <= floor - top + HALF_STEP]
            heights = sorted((start[2], end[2]))
            found.append(Cut(_stretch([start[:2], end[:2]]), radius, *heights, _stretch(deep) if deep else None))
    return found


def _stretch(places):
    apart = len(places) == 2 and math.dist(*places) > 1e-9
    return LineString(places) if apart else Point(places[0])


def wood(chains, reliefs=(), arrises=()):
    """The parts that a drawing's chains enclose, and the reliefs (from, to, diameter) of their corners; `arrises` are
    further chains, each with the depth that a pointed bit eases it to."""
    by_layer = {}
    for chain in chains:
        by_layer.setdefault(chain.layer, []).append(chain)
    polygons = {
        layer: [Polygon(c.points(FACET)) for c in by_layer.get(layer, []) if c.closed]
        for layer in ("outline", "opening", "bore", "recess")
    }
    holes = polygons["opening"] + polygons["bore"]
    parts = []
    for outline in polygons["outline"]:
        within = [hole for hole in holes if outline.contains(hole.representative_point())]
        parts.append(outline.difference(unary_union(within)))
    scribed = [c.points(FACET) for layer in ("mark", "text") for c in by_layer.get(layer, [])]
    lines = [LineString(points) for points in scribed if len(points) > 1]
    ways = tuple((LineString([start, end]), diameter / 2) for start, end, diameter in reliefs)
    eased = tuple((LineString(chain.points(FACET)), depth) for chain, depth in arrises)
    return Wood(tuple(parts), unary_union(polygons["recess"]), unary_union(lines), ways, eased)


def gouge(sheet, found):
    """The deepest bite of any cut into a part, and where: (depth, place)."""
    worst = (0.0, None)
    in_wood = [cut for cut in found if cut.lowest < -HALF_STEP]
    if not in_wood:
        return worst
    biting = ~_free(sheet, in_wood)
    lines = numpy.array([cut.line for cut in in_wood])[biting]
    radii = numpy.array([cut.radius for cut in in_wood])[biting]
    if not lines.size:
        return worst
    for part in sheet.parts:
        shapely.prepare(part)
        near = numpy.flatnonzero(shapely.dwithin(part, lines, radii.max()))
        if not near.size:
            continue
        within = shapely.intersects(part, lines[near])
        away = _distances(_edges(part), lines[near])
        bites = radii[near] + numpy.where(within, away, -away)
        if bites.max() > worst[0]:
            place = lines[near][bites.argmax()].coords[0]
            worst = (float(bites.max()), place)
    return worst


def _free(sheet, found):
    """Which cuts go no deeper than their place allows: into a relieved corner, within a recess, or along a scribed line."""
    lines = numpy.array([cut.line for cut in found])
    radii = numpy.array([cut.radius for cut in found])
    free = numpy.zeros(len(found), dtype=bool)
    ends = shapely.points([[line.coords[0], line.coords[-1]] for line in lines])
    for way, radius in sheet.reliefs:
        along = shapely.distance(way, ends).max(axis=1) <= GOUGE
        free |= along & (radii <= radius + GOUGE)
    shallow = numpy.array([cut.deep_at is None for cut in found])
    if not sheet.recesses.is_empty:
        shapely.prepare(sheet.recesses)
        clear = _distances(_edges(sheet.recesses), lines) >= radii - RECESS_SLACK
        free |= shallow & clear & shapely.covers(sheet.recesses, lines)
    if not sheet.marks.is_empty:
        scribed = shallow & (shapely.distance(sheet.marks, lines) <= MARK_ASIDE)
        for i in numpy.flatnonzero(scribed & ~free):
            nearby = sheet.marks.intersection(box(*lines[i].buffer(1.0).bounds))
            free[i] = found[i].lowest >= -MARK_DEPTH and nearby.buffer(MARK_ASIDE).contains(lines[i])
    for line, depth in sheet.arrises:
        along = shapely.distance(line, lines) <= MARK_ASIDE
        for i in numpy.flatnonzero(along & ~free):
            near = line.intersection(box(*lines[i].buffer(1.0).bounds))
            free[i] = found[i].lowest >= -depth - MARK_ASIDE and near.buffer(MARK_ASIDE).contains(lines[i])
    return free


@dataclass(frozen=True)
class Left:
    """The worst that an edge stays from what was cut, where, and the lengths left at tabs and in corners."""

    leftover: float
    place: tuple | None
    at_tabs: tuple
    in_corners: float


def leftover(sheet, found, tabs, blind, bits):
    """What the cuts left standing at the edges.

    `tabs` are (x, y, width at the foot), `blind` holes (x, y, depth), which need not go through; `bits` are the radii of
    those that can follow an edge. The finest decides which corners are out of reach, the widest how far a tab reaches.
    """
    smallest, widest = min(bits), max(bits)
    worst, at_tabs, corners = (0.0, None), [0.0] * len(tabs), 0.0
    for part in sheet.parts:
        reachable = part.buffer(smallest, quad_segs=96).buffer(-smallest, quad_segs=96).boundary
        for ring in (part.exterior, *part.interiors):
            count = max(64, math.ceil(ring.length / STRIDE))
            stride = ring.length / count
            places = shapely.line_interpolate_point(ring, numpy.arange(count) * stride)
            reaches = [_reach(ring, tab, widest) for tab in tabs]
            away = _from_swept(places, found, _depth(ring, blind))
            bad = numpy.flatnonzero(away > LEFTOVER)
            cut = away[away <= LEFTOVER]
            if cut.size and cut.max() > worst[0]:
                worst = (float(cut.max()), worst[1])
            for place, off in zip(places[bad], away[bad]):
                tab = _tab_at(place, tabs, reaches)
                if tab is not None:
                    at_tabs[tab] += stride
                elif shapely.distance(reachable, place) > LEFTOVER / 2:
                    corners += stride
                elif off > worst[0]:
                    worst = (float(off), (place.x, place.y))
    return Left(*worst, tuple(at_tabs), corners)


def _depth(ring, blind):
    """How deep a hole goes; none where it goes through."""
    middle = ring.centroid
    return next((depth for x, y, depth in blind if math.dist((x, y), (middle.x, middle.y)) < LEFTOVER), None)


def _from_swept(places, found, depth):
    """How far each place stays from the nearest bit that went deep enough."""
    by_radius = {}
    for cut in found:
        if depth is None:
            line = cut.deep_at
        else:
            line = cut.line if cut.highest <= -depth + DEPTH else None
        if line is not None:
            by_radius.setdefault(cut.radius, []).append(line)
    away = numpy.full(len(places), numpy.inf)
    for radius, lines in by_radius.items():
        away = numpy.minimum(away, _distances(lines, places) - radius)
    return away


def _reach(ring, tab, radius):
    """How far from its middle a tab keeps a bit of a radius off the edge: two bits stand as far apart as the tab is wide
    and one of them more, and inside a hollow curve the edge between their feet is longer than between their middles."""
    x, y, width = tab
    half = width / 2 + radius
    at = shapely.Point(x, y)
    if shapely.distance(ring, at) > TAB_SLACK:
        return half + TAB_SLACK
    along = shapely.line_locate_point(ring, at)
    before, after = (ring.interpolate((along + step) % ring.length) for step in (-half, half))
    # The circle through three places on the edge: half of the chord, and how far the middle stands off it.
    chord, off = math.dist((before.x, before.y), (after.x, after.y)) / 2, 0.0
    if chord > 0:
        across, up = (after.x - before.x) / (2 * chord), (after.y - before.y) / (2 * chord)
        off = abs((x - before.x) * up - (y - before.y) * across)
    if off < FACET:
        return half + TAB_SLACK
    bend = (chord * chord + off * off) / (2 * off)
    if bend - radius <= half:
        return 2 * bend + TAB_SLACK
    hollow = 2 * bend * math.sin(math.asin(half / (bend - radius)) / 2)
    return max(half, hollow) + TAB_SLACK


def _tab_at(place, tabs, reaches):
    """The nearest tab that reaches so far: in a narrow point two may stand across from one another."""
    away = [math.dist((x, y), (place.x, place.y)) for x, y, _ in tabs]
    reached = [i for i, reach in enumerate(reaches) if away[i] <= reach]
    return min(reached, key=lambda i: away[i], default=None)


def _edges(area):
    """The edge of an area as its single facets."""
    facets = []
    polygons = getattr(area, "geoms", [area])
    for ring in (ring for polygon in polygons for ring in (polygon.exterior, *polygon.interiors)):
        corners = shapely.get_coordinates(ring)
        facets += list(shapely.linestrings(numpy.stack([corners[:-1], corners[1:]], axis=1)))
    return facets


def _distances(lines, to):
    """How far each of `to` is from the nearest of `lines`."""
    tree = shapely.STRtree(lines)
    _, away = tree.query_nearest(to, return_distance=True, all_matches=False)
    return away


def conduct_faults(moves, found, bit, router, size, thickness, top, origin):
    """What one bit's moves do wrong apart from shape: depths, rapids into the work, places where no bit may be."""
    faults = []
    lowest = min((cut.lowest for cut in found), default=0.0)
    allowed = -router["leave_web"] if router["leave_web"] > 0 else router["through"]
    if lowest < -thickness - allowed - DEPTH:
        faults.append(f"it cuts to {-lowest - thickness:.3f} mm below the underside, where {allowed} is meant")
    if lowest < -bit["cutting_length"] - GOUGE:
        faults.append(f"it goes {-lowest:.3f} mm deep with a bit that cuts {bit['cutting_length']} mm")
    for move in moves:
        z = move.end[2]
        if not move.cuts and z is not None and z - top < -FACE and (move.start[2] is None or z < move.start[2]):
            faults.append(f"line {move.line}: a rapid down to {z - top:.3f} mm below the face")
            break
    if bit["drill"] and any(cut.lowest < -GOUGE and cut.line.length > HALF_STEP for cut in found):
        faults.append("a drill goes sideways in the wood")
    return faults + _stray_faults(moves, found, bit["diameter"] / 2, router, size, origin)


def _stray_faults(moves, found, radius, router, size, origin):
    faults = []
    in_wood = [cut.line for cut in found if cut.lowest < -GOUGE]
    if in_wood:
        x0, y0, x1, y1 = shapely.total_bounds(in_wood)
        # A wide bit may run over the edge of the stock, but not beside it.
        past = -radius - min(x0, y0, size[0] - x1, size[1] - y1)
        if past > ASTRAY:
            faults.append(f"it cuts {past:.3f} mm beside the stock")
    ways = [
        LineString([(x + origin[0], y + origin[1]) for x, y, _ in move.points(FACET)])
        for move in moves
        if None not in (*move.start, *move.end)
    ]
    if not ways:
        return faults
    x0, y0, x1, y1 = shapely.total_bounds(ways)
    if min(x0, y0, router["bed"][0] - x1, router["bed"][1] - y1) < -ASTRAY:
        faults.append("it leaves the bed")
    for barred in router["keep_outs"]:
        if float(shapely.distance(box(*barred), ways).min()) < radius - ASTRAY:
            faults.append(f"it enters the place {barred}, which is kept free")
    return faults
