"""An SVG for cutting as the simplest reader takes it: real millimetres, plain numbers, lines and nothing else.

SVG counts y downwards; the chains that are handed back are turned over about the viewBox, so that y runs up.
"""

import math
import re
import xml.etree.ElementTree as ElementTree

from drawings import CUT, LAYERS, Chain

NAMESPACE = "{http://www.w3.org/2000/svg}"
SHAPES = frozenset({"path", "circle"})
ELEMENTS = SHAPES | {"svg", "title", "desc", "g"}
# What a simple reader passes over, so that the shape comes out elsewhere or otherwise.
FORBIDDEN = frozenset({"transform", "style", "class", "clip-path", "mask"})
NUMBER = re.compile(r"-?\d+(\.\d+)?")
# A radius short of half its chord by more than this is enlarged in silence, mm: what four decimals lose.
SHORT_RADIUS = 1e-6
# How far width and height may be from the viewBox's, mm.
SAME_SIZE = 1e-6
COMMANDS = {"M": 2, "L": 2, "A": 7, "Z": 0}


def read(data, size=None, tabbed=False):
    """A drawing's chains in mm, and what is wrong with its bytes; `size` is the least that it must show, mm, and `tabbed`
    where outlines may be broken at tabs."""
    try:
        root = ElementTree.fromstring(data)
    except ElementTree.ParseError as error:
        return [], [f"not XML: {error}"]
    found = _frame_faults(root, size)
    if found:
        return [], found
    _, low, _, high = (float(number) for number in root.get("viewBox").split())
    chains = []
    for element, group, fill in _walk(root, None, None):
        name = element.tag.removeprefix(NAMESPACE)
        if name not in ELEMENTS:
            found.append(f"an element that a cutter may pass over: {name}")
        found += [f"{name} has {word}" for word in sorted(FORBIDDEN & element.attrib.keys())]
        if name == "g" and element.get("id") not in LAYERS:
            found.append(f"a group of no known meaning: {element.get('id')}")
        if name in SHAPES:
            found += _place_faults(name, group, fill)
            try:
                chain = _chain(element, name, group, 2 * low + high)
                if not chain.closed and group in (CUT - {"outline"} if tabbed else CUT):
                    raise ValueError(f"a line to be cut and not closed, in {group}")
                chains.append(chain)
            except ValueError as error:
                found.append(str(error))
    if not chains:
        found.append("nothing in it")
    return chains, list(dict.fromkeys(found))


def picture_faults(data):
    """What is wrong with the bytes of a picture, which nothing is cut from."""
    try:
        root = ElementTree.fromstring(data)
    except ElementTree.ParseError as error:
        return [f"not XML: {error}"]
    found = [] if root.tag == f"{NAMESPACE}svg" else [f"not an SVG: {root.tag}"]
    if not any(True for _ in root):
        found.append("nothing in it")
    if re.search(rb"\b(NaN|inf)\b", data):
        found.append("a number that is not finite")
    return found


def _walk(element, group, fill):
    fill = element.get("fill", fill)
    yield element, group, fill
    for child in element:
        within = element.get("id") if element.tag == f"{NAMESPACE}g" else group
        yield from _walk(child, within, fill)


def _frame_faults(root, size):
    if root.tag != f"{NAMESPACE}svg":
        return [f"not an SVG: {root.tag}"]
    sides = [re.fullmatch(r"(\d+(?:\.\d+)?)mm", root.get(side, "")) for side in ("width", "height")]
    box = root.get("viewBox", "").split()
    if not all(sides):
        return ["width and height are not in mm"]
    if len(box) != 4 or not all(NUMBER.fullmatch(number) for number in box):
        return ["a viewBox that is not four plain numbers"]
    sides, box = [float(side[1]) for side in sides], [float(number) for number in box]
    found = []
    if any(side <= 0 or abs(side - shown) > SAME_SIZE for side, shown in zip(sides, box[2:])):
        found.append("one unit is not one millimetre")
    if size and any(side < least - SAME_SIZE for side, least in zip(sides, size)):
        found.append(f"{sides[0]} by {sides[1]} mm, smaller than the sheet")
    return found


def _place_faults(name, group, fill):
    found = [] if group in LAYERS else [f"a {name} outside every group"]
    return found if fill == "none" else [*found, f"a {name} that is filled"]


def _chain(element, name, group, over):
    """A shape as a chain, turned over: y becomes `over` - y."""
    if name == "circle":
        x, y, radius = _numbers("a circle", [element.get(word, "") for word in ("cx", "cy", "r")])
        if radius <= 0:
            raise ValueError("a circle of no radius")
        return Chain(group, True, circle=(x, over - y, radius))
    places, bulges, closed = _follow(element.get("d", "").split())
    if closed and places[0] == places[-1]:
        # Z has nothing left to draw.
        places.pop()
    else:
        bulges.append(0.0)
    return Chain(group, closed, tuple((x, over - y, -bulge) for (x, y), bulge in zip(places, bulges, strict=True)))


def _numbers(what, words):
    if not all(NUMBER.fullmatch(word) for word in words):
        raise ValueError(f"{what} without its plain numbers")
    return [float(word) for word in words]


def _follow(words):
    """Follows a path of absolute commands: its places, the bulges between them (y down), and whether it closes."""
    places, bulges, closed, i = [], [], False, 0
    while i < len(words):
        command = words[i]
        if command not in COMMANDS:
            raise ValueError(f"a path command that is not absolute and plain: {command!r}")
        if (command == "M") == bool(places) or closed:
            raise ValueError("a path that does not begin and end once")
        values = words[i + 1 : i + 1 + COMMANDS[command]]
        if len(values) < COMMANDS[command]:
            raise ValueError(f"{command} without its plain numbers")
        values = _numbers(command, values)
        i += 1 + len(values)
        closed = command == "Z"
        if closed:
            continue
        end = tuple(values[-2:])
        if command == "L" and places[-1] == end:
            raise ValueError("a line of no length")
        if command != "M":
            bulges.append(_bulge(places[-1], end, values) if command == "A" else 0.0)
        places.append(end)
    if len(places) < 2:
        raise ValueError("a path that leads nowhere")
    return places, bulges, closed


def _bulge(start, end, values):
    """The bulge of an arc: the tangent of a quarter of its turn, positive where SVG's angles grow."""
    across, up, _, large, sweep = values[:5]
    if across != up:
        raise ValueError("an arc of two radii")
    if not {large, sweep} <= {0.0, 1.0}:
        raise ValueError("an arc whose flags are not 0 or 1")
    if start == end:
        raise ValueError("an arc that ends where it begins, which readers leave out")
    half = math.dist(start, end) / 2
    if across < half - SHORT_RADIUS:
        raise ValueError("an arc too small for its chord")
    quarter = math.asin(min(1.0, half / across)) / 2
    if large:
        quarter = math.pi / 2 - quarter
    return math.tan(quarter) * (1 if sweep else -1)
