"""Judges made folders with readers that share nothing with the tool: python judge.py DIR...

One line for each file and each routed sheet, then `N passed, N failed`; exit status 1 on any fault.
"""

import csv
import hashlib
import io
import json
import multiprocessing
import sys
from html import unescape
from pathlib import Path

import shapely
from shapely.geometry import Polygon

import beams
import cut_on_paper
import drawings
import dxf_tags
import papers
import programs
import svgs

MANIFEST, DESIGN = "manifest.json", "design.json"
# The page of the setting-out sheet, mm: no wider than A4 and no taller than Letter.
SETTING_OUT = (210.0, 279.4)
# What every drawing on paper says.
BARS = "Check the bars on the paper before cutting"
# How far a drawn edge may stay from the design's, mm.
DRAWN = 0.005
# How many faults of one file are told.
TOLD = 5


class Tally:
    """What passed and what failed, and a line for each."""

    def __init__(self):
        self.passed = self.failed = 0
        self.lines = []

    def tell(self, name, faults, figures=""):
        if faults:
            self.failed += 1
            more = [f"and {len(faults) - TOLD} more"] if len(faults) > TOLD else []
            self.lines.append(f"FAILED  {name}: {'; '.join([*faults[:TOLD], *more])}")
        else:
            self.passed += 1
            self.lines.append(f"passed  {name}{figures and ': ' + figures}")


def main(folders):
    passed = failed = 0
    # A folder takes seconds to minutes, and none asks for another: a core for each.
    with multiprocessing.Pool(min(multiprocessing.cpu_count(), len(folders) or 1)) as pool:
        for tally in pool.imap(_judged, map(Path, folders)):
            print(*tally.lines, sep="\n", flush=True)
            passed += tally.passed
            failed += tally.failed
    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


def _judged(folder):
    tally = Tally()
    try:
        _judge(folder, tally)
    except (OSError, ValueError, KeyError, TypeError) as error:
        tally.tell(folder, [f"it cannot be judged: {type(error).__name__}: {error}"])
    return tally


def _judge(folder, tally):
    manifest = json.loads((folder / MANIFEST).read_text("utf-8"))
    design = json.loads((folder / DESIGN).read_text("utf-8"))
    designs = {sheet["id"]: sheet for sheet in design["sheets"]}
    tally.tell(folder / MANIFEST, _folder_faults(folder, manifest, designs))
    for other in manifest["others"]:
        tally.tell(folder / other["path"], _other_faults(folder, other, manifest["cautions"], design))
    for sheet in manifest["sheets"]:
        _judge_sheet(folder, sheet, designs[sheet["id"]], tally)


def _folder_faults(folder, manifest, designs):
    listed = [file["path"] for sheet in manifest["sheets"] for file in sheet["files"]]
    listed += [other["path"] for other in manifest["others"]] + [MANIFEST]
    present = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if not path.is_dir()}
    faults = [f"listed and not there: {path}" for path in sorted(set(listed) - present)]
    faults += [f"there and not listed: {path}" for path in sorted(present - set(listed))]
    if len(listed) != len(set(listed)):
        faults.append("a file listed twice")
    if manifest["units"] != "mm":
        faults.append("figures that are not in mm")
    if not manifest["cautions"]:
        faults.append("no cautions")
    if [sheet["id"] for sheet in manifest["sheets"]] != list(designs) or not designs:
        faults.append("its sheets are not those of the design")
        return faults
    for sheet in manifest["sheets"]:
        plan = designs[sheet["id"]]
        if sheet["parts"] != [part["name"] for part in plan["parts"]] or not plan["parts"]:
            faults.append(f"{sheet['id']}: its parts are not those of the design")
        if sheet["size"] != plan["size"] or sheet["thickness"] != plan["thickness"]:
            faults.append(f"{sheet['id']}: its stock is not that of the design")
    return faults


def _sum_faults(data, entry):
    return [] if hashlib.sha256(data).hexdigest() == entry["sha256"] else ["not the bytes that were listed"]


def _other_faults(folder, entry, cautions, design):
    path = folder / entry["path"]
    data = path.read_bytes()
    faults = _sum_faults(data, entry)
    if path.suffix == ".svg":
        faults += svgs.picture_faults(data)
    elif path.suffix == ".pdf" and "/" not in entry["path"]:
        faults += papers.faults(data, sizes=SETTING_OUT, cautions=cautions)
    elif path.suffix == ".pdf":
        planned = [paper for paper in design.get("papers", []) if paper["path"] == entry["path"]]
        if len(planned) == 1:
            faults += papers.faults(data, paper=planned[0], cautions=[BARS])
        else:
            faults.append(f"{len(planned)} times in the design")
    elif path.suffix == ".csv":
        faults += _list_faults(data, design)
    elif path.suffix == ".json":
        json.loads(data)
    elif path.suffix == ".html":
        text = _flat(unescape(data.decode("utf-8")))
        faults += [f"a caution is not in it: {caution}" for caution in cautions if _flat(caution) not in text]
    return faults


def _list_faults(data, design):
    """The cutting list must count as many parts as lie on the sheets."""
    rows = list(csv.DictReader(io.StringIO(data.decode("utf-8"), newline="")))
    # What is got out by hand names no stock.
    listed = sum(int(row["count"]) for row in rows if row["stock"])
    placed = sum(len(sheet["parts"]) for sheet in design["sheets"])
    return [] if listed == placed else [f"{listed} parts listed, {placed} on the sheets"]


def _flat(text):
    return " ".join(text.split())


def _judge_sheet(folder, sheet, plan, tally):
    plain, run = None, []
    for entry in sheet["files"]:
        path = folder / entry["path"]
        data = path.read_bytes()
        faults = _sum_faults(data, entry)
        if not entry["proof"]["passed"] or entry["proof"]["findings"]:
            faults.append("its own proof did not pass")
        figures = ""
        tabbed = entry["allowance"] == "kerf" and bool(plan["tabs"])
        if entry["format"] == "dxf":
            chains, found = drawings.read(path, entry["units"], tabbed)
            faults += found + dxf_tags.faults(data)
        elif entry["format"] == "svg":
            chains, found = svgs.read(data, plan["size"], tabbed)
            faults += found
        if entry["format"] in ("dxf", "svg"):
            chains = [chain.moved(*entry["origin"]) for chain in chains]
            if entry["allowance"] == "none":
                faults += _shape_faults(chains, plan)
                plain = plain or (chains if entry["format"] == "dxf" else None)
            else:
                faults += beams.line_faults(_strokes(chains), plan, entry["kerf"])
            figures = f"{len(chains)} lines"
        elif plan.get("beam"):
            read = beams.hpgl if entry["format"] == "hpgl" else beams.program
            strokes, found = read(data, entry, plan["beam"])
            faults += found + beams.line_faults(strokes, plan, entry["kerf"], plan["beam"].get("light"))
            figures = f"{len(strokes)} lines"
        else:
            program, cuts, found = _program(data, entry, plan)
            faults += found
            run.append((entry, cuts))
            figures = f"{len(program.moves)} moves"
        tally.tell(path, faults, figures)
    if plan["router"] is not None or run:
        tally.tell(folder / sheet["id"], *_cut_faults(plain, run, plan))


def _strokes(chains):
    """The lines of a drawing that are cut or marked, as strokes: neither the stock's edge nor the bar and words below it."""
    legend = lambda chain: chain.layer == "text" and all(y < 0 for _, y in chain.points(beams.FACET))
    kept = [chain for chain in chains if chain.layer != "stock" and not legend(chain)]
    closing = lambda points, closed: [*points, points[0]] if closed and points[0] != points[-1] else points
    return [(0.0, closing(list(chain.points(beams.FACET)), chain.closed)) for chain in kept]


def _program(data, entry, plan):
    top, router = entry["top"], plan["router"]
    program = programs.read(data, top + router["safe_height"])
    faults = [f"line {line}: {sentence}" for line, sentence in program.faults]
    if program.unit != entry["units"]:
        faults.append(f"its unit is {program.unit}, not {entry['units']}")
    if abs(top - entry["floor"] - plan["thickness"]) > programs.SAME_PLACE:
        faults.append("face and underside are not the stock's thickness apart")
    if any(None in (*move.start, *move.end) for move in program.moves if move.cuts):
        return program, [], faults
    named = [entry["bit"], *entry.get("later_bits", [])]
    if len(named) != 1 + max(move.bit for move in program.moves):
        faults.append(f"{len(named)} bits are listed, and it changes them otherwise")
    # A web stays under what is cut through.
    floor, cuts = entry["floor"] + router["leave_web"], []
    for number, name in enumerate(named):
        bit = next(bit for bit in plan["bits"] if bit["name"] == name["name"])
        if bit["diameter"] != name["diameter"]:
            faults.append(f"its bit {bit['name']} is not the design's")
        moves = [move for move in program.moves if move.bit == number]
        found = cut_on_paper.cuts(moves, bit["diameter"] / 2, top, floor, entry["origin"])
        faults += cut_on_paper.conduct_faults(
            moves, found, bit, router, plan["size"], plan["thickness"], top, entry["origin"]
        )
        cuts += found
    return program, cuts, faults


def _planned(part):
    """The closed edges of a part as the design has them, by layer."""
    chains = [("outline", part["outline"])]
    chains += [("opening", chain) for chain in part["openings"]]
    for recess in part["recesses"]:
        chains += [("recess", chain) for chain in (recess["outline"], *recess["islands"])]
    edges = [drawings.Chain(layer, True, tuple(map(tuple, chain))) for layer, chain in chains]
    bores = [drawings.Chain("bore", True, circle=(*b["centre"], b["diameter"] / 2)) for b in part["bores"]]
    return edges + bores


def _shape_faults(chains, plan):
    """A drawing without allowance against the design: every edge once, and no other."""
    drawn = [(chain.layer, _ring(chain)) for chain in chains if chain.layer in drawings.CUT and chain.closed]
    faults = []
    for part in plan["parts"]:
        for edge in _planned(part):
            ring = _ring(edge)
            offs = [shapely.hausdorff_distance(ring, other) for layer, other in drawn if layer == edge.layer]
            if not offs or min(offs) > DRAWN:
                off = f"{min(offs):.4f} mm off" if offs else "not drawn"
                faults.append(f"{part['name']}: an edge of its {edge.layer} is {off}")
    planned = sum(len(_planned(part)) for part in plan["parts"])
    if planned != len(drawn):
        faults.append(f"{len(drawn)} edges drawn, {planned} planned")
    return faults


def _ring(chain):
    return Polygon(chain.points(cut_on_paper.FACET)).exterior


def _cut_faults(plain, run, plan):
    """All programs of a sheet against its plain drawing: the faults, and the figures."""
    if plain is None:
        return ["no plain drawing to hold its programs against"], ""
    if not run:
        return ["no program that cuts it"], ""
    reliefs = [(r["from"], r["to"], r["diameter"]) for part in plan["parts"] for r in part.get("reliefs", [])]
    eased = [(part["marks"][a["mark"]], a["depth"]) for part in plan["parts"] for a in part.get("arrises", [])]
    arrises = [(drawings.Chain("mark", False, tuple(map(tuple, line))), depth) for line, depth in eased]
    sheet = cut_on_paper.wood(plain, reliefs, arrises)
    cuts = [cut for _, found in run for cut in found]
    used = {bit["name"] for entry, _ in run for bit in (entry["bit"], *entry.get("later_bits", []))}
    bits = [bit["diameter"] / 2 for bit in plan["bits"] if bit["name"] in used and not bit["drill"]]
    if not bits:
        return ["no bit that can follow an edge"], ""
    tabs = [(*tab["at"], tab["width"] + 2 * tab["flank"]) for tab in plan["tabs"]]
    blind = [(*b["centre"], b["depth"]) for part in plan["parts"] for b in part["bores"] if b["depth"] is not None]
    bite, bitten = cut_on_paper.gouge(sheet, cuts)
    left = cut_on_paper.leftover(sheet, cuts, tabs, blind, bits)
    faults = []
    if len(sheet.parts) != len(plan["parts"]):
        faults.append(f"{len(sheet.parts)} parts drawn, {len(plan['parts'])} planned")
    if bite > cut_on_paper.GOUGE:
        faults.append(f"a gouge of {bite:.4f} mm at {bitten[0]:.2f}, {bitten[1]:.2f}")
    if left.leftover > cut_on_paper.LEFTOVER:
        faults.append(f"{left.leftover:.4f} mm left at {left.place[0]:.2f}, {left.place[1]:.2f}")
    for (x, y, width), length in zip(tabs, left.at_tabs):
        if length < width - 2 * cut_on_paper.STRIDE:
            faults.append(f"a tab of {length:.1f} mm at {x:.1f}, {y:.1f}, where {width} was planned")
    figures = (
        f"gouge {bite:.4f}, leftover {left.leftover:.4f}, {sum(left.at_tabs):.1f} mm of edge at tabs, "
        f"{left.in_corners:.1f} mm in corners"
    )
    return faults, figures


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
