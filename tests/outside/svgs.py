"""An SVG file as a plain cutter's program takes it: numbers in millimetres, nothing inherited but from the group."""
import math
import re
import xml.etree.ElementTree as ElementTree

GROUPS = {"outline", "opening", "bore", "recess", "mark", "text", "stock"}
EDGES = {"outline", "opening", "bore", "recess"}
SPACE = "{http://www.w3.org/2000/svg}"
TAGS = {SPACE + tag for tag in ("svg", "g", "path", "circle", "title", "desc")}
REFUSED = {"transform", "style", "class", "href", "clip-path", "mask"}
MILLIMETRES = re.compile(r"(\d+\.?\d*)mm")
COMMAND = re.compile(r"([MLAZ])((?: -?\d+\.?\d*)*)(?: |$)")
ARGUMENTS = {"M": 2, "L": 2, "A": 7, "Z": 0}
SLACK = 1e-3    # mm: rounding of the written numbers


def faults(path, size=None):
    """Everything wrong with the file; size: what its page must measure, mm."""
    try:
        root = ElementTree.parse(path).getroot()
    except ElementTree.ParseError as error:
        return [f"cannot be opened: {error}"]
    found = page_faults(root, size)
    for element in root.iter():
        if element.tag not in TAGS:
            found.append(f"an element that simple cutters skip: {element.tag.removeprefix(SPACE)}")
        found += [f"attribute {name}" for name in element.attrib if name.split("}")[-1] in REFUSED]
    for child in root:
        if child.tag in (SPACE + "path", SPACE + "circle"):
            found.append("a shape outside every group")
        elif child.tag == SPACE + "g":
            found += group_faults(child)
    if not any(shape.tag in (SPACE + "path", SPACE + "circle") for shape in root.iter()):
        found.append("the drawing is empty")
    return found


def page_faults(root, size):
    sides = [MILLIMETRES.fullmatch(root.get(side, "")) for side in ("width", "height")]
    if not all(sides):
        return ["width and height are not in mm"]
    width, height = (float(side[1]) for side in sides)
    try:
        box = [float(n) for n in root.get("viewBox", "").split()]
    except ValueError:
        box = []
    if len(box) != 4 or abs(box[2] - width) > 1e-6 or abs(box[3] - height) > 1e-6:
        return ["one user unit is not one mm"]
    if size and (abs(width - size[0]) > SLACK or abs(height - size[1]) > SLACK):
        return [f"the page is {width:g} x {height:g} mm, the sheet {size[0]:g} x {size[1]:g}"]
    return []


def group_faults(group):
    name, found = group.get("id"), []
    if name not in GROUPS:
        found.append(f"the group {name} names no kind of line")
    for shape in group:
        if shape.get("fill", group.get("fill")) != "none":
            found.append(f"{name}: a shape is filled")
        if shape.get("stroke", group.get("stroke")) in (None, "none"):
            found.append(f"{name}: a shape has no line")
        if shape.tag == SPACE + "path":
            found += [f"{name}: {what}" for what in path_faults(shape.get("d", ""), name in EDGES)]
        elif shape.tag == SPACE + "circle" and not float(shape.get("r", "0")) > 0:
            found.append(f"{name}: a circle without a radius")
        elif shape.tag == SPACE + "g":
            found.append(f"{name}: a group within a group")
    return found


def commands(d):
    """[(letter, numbers)], or ValueError where a word is not absolute, spaced and plain."""
    read, at = [], 0
    while at < len(d):
        match = COMMAND.match(d, at)
        if not match:
            raise ValueError(f"cannot be read from {d[at:at + 20]!r}")
        numbers = [float(n) for n in match[2].split()]
        if len(numbers) != ARGUMENTS[match[1]]:
            raise ValueError(f"{match[1]} with {len(numbers)} numbers")
        read.append((match[1], numbers))
        at = match.end()
    return read


def path_faults(d, edge):
    try:
        steps = commands(d)
    except ValueError as error:
        return [str(error)]
    letters = "".join(letter for letter, _ in steps)
    found = [] if re.fullmatch("M[LA]+Z?", letters) else [f"a path of the form {letters[:20]!r}"]
    if edge and not letters.endswith("Z"):
        found.append("an open path")
    at = None
    for letter, numbers in steps:
        if letter == "Z":
            continue
        to = numbers[-2:]
        if at is not None and math.dist(at, to) < 1e-4:
            found.append("a piece without a length")
        if letter == "A":
            found += arc_faults(at, to, numbers)
        at = to
    return found


def arc_faults(at, to, numbers):
    across, up, _, large, way = numbers[:5]
    if across != up or large not in (0, 1) or way not in (0, 1):
        return ["an arc that is not of a circle, or with a flag other than 0 and 1"]
    if at is not None and across < math.dist(at, to) / 2 - 1e-9:
        return [f"an arc of radius {across:g} does not reach its end: a reader enlarges it"]
    return []
