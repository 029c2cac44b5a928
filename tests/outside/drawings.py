"""What a fabricator's program finds in a DXF file, by way of ezdxf."""
import math
from collections import Counter

import ezdxf
from ezdxf import bbox

from chains import Chain

EDGES = {"OUTLINE", "OPENING", "BORE", "RECESS"}
LAYERS = EDGES | {"MARK", "TEXT", "STOCK"}
PLAIN = {"LINE", "ARC", "CIRCLE", "POLYLINE", "LWPOLYLINE", "TEXT"}
MILLIMETRES = {1: 25.4, 4: 1.0}
LEAST_PIECE = 1e-4      # drawing units: shorter pieces vanish when a reader rounds
EXTENTS_SLACK = 0.01    # drawing units by which the header may fall short


def load(path):
    """The file's chains in mm."""
    document = ezdxf.readfile(path)
    return chains(document, MILLIMETRES.get(document.header.get("$INSUNITS"), 1.0))


def chains(document, scale=1.0):
    found = (chain(entity) for entity in document.modelspace())
    return [scaled(c, scale) for c in found if c]


def chain(entity):
    kind, at, layer = entity.dxftype(), entity.dxf, entity.dxf.layer.upper()
    if kind == "LWPOLYLINE":
        return Chain(layer, bool(entity.closed), [tuple(v) for v in entity.get_points("xyb")])
    if kind == "POLYLINE":
        corners = [(v.dxf.location.x, v.dxf.location.y, v.dxf.bulge) for v in entity.vertices]
        return Chain(layer, bool(entity.is_closed), corners)
    if kind == "CIRCLE":
        return Chain(layer, True, [], (at.center.x, at.center.y, at.radius))
    if kind == "LINE":
        return Chain(layer, False, [(at.start.x, at.start.y, 0.0), (at.end.x, at.end.y, 0.0)])
    if kind == "ARC":
        start, end = entity.start_point, entity.end_point
        bulge = math.tan(math.radians((at.end_angle - at.start_angle) % 360) / 4)
        return Chain(layer, False, [(start.x, start.y, bulge), (end.x, end.y, 0.0)])
    return None


def scaled(c, by):
    circle = tuple(n * by for n in c.circle) if c.circle else None
    return Chain(c.layer, c.closed, [(x * by, y * by, b) for x, y, b in c.vertices], circle)


def faults(path):
    """Everything that is wrong with the drawing, in plain words."""
    try:
        document = ezdxf.readfile(path)
    except (ezdxf.DXFError, OSError, ValueError) as error:
        return [f"cannot be opened: {error}"]
    audit = document.audit()
    found = [f"audit: {entry.message}" for entry in [*audit.errors, *audit.fixes]]
    lines = chains(document)
    return found + entity_faults(document) + chain_faults(lines) + extent_faults(document)


def entity_faults(document):
    space, found = document.modelspace(), []
    if not len(space):
        found.append("the drawing is empty")
    strange = sorted({e.dxftype() for e in space} - PLAIN)
    if strange:
        found.append(f"entities that many programs skip: {', '.join(strange)}")
    used = {e.dxf.layer for e in space}
    missing = sorted(used - {layer.dxf.name for layer in document.layers})
    if missing:
        found.append(f"layers without a definition: {', '.join(missing)}")
    unknown = sorted(name for name in used if name.upper() not in LAYERS)
    if unknown:
        found.append(f"layers that name no kind of line: {', '.join(unknown)}")
    if document.header.get("$INSUNITS") not in MILLIMETRES:
        found.append("the unit is neither inch nor millimetre")
    return found


def chain_faults(lines):
    found = []
    if not all(math.isfinite(n) for c in lines for n in c.numbers()):
        return ["a coordinate is not finite"]
    for (layer, _), count in Counter((c.layer, c.key()) for c in lines).items():
        if count > 1:
            found.append(f"a chain on {layer} is there {count} times")
    for c in lines:
        if c.layer in EDGES and not c.closed:
            found.append(f"an open chain on {c.layer}")
        if c.circle and c.circle[2] <= 0:
            found.append(f"a circle on {c.layer} has no radius")
        if c.layer != "TEXT" and any(math.dist(a, b) < LEAST_PIECE for a, b, _ in c.pieces()):
            found.append(f"a chain on {c.layer} has a piece shorter than {LEAST_PIECE}")
    return found


def extent_faults(document):
    """The header must hold the drawing; it may be larger by a margin for text."""
    box = bbox.extents(e for e in document.modelspace() if e.dxftype() != "TEXT")
    low, high = document.header.get("$EXTMIN"), document.header.get("$EXTMAX")
    if not box.has_data:
        return []
    if low is None or high is None:
        return ["the header has no extents"]
    margin = 1 + 0.2 * max(box.size.x, box.size.y)
    spare = [box.extmin.x - low[0], box.extmin.y - low[1], high[0] - box.extmax.x, high[1] - box.extmax.y]
    if min(spare) < -EXTENTS_SLACK or max(spare) > margin:
        return ["the header's extents are not those of the drawing"]
    return []
