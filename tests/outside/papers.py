"""A PDF as an outside reader takes it: full size, no fonts, bars of known length, and pages that join to the whole drawing.

Millimetres, x to the right, y up from a page's lower left corner; in print, so over what a printer's correction makes of them.
"""

import math

import numpy
import pymupdf
import shapely

POINT = 25.4 / 72
# How far a bar may be off, mm, read back in single precision.
BAR = 0.0005
BARS = (100.0, 101.6)
# How far a page's side may be off, mm.
SIDE = 0.001
# The longest side that every viewer shows, mm.
LONGEST = 5080.0
# How far a line may stand off its place, mm.
JOINED = 0.01
# How finely a line of the design is looked for, mm.
STRIDE = 2.0
# Curves of at most 5 degrees stand this close to so many chords, mm.
CHORDS = 64


def faults(data, sizes=None, paper=None, cautions=()):
    """What is wrong with the bytes; `sizes` are the sides of every page, `paper` its entry in the design if it has one."""
    try:
        document = pymupdf.open(stream=data, filetype="pdf")
        pages = list(document)
    except (RuntimeError, ValueError) as error:
        return [f"not a PDF: {error}"]
    found = _document_faults(document, cautions)
    if paper:
        sizes = [page["size"] for page in paper["pages"]]
        if len(sizes) != len(pages):
            return [*found, f"{len(pages)} pages, {len(sizes)} planned"]
    lines = [_lines(page) for page in pages]
    for number, (page, drawn) in enumerate(zip(pages, lines), 1):
        size = sizes[number - 1] if paper else sizes
        found += [f"page {number}: {fault}" for fault in _page_faults(page, size)]
        if paper:
            found += [f"page {number}: {fault}" for fault in _bar_faults(drawn, paper["stretch"])]
    if paper and not found:
        found += _joined_faults(lines, paper)
    return found


def _document_faults(document, cautions):
    found = []
    wishes = document.xref_get_key(document.pdf_catalog(), "ViewerPreferences")[1].replace(" ", "")
    if "/PrintScaling/None" not in wishes:
        found.append("a viewer is not asked to print it at full size")
    if document.xref_get_key(-1, "ID")[0] != "null":
        found.append("it has an identity of its own")
    dates = [document.metadata.get(key) for key in ("creationDate", "modDate")]
    if any(dates):
        found.append("it has a date")
    subject = document.metadata.get("subject") or ""
    return found + [f"a caution is not in it: {caution}" for caution in cautions if caution not in subject]


def _page_faults(page, size):
    found = []
    if page.get_fonts() or page.get_images():
        found.append("it needs a font or a picture")
    if page.get_text().strip():
        found.append("it has text that is not strokes")
    width, height = (side * POINT for side in (page.rect.width, page.rect.height))
    if math.hypot(width - size[0], height - size[1]) > SIDE:
        found.append(f"{width:.3f} by {height:.3f} mm, not {size[0]:.3f} by {size[1]:.3f}")
    if max(width, height) > LONGEST + SIDE:
        found.append("longer than every viewer shows")
    return found


def _lines(page):
    """Every straight line and curve of a page as a list of points, in mm of the file."""
    high = page.rect.height
    chains = []
    for drawing in page.get_drawings():
        for kind, *places in drawing["items"]:
            if kind in "lc":
                chains.append(numpy.array([[p.x * POINT, (high - p.y) * POINT] for p in places]))
            else:
                # Taken for a rectangle because its lines close one.
                quad = places[0].quad if kind == "re" else places[0]
                corners = [quad.ul, quad.ur, quad.lr, quad.ll, quad.ul]
                chains += [
                    numpy.array([[p.x * POINT, (high - p.y) * POINT] for p in pair])
                    for pair in zip(corners, corners[1:])
                ]
    return chains


def _bar_faults(chains, stretch):
    level, plumb = [], []
    for chain in chains:
        if len(chain) == 2:
            across, up = numpy.abs(chain[1] - chain[0]) / stretch
            if up < BAR:
                level.append(across)
            if across < BAR:
                plumb.append(up)
    return [
        f"no bar of {length} mm {way}"
        for way, lengths in (("across", level), ("upwards", plumb))
        for length in BARS
        if not any(abs(found - length) <= BAR for found in lengths)
    ]


def _joined_faults(lines, paper):
    """Every line of the design is somewhere on the pages, laid where they belong."""
    drawn = []
    for chains, page in zip(lines, paper["pages"]):
        if "corner" in page:
            place = numpy.array(page["corner"])
            drawn += [shapely.LineString(_points(chain) / paper["stretch"] + place) for chain in chains]
    if not drawn:
        return ["nothing of the drawing is on it"]
    tree = shapely.STRtree(drawn)
    found = []
    for line in paper["lines"]:
        places = shapely.points(_stations(line["chain"]))
        _, offs = tree.query_nearest(places, return_distance=True, all_matches=False)
        if max(offs) > JOINED:
            at = shapely.get_coordinates(places[int(numpy.argmax(offs))])[0]
            found.append(f"a line of the {line['layer']} at {at[0]:.2f}, {at[1]:.2f} is {max(offs):.4f} mm off")
    return found


def _points(chain):
    if len(chain) == 2:
        return chain
    t = numpy.linspace(0, 1, CHORDS + 1)[:, None]
    a, b, c, d = chain
    return a * (1 - t) ** 3 + 3 * b * t * (1 - t) ** 2 + 3 * c * t**2 * (1 - t) + d * t**3


def _stations(chain):
    """Points along a chain of `[x, y, bulge]`, a stride apart or closer."""
    stations = [chain[0][:2]]
    for (x, y, bulge), (end_x, end_y, _) in zip(chain, chain[1:]):
        start, end = complex(x, y), complex(end_x, end_y)
        count = max(1, math.ceil(abs(end - start) * (1 + abs(bulge)) / STRIDE))
        if bulge:
            sweep = 4 * math.atan(bulge)
            centre = (start + end) / 2 + (end - start) * 1j * (1 - bulge * bulge) / (4 * bulge)
            points = [centre + (start - centre) * complex(math.cos(s), math.sin(s)) for s in _shares(sweep, count)]
        else:
            points = [start + share * (end - start) for share in _shares(1.0, count)]
        stations += [[p.real, p.imag] for p in points]
    return stations


def _shares(whole, count):
    return [whole * i / count for i in range(1, count + 1)]
