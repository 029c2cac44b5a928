"""Judges made folders: every file that a manifest names, by every reader that knows its kind.

    python judge.py DIR...

One line a file, then the count; leaves with 1 if anything is wrong.
"""
import hashlib
import json
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

from shapely.geometry import Polygon

import cut_on_paper
import drawings
import dxf_tags
import programs
import svgs
from chains import Chain

DRAWN_APART = 0.001     # mm that a drawing's part may stand off the design's


def judge(folder):
    """[(path, faults)] of everything in the folder."""
    folder = Path(folder)
    try:
        manifest = json.loads((folder / "manifest.json").read_text("utf-8"))
        design = json.loads((folder / "design.json").read_text("utf-8"))
    except (OSError, ValueError) as error:
        return [(str(folder), [f"cannot be judged: {error}"])]
    planned = {sheet["id"]: sheet for sheet in design["sheets"]}
    results = []
    for sheet in manifest["sheets"]:
        plan = planned.get(sheet["id"])
        if plan is None:
            results.append((sheet["id"], ["the sheet is not in design.json"]))
            continue
        for file in sheet["files"]:
            results.append((file["path"], cut_file(folder, file, sheet, plan)))
        results += on_paper(folder, sheet, plan)
    results += [(file["path"], other_file(folder, file)) for file in manifest["others"]]
    return results + [("the folder", strays(folder, manifest))]


def cut_file(folder, file, sheet, plan):
    path, found = folder / file["path"], same_bytes(folder, file)
    if not path.is_file():
        return found
    if not file["proof"]["passed"]:
        found.append("handed over although its proof failed")
    if file["format"] == "dxf":
        found += dxf_tags.faults(path) + drawings.faults(path)
    elif file["format"] == "svg":
        found += svgs.faults(path)
    elif file["format"] == "gcode":
        tool = "router" if file["bit"] else "laser" if file["kerf"] > 0 else "pen"
        clear = plan["router"]["safe_height"] if plan["router"] else 0.0
        program = programs.read(path, safe=(file["top"] or 0.0) + clear, tool=tool)
        found += program.faults
        if program.unit != file["units"]:
            found.append(f"counts in {program.unit}, the manifest says {file['units']}")
    else:
        found.append(f"no reader for {file['format']}")
    return found


def on_paper(folder, sheet, plan):
    """The plain drawing against the design, and the programs against the plain drawing."""
    plain = [f for f in sheet["files"] if f["format"] == "dxf" and f["allowance"] == "none"]
    routed = [f for f in sheet["files"] if f["format"] == "gcode" and f["bit"]]
    results, name = [], f"{sheet['id']} on paper"
    if routed and not plain:
        return [(name, ["programs without a plain drawing to hold them against"])]
    for file in plain:
        path = folder / file["path"]
        if not path.is_file():
            continue
        blind = [b["centre"] for part in plan["parts"] for b in part["bores"] if b["depth"] is not None]
        drawn = cut_on_paper.sheet(path, blind)
        results.append((f"{file['path']} against the design", design_faults(drawn, plan, blind)))
        if routed and all((folder / f["path"]).is_file() for f in routed):
            runs = [cut_on_paper.Run(folder / f["path"], f["bit"]["diameter"], f["top"], f["floor"], f["origin"]) for f in routed]
            tabs = [(*tab["at"], tab["width"]) for tab in plan["tabs"]]
            cut = cut_on_paper.cut(drawn, runs, tabs, sheet["size"])
            figures = f"{name}: gouge {cut.gouge:.4f} leftover {cut.leftover:.4f}"
            results.append((figures, cut.faults()))
    return results


def design_faults(drawn, plan, blind):
    if len(drawn.parts) != len(plan["parts"]):
        return [f"{len(drawn.parts)} parts drawn, {len(plan['parts'])} designed"]
    found = []
    for part in plan["parts"]:
        wanted = designed(part)
        apart = min(wanted.boundary.hausdorff_distance(p.boundary) for p in drawn.parts)
        if apart > DRAWN_APART:
            found.append(f"{part['name']} is drawn {apart:.4f} mm off")
    return found


def designed(part):
    area = Polygon(Chain("OUTLINE", True, part["outline"]).flat())
    for opening in part["openings"]:
        area = area.difference(Polygon(Chain("OPENING", True, opening).flat()))
    for bore in part["bores"]:
        if bore["depth"] is None:
            area = area.difference(Polygon(Chain("BORE", True, [], (*bore["centre"], bore["diameter"] / 2)).flat()))
    return area


def same_bytes(folder, file):
    path = folder / file["path"]
    if not path.is_file():
        return ["is not there"]
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    return [] if digest == file["sha256"] else ["is not the file that was proven: its SHA-256 differs"]


def other_file(folder, file):
    found, path = same_bytes(folder, file), folder / file["path"]
    if found:
        return found
    try:
        if path.suffix == ".svg":
            ElementTree.parse(path)
        elif path.suffix == ".json":
            json.loads(path.read_text("utf-8"))
    except (ValueError, ElementTree.ParseError) as error:
        return [f"cannot be opened: {error}"]
    signature = {".png": b"\x89PNG\r\n\x1a\n", ".pdf": b"%PDF-"}.get(path.suffix, b"")
    content = path.read_bytes()
    if not content or not content.startswith(signature):
        return [f"is not a {path.suffix} file"]
    return []


def strays(folder, manifest):
    named = {f["path"] for s in manifest["sheets"] for f in s["files"]} | {f["path"] for f in manifest["others"]}
    there = {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file()}
    return [f"{path} is not in the manifest" for path in sorted(there - named - {"manifest.json"})]


def main(folders):
    passed = failed = 0
    for folder in folders:
        for path, faults in judge(folder):
            print(f"{'FAILED' if faults else 'passed'}  {folder}: {path}")
            for fault in faults:
                print(f"        {fault}")
            failed += bool(faults)
            passed += not faults
    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
