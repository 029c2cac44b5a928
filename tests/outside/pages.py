"""Looks at job sheets in a browser, on a phone, a tablet and paper: python pages.py DIR... [--shots DIR]

One line for each made folder and size, then `N passed, N failed`; exit status 1 on any fault.
"""

import argparse
import json
import sys
from pathlib import Path

import pymupdf

from browser import INCH, Browser, Page

# Windows in CSS pixels.
PHONE, TABLET, SCREEN = (360, 740), (820, 1180), (1440, 900)
# Paper, mm, and what the page keeps clear of it at each side.
PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
MARGIN = 12.0
# How far a letter may stand over a margin, points.
OVER = 1.0
HERE = Path(__file__).parent
LOOK, BUILD = ((HERE / name).read_text("utf-8") for name in ("look.js", "build.js"))
TOLD = 6


def faults(browser, path, cautions, shots=None):
    """What is wrong, by how it is looked at."""
    page = Page(browser, path)
    found = {"build": _build_faults(page, cautions)}
    for name, (width, height) in {"phone": PHONE, "tablet": TABLET, "screen": SCREEN}.items():
        page.sized(width, height)
        found[name] = page.found(LOOK) + _heard_faults(page)
        if shots:
            page.shot(shots / f"{name}.png")
    for name, (width, height) in PAPERS.items():
        # As wide as the paper's room, so that what is too wide for it is seen to be.
        page.sized(round((width - 2 * MARGIN) / INCH * 96), 1000, "print")
        found[name] = page.found(LOOK)
        data = page.printed(width, height)
        found[name] += _paper_faults(data, (width, height), cautions)
        if shots:
            _draw(data, shots, name)
    found["build"] += [f"it asks for {url}" for url in page.asked_for()]
    page.close()
    return found


def _build_faults(page, cautions):
    page.sized(*SCREEN)
    built = page.found(BUILD)
    found = built["faults"]
    found += [f"not said: {c}" for c in cautions if _flat(c) not in _flat(built["words"])]
    found += [f"not said before the first figure: {c}" for c in cautions if _flat(c) not in _flat(built["before"])]
    if not built["tables"] or not built["pictures"]:
        found.append("it has no table or no picture")
    return found


def _heard_faults(page):
    """A screen reader is told as many tables and headings as there are, and every picture by a name."""
    heard, built = page.heard(), page.found(BUILD)
    count = lambda role: sum(1 for named, _ in heard if named == role)
    found = []
    for role, there in (("table", built["tables"]), ("heading", built["headings"])):
        if count(role) != there:
            found.append(f"{count(role)} of {there} are read out as {role}")
    if count("columnheader") == 0 or count("rowheader") == 0:
        found.append("no head of a column or a row is read out")
    named = ("image", "img", "table", "region", "checkbox", "navigation", "heading", "link")
    found += [f"{role} without a name" for role, name in heard if role in named and not name.strip()]
    if not any(role == "main" for role, _ in heard):
        found.append("no main part is read out")
    if count("image") + count("img") < built["pictures"]:
        found.append("a picture is not read out as one")
    return found


def _paper_faults(data, size, cautions):
    document = pymupdf.open(stream=data, filetype="pdf")
    found, said = [], ""
    for number, page in enumerate(document, 1):
        sides = [side * INCH / 72 for side in (page.rect.width, page.rect.height)]
        if max(abs(a - b) for a, b in zip(sides, size)) > 0.5:
            found.append(f"page {number} is {sides[0]:.1f} by {sides[1]:.1f} mm")
        words = page.get_text("words")
        said += " " + " ".join(word[4] for word in words)
        room = page.rect + (MARGIN * 72 / INCH - OVER, OVER, OVER - MARGIN * 72 / INCH, -OVER)
        found += [f"page {number}: `{w[4]}` stands in the margin" for w in words if w[0] < room.x0 or w[2] > room.x1]
        drawn = [box for kind, box in page.get_bboxlog() if kind.endswith("path")]
        if any(box[0] < room.x0 - OVER or box[2] > room.x1 + OVER for box in drawn):
            found.append(f"page {number}: a line stands in the margin")
        if not drawn and len(words) < 6:
            found.append(f"page {number} is empty")
        found += [f"page {number}: {fault}" for fault in _over(words)]
    squeezed = "".join(said.split())
    # A word may be broken at the end of a line.
    found += [f"not printed: {c}" for c in cautions if "".join(c.split()) not in squeezed]
    return found


def _over(words):
    """Words that lie over one another."""
    boxes = sorted((word[:5] for word in words), key=lambda word: word[1])
    found = []
    for i, (left, top, right, foot, one) in enumerate(boxes):
        for x0, y0, x1, y1, two in boxes[i + 1:]:
            if y0 >= foot:
                break
            if min(right, x1) - max(left, x0) > OVER and min(foot, y1) - y0 > 0.4 * min(foot - top, y1 - y0):
                found.append(f"`{one}` and `{two}` lie over one another")
    return found


def _draw(data, shots, name):
    for number, page in enumerate(pymupdf.open(stream=data, filetype="pdf"), 1):
        page.get_pixmap(dpi=80).save(shots / f"{name}-{number}.png")


def _flat(text):
    return " ".join(text.split())


def main(arguments):
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folders", nargs="+", type=Path, metavar="DIR")
    parser.add_argument("--shots", type=Path, help="a folder for pictures of what is seen")
    asked = parser.parse_args(arguments)
    passed = failed = 0
    with Browser() as browser:
        for folder in asked.folders:
            shots = asked.shots and asked.shots / folder.name
            if shots:
                shots.mkdir(parents=True, exist_ok=True)
            cautions = json.loads((folder / "manifest.json").read_text("utf-8"))["cautions"]
            for how, wrong in faults(browser, folder / "job-sheet.html", cautions, shots).items():
                passed, failed = passed + (not wrong), failed + bool(wrong)
                more = [f"and {len(wrong) - TOLD} more"] if len(wrong) > TOLD else []
                print(f"{'FAILED' if wrong else 'passed'}  {folder / 'job-sheet.html'}, {how}", *wrong[:TOLD], *more, sep="\n        ")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
