import contextlib
import hashlib
import io
import json
import tempfile
import unittest
from pathlib import Path

import judge
from samples import BIT, PROGRAM, ROUTER, SIZE, SVG, plain

CAUTION = "Hand on the stop."
PLATE = {
    "name": "plate",
    "outline": [[50, 30, 0], [150, 30, 0], [150, 90, 0], [50, 90, 0]],
    "openings": [],
    "bores": [{"centre": [100, 60], "diameter": 20, "depth": None}],
    "recesses": [],
    "marks": [],
    "fit_error": 0,
}
STRAIGHT_SVG = SVG.replace("A 50 50 0 0 0 50 30", "L 50 30").encode()


def plan():
    return {"id": "sheet-1", "size": list(SIZE), "thickness": 10, "parts": [PLATE], "tabs": [], "bits": [BIT], "router": ROUTER}


def entry(path, kind, data, **more):
    drawn = {"path": path, "format": kind, "bit": None, "allowance": "none", "top": None, "floor": None, "origin": [0, 0], "units": "mm"}
    passed = {"passed": True, "findings": []}
    return {**drawn, "sha256": hashlib.sha256(data).hexdigest(), "proof": passed, **more}


def verdict(program=PROGRAM, dxf=None, svg=STRAIGHT_SVG, html=CAUTION, sheet=None, spoil=None):
    """Makes a folder, judges it, and gives back the exit status and what was printed."""
    sheet = sheet or plan()
    files = {
        "table/sheet-1.nc": program.encode(),
        "table/sheet-1-mm.dxf": dxf or plain(),
        "table/sheet-1.svg": svg,
        "job-sheet.html": html.encode(),
        "design.json": json.dumps({"sheets": [sheet]}).encode(),
    }
    bit = {"name": BIT["name"], "diameter": BIT["diameter"]}
    kinds = (("table/sheet-1.nc", "gcode"), ("table/sheet-1-mm.dxf", "dxf"), ("table/sheet-1.svg", "svg"))
    cut = [entry(path, kind, files[path]) for path, kind in kinds]
    cut[0].update(bit=bit, allowance="bit", top=0.0, floor=-10.0)
    others = [entry(path, "", files[path]) for path in ("job-sheet.html", "design.json")]
    made = {"id": "sheet-1", "size": sheet["size"], "thickness": 10, "parts": ["plate"], "files": cut}
    manifest = {"units": "mm", "cautions": [CAUTION], "sheets": [made], "others": others}
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for path, data in {**files, "manifest.json": json.dumps(manifest).encode()}.items():
            (folder / path).parent.mkdir(exist_ok=True)
            (folder / path).write_bytes(data)
        if spoil:
            spoil(folder)
        said = io.StringIO()
        with contextlib.redirect_stdout(said):
            status = judge.main([folder])
    return status, said.getvalue()


class Judge(unittest.TestCase):
    def failed(self, because, **change):
        status, said = verdict(**change)
        self.assertEqual(status, 1, said)
        self.assertIn(because, said)

    def test_a_good_folder_passes_with_a_line_for_each_file(self):
        status, said = verdict()
        self.assertEqual(status, 0, said)
        self.assertEqual(said.count("\n"), 8)
        self.assertTrue(said.endswith("7 passed, 0 failed\n"), said)

    def test_no_folder_is_no_pass(self):
        with contextlib.redirect_stdout(io.StringIO()):
            self.assertEqual(judge.main([]), 1)
            self.assertEqual(judge.main(["/nowhere"]), 1)

    def test_files_changed_lost_and_added(self):
        self.failed("not the bytes", spoil=lambda f: (f / "table/sheet-1.nc").write_bytes(PROGRAM.encode() + b"\n"))
        self.failed("listed and not there", spoil=lambda f: (f / "table/sheet-1.svg").unlink())
        self.failed("there and not listed: note", spoil=lambda f: (f / "note").touch())

    def test_a_program_that_is_wrong(self):
        self.failed("a gouge of 0.020", program=PROGRAM.replace("G0 X47 Y30", "G0 X47.02 Y30"))
        self.failed("mm left at", program=PROGRAM.replace("Z-10.2", "Z-9.8"))
        self.failed("without a feed", program=PROGRAM.replace(" F600", ""))
        self.failed("its unit is in", program=PROGRAM.replace("G21", "G20"))

    def test_drawings_that_are_wrong(self):
        self.failed("$INSUNITS is 1", dxf=plain(unit=1))
        self.failed("an edge of its bore is 0.01", dxf=plain(radius="10.01"))
        self.failed("not closed", svg=STRAIGHT_SVG.replace(b" Z", b""))
        self.failed("an edge of its outline is", svg=SVG.encode())

    def test_a_part_or_tab_that_is_missing(self):
        second = {**PLATE, "name": "second", "outline": [[0, 0, 0], [9, 0, 0], [9, 9, 0]]}
        self.failed("its parts are not those", sheet={**plan(), "parts": [PLATE, second]})
        tab = {"part": "plate", "at": [100, 90], "width": 8, "flank": 0.0, "height": 4}
        self.failed("a tab of 0.0 mm", sheet={**plan(), "tabs": [tab]})

    def test_a_job_sheet_without_its_cautions(self):
        self.failed("a caution is not in it", html="<p>All well.</p>")


if __name__ == "__main__":
    unittest.main()
