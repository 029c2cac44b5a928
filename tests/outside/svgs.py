"""An SVG for cutting as the simplest reader takes it: real millimetres, plain numbers, lines and nothing else."""

import math
import re
import xml.etree.ElementTree as ElementTree

NAMESPACE = "{http://www.w3.org/2000/svg}"
GROUPS = frozenset({"outline", "opening", "bore", "recess", "mark", "text", "stock"})
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


def faults(data, size=None):
    """What is wrong with the bytes of a drawing to cut; `size` is the least that it must show, mm."""
    try:
        root = ElementTree.fromstring(data)
    except ElementTree.ParseError as error:
        return [f"not XML: {error}"]
    found = _frame_faults(root, size)
    shapes = 0
    for element, group, fill in _walk(root, None, None):
        name = element.tag.removeprefix(NAMESPACE)
        if name not in ELEMENTS:
            found.append(f"an element that a cutter may pass over: {name}")
        found += [f"{name} has {word}" for word in sorted(FORBIDDEN & element.attrib.keys())]
        if name == "g" and element.get("id") not in GROUPS:
            found.append(f"a group of no known meaning: {element.get('id')}")
        if name in SHAPES:
            shapes += 1
            found += _shape_faults(element, name, group, fill)
    if not shapes:
        found.append("nothing in it")
    return list(dict.fromkeys(found))


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


def _shape_faults(element, name, group, fill):
    found = []
    if group not in GROUPS:
        found.append(f"a {name} outside every group")
    if fill != "none":
        found.append(f"a {name} that is filled")
    if name == "circle":
        numbers = [element.get(word, "") for word in ("cx", "cy", "r")]
        if not all(NUMBER.fullmatch(number) for number in numbers) or float(numbers[2]) <= 0:
            found.append("a circle without plain numbers")
        return found
    try:
        closed = _follow(element.get("d", "").split())
    except ValueError as error:
        return [*found, str(error)]
    if not closed and group in ("outline", "opening", "bore", "recess"):
        found.append(f"a line to be cut and not closed, in {group}")
    return found


def _follow(words):
    """Follows a path of absolute commands; whether it closes."""
    at, start, closed, i = None, None, False, 0
    while i < len(words):
        command = words[i]
        if command not in COMMANDS:
            raise ValueError(f"a path command that is not absolute and plain: {command!r}")
        if (command == "M") != (at is None):
            raise ValueError("a path that does not begin once")
        if closed:
            raise ValueError("a path that goes on after its end")
        numbers = words[i + 1 : i + 1 + COMMANDS[command]]
        if len(numbers) < COMMANDS[command] or not all(NUMBER.fullmatch(number) for number in numbers):
            raise ValueError(f"{command} without its plain numbers")
        i += 1 + len(numbers)
        end = tuple(float(number) for number in numbers[-2:]) if numbers else start
        if command == "A":
            _arc(at, end, numbers)
        elif command == "L" and at == end:
            raise ValueError("a line of no length")
        start, closed, at = start or end, command == "Z", end
    return closed


def _arc(start, end, numbers):
    across, up = float(numbers[0]), float(numbers[1])
    if across != up:
        raise ValueError("an arc of two radii")
    if not {numbers[3], numbers[4]} <= {"0", "1"}:
        raise ValueError("an arc whose flags are not 0 or 1")
    if start == end:
        raise ValueError("an arc that ends where it begins, which readers leave out")
    if across < math.dist(start, end) / 2 - SHORT_RADIUS:
        raise ValueError("an arc too small for its chord")
