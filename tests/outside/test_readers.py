"""The readers find nothing in good files, and the one fault that was put into each bad one."""
import contextlib
import hashlib
import io
import json
import math
import tempfile
import unittest
from pathlib import Path

import cut_on_paper
import drawings
import dxf_tags
import judge
import programs
import samples
import svgs
from chains import Chain


class Folder(unittest.TestCase):
    def setUp(self):
        held = tempfile.TemporaryDirectory()
        self.addCleanup(held.cleanup)
        self.folder = Path(held.name)

    def write(self, name, content):
        path = self.folder / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return path

    def blames(self, faults, word):
        self.assertTrue(any(word in fault for fault in faults), f"{word!r} not in {faults}")


class Chains(unittest.TestCase):
    def test_a_quarter_turn_keeps_its_radius(self):
        arc = Chain("MARK", False, [(10, 0, math.tan(math.pi / 8)), (0, 10, 0)])
        self.assertTrue(all(abs(math.hypot(*p) - 10) < 1e-9 for p in arc.flat()))
        self.assertGreater(len(arc.flat()), 20)

    def test_the_way_round_and_the_start_do_not_matter(self):
        one = Chain("OUTLINE", True, [(0, 0, 0.5), (9, 0, 0), (5, 7, 0)])
        other = Chain("OUTLINE", True, [(5, 7, 0), (9, 0, -0.5), (0, 0, 0)])
        self.assertEqual(one.key(), other.key())
        self.assertNotEqual(one.key(), Chain("OUTLINE", True, [(0, 0, 0), (9, 0, 0), (5, 7, 0)]).key())


class Programs(Folder):
    def test_a_good_program(self):
        program = programs.parse(samples.PROGRAM.encode(), safe=10)
        self.assertEqual(program.faults, [])
        self.assertEqual((program.unit, len(program.moves), program.comments), ("mm", 12, ["plate"]))

    def test_inches_come_out_in_mm(self):
        move = programs.parse(b"G20 G90\nG0 Z1\nG0 X1 Y2\nM2\n").moves[-1]
        self.assertEqual(move.end, (25.4, 50.8, 25.4))

    def test_each_fault(self):
        for old, new, word in [
            ("G0 X20", "G0 Z1 X20", "level rapid"), ("G17 ", "", "before its plane"), ("I0 J3", "I0 J3.01", "radii"),
            ("I0 J3", "R3", "I and J"), (" F600", "", "without a feed"), ("S16000 M3", "", "spindle still"),
            ("S16000 M3", "M3", "no speed"), ("M30", "", "no end"), ("G21 ", "", "unit"), ("G90", "G91", "absolute"),
            ("(plate)", "(pl(ate)", "bracket"), ("(plate)", "(plate", "does not close"), ("(plate)", "; plate", "words"),
            ("G80", "G81", "simple controller"), ("X120 F2000", "X120 X121", "twice"), ("G94\n", "G94 G1 G0\n", "two words"),
            ("M5\nM30", "M30\nM5", "follows the end"), ("plate", "plâte", "ASCII"), ("plate", "p" * 300, "256"),
            ("G0 Z10\nG0 X20", "G0 X20", "unknown height"), ("X123 Y20 I0 J3", "X120 Y17 I0 J3", "whole circle"),
            ("G0 Z10\nM5", "M6\nG0 Z10\nM5", "changed while"), ("%\n(", "(", "per cent"), ("G1 X20\n", "G20\nG1 X20\n", "unit changes"),
        ]:
            with self.subTest(word=word, new=new[:20]):
                self.assertIn(old, samples.PROGRAM)
                bad = samples.PROGRAM.replace(old, new, 1)
                self.blames(programs.parse(bad.encode(), safe=10).faults, word)

    def test_a_laser_is_dark_in_rapids(self):
        head = b"G21 G90 G17\nG0 X0 Y0\nM3 S500\nG1 X5 F900\n"
        self.assertEqual(programs.parse(head + b"M5\nG0 X9\nM2\n", tool="laser").faults, [])
        self.blames(programs.parse(head + b"G0 X9\nM2\n", tool="laser").faults, "beam")


class Drawings(Folder):
    def faults(self, **how):
        return drawings.faults(samples.save(samples.drawing(**how), self.folder / "a.dxf"))

    def test_good_drawings(self):
        for version in ("R12", "R2000", "R2010"):
            self.assertEqual(self.faults(version=version), [], version)

    def test_each_fault(self):
        tiny = [*samples.CORNERS, (20, 79.99999)]
        for how, word in [(dict(closed=False), "open chain"), (dict(times=2), "2 times"), (dict(layer="CUT"), "no kind"),
                          (dict(units=6), "unit"), (dict(corners=tiny), "shorter"), (dict(times=0), "empty"),
                          (dict(corners=[(0, 0), (120, 20), (120, 80)]), "extents")]:
            with self.subTest(word=word):
                self.blames(self.faults(**how), word)

    def test_a_spline_is_refused(self):
        document = samples.drawing("R2000")
        document.modelspace().add_spline([(30, 30), (40, 50), (60, 30)], dxfattribs={"layer": "OUTLINE"})
        self.blames(drawings.faults(samples.save(document, self.folder / "a.dxf")), "SPLINE")

    def test_inches_come_out_in_mm(self):
        path = samples.save(samples.drawing(units=1), self.folder / "a.dxf")
        self.assertEqual(drawings.load(path)[0].vertices[0][:2], (508, 508))

    def test_a_torn_file(self):
        self.blames(drawings.faults(self.write("a.dxf", b"0\r\nSECT")), "opened")


class DxfTags(Folder):
    def faults(self, *changed):
        return dxf_tags.faults(self.write("a.dxf", samples.tags(changed)))

    def test_good_tags(self):
        self.assertEqual(self.faults(), [])

    def test_each_fault(self):
        for old, new, word in [("\r\n", "\n", "CR LF"), ("0\r\nEOF\r\n", "", "EOF"), ("11\r\n5.0", "11\r\n5e3", "plain number"),
                               ("11\r\n5.0", "11\r\nnan", "plain number"), ("10\r\n0.0", "10\r\n-0.0", "minus"),
                               ("8\r\nMARK", "8\r\nOPENING", "not defined"), ("8\r\nMARK", "8\r\nMark", "capitals"),
                               ("0\r\nLINE", "0\r\nSPLINE", "after R12"), ("8\r\nMARK", "8\r\nMARK\r\n100\r\nAcDbLine", "subclass"),
                               ("8\r\nMARK", "340\r\nFF\r\n8\r\nMARK", "leads nowhere"), ("8\r\nMARK", "5\r\n0\r\n8\r\nMARK", "zero"),
                               ("2\r\nENTITIES", "2\r\nTHINGS", "no section"), ("\r\nEOF", "", "odd"), ("AC1009", "AC1015", "no owner")]:
            with self.subTest(word=word, new=new):
                self.blames(self.faults((old, new)), word)

    def test_handles(self):
        twice = ("0\r\nLINE", "0\r\nPOINT\r\n5\r\nA\r\n8\r\nMARK\r\n0\r\nLINE\r\n5\r\nA")
        self.blames(self.faults(twice), "given 2 times")
        self.blames(self.faults(twice, ("9\r\n$INSUNITS", "9\r\n$HANDSEED\r\n5\r\nA\r\n9\r\n$INSUNITS")), "HANDSEED")


class Svgs(Folder):
    def faults(self, old="", new="", size=(140, 100)):
        self.assertIn(old, samples.SVG)
        return svgs.faults(self.write("a.svg", samples.SVG.replace(old, new) if old else samples.SVG), size)

    def test_a_good_file(self):
        self.assertEqual(self.faults(), [])

    def test_each_fault(self):
        for old, new, word in [
            ('140mm', '140', "mm"), ('0 0 140 100', '0 0 280 200', "user unit"), ('width="140mm"', 'width="141mm"', "user unit"),
            ('<g id="bore"', '<g transform="scale(2)" id="bore"', "transform"), ('<g id="bore"', '<g style="x" id="bore"', "style"),
            ('id="bore"', 'id="hole"', "no kind of line"), ('fill="none"', 'fill="red"', "filled"), ("<title>plate</title>", "<text>a</text>", "text"),
            ("A 30 30", "A 29.9 29.9", "enlarges"), ("A 30 30", "A 30 31", "of a circle"), (" Z", "", "open"), ("L 120", "l 120", "cannot be read"),
            ("L 120 20", "L 20 20", "without a length"), ('r="4"', 'r="0"', "radius"), ("</svg>", "", "opened"), ("L 20 80", "L 20", "numbers"),
        ]:
            with self.subTest(word=word, new=new):
                self.blames(self.faults(old, new), word)

    def test_the_page_is_the_sheet(self):
        self.blames(self.faults(size=(2440, 1220)), "the page")


class OnPaper(Folder):
    def cut(self, old="", new="", tabs=(), size=(140, 100), origin=(0, 0), bit=6):
        drawn = cut_on_paper.sheet(samples.save(samples.drawing(), self.folder / "a.dxf"))
        program = self.write("a.nc", samples.PROGRAM.replace(old, new) if old else samples.PROGRAM)
        return cut_on_paper.cut(drawn, [cut_on_paper.Run(program, bit, 0, -6, origin)], tabs, size)

    def test_a_good_cut(self):
        result = self.cut()
        self.assertEqual(result.faults(), [])
        self.assertLess(result.gouge, 1e-3)

    def test_a_shifted_zero_bites_by_the_shift(self):
        self.assertAlmostEqual(self.cut(origin=(0.3, 0)).gouge, 0.3, places=3)

    def test_a_thin_bit_leaves_what_it_lacks(self):
        result = self.cut(bit=5.9)
        self.assertAlmostEqual(result.leftover, 0.05, places=6)
        self.blames(result.faults(), "leaves")

    def test_wood_left_is_a_tab_only_where_one_is_planned(self):
        lifted = ("G1 X20\n", "G1 X80\nG1 Z-3\nG1 X60\nG1 Z-6.2\nG1 X20\n")
        self.blames(self.cut(*lifted).faults(), "leaves")
        self.assertEqual(self.cut(*lifted, tabs=[(70, 80, 14)]).faults(), [])

    def test_a_cut_off_the_stock(self):
        self.assertAlmostEqual(self.cut(size=(125, 100)).outside, 1.0)

    def test_nothing_cut_through(self):
        self.assertEqual(self.cut("Z-6.2", "Z-5").leftover, math.inf)


class Judge(Folder):
    def made(self):
        """A folder of one sheet: its plain drawing and its program."""
        samples.save(samples.drawing(), self.folder / "plain.dxf")
        self.write("cut.nc", samples.PROGRAM)
        plain = self.file("plain.dxf", "dxf", None)
        cut = self.file("cut.nc", "gcode", {"name": "six", "diameter": 6})
        part = {"name": "plate", "outline": [[x, y, 0] for x, y in samples.CORNERS], "openings": [], "bores": [], "recesses": []}
        design = {"sheets": [{"id": "sheet-1", "parts": [part], "tabs": [], "router": {"safe_height": 10}}]}
        self.write("design.json", json.dumps(design))
        others = [{"path": "design.json", "sha256": self.digest("design.json")}]
        return {"sheets": [{"id": "sheet-1", "size": [140, 100], "files": [plain, cut]}], "others": others}

    def file(self, path, kind, bit):
        return {"path": path, "format": kind, "bit": bit, "allowance": "bit" if bit else "none", "kerf": 0, "top": 0, "floor": -6,
                "origin": [0, 0], "units": "mm", "sha256": self.digest(path), "proof": {"passed": True}}

    def digest(self, path):
        return hashlib.sha256((self.folder / path).read_bytes()).hexdigest()

    def faults(self, manifest):
        self.write("manifest.json", json.dumps(manifest))
        return [fault for _, faults in judge.judge(self.folder) for fault in faults]

    def verdict(self, *folders):
        with contextlib.redirect_stdout(io.StringIO()):
            return judge.main(folders)

    def test_a_good_folder(self):
        self.assertEqual(self.faults(self.made()), [])
        self.assertEqual(self.verdict(self.folder), 0)

    def test_a_changed_byte_a_stray_and_a_lost_file(self):
        manifest = self.made()
        self.write("cut.nc", samples.PROGRAM.replace("plate", "slate"))
        self.write("stray.txt", "x")
        faults = self.faults(manifest)
        self.blames(faults, "SHA-256")
        self.blames(faults, "stray.txt is not in the manifest")
        (self.folder / "plain.dxf").unlink()
        self.blames(self.faults(manifest), "is not there")
        self.assertEqual(self.verdict(self.folder), 1)

    def test_a_zero_that_is_not_the_program_s(self):
        manifest = self.made()
        manifest["sheets"][0]["files"][1]["origin"] = [1, 0]
        self.blames(self.faults(manifest), "bites")

    def test_another_part_than_the_design_s(self):
        manifest = self.made()
        design = (self.folder / "design.json").read_text().replace("120", "121")
        self.write("design.json", design)
        manifest["others"][0]["sha256"] = self.digest("design.json")
        self.blames(self.faults(manifest), "off")

    def test_nothing_to_judge_is_a_fault(self):
        self.assertEqual(self.verdict(), 1)
        self.assertEqual(self.verdict(self.folder / "nowhere"), 1)


if __name__ == "__main__":
    unittest.main()
