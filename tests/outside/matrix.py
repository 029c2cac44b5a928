"""Makes a matrix of jobs with the tool and judges every file of them: python matrix.py CINTRE DIR

A row sets some of the columns; what it leaves out is the shop's usual. Every value of a column stands in a row, and most
pairs of values do.
"""

import subprocess
import sys
from pathlib import Path

import judge

SHOP = """units: mm
stock:
  ply18: {{ material: plywood, sheet: [2440, 1220], thickness: 17.6, grain: long, trim: 8 }}
  ply3: {{ material: plywood, sheet: [600, 400], thickness: 3.05, grain: none, trim: 5 }}
  card: {{ material: card, sheet: [840, 594], thickness: 0.5, grain: none }}
bits:
  cutter: {{ kind: straight, diameter: {bit}, flutes: 2, cutting-length: 25, plunges: {plunges}, number: 1, feeds: {{ plywood: {{ speed: 16000, feed: 3200, plunge: 900, depth: 5 }} }} }}
  drill-9: {{ kind: drill, diameter: 9, cutting-length: 40, number: 2, feeds: {{ plywood: {{ speed: 6000, feed: 600, plunge: 300, depth: 6 }} }} }}
machines:
  table: {{ kind: router, bed: [2500, 1300], bits: [{bits}], {router} }}
  beam: {{ kind: laser, bed: [600, 400], kerf: {{ plywood: 0.16 }}, power: {{ plywood: {{ cut: [80, 12], mark: [20, 60] }} }}, {laser} }}
  pen: {{ kind: pen, bed: [900, 1200], pen: 0.4, {pen} }}
  fabricator: {{ kind: drawing, {drawing} }}
house: {{ spacing: margin 20, paper: none }}
"""
JOB = """title: Matrix, {name}
units: mm
shop: shop.yaml
arches:
  gate: {{ shape: {shape}, ring: 120 }}
  small: {{ shape: pointed, span: 200, rise: 160, ring: 30 }}
make:
  - {form}
"""
RIBS = "centering: { arch: gate, wall: 225, lagging: 18, stock: ply18, machine: table }"
RING = "pattern: { arch: gate, piece: ring, stock: ply18, machine: table }"
INSIDE = "pattern: { arch: gate, piece: inside, stock: ply18, machine: table }"
SMALL = "pattern: {{ arch: small, piece: ring, stock: {}, machine: {} }}".format
GATES = {
    "segmental": "segmental, span: 1220, rise: 260",
    "pointed": "pointed, span: 900, rise: 700",
    "elliptical": "elliptical, span: 1100, rise: 330",
    "three-centred": "three-centred, span: 1300, rise: 390",
    "flat": "segmental, span: 1800, rise: 9",
}
USUAL = {
    "bit": "6.35", "plunges": "true", "bits": "cutter, drill-9", "router": "units: mm", "laser": "units: mm",
    "pen": "units: mm", "drawing": "units: mm", "shape": "segmental", "form": RIBS,
}  # fmt: skip
ROWS = {
    "ribs in mm": {},
    "ribs in inches, at the middle, from the back": {"router": "units: in, zero: { at: middle, height: stock-back }", "shape": "elliptical"},
    "ribs in inches to five places": {"router": "units: in, decimals: 5, cut: conventional", "bit": "8", "shape": "three-centred"},
    "ribs to three places": {"router": "decimals: 3, zero: { height: stock-back }", "bit": "12", "form": INSIDE, "shape": "three-centred"},
    "ribs in chords": {"router": "arcs: false", "shape": "pointed", "bit": "8"},
    "ribs in chords and inches": {"router": "arcs: false, units: in, zero: { at: middle }", "bit": "4", "shape": "segmental"},
    "ribs fetched": {"router": "bit-change: M6, line-numbers: true, longest-line: 90, percent: true, extraction: M8, park: [0, 0]"},
    "ribs by pauses": {"router": "bit-change: pause, units: in, longest-arc: 90 deg", "shape": "elliptical"},
    "a bit that does not plunge": {"plunges": "false", "bits": "cutter", "shape": "pointed", "bit": "6"},
    "bolts wound out": {"bits": "cutter", "bit": "6.35", "router": "zero: { at: middle, height: stock-back }"},
    "a ring, climbing": {"form": RING, "bit": "12", "shape": "elliptical", "router": "longest-arc: 90 deg, decimals: 3"},
    "a ring, against it": {"form": RING, "bit": "12.7", "shape": "pointed", "router": "cut: conventional, units: in"},
    "a very flat head": {"form": INSIDE, "shape": "flat", "router": "decimals: 4"},
    "a very flat head in inches": {"form": INSIDE, "shape": "flat", "router": "units: in, zero: { at: middle }", "bit": "8"},
    "a finishing lap": {"router": "finish: 0.3 mm", "shape": "elliptical", "form": RING},
    "a web left": {"router": "leave-web: 0.4 mm, tabs: none", "form": INSIDE},
    "tabs with slopes": {"router": "tabs: { width: 10, height: 4, every: 250, ramped: true }", "shape": "pointed", "form": INSIDE},
    "no tabs": {"router": "tabs: none, through: 0.2", "form": RING, "shape": "three-centred"},
    "corners relieved": {"router": "relief: bisector", "form": RIBS},
    "a beam": {"form": SMALL("ply3", "beam")},
    "a beam in inches, in chords": {"form": SMALL("ply3", "beam"), "laser": "units: in, arcs: false, zero: { at: middle }, beam-on: M4, full-power: 1000"},
    "a beam by SVG": {"form": SMALL("ply3", "beam"), "laser": "writes: svg"},
    "a beam by DXF": {"form": SMALL("ply3", "beam"), "laser": "writes: dxf, units: in"},
    "a pen": {"form": SMALL("card", "pen")},
    "a pen at the middle": {"form": SMALL("card", "pen"), "pen": "zero: { at: middle }, farthest: 32767"},
    "a pen by its height": {"form": SMALL("card", "pen"), "pen": "writes: gcode, decimals: 3"},
    "a pen by words": {"form": SMALL("card", "pen"), "pen": 'writes: gcode, units: in, pen-up: M5, pen-down: "M3 S40"'},
    "a drawing": {"form": SMALL("ply3", "fabricator"), "drawing": "units: in, version: AC1024"},
    "a drawing with its cut allowed": {"form": SMALL("ply3", "fabricator"), "drawing": "allowance: 0.3 mm"},
    "an SVG with its cut allowed": {"form": SMALL("ply3", "fabricator"), "drawing": "format: svg, allowance: 0.2 mm"},
}  # fmt: skip


def main(cintre, folder):
    folders = []
    for name, row in ROWS.items():
        columns = {**USUAL, **row, "name": name}
        columns["shape"] = GATES[columns["shape"]]
        place = Path(folder) / name.replace(" ", "-").replace(",", "")
        place.mkdir(parents=True)
        (place / "shop.yaml").write_text(SHOP.format(**columns))
        (place / "job.yaml").write_text(JOB.format(**columns))
        made = subprocess.run(
            [cintre, "make", str(place / "job.yaml"), "--out", str(place / "made"), "--quiet"],
            stdin=subprocess.DEVNULL, capture_output=True, text=True, check=False,
        )  # fmt: skip
        if made.returncode:
            print(f"FAILED  {name}: exit {made.returncode}\n{made.stdout}{made.stderr}")
            return 1
        folders.append(place / "made")
    return judge.main(folders)


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
